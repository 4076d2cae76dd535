// What keeps a circuit out: first what holds whatever else is carried, then what the others leave.

#include <algorithm>

#include "backup/plan_choices.h"
#include "backup/plan_search.h"

namespace ohmstead {
namespace {

template <class T>
auto& at(T& rows, int index) { return rows[static_cast<std::size_t>(index)]; }

constexpr int kPlenty = 1'000'000;

std::vector<int> group_of(const PlanProblem& problem, int circuit) {
  const int number = at(problem.circuits, circuit).multiwire;
  std::vector<int> group;
  for (int c = 0; c < static_cast<int>(problem.circuits.size()); ++c)
    if (c == circuit || (number >= 0 && at(problem.circuits, c).multiwire == number)) group.push_back(c);
  return group;
}

void give_plenty(PlanSource& source, bool running) {
  source.starting = kPlenty;
  source.leg_starting.fill(kPlenty);
  if (!running) return;
  source.running = kPlenty;
  source.leg_running.fill(kPlenty);
}

bool can_be(const PlanProblem& problem) { return most_served_plan(problem).end != PlanEnd::impossible; }

/// Rule 1 for one circuit, all its poles.
WhyNot size_obstacle(const PlanProblem& problem, int c) {
  WhyNot why;
  const PlanCircuit& circuit = at(problem.circuits, c);
  for (std::size_t pole = 0; pole < static_cast<std::size_t>(circuit.poles); ++pole) {
    if (circuit.own_leg[pole] > 0) continue;
    std::int64_t milliamperes = 0;
    for (const PlanLoad& load : circuit.loads) milliamperes += load.on_demand ? 0 : load.breaker_ma[pole];
    int smallest = 0, largest = -1;
    for (const PlanPosition& position : problem.positions) {
      if (position.leg > problem.source.legs) continue;
      const bool allowed = position.amps == 0 || circuit.amps == 0 || position.amps <= circuit.amps;
      smallest = smallest == 0 ? position.amps : std::min(smallest, position.amps);
      if (allowed) largest = std::max(largest, position.amps == 0 ? kPlenty : position.amps);
    }
    if (largest < 0 && smallest == 0) why.obstacle = Obstacle::no_position_left;
    else if (largest < 0) why = {Obstacle::positions_too_large, circuit.amps, smallest};
    else if (milliamperes > largest * std::int64_t{1000})
      why = {Obstacle::positions_too_small, static_cast<int>(std::min<std::int64_t>(milliamperes, 2'000'000'000)), largest * 1000};
    if (why.obstacle != Obstacle::none) return why;
  }
  return why;
}

/// Running or starting watts of the group alone, on the limit that they pass.
WhyNot alone_obstacle(const PlanProblem& problem, const std::vector<int>& group) {
  int running = 0, extra = 0;
  for (const int c : group)
    for (const PlanLoad& load : at(problem.circuits, c).loads) {
      int starts = 0;
      for (std::size_t pole = 0; pole < load.running.size() && !load.on_demand; ++pole)
        running += load.running[pole], starts += load.starting[pole] - load.running[pole];
      extra = std::max(extra, starts);
    }
  const PlanSource& source = problem.source;
  PlanProblem more = problem;
  give_plenty(more.source, false);
  const bool starts_only = can_be(more);
  const int needs = running + (starts_only ? extra : 0);
  const int gives = starts_only ? source.starting : source.running;
  WhyNot why{starts_only ? Obstacle::starting_alone : Obstacle::running_alone, needs, gives};
  if (needs > gives) return why;
  const PerPole& of_legs = starts_only ? source.leg_starting : source.leg_running;
  const auto most = std::max_element(of_legs.begin(), of_legs.begin() + source.legs);
  why.gives = *most;
  why.leg = static_cast<int>(most - of_legs.begin()) + 1;
  return why;
}

/// Which of positions, running and starting watts do the others in the plan leave too little of?
WhyNot left_obstacle(const PlanProblem& problem, const Plan& plan, const std::vector<int>& group) {
  PlanProblem all = problem;
  all.pins.clear();
  for (const Placed& each : plan.placed) all.pins.push_back({PinKind::must, each.circuit, -1});
  for (const int c : group) all.pins.push_back({PinKind::must, c, -1});
  for (const PlanPin& pin : problem.pins)
    if (pin.kind == PinKind::at)
      for (PlanPin& each : all.pins)
        if (each.circuit == pin.circuit) each = pin;
  WhyNot why;
  if (can_be(all)) return why;
  PlanProblem more = all;
  give_plenty(more.source, true);
  if (!can_be(more)) {
    why.obstacle = Obstacle::no_position_left;
    return why;
  }
  more.source = all.source;
  give_plenty(more.source, false);
  why.obstacle = can_be(more) ? Obstacle::starting : Obstacle::running;
  why.needs = plan.sums.total_running;
  for (const int c : group)
    for (const PlanLoad& load : at(problem.circuits, c).loads)
      for (const int watts : load.running) why.needs += load.on_demand ? 0 : watts;
  why.gives = problem.source.running;
  if (why.obstacle == Obstacle::running) return why;
  int extra = plan.sums.total_extra;
  for (const int c : group)
    for (const PlanLoad& load : at(problem.circuits, c).loads) {
      int starts = 0;
      for (std::size_t pole = 0; pole < load.running.size(); ++pole) starts += load.starting[pole] - load.running[pole];
      if (!load.on_demand) extra = std::max(extra, starts);
    }
  why.needs += extra;
  why.gives = problem.source.starting;
  return why;
}

}  // namespace

WhyNot obstacle_to(const PlanProblem& problem, const Plan& plan, int circuit) {
  for (const PlanPin& pin : problem.pins)
    if (pin.circuit == circuit && pin.kind == PinKind::never) return {Obstacle::pinned_out};
  const std::vector<int> group = group_of(problem, circuit);
  int poles = 0;
  for (const int c : group) poles += at(problem.circuits, c).poles;
  if (problem.source.in_phase && (poles > 1 || at(problem.circuits, circuit).multiwire >= 0)) return {Obstacle::source_in_phase};
  if (poles > problem.source.legs) return {Obstacle::too_few_legs, poles, problem.source.legs};
  if (WhyNot why = size_obstacle(problem, circuit); why.obstacle != Obstacle::none) return why;
  for (const int c : group) {
    const bool out = std::any_of(problem.pins.begin(), problem.pins.end(), [c](const PlanPin& pin) {
      return pin.circuit == c && pin.kind == PinKind::never;
    });
    if (!out && size_obstacle(problem, c).obstacle == Obstacle::none) continue;
    WhyNot why{Obstacle::partner};
    why.partner = c;
    return why;
  }
  PlanProblem alone = problem;
  alone.pins.clear();
  for (int c = 0; c < static_cast<int>(problem.circuits.size()); ++c)
    alone.pins.push_back({std::find(group.begin(), group.end(), c) != group.end() ? PinKind::must : PinKind::never, c, -1});
  PlanProblem plenty = alone;
  give_plenty(plenty.source, true);
  if (!can_be(plenty)) return {Obstacle::no_tied_positions};
  if (!can_be(alone)) return alone_obstacle(alone, group);
  return left_obstacle(problem, plan, group);
}

}  // namespace ohmstead
