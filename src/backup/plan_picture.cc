#include "backup/plan_picture.h"

#include <algorithm>

#include "backup/plan_measure.h"

namespace ohmstead {

namespace {

void add_blocks(const BackupCase& backup, const Placed& placed, std::vector<PictureColumn>& columns) {
  const auto at = static_cast<std::size_t>(placed.circuit);
  const PlanCircuit& circuit = backup.problem.circuits[at];
  const PerPole legs = legs_of(backup.problem, placed);
  for (std::size_t l = 0; l < circuit.loads.size(); ++l) {
    if (!placed.served[l]) continue;
    const PlanLoad& load = circuit.loads[l];
    const int whole = load.running[0] + load.running[1] + load.running[2];
    PerPole on_leg{};
    for (std::size_t pole = 0; pole < legs.size(); ++pole)
      if (legs[pole] >= 0) on_leg[static_cast<std::size_t>(legs[pole])] += load.running[pole];
    for (PictureColumn& column : columns) {
      const int watts = on_leg[static_cast<std::size_t>(column.leg - 1)];
      if (watts == 0 && whole > 0) continue;
      if (whole == 0 && legs[0] + 1 != column.leg) continue;
      (load.on_demand ? column.on_demand : column.together).push_back({backup.circuits[at].loads[l].load, placed.circuit, watts, watts < whole});
    }
  }
}

}  // namespace

PlanPicture plan_picture(const BackupCase& backup, const Plan& plan) {
  const PlanSource& source = backup.problem.source;
  PlanPicture picture{{}, source.running, plan.sums.total_running, source.starting, plan.sums.total_extra};
  for (int leg = 1; leg <= source.legs; ++leg) {
    const auto at = static_cast<std::size_t>(leg - 1);
    picture.columns.push_back({leg, source.leg_running[at], source.leg_starting[at], plan.sums.running[at], plan.sums.extra[at], {}, {}});
  }
  for (const Placed& placed : plan.placed) add_blocks(backup, placed, picture.columns);
  for (PictureColumn& column : picture.columns) {
    std::ranges::stable_sort(column.together, std::ranges::greater{}, &PictureBlock::watts);
    std::ranges::stable_sort(column.on_demand, std::ranges::greater{}, &PictureBlock::watts);
  }
  return picture;
}

}  // namespace ohmstead
