#pragma once
// Internal to the questions about a plan.

#include "backup/plan.h"

namespace ohmstead::choices_detail {

/// Where this circuit is; null if it is not carried.
[[nodiscard]] const Placed* placed_in(const Plan& plan, int circuit);
/// Is the circuit carried, and, with a load (0 or more), that load served?
[[nodiscard]] bool is_served(const Plan& plan, int circuit, int load);
/// At least as much for life safety, then as important?
[[nodiscard]] bool serves_as_much(const PlanScore& a, const PlanScore& b);
/// With this pin in place of what was pinned for the circuit; a pin to a position stays where it must be carried.
[[nodiscard]] PlanProblem with_pin(PlanProblem problem, int circuit, PinKind kind);
/// The best plan in which the circuit is carried (and the load served); impossible if there is none.
[[nodiscard]] Plan best_with(const PlanProblem& problem, int circuit, int load);

}  // namespace ohmstead::choices_detail
