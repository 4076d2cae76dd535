// The smallest source that serves all: best_plan asked again and again, each time with less.

#include <algorithm>
#include <functional>

#include "backup/plan_choices.h"
#include "backup/plan_search.h"

namespace ohmstead {
namespace {

constexpr int kPlenty = 1'000'000;

/// All loads count one, all circuits must be carried, and the source gives plenty.
PlanProblem everything(const PlanProblem& problem, bool plain) {
  PlanProblem all = problem;
  all.pins.clear();
  all.source.running = all.source.starting = kPlenty;
  all.source.leg_running.fill(kPlenty);
  all.source.leg_starting.fill(kPlenty);
  for (std::size_t c = 0; c < all.circuits.size(); ++c) {
    all.pins.push_back({PinKind::must, static_cast<int>(c), -1});
    for (PlanLoad& load : all.circuits[c].loads) {
      load.weight = 1;
      load.life_safety = false;
      if (plain) load.on_demand = false;
    }
  }
  return all;
}

bool serves_all(const PlanProblem& problem) {
  const Plan plan = most_served_plan(problem);
  std::int64_t loads = 0;
  for (const PlanCircuit& circuit : problem.circuits) loads += static_cast<std::int64_t>(circuit.loads.size());
  return plan.end != PlanEnd::impossible && plan.score.importance == loads;
}

/// The least number for which `set` gives a problem that serves all; it does for kPlenty.
int least(PlanProblem problem, const std::function<void(PlanSource&, int)>& set) {
  int fails = 0, does = kPlenty;
  while (does - fails > 1) {
    const int middle = fails + (does - fails) / 2;
    set(problem.source, middle);
    (serves_all(problem) ? does : fails) = middle;
  }
  return does;
}

SmallestSource smallest(const PlanProblem& problem, bool plain) {
  SmallestSource out;
  PlanProblem all = everything(problem, plain);
  out.possible = serves_all(all);
  if (!out.possible) {
    for (std::size_t c = 0; c < all.circuits.size() && !out.too_large; ++c)
      for (std::size_t k = 0; k < all.circuits[c].loads.size() && !out.too_large; ++k) {
        PlanProblem one = all;
        one.circuits[c].loads = {all.circuits[c].loads[k]};
        for (PlanPin& pin : one.pins) {
          const bool partner = all.circuits[c].multiwire >= 0 &&
                               all.circuits[static_cast<std::size_t>(pin.circuit)].multiwire == all.circuits[c].multiwire;
          if (pin.circuit != static_cast<int>(c) && !partner) pin.kind = PinKind::never;
          if (pin.circuit != static_cast<int>(c)) one.circuits[static_cast<std::size_t>(pin.circuit)].loads.clear();
        }
        if (!serves_all(one)) out.too_large = LoadPlace{static_cast<int>(c), static_cast<int>(k)};
      }
    return out;
  }
  // In all, running does not hang on where circuits are; each limit is the least by itself, legs one after the other.
  all.source.running = out.running = least(all, [](PlanSource& source, int watts) { source.running = watts; });
  all.source.starting = out.starting = least(all, [](PlanSource& source, int watts) { source.starting = watts; });
  out.leg_running = least(all, [](PlanSource& source, int watts) { source.leg_running.fill(watts); });
  all.source.leg_running.fill(out.leg_running);
  out.leg_starting = least(all, [](PlanSource& source, int watts) { source.leg_starting.fill(watts); });
  return out;
}

}  // namespace

SmallestSources smallest_source(const PlanProblem& problem) { return {smallest(problem, true), smallest(problem, false)}; }

}  // namespace ohmstead
