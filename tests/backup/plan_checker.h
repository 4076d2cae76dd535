#pragma once
// A plain checker of plans: every numbered rule of src/backup/plan.h read once more, with nothing taken from the
// planner's code.

#include <string>
#include <vector>

#include "backup/plan.h"

namespace ohmstead {

struct Judged {
  std::vector<std::string> broken;  ///< one line for each rule that does not hold, its number first
  std::vector<std::vector<bool>> served;  ///< of each placed circuit: all that may be served
  PlanScore score;                  ///< of a plan that serves all of that
  PlanSums sums;
};
/// Judges circuits on positions; `served` in them is not read.
[[nodiscard]] Judged judge(const PlanProblem& problem, const std::vector<Placed>& placed);

/// All that is wrong with a plan that calls itself sound: broken rules, and sums, served loads or a score that differ.
[[nodiscard]] std::vector<std::string> faults_of(const PlanProblem& problem, const Plan& plan);

}  // namespace ohmstead
