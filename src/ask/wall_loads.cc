#include "ask/wall_loads.h"

#include <algorithm>
#include <set>

#include "ask/watts.h"
#include "backup/typical_loads.h"

namespace ohmstead::wall_words {

Carried carried_of(const House& house, const PlanAnswer& answer) {
  Carried carried;
  std::set<std::size_t> served;  // places in house.loads
  for (std::size_t c = 0; c < answer.backup.circuits.size(); ++c) {
    const CarriedCircuit& circuit = answer.backup.circuits[c];
    const auto placed = std::ranges::find(answer.plan.placed, static_cast<int>(c), &Placed::circuit);
    const bool has_place = placed != answer.plan.placed.end();
    for (std::size_t l = 0; l < circuit.loads.size(); ++l) {
      const CarriedLoad& load = circuit.loads[l];
      const std::string words = load_text(house, house.loads[load.load]);
      if (has_place && placed->served[l]) served.insert(load.load);
      if (!has_place) continue;
      (!placed->served[l] ? carried.leave_off : load.use == LoadUse::on_demand ? carried.on_demand : carried.together).push_back(words);
    }
    if (!has_place) continue;
    for (const std::size_t l : circuit.unwanted) carried.leave_off.push_back(load_text(house, house.loads[l]));
  }
  for (std::size_t l = 0; l < house.loads.size(); ++l) {
    if (house.loads[l].importance != Importance::life_safety || wanted_use(house.loads[l]) == LoadUse::not_wanted) continue;
    carried.life.push_back(load_text(house, house.loads[l]));
    if (!served.contains(l)) carried.life_left.push_back(carried.life.back());
  }
  return carried;
}

int room_for_others(const PlanPicture& picture) {
  int room = std::min(picture.limit - picture.running, picture.starting_limit - picture.running - picture.start_extra);
  for (const PictureColumn& column : picture.columns)
    room = std::min({room, column.limit - column.running, column.starting_limit - column.running - column.start_extra});
  return std::max(0, room);
}

}  // namespace ohmstead::wall_words
