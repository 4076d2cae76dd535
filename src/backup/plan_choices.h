#pragma once
// Questions about a plan besides the plan itself: why not this circuit, what else could be served, what would
// another source serve, how small may the source be. Every answer comes from best_plan on a changed problem, so it is
// as proven as a plan is. No words for people here.

#include <optional>
#include <utility>
#include <vector>

#include "backup/plan.h"

namespace ohmstead {

/// What keeps a circuit from being carried, or a load on demand from being served. The first that applies, from
/// what holds whatever else is carried, to what only comes from competition.
enum class Obstacle : std::uint8_t {
  none,                ///< it is carried, or served; or it could be besides all others but is worth nothing
  pinned_out,
  source_in_phase,     ///< two legs are needed, or a shared neutral, and the source is in phase
  too_few_legs,        ///< needs: legs of the circuit with its partners; gives: legs of the source
  positions_too_large, ///< needs: amperes of the circuit's breaker; gives: of the smallest position
  positions_too_small, ///< needs: milliamperes of its loads; gives: of the largest position that its breaker allows
  no_tied_positions,   ///< no free choice of tied positions on different legs fits
  partner,             ///< a partner of the multiwire circuit cannot be carried, see `partner`
  running_alone,       ///< alone it draws more than the source or a leg gives: needs, gives, leg
  starting_alone,
  no_position_left,    ///< only because of the others in the plan: positions
  running,             ///< running watts besides the others: needs, gives, leg
  starting,
};

struct LoadPlace {
  int circuit = 0, load = 0;
  bool operator==(const LoadPlace&) const = default;
};

struct WhyNot {
  Obstacle obstacle = Obstacle::none;
  int needs = 0, gives = 0;  ///< in the unit of the obstacle; both 0 where there is no number
  int leg = 0;               ///< 1-based; 0: in all
  int partner = -1;
  Plan instead;              ///< the best plan that carries (or serves) it; `impossible` if none does
  std::vector<int> circuits_lost;    ///< carried in the plan, not instead
  std::vector<LoadPlace> loads_lost; ///< served in the plan, not instead
};

/// Why is the circuit not carried in this (best) plan of the problem, and what would have to give?
[[nodiscard]] WhyNot why_not(const PlanProblem& problem, const Plan& plan, int circuit);
/// Only the obstacle and its numbers.
[[nodiscard]] WhyNot obstacle_to(const PlanProblem& problem, const Plan& plan, int circuit);
/// Why is the load on demand not served although its circuit is carried?
[[nodiscard]] WhyNot why_not_served(const PlanProblem& problem, const Plan& plan, LoadPlace load);

/// The best plans that differ in which loads are served, best first, without `plan`'s own set; at most `most`. Each is
/// the best of those that carry a circuit which `plan` leaves out, or leave out one that it carries.
[[nodiscard]] std::vector<Plan> alternatives(const PlanProblem& problem, const Plan& plan, std::size_t most);

/// The best plan for each size of source (running watts in all); starting watts and legs in the ratio of the present one.
[[nodiscard]] std::vector<std::pair<int, Plan>> served_by_size(const PlanProblem& problem, const std::vector<int>& running_watts);

/// The smallest source that serves all. Legs first get the least running watts on the heavier one, then the
/// least starting watts there.
struct SmallestSource {
  bool possible = false;
  std::optional<LoadPlace> too_large;  ///< not possible: the first load that could not be served were it alone; none: together only
  int running = 0, starting = 0;       ///< in all
  int leg_running = 0, leg_starting = 0;  ///< on the heavier leg
  bool operator==(const SmallestSource&) const = default;
};
struct SmallestSources {
  SmallestSource plain;    ///< every load at the same time, those on demand too
  SmallestSource managed;  ///< loads on demand one at a time
};
/// With the positions as they are; pins and weights do not count: every circuit is to be carried.
[[nodiscard]] SmallestSources smallest_source(const PlanProblem& problem);

}  // namespace ohmstead
