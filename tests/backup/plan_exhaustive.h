#pragma once
// All plans of a tiny problem, tried one by one and judged by the plain checker.

#include <functional>
#include <optional>

#include "plan_checker.h"

namespace ohmstead {

/// Calls `see` for every sound plan.
void for_each_plan(const PlanProblem& problem, const std::function<void(const std::vector<Placed>&, const Judged&)>& see);

/// The best score of all; none if no plan is sound.
[[nodiscard]] std::optional<PlanScore> best_by_trying(const PlanProblem& problem);

}  // namespace ohmstead
