#pragma once
// What every answer as JSON begins and ends with.

#include <nlohmann/json_fwd.hpp>
#include <string>

#include "ask/answer_words.h"

namespace ohmstead {

/// An object with `question`, `version` (1) and `lines`, the sentences a person is shown.
[[nodiscard]] nlohmann::ordered_json started_json(const char* question, const Lines& lines);
/// The sentences alone: `[{"kind","text","items"}]`.
[[nodiscard]] nlohmann::ordered_json lines_json(const Lines& lines);
/// Indented, with a newline at its end.
[[nodiscard]] std::string json_text(const nlohmann::ordered_json& json);

}  // namespace ohmstead
