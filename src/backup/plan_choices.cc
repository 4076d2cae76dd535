#include "backup/plan_choices.h"

#include <algorithm>

#include "backup/plan_search.h"

namespace ohmstead {
namespace {

template <class T>
auto& at(T& rows, int index) { return rows[static_cast<std::size_t>(index)]; }

const Placed* place_of(const Plan& plan, int circuit) {
  for (const Placed& each : plan.placed)
    if (each.circuit == circuit) return &each;
  return nullptr;
}

std::vector<LoadPlace> served_in(const Plan& plan) {
  std::vector<LoadPlace> served;
  for (const Placed& each : plan.placed)
    for (std::size_t k = 0; k < each.served.size(); ++k)
      if (each.served[k]) served.push_back({each.circuit, static_cast<int>(k)});
  return served;
}

/// The pins without those of the circuit, and one more.
PlanProblem pinned(PlanProblem problem, PlanPin pin) {
  std::erase_if(problem.pins, [&](const PlanPin& each) { return each.circuit == pin.circuit; });
  problem.pins.push_back(pin);
  return problem;
}

void count_losses(const Plan& plan, WhyNot& why) {
  if (why.instead.end == PlanEnd::impossible) return;
  const std::vector<LoadPlace> then = served_in(why.instead);
  for (const LoadPlace& load : served_in(plan))
    if (std::find(then.begin(), then.end(), load) == then.end()) why.loads_lost.push_back(load);
  for (const Placed& each : plan.placed)
    if (!place_of(why.instead, each.circuit)) why.circuits_lost.push_back(each.circuit);
}

std::vector<std::vector<LoadPlace>> sets_of(const std::vector<Plan>& plans) {
  std::vector<std::vector<LoadPlace>> sets;
  for (const Plan& each : plans) sets.push_back(served_in(each));
  return sets;
}

}  // namespace

WhyNot why_not_served(const PlanProblem& problem, const Plan& plan, LoadPlace place) {
  WhyNot why;
  const Placed* carried = place_of(plan, place.circuit);
  if (!carried || carried->served[static_cast<std::size_t>(place.load)]) return why;
  const PlanCircuit& circuit = at(problem.circuits, place.circuit);
  const PlanLoad& load = at(circuit.loads, place.load);
  PerPole running{}, extra{};
  int all_running = 0, all_extra = 0;
  const auto note = [&why](Obstacle obstacle, int needs, int gives, int leg) {
    if (why.obstacle == Obstacle::none && needs > gives) why.obstacle = obstacle, why.needs = needs, why.gives = gives, why.leg = leg;
  };
  for (std::size_t pole = 0; pole < static_cast<std::size_t>(circuit.poles); ++pole) {
    const int p = carried->position[pole];
    const auto leg = static_cast<std::size_t>((p < 0 ? circuit.own_leg[pole] : at(problem.positions, p).leg) - 1);
    running[leg] += load.running[pole], all_running += load.running[pole];
    extra[leg] += load.starting[pole] - load.running[pole], all_extra += load.starting[pole] - load.running[pole];
    int milliamperes = load.breaker_ma[pole];
    for (const PlanLoad& other : circuit.loads) milliamperes += other.on_demand ? 0 : other.breaker_ma[pole];
    if (p >= 0 && at(problem.positions, p).amps > 0) note(Obstacle::positions_too_small, milliamperes, at(problem.positions, p).amps * 1000, 0);
  }
  const PlanSource& source = problem.source;
  for (std::size_t leg = 0; leg < static_cast<std::size_t>(source.legs); ++leg)
    note(Obstacle::running, plan.sums.running[leg] + running[leg], source.leg_running[leg], static_cast<int>(leg) + 1);
  note(Obstacle::running, plan.sums.total_running + all_running, source.running, 0);
  for (std::size_t leg = 0; leg < static_cast<std::size_t>(source.legs); ++leg)
    note(Obstacle::starting, plan.sums.running[leg] + running[leg] + std::max(plan.sums.extra[leg], extra[leg]), source.leg_starting[leg],
         static_cast<int>(leg) + 1);
  note(Obstacle::starting, plan.sums.total_running + all_running + std::max(plan.sums.total_extra, all_extra), source.starting, 0);
  why.instead = best_plan_serving(problem, place.circuit, place.load);
  count_losses(plan, why);
  return why;
}

WhyNot why_not(const PlanProblem& problem, const Plan& plan, int circuit) {
  WhyNot why;
  if (place_of(plan, circuit)) return why;
  why = obstacle_to(problem, plan, circuit);
  PlanProblem changed = pinned(problem, {PinKind::must, circuit, -1});
  why.instead = best_plan(changed);
  count_losses(plan, why);
  return why;
}

std::vector<Plan> alternatives(const PlanProblem& problem, const Plan& plan, std::size_t most) {
  std::vector<Plan> found;
  std::vector<bool> settled(problem.circuits.size(), false);
  for (const PlanPin& pin : problem.pins) settled[static_cast<std::size_t>(pin.circuit)] = true;
  for (std::size_t c = 0; c < problem.circuits.size(); ++c) {
    if (settled[c]) continue;
    const int circuit = static_cast<int>(c);
    Plan other = best_plan(pinned(problem, {place_of(plan, circuit) ? PinKind::never : PinKind::must, circuit, -1}));
    if (other.end != PlanEnd::impossible) found.push_back(std::move(other));
  }
  std::stable_sort(found.begin(), found.end(), [](const Plan& a, const Plan& b) { return better(a.score, b.score); });
  std::vector<Plan> kept;
  const std::vector<LoadPlace> own = served_in(plan);
  for (Plan& each : found) {
    if (kept.size() == most) break;
    const auto served = served_in(each);
    const auto sets = sets_of(kept);
    if (served != own && std::find(sets.begin(), sets.end(), served) == sets.end()) kept.push_back(std::move(each));
  }
  return kept;
}

std::vector<std::pair<int, Plan>> served_by_size(const PlanProblem& problem, const std::vector<int>& running_watts) {
  std::vector<std::pair<int, Plan>> curve;
  for (const int watts : running_watts) {
    PlanProblem changed = problem;
    const auto scaled = [&](int old) {
      return static_cast<int>(static_cast<std::int64_t>(old) * watts / problem.source.running);
    };
    changed.source.running = watts;
    changed.source.starting = scaled(problem.source.starting);
    for (std::size_t leg = 0; leg < changed.source.leg_running.size(); ++leg) {
      changed.source.leg_running[leg] = scaled(problem.source.leg_running[leg]);
      changed.source.leg_starting[leg] = scaled(problem.source.leg_starting[leg]);
    }
    curve.emplace_back(watts, best_plan(changed));
  }
  return curve;
}

}  // namespace ohmstead
