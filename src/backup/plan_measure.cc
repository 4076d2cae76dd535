#include "backup/plan_measure.h"

#include <algorithm>

namespace ohmstead {
namespace {

int whole(const PerPole& poles) { return poles[0] + poles[1] + poles[2]; }

struct OnLegs {
  PerPole running{}, extra{};
};
OnLegs on_legs(const PlanLoad& load, const PerPole& legs) {
  OnLegs out;
  for (std::size_t pole = 0; pole < legs.size(); ++pole) {
    if (legs[pole] < 0) continue;
    const auto leg = static_cast<std::size_t>(legs[pole]);
    out.running[leg] += load.running[pole];
    out.extra[leg] += load.starting[pole] - load.running[pole];
  }
  return out;
}

PlanSums sums_of(const PlanProblem& problem, const std::vector<Placed>& placed) {
  PlanSums sums;
  for (const Placed& at : placed)
    for (const PlanLoad& load : problem.circuits[static_cast<std::size_t>(at.circuit)].loads) {
      if (load.on_demand) continue;
      const OnLegs draws = on_legs(load, legs_of(problem, at));
      for (std::size_t leg = 0; leg < draws.running.size(); ++leg) {
        sums.running[leg] += draws.running[leg];
        sums.extra[leg] = std::max(sums.extra[leg], draws.extra[leg]);
      }
      sums.total_running += whole(draws.running);
      sums.total_extra = std::max(sums.total_extra, whole(draws.extra));
    }
  return sums;
}

/// Does the breaker of the position carry the load on top of what runs together on the circuit?
bool breaker_carries(const PlanProblem& problem, const Placed& at, const PlanLoad& load) {
  const PlanCircuit& circuit = problem.circuits[static_cast<std::size_t>(at.circuit)];
  for (std::size_t pole = 0; pole < at.position.size(); ++pole) {
    if (at.position[pole] < 0) continue;
    std::int64_t milliamperes = load.breaker_ma[pole];
    for (const PlanLoad& other : circuit.loads)
      if (!other.on_demand) milliamperes += other.breaker_ma[pole];
    const int amps = problem.positions[static_cast<std::size_t>(at.position[pole])].amps;
    if (amps > 0 && milliamperes > amps * std::int64_t{1000}) return false;
  }
  return true;
}

bool room_on_top(const PlanSource& source, const PlanSums& sums, const OnLegs& draws) {
  for (std::size_t leg = 0; leg < static_cast<std::size_t>(source.legs); ++leg) {
    const int running = sums.running[leg] + draws.running[leg];
    if (running > source.leg_running[leg]) return false;
    if (running + std::max(sums.extra[leg], draws.extra[leg]) > source.leg_starting[leg]) return false;
  }
  const int running = sums.total_running + whole(draws.running);
  return running <= source.running && running + std::max(sums.total_extra, whole(draws.extra)) <= source.starting;
}

void serve(const PlanProblem& problem, Plan& plan) {
  for (Placed& at : plan.placed) {
    const auto& loads = problem.circuits[static_cast<std::size_t>(at.circuit)].loads;
    at.served.assign(loads.size(), true);
    for (std::size_t k = 0; k < loads.size(); ++k) {
      const PlanLoad& load = loads[k];
      if (load.on_demand)
        at.served[k] = breaker_carries(problem, at, load) &&
                       room_on_top(problem.source, plan.sums, on_legs(load, legs_of(problem, at)));
      if (!at.served[k]) continue;
      if (load.life_safety) ++plan.score.life_safety;
      else plan.score.importance += load.weight;
    }
  }
}

int moves_of(const PlanProblem& problem, const std::vector<Placed>& placed) {
  std::vector<PerPole> then(problem.circuits.size(), PerPole{-1, -1, -1});
  for (const Placed& at : placed) then[static_cast<std::size_t>(at.circuit)] = at.position;
  int moves = 0;
  for (std::size_t c = 0; c < then.size(); ++c)
    for (std::size_t pole = 0; pole < static_cast<std::size_t>(problem.circuits[c].poles); ++pole)
      moves += then[c][pole] != problem.circuits[c].position_now[pole];
  return moves;
}

}  // namespace

PerPole legs_of(const PlanProblem& problem, const Placed& placed) {
  const PlanCircuit& circuit = problem.circuits[static_cast<std::size_t>(placed.circuit)];
  PerPole legs{-1, -1, -1};
  for (std::size_t pole = 0; pole < static_cast<std::size_t>(circuit.poles); ++pole) {
    const int at = placed.position[pole];
    legs[pole] = (at < 0 ? circuit.own_leg[pole] : problem.positions[static_cast<std::size_t>(at)].leg) - 1;
  }
  return legs;
}

Plan measured_plan(const PlanProblem& problem, std::vector<Placed> placed) {
  Plan plan;
  plan.end = PlanEnd::optimal;
  plan.placed = std::move(placed);
  std::sort(plan.placed.begin(), plan.placed.end(), [](const Placed& a, const Placed& b) { return a.circuit < b.circuit; });
  plan.sums = sums_of(problem, plan.placed);
  serve(problem, plan);
  const auto legs = plan.sums.running.begin();
  const auto [least, most] = std::minmax_element(legs, legs + problem.source.legs);
  plan.score.imbalance = *most - *least;
  plan.score.moves = moves_of(problem, plan.placed);
  plan.bound = plan.score;
  return plan;
}

}  // namespace ohmstead
