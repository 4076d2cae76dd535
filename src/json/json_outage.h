#pragma once
// Answers about an outage as JSON (docs/json-answers.md).

#include <cstdint>
#include <nlohmann/json_fwd.hpp>
#include <string>

#include "ask/outage_words.h"

namespace ohmstead {

struct OutageShown {
  const OutageStep& step;
  const OutageStatus& status;
  std::int64_t revision = 0;  ///< of the house file: the number of the step
};

/// How the house stands and the next step.
[[nodiscard]] std::string json_of_outage(const OutageView& view, const Names& names, const OutageShown& shown, const LocalTime& local);
[[nodiscard]] std::string json_of_may_i(const OutageView& view, const Names& names, const std::string& name, const MayI& answer);
/// The same two as values, for who puts more into them.
[[nodiscard]] nlohmann::ordered_json outage_json(const OutageView& view, const Names& names, const OutageShown& shown, const LocalTime& local);
[[nodiscard]] nlohmann::ordered_json may_json(const OutageView& view, const Names& names, const std::string& name, const MayI& answer);
[[nodiscard]] std::string json_of_outage_log(const House& house, const Lines& lines);

}  // namespace ohmstead
