#include "ask/without_private.h"

#include <algorithm>
#include <map>
#include <set>
#include <string_view>

#include "backup/typical_loads.h"
#include "house/invariants.h"
#include "rules/plain_words.h"

namespace ohmstead {

namespace {

constexpr std::size_t kRoomForNumber = 8;  ///< " (12345)"

/// Takes persons out of the names of one table. No name gets empty that was not, and names that were told apart still are, among
/// rows of one `place`.
template <class Row, class Place>
void name_without_persons(std::vector<Row>& rows, const char* other, const Place& place) {
  std::map<std::uint64_t, std::set<std::string>> taken;
  for (const Row& row : rows)
    if (without_person(row.name) == row.name) taken[place(row)].insert(row.name);
  for (Row& row : rows) {
    const std::string stripped = without_person(row.name);
    if (stripped == row.name) continue;
    const std::string name = stripped.empty() || stripped.size() + kRoomForNumber > kLongestName ? other : stripped;
    row.name = name;
    for (int number = 2; !taken[place(row)].insert(row.name).second; ++number) row.name = name + " (" + std::to_string(number) + ")";
  }
}

template <class Row>
void name_without_persons(std::vector<Row>& rows, const char* other) {
  name_without_persons(rows, other, [](const Row&) { return std::uint64_t{0}; });
}

void drop_persons_from_names(House& house) {
  house.dwelling.name = without_person(house.dwelling.name);
  name_without_persons(house.floors, "Floor");
  for (Floor& floor : house.floors) floor.building = without_person(floor.building);
  name_without_persons(house.rooms, "Room");
  name_without_persons(house.boxes, "box");
  name_without_persons(house.sources, "Source");
  name_without_persons(house.panels, "Panel");
  name_without_persons(house.transfer_devices, "Transfer device");
  name_without_persons(house.devices, "device");
  name_without_persons(house.handles, "handle");
  name_without_persons(house.loads, "load");
  name_without_persons(house.points, "point", [](const Point& point) { return point.room.value; });
  for (Point& point : house.points) point.place = without_person(point.place);
  for (Breaker& breaker : house.breakers) breaker.old_label = without_person(breaker.old_label);
}

/// A machine that tells of somebody's health, by the table of typical loads.
bool tells_of_health(const std::string& name) {
  constexpr std::string_view kMachines[] = {"oxygen concentrator", "CPAP", "ventilator", "nebulizer", "hospital bed", "wheelchair charger"};
  const TypicalLoad* row = find_typical_load(name).row;
  return row != nullptr && std::ranges::find(kMachines, row->name) != std::end(kMachines);
}

/// Machines that tell of somebody's health, and what is plugged in and a life hangs on.
void drop_machines_of_persons(House& house) {
  std::set<std::uint64_t> receptacles, gone;
  for (const Point& point : house.points)
    if (point.kind == PointKind::receptacle) receptacles.insert(point.id.value);
  for (const Load& load : house.loads)
    if (tells_of_health(load.name) || (load.importance == Importance::life_safety && receptacles.contains(load.point.value))) gone.insert(load.id.value);
  std::erase_if(house.loads, [&](const Load& load) { return gone.contains(load.id.value); });
  std::erase_if(house.notes, [&](const Note& note) { return note.about.kind == ThingKind::load && gone.contains(note.about.id); });
  std::erase_if(house.photos, [&](const Photo& photo) { return photo.about.kind == ThingKind::load && gone.contains(photo.about.id); });
  for (Breaker& breaker : house.breakers)
    if (tells_of_health(breaker.old_label)) breaker.old_label.clear();
  for (Point& point : house.points)
    if (tells_of_health(point.name)) point.name = "appliance";
  std::map<std::uint64_t, std::set<std::string>> taken;
  for (Point& point : house.points) {
    const std::string name = point.name;
    for (int number = 2; !taken[point.room.value].insert(point.name).second; ++number) point.name = name + " (" + std::to_string(number) + ")";
  }
}

}  // namespace

House without_private(House house) {
  std::erase_if(house.notes, [](const Note& note) { return note.is_private; });
  std::erase_if(house.photos, [](const Photo& photo) { return photo.is_private; });
  house.outage_events.clear(), house.settings.clear(), house.printed.clear();
  house.trips.clear(), house.diagnosis_looks.clear(), house.diagnoses.clear();  // when who was at home, and what they did
  for (Round& round : house.rounds) round.who.clear();
  for (DeclaredFeed& feed : house.declared_feeds) feed.who.clear();
  for (Note& note : house.notes) note.who.clear();
  for (Photo& photo : house.photos) photo.who.clear();
  for (Tick& tick : house.ticks) tick.who.clear();
  drop_machines_of_persons(house);
  drop_persons_from_names(house);
  return house;
}

}  // namespace ohmstead
