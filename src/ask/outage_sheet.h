#pragma once
// What somebody with nothing but a saved page needs to be told: the plan a family lives by, the sheet for an outage as lines, and
// the cautions before work.

#include <optional>
#include <string>
#include <vector>

#include "ask/plan_answer.h"

namespace ohmstead {

/// The kept plan, of the first source that has one; nothing where none is kept or the record is not ready for one.
[[nodiscard]] std::optional<PlanAnswer> plan_to_live_by(const Record& record);

/// The sheet for the wall (wall_sheet.h) as lines: one for each of its parts, what is urgent first, its title as the first
/// sentence, its steps (kind answer) or facts (kind detail) as items. Without
/// a plan, or where the sheet cannot be made, a line that says so and what to do about it.
[[nodiscard]] Lines words_of_outage_sheet(const Record& record, const std::optional<PlanAnswer>& plan);

/// To be read once, before a hand moves.
[[nodiscard]] std::vector<std::string> work_cautions(const House& house);

}  // namespace ohmstead
