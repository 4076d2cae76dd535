#pragma once
// The planning problem as a mixed-integer program, written from the numbered rules of src/backup/plan.h alone and
// solved by CBC (COIN-OR branch and cut). Tests and measurements only.

#include <optional>

#include "backup/plan.h"

namespace ohmstead {

struct MilpAnswer {
  std::vector<Placed> placed;  ///< without `served`
  PlanScore score;             ///< as the program counts it
};
/// The best plan; none if there is no plan. Throws std::runtime_error if CBC ends without a proof, or has none for a goal after
/// so many seconds.
[[nodiscard]] std::optional<MilpAnswer> best_by_milp(const PlanProblem& problem, int seconds_for_a_goal = 10);

}  // namespace ohmstead
