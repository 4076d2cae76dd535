#pragma once
// Answers to questions in words, as JSON (docs/json-answers.md).

#include <nlohmann/json_fwd.hpp>

#include "ask/ask.h"

namespace ohmstead {

/// `question` ("ask"), `version`, `lines`, `kind`, `understood`, `things`, `asks_back`, `candidates`.
[[nodiscard]] nlohmann::ordered_json json_of_ask(const Names& names, const AskAnswer& answer);

}  // namespace ohmstead
