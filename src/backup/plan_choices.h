#pragma once
// Questions about a plan: why not this circuit, what else could be served, what would a source of another size serve, and how
// large must it be. Each answer rests on plans that best_plan has proven.

#include <optional>
#include <vector>

#include "backup/plan.h"

namespace ohmstead {

/// What keeps a circuit (or a load on demand) from being served, most basic first.
enum class WhyNot : std::uint8_t {
  served,              ///< nothing: it is served
  pinned_out,          ///< a pin says never
  no_two_legs,         ///< it needs two legs at different angles, and the source has one output, or one leg
  shared_neutral,      ///< it shares a neutral, and the source has one output on both legs, or one leg: the neutral would carry the sum
  no_tied_pair,        ///< there are no tied positions on different legs for it
  positions_too_large, ///< every position's breaker is larger than its own
  breaker_too_small,   ///< what it draws is more than the breaker of any position that is small enough for it
  running_alone,       ///< alone it runs with more than the source, or a leg of it, gives
  starting_alone,      ///< alone it starts with more than the source, or a leg of it, gives
  partner,             ///< a circuit that it shares a neutral with cannot be carried
  pins,                ///< the other pins leave no place for it
  no_position_left,    ///< it could have a place only if another gave way: a further position would do
  running,             ///< ... more running watts would do
  starting,            ///< ... more starting watts would do
  several,             ///< ... only several of these together would do
};

/// What would have to give for one circuit.
struct WhyNotAnswer {
  WhyNot why = WhyNot::served;
  int needed = 0, there = 0;        ///< amperes or watts, where the reason has numbers
  std::optional<Plan> instead;      ///< the best plan in which it is served; none: there is none
  std::vector<int> circuits_lost;   ///< carried in the plan, and not in that one
  std::vector<std::pair<int, int>> loads_lost;  ///< (circuit, load): served in the plan, and not in that one, on circuits that are still carried
};

/// Why `circuit` has no place in `plan`, the best of this problem; with `load` why that load on demand is not served although its circuit
/// is carried. `served` if it is.
[[nodiscard]] WhyNotAnswer why_not(const PlanProblem& problem, const Plan& plan, int circuit, int load = -1);

/// Up to `most` plans that serve another set of loads than `plan` and than each other, best first. Each is the best of those that
/// carry, or do not carry, one circuit that `plan` does not, or does.
[[nodiscard]] std::vector<Plan> alternatives(const PlanProblem& problem, const Plan& plan, std::size_t most);

/// The problem with a source of `running` watts; starting and legs in the ratio of the present one.
[[nodiscard]] PlanProblem with_source_of(PlanProblem problem, int running);

/// The problem with as many further positions as this circuit needs, tied, as large as its own breaker, one on each leg.
[[nodiscard]] PlanProblem with_positions_for(PlanProblem problem, int circuit);

/// A source that serves everything in the problem, on the positions that there are.
struct SmallestSource {
  bool possible = false;          ///< false: whatever the source, not everything has a place; `blocked` says what
  std::vector<int> blocked;       ///< circuits without a place even with a source without limits
  PerPole leg_running{}, leg_starting{};  ///< what it must give on each leg
  int running = 0, starting = 0;  ///< in all, with legs that give equal shares: what to look for on a nameplate
};

/// With `managed`, loads on demand are switched on one at a time; else all of them run together with the rest. The positions are chosen so that
/// the heavier leg, running, is as small as it can be, then, starting.
[[nodiscard]] SmallestSource smallest_source(const PlanProblem& problem, bool managed);

}  // namespace ohmstead
