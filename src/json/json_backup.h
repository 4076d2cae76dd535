#pragma once
// Answers about backup as JSON (docs/json-answers.md).

#include <string>

#include "ask/plan_answer.h"
#include "ask/wish.h"

namespace ohmstead {

[[nodiscard]] std::string json_of_wishes(const House& house, const Names& names);
[[nodiscard]] std::string json_of_plan(const Record& record, const Names& names, const PlanAnswer& answer, const Lines& lines);
/// An answer that is nothing but its lines.
[[nodiscard]] std::string json_of_lines(const char* question, const Lines& lines);

}  // namespace ohmstead
