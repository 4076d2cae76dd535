#pragma once
// What a given placing serves, draws and is worth. It takes the placing as it is: whether it is allowed is for
// best_plan to see to.

#include "backup/plan.h"

namespace ohmstead {

/// Throws Error{invalid_input} if the problem makes no sense (see best_plan).
void check_plan_problem(const PlanProblem& problem);

/// A plan with these circuits on these positions: sums, what is served (every load on demand that has room on
/// top, by rules 1 and 4 of plan.h) and the score. `placed` in any order; `served` in it is not read.
/// `end` is optimal and `bound` the score itself: whoever knows better writes it over.
[[nodiscard]] Plan measured_plan(const PlanProblem& problem, std::vector<Placed> placed);

/// 0-based leg of each pole of a circuit that is placed so; -1 for poles that it does not have.
[[nodiscard]] PerPole legs_of(const PlanProblem& problem, const Placed& placed);

}  // namespace ohmstead
