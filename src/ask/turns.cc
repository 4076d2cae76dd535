#include "ask/turns.h"

#include <algorithm>

#include "backup/plan_measure.h"
#include "house/error.h"

namespace ohmstead {

namespace {

bool may_wait(const House& house, const CarriedLoad& carried) {
  const Load& load = house.loads[carried.load];
  return load.importance != Importance::life_safety && rotation_need(load).longest_off_min > 0;
}

/// Does every load that must run on this circuit take turns, and is there one?
bool takes_turns(const House& house, const CarriedCircuit& circuit) {
  bool any = false;
  for (const CarriedLoad& carried : circuit.loads) {
    if (carried.use == LoadUse::on_demand) continue;
    if (!may_wait(house, carried)) return false;
    any = true;
  }
  return any;
}

/// What a circuit that is carried draws on each leg, of the loads that must run.
void add_draw(const TurnsAnswer& answer, const Placed& placed, StartLoad& draw) {
  const auto at = static_cast<std::size_t>(placed.circuit);
  const PerPole legs = legs_of(answer.backup.problem, placed);
  const PlanCircuit& circuit = answer.backup.problem.circuits[at];
  PerPole running{}, extra{};
  for (std::size_t l = 0; l < circuit.loads.size(); ++l) {
    if (answer.backup.circuits[at].loads[l].use == LoadUse::on_demand) continue;
    for (std::size_t pole = 0; pole < legs.size(); ++pole) {
      if (legs[pole] < 0) continue;
      const auto leg = static_cast<std::size_t>(legs[pole]);
      running[leg] += circuit.loads[l].running[pole];
      extra[leg] = std::max(extra[leg], circuit.loads[l].starting[pole] - circuit.loads[l].running[pole]);
    }
  }
  for (std::size_t leg = 0; leg < kMostPoles; ++leg) {
    const int extra_now = std::max(draw.starting[leg] - draw.running[leg], extra[leg]);
    draw.running[leg] += running[leg];
    draw.starting[leg] = draw.running[leg] + extra_now;
  }
}

TurnsCircuit turns_circuit(const House& house, const TurnsAnswer& answer, const Placed& placed) {
  TurnsCircuit one{.circuit = placed.circuit, .needs = {.share_percent = 0}};
  add_draw(answer, placed, one.needs.draw);
  for (const CarriedLoad& carried : answer.backup.circuits[static_cast<std::size_t>(placed.circuit)].loads) {
    if (carried.use == LoadUse::on_demand) continue;
    const RotationNeed need = rotation_need(house.loads[carried.load]);
    one.needs.share_percent = std::max(one.needs.share_percent, need.share_percent);
    one.needs.longest_off_min = one.needs.longest_off_min == 0 ? need.longest_off_min : std::min(one.needs.longest_off_min, need.longest_off_min);
    one.needs.draw.starts_itself = one.needs.draw.starts_itself || starts_itself(house.loads[carried.load]);
    one.assumed = one.assumed || need.assumed;
  }
  return one;
}

void find_turns(const House& house, TurnsAnswer& answer) {
  answer.always = {.share_percent = 100, .longest_off_min = 0};
  for (const Placed& placed : answer.plan.placed) {
    const CarriedCircuit& circuit = answer.backup.circuits[static_cast<std::size_t>(placed.circuit)];
    if (takes_turns(house, circuit)) {
      answer.circuits.push_back(turns_circuit(house, answer, placed));
    } else if (std::ranges::any_of(circuit.loads, [](const CarriedLoad& carried) { return carried.use != LoadUse::on_demand; })) {
      add_draw(answer, placed, answer.always.draw);
      answer.always.draw.starts_itself = answer.always.draw.starts_itself ||
                                         std::ranges::any_of(circuit.loads, [&](const CarriedLoad& c) { return starts_itself(house.loads[c.load]); });
      answer.any_always = true;
    }
  }
}

}  // namespace

TurnsAnswer turns_for(const Record& record, std::size_t source) {
  TurnsAnswer answer{.backup = backup_case(record.house, record.feeds, source)};
  for (std::size_t c = 0; c < answer.backup.circuits.size(); ++c)
    if (takes_turns(record.house, answer.backup.circuits[c]))
      for (PlanLoad& load : answer.backup.problem.circuits[c].loads) load.on_demand = true;
  answer.plan = best_plan(answer.backup.problem);
  find_turns(record.house, answer);
  std::vector<RotationLoad> loads;
  for (const TurnsCircuit& circuit : answer.circuits) loads.push_back(circuit.needs);
  if (answer.any_always) loads.push_back(answer.always);
  if (loads.empty()) throw Error(ErrorKind::invalid_input, "Nothing that is wished for can be carried, so there is nothing to take turns; see `ohmstead plan`.");
  if (loads.size() > kMostRotationLoads)
    throw Error(ErrorKind::invalid_input, "More than " + std::to_string(kMostRotationLoads) + " circuits would take turns; wish for less: `ohmstead wish not THING`.");
  answer.rotation = best_rotation(answer.backup.problem.source, loads, usual_rotation_times());
  answer.times = rotation_times(answer.rotation, loads);
  return answer;
}

}  // namespace ohmstead
