#pragma once
// Answers about an outage as JSON (docs/json-answers.md).

#include <string>

#include "ask/outage_words.h"

namespace ohmstead {

/// How the house stands and the next step.
[[nodiscard]] std::string json_of_outage(const OutageView& view, const Names& names, const OutageStep& step, const OutageStatus& status,
                                         const LocalTime& local);
[[nodiscard]] std::string json_of_may_i(const OutageView& view, const Names& names, const std::string& name, const MayI& answer);
[[nodiscard]] std::string json_of_outage_log(const House& house, const Lines& lines);

}  // namespace ohmstead
