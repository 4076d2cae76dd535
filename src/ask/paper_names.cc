#include "ask/paper_names.h"

#include <map>
#include <set>

#include "ask/panel_schedule.h"
#include "rules/plain_words.h"
#include "rules/room_words.h"

namespace ohmstead {

namespace {

constexpr std::size_t kLongestPoint = 40;

std::string kind_name(PointKind kind) {
  static constexpr const char* kNames[] = {"receptacle", "light", "appliance", "alarm", "fan", "point"};
  return kNames[static_cast<std::size_t>(kind)];
}

/// `name`, or with the first number behind it that makes it a new one.
std::string not_taken(const std::string& name, std::set<std::string>& taken) {
  std::string tried = name;
  for (int number = 2; !taken.insert(tried).second; ++number) tried = name + " (" + std::to_string(number) + ")";
  return tried;
}

void name_points(House& house) {
  std::map<std::uint64_t, std::set<std::string>> taken;
  for (Point& point : house.points) {
    const std::string name = label_name(point.name, kLongestPoint);
    point.name = not_taken(name.empty() ? kind_name(point.kind) : name, taken[point.room.value]);
    point.place = label_name(point.place, kLongestPoint);
  }
}

template <class Row>
void name_rows(std::vector<Row>& rows, std::size_t most, const char* other) {
  std::set<std::string> taken;
  for (Row& row : rows) {
    const std::string name = label_name(row.name, most);
    row.name = not_taken(name.empty() ? other : name, taken);
  }
}

}  // namespace

Record with_paper_names(const Record& record) {
  Record named = record;
  House& house = named.house;
  const RoomWords words = room_words(record.house);
  for (std::size_t p = 0; p < house.panels.size(); ++p) house.panels[p].name = panel_label(record.house, house.panels[p].id);
  for (std::size_t r = 0; r < house.rooms.size(); ++r) house.rooms[r].name = words.rooms[r];
  for (std::size_t f = 0; f < house.floors.size(); ++f) house.floors[f].name = words.floors[f], house.floors[f].building = label_name(house.floors[f].building, kLongestRoomWords);
  name_points(house);
  for (Load& load : house.loads) load.name = label_name(load.name, kLongestPoint);
  for (Box& box : house.boxes) box.name = label_name(box.name, kLongestPoint);
  for (Device& device : house.devices) device.name = label_name(device.name, kLongestPoint);
  for (Handle& handle : house.handles) handle.name = label_name(handle.name, kLongestPoint);
  for (Breaker& breaker : house.breakers) breaker.old_label.clear();
  for (Circuit& circuit : house.circuits) circuit.wire = label_name(circuit.wire, 12);
  name_rows(house.sources, kLongestRoomWords, "Source");
  name_rows(house.transfer_devices, kLongestRoomWords, "Transfer device");
  house.dwelling.name = label_name(house.dwelling.name, kLongestPoint);
  house.notes.clear(), house.settings.clear();
  return named;
}

}  // namespace ohmstead
