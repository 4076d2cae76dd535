#pragma once
// The history of a house, or of a thing, as JSON (docs/json-answers.md).

#include <string>

#include "ask/history_words.h"

namespace ohmstead {

[[nodiscard]] std::string json_of_history(const HistoryAnswer& answer);

}  // namespace ohmstead
