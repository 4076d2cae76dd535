#pragma once
// Answers as JSON, for programs. The shapes are documented in docs/json-answers.md.

#include <string>

#include "ask/answer_words.h"

namespace ohmstead {

/// One document, indented, with a newline at its end. Every document has `question`, `version` (1)
/// and `lines`, the same sentences a person is shown.
[[nodiscard]] std::string json_of_answer(const Record& record, const Names& names, const OffAnswer& answer);
[[nodiscard]] std::string json_of_answer(const Record& record, const Names& names, const WhereAnswer& answer);
[[nodiscard]] std::string json_of_answer(const Record& record, const Names& names, const CarriesAnswer& answer);
[[nodiscard]] std::string json_of_answer(const Record& record, const Names& names, const IsolateAnswer& answer);
[[nodiscard]] std::string json_of_answer(const Record& record, const Names& names, const RestoreAnswer& answer);
[[nodiscard]] std::string json_of_answer(const Record& record, const Names& names, const StandAnswer& answer);

}  // namespace ohmstead
