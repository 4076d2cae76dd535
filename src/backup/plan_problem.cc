#include "backup/plan_problem.h"

#include <algorithm>

#include "backup/case_builder.h"
#include "backup/plan_measure.h"

namespace ohmstead {

BackupCase backup_case(const House& house, const Feeds& feeds, std::size_t source) {
  if (source >= house.sources.size()) throw Error(ErrorKind::not_found, "There is no such source; `ohmstead status` lists what is written down.");
  const Source& given = house.sources[source];
  if (given.running_watts <= 0)
    throw Error(ErrorKind::invalid_input, "It is not recorded how many watts source '" + given.name + "' gives; read them from its nameplate and enter "
                                          "them: `ohmstead enter --line 'Generator " + given.name + " 3600/4500 W'`.");
  return backup_detail::CaseBuilder(house, feeds, source).build();
}

Plan kept_plan(const House& house, const BackupCase& backup) {
  std::vector<Placed> placed;
  for (std::size_t c = 0; c < backup.circuits.size(); ++c) {
    Placed one{.circuit = static_cast<int>(c)};
    bool whole = true;
    const auto& poles = backup.circuits[c].poles;
    for (std::size_t k = 0; k < poles.size(); ++k) {
      const auto row = std::ranges::find_if(house.planned, [&](const Planned& p) { return p.breaker == poles[k].breaker && p.pole == poles[k].pole; });
      whole = whole && row != house.planned.end();
      const auto position = whole ? std::ranges::find(backup.positions, row->position) : backup.positions.end();
      if (position != backup.positions.end()) one.position[k] = static_cast<int>(position - backup.positions.begin());
      else whole = whole && backup.problem.circuits[c].own_leg[k] > 0;
    }
    if (whole) placed.push_back(one);
  }
  Plan plan = measured_plan(backup.problem, std::move(placed));
  plan.end = PlanEnd::stopped;  // nothing is proven of it
  return plan;
}

std::vector<Planned> planned_rows(const BackupCase& backup, const Plan& plan) {
  std::vector<Planned> rows;
  for (const Placed& placed : plan.placed) {
    const auto& poles = backup.circuits[static_cast<std::size_t>(placed.circuit)].poles;
    for (std::size_t k = 0; k < poles.size(); ++k) {
      const int at = placed.position[k];
      rows.push_back({Id<Planned>::fresh(), poles[k].breaker, poles[k].pole, at < 0 ? Id<Position>{} : backup.positions[static_cast<std::size_t>(at)]});
    }
  }
  return rows;
}

}  // namespace ohmstead
