#include <algorithm>

#include "backup/plan.h"

namespace ohmstead {

bool better(const PlanScore& a, const PlanScore& b) {
  if (a.life_safety != b.life_safety) return a.life_safety > b.life_safety;
  if (a.importance != b.importance) return a.importance > b.importance;
  if (a.imbalance != b.imbalance) return a.imbalance < b.imbalance;
  return a.moves < b.moves;
}

namespace {

/// 0-based leg of a pole that is carried.
std::size_t leg_of(const PlanProblem& problem, const Placed& placed, std::size_t pole) {
  const int position = placed.position[pole];
  const int leg = position < 0 ? problem.circuits[static_cast<std::size_t>(placed.circuit)].own_leg[pole]
                               : problem.positions[static_cast<std::size_t>(position)].leg;
  return static_cast<std::size_t>(std::clamp(leg, 1, kMostPoles) - 1);
}

/// A load's running and extra (starting less running) watts on each leg, and in all.
struct OnLegs {
  PerPole running{}, extra{};
  int total_running = 0, total_extra = 0;
};

OnLegs on_legs(const PlanProblem& problem, const Placed& placed, const PlanLoad& load) {
  OnLegs sums;
  const int poles = problem.circuits[static_cast<std::size_t>(placed.circuit)].poles;
  for (std::size_t pole = 0; pole < static_cast<std::size_t>(poles); ++pole) {
    const std::size_t leg = leg_of(problem, placed, pole);
    sums.running[leg] += load.running[pole], sums.total_running += load.running[pole];
    sums.extra[leg] += load.starting[pole] - load.running[pole], sums.total_extra += load.starting[pole] - load.running[pole];
  }
  return sums;
}

bool breakers_carry(const PlanProblem& problem, const Placed& placed, const PlanLoad& on_top) {
  const PlanCircuit& circuit = problem.circuits[static_cast<std::size_t>(placed.circuit)];
  for (std::size_t pole = 0; pole < static_cast<std::size_t>(circuit.poles); ++pole) {
    const int position = placed.position[pole];
    const int amps = position < 0 ? circuit.amps : problem.positions[static_cast<std::size_t>(position)].amps;
    int needed = on_top.breaker_ma[pole];
    for (const PlanLoad& load : circuit.loads)
      if (!load.on_demand) needed += load.breaker_ma[pole];
    if (position >= 0 && amps > 0 && needed > 1000 * amps) return false;
  }
  return true;
}

/// Does a load on demand fit on top of what runs together?
bool fits_on_top(const PlanProblem& problem, const PlanSums& sums, const OnLegs& load) {
  const PlanSource& source = problem.source;
  for (std::size_t leg = 0; leg < static_cast<std::size_t>(source.legs); ++leg) {
    const int running = sums.running[leg] + load.running[leg];
    if (running > source.leg_running[leg] || running + std::max(sums.extra[leg], load.extra[leg]) > source.leg_starting[leg]) return false;
  }
  const int running = sums.total_running + load.total_running;
  return running <= source.running && running + std::max(sums.total_extra, load.total_extra) <= source.starting;
}

PlanSums sums_of(const PlanProblem& problem, const std::vector<Placed>& placed) {
  PlanSums sums;
  for (const Placed& one : placed)
    for (const PlanLoad& load : problem.circuits[static_cast<std::size_t>(one.circuit)].loads) {
      if (load.on_demand) continue;
      const OnLegs adds = on_legs(problem, one, load);
      for (std::size_t leg = 0; leg < kMostPoles; ++leg) {
        sums.running[leg] += adds.running[leg];
        sums.extra[leg] = std::max(sums.extra[leg], adds.extra[leg]);
      }
      sums.total_running += adds.total_running;
      sums.total_extra = std::max(sums.total_extra, adds.total_extra);
    }
  return sums;
}

int moves_of(const PlanProblem& problem, const std::vector<Placed>& placed) {
  int moves = 0;
  for (std::size_t c = 0; c < problem.circuits.size(); ++c) {
    const auto at = std::ranges::find(placed, static_cast<int>(c), &Placed::circuit);
    for (std::size_t pole = 0; pole < kMostPoles; ++pole)
      if ((at == placed.end() ? -1 : at->position[pole]) != problem.circuits[c].position_now[pole]) ++moves;
  }
  return moves;
}

}  // namespace

Plan plan_of(const PlanProblem& problem, std::vector<Placed> placed) {
  Plan plan{.end = PlanEnd::stopped, .placed = std::move(placed), .sums = {}};
  plan.sums = sums_of(problem, plan.placed);
  const auto legs = static_cast<std::size_t>(problem.source.legs);
  const auto [least, most] = std::ranges::minmax_element(plan.sums.running.begin(), plan.sums.running.begin() + static_cast<std::ptrdiff_t>(legs));
  plan.score.imbalance = *most - *least;
  plan.score.moves = moves_of(problem, plan.placed);
  for (Placed& one : plan.placed) {
    one.served.clear();
    for (const PlanLoad& load : problem.circuits[static_cast<std::size_t>(one.circuit)].loads) {
      one.served.push_back(!load.on_demand || (breakers_carry(problem, one, load) && fits_on_top(problem, plan.sums, on_legs(problem, one, load))));
      if (!one.served.back()) continue;
      plan.score.life_safety += load.life_safety ? 1 : 0;
      plan.score.importance += load.life_safety ? 0 : load.weight;
    }
  }
  plan.bound = plan.score;
  return plan;
}

}  // namespace ohmstead
