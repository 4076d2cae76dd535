#include "backup/plan_choices.h"

#include <algorithm>
#include <numeric>

#include "backup/plan_choices_parts.h"
#include "backup/plan_search.h"

namespace ohmstead {

using namespace choices_detail;

namespace choices_detail {

const Placed* placed_in(const Plan& plan, int circuit) {
  const auto found = std::ranges::find(plan.placed, circuit, &Placed::circuit);
  return found == plan.placed.end() ? nullptr : &*found;
}

bool is_served(const Plan& plan, int circuit, int load) {
  const Placed* placed = placed_in(plan, circuit);
  return placed != nullptr && (load < 0 || placed->served[static_cast<std::size_t>(load)]);
}

bool serves_as_much(const PlanScore& a, const PlanScore& b) {
  return a.life_safety > b.life_safety || (a.life_safety == b.life_safety && a.importance >= b.importance);
}

PlanProblem with_pin(PlanProblem problem, int circuit, PinKind kind) {
  const auto mine = std::ranges::find(problem.pins, circuit, &PlanPin::circuit);
  if (mine != problem.pins.end() && (mine->kind == kind || (mine->kind == PinKind::at && kind == PinKind::must))) return problem;
  std::erase_if(problem.pins, [&](const PlanPin& pin) { return pin.circuit == circuit; });
  problem.pins.push_back({kind, circuit, -1});
  return problem;
}

Plan best_with(const PlanProblem& problem, int circuit, int load) {
  return load < 0 ? best_plan(with_pin(problem, circuit, PinKind::must), kMostNodesOfAQuestion)
                  : best_plan_serving(problem, circuit, load, kMostNodesOfAQuestion);
}

}  // namespace choices_detail

namespace {

std::vector<std::vector<bool>> served_set(const PlanProblem& problem, const Plan& plan) {
  std::vector<std::vector<bool>> served;
  for (const PlanCircuit& circuit : problem.circuits) served.emplace_back(circuit.loads.size(), false);
  for (const Placed& placed : plan.placed) served[static_cast<std::size_t>(placed.circuit)] = placed.served;
  return served;
}

/// Everything that is wished for, worth as it would be if all of it were served.
PlanScore all_of(const PlanProblem& problem) {
  PlanScore score;
  for (const PlanCircuit& circuit : problem.circuits)
    for (const PlanLoad& load : circuit.loads) {
      score.life_safety += load.life_safety ? 1 : 0;
      score.importance += load.life_safety ? 0 : load.weight;
    }
  return score;
}

/// Are all loads served? Loads of no weight count too. `proven` becomes false if a search was cut off without finding that.
bool serves_all(const PlanProblem& problem, bool& proven) {
  const Plan plan = most_served_plan(problem, kMostNodesOfAQuestion);
  const bool all = plan.end != PlanEnd::impossible && serves_as_much(plan.score, all_of(problem));
  proven = proven && (all || plan.end != PlanEnd::stopped);
  return all;
}

PlanProblem without_limits(PlanProblem problem) {
  std::int64_t most = 1;
  for (const PlanCircuit& circuit : problem.circuits)
    for (const PlanLoad& load : circuit.loads)
      for (const int watts : load.starting) most += watts;
  PlanSource& source = problem.source;
  source.running = source.starting = static_cast<int>(std::min<std::int64_t>(most, 1'000'000));
  source.leg_running.fill(source.running), source.leg_starting.fill(source.running);
  return problem;
}

/// Smallest number in low..high for which `enough` holds; it holds for high.
template <class Enough>
int smallest_that(int low, int high, const Enough& enough) {
  while (low < high) {
    const int middle = low + (high - low) / 2;
    if (enough(middle)) high = middle;
    else low = middle + 1;
  }
  return high;
}

PlanProblem with_limits(PlanProblem problem, const PlanSource& shares, int running, int starting) {
  problem.source = shares;
  const auto share = [&](int watts, std::size_t leg) {
    return static_cast<int>((std::int64_t{watts} * shares.leg_running[leg] + shares.running - 1) / shares.running);
  };
  problem.source.running = running, problem.source.starting = starting;
  for (std::size_t leg = 0; leg < static_cast<std::size_t>(shares.legs); ++leg) {
    problem.source.leg_running[leg] = share(running, leg);
    problem.source.leg_starting[leg] = std::max(share(starting, leg), problem.source.leg_running[leg]);
  }
  return problem;
}

/// Every load is worth something, and no pin is in the way: the most that can be served is everything.
void let_everything_count(PlanProblem& problem) {
  problem.pins.clear();
  for (PlanCircuit& circuit : problem.circuits)
    for (PlanLoad& load : circuit.loads)
      if (!load.life_safety) load.weight = std::max(load.weight, 1);
}

}  // namespace

std::vector<Plan> alternatives(const PlanProblem& problem, const Plan& plan, std::size_t most) {
  std::vector<Plan> plans;
  std::vector<std::vector<std::vector<bool>>> known{served_set(problem, plan)};
  for (std::size_t c = 0; c < problem.circuits.size(); ++c) {
    const int circuit = static_cast<int>(c);
    if (problem.circuits[c].loads.empty() || std::ranges::find(problem.pins, circuit, &PlanPin::circuit) != problem.pins.end()) continue;
    Plan other = best_plan(with_pin(problem, circuit, placed_in(plan, circuit) != nullptr ? PinKind::never : PinKind::must), kMostNodesOfAQuestion);
    if (other.end == PlanEnd::impossible) continue;
    auto served = served_set(problem, other);
    if (std::ranges::find(known, served) != known.end()) continue;
    known.push_back(std::move(served));
    plans.push_back(std::move(other));
  }
  std::ranges::stable_sort(plans, [](const Plan& a, const Plan& b) { return better(a.score, b.score); });
  if (plans.size() > most) plans.resize(most);
  return plans;
}

PlanProblem with_positions_for(PlanProblem problem, int circuit) {
  int tie = 0;
  for (const PlanPosition& position : problem.positions) tie = std::max(tie, position.tie + 1);
  for (int leg = 1; leg <= problem.source.legs; ++leg) problem.positions.push_back({leg, problem.circuits[static_cast<std::size_t>(circuit)].amps, tie});
  return problem;
}

PlanProblem with_source_of(PlanProblem problem, int running) {
  const PlanSource shares = problem.source;
  const auto starting = static_cast<int>(std::int64_t{running} * shares.starting / shares.running);
  return with_limits(std::move(problem), shares, running, std::max(starting, running));
}

SmallestSource smallest_source(const PlanProblem& given, bool managed) {
  SmallestSource smallest;
  PlanProblem problem = given;
  let_everything_count(problem);
  if (!managed)
    for (PlanCircuit& circuit : problem.circuits)
      for (PlanLoad& load : circuit.loads) load.on_demand = false;
  const PlanProblem free = without_limits(problem);
  const Plan plan = most_served_plan(free, kMostNodesOfAQuestion);
  for (std::size_t c = 0; c < problem.circuits.size(); ++c) {
    const auto count = static_cast<int>(problem.circuits[c].loads.size());
    bool all = true;
    for (int load = 0; load < count; ++load) all = all && is_served(plan, static_cast<int>(c), load);
    if (!all) smallest.blocked.push_back(static_cast<int>(c));
  }
  if (!smallest.blocked.empty()) return smallest;
  const int legs = given.source.in_phase ? 1 : std::max(given.source.legs, 1);
  const int most = static_cast<int>(std::min<std::int64_t>(std::int64_t{free.source.running} * legs, 1'000'000));
  PlanSource equal = given.source;
  equal.running = legs;
  equal.leg_running.fill(1);
  smallest.running = smallest_that(1, most, [&](int running) { return serves_all(with_limits(problem, equal, running, most), smallest.proven); });
  smallest.starting = smallest_that(smallest.running, most, [&](int starting) { return serves_all(with_limits(problem, equal, smallest.running, starting), smallest.proven); });
  const PlanProblem last = with_limits(problem, equal, smallest.running, smallest.starting);
  smallest.leg_running = last.source.leg_running, smallest.leg_starting = last.source.leg_starting;
  smallest.possible = true;
  return smallest;
}

}  // namespace ohmstead
