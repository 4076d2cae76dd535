#include "rules/room_words.h"

#include <map>

#include "house/index.h"
#include "rules/plain_words.h"

namespace ohmstead {

namespace {

/// A name without persons and without what does not fit; `otherwise` when nothing is left.
std::string short_name(const std::string& name, const std::string& otherwise) {
  const std::string words = label_name(name, kLongestRoomWords);
  return words.empty() ? otherwise : words;
}

std::map<std::string, int> counted(const std::vector<std::string>& names) {
  std::map<std::string, int> times;
  for (const std::string& name : names) ++times[name];
  return times;
}

std::string floor_words(const Floor& floor, std::size_t place) {
  const std::string building = short_name(floor.building, "");
  const std::string name = short_name(floor.name, "floor " + std::to_string(place + 1));
  if (building.empty() || building == name) return name;
  const std::string both = building + " " + name;
  return character_count(both) <= kLongestRoomWords ? both : building;
}

/// Puts the floor before every name that more than one room has.
void add_floors(const House& house, RoomWords& words) {
  const auto times = counted(words.rooms);
  const Index<Floor> floor_at(house.floors);
  for (std::size_t i = 0; i < words.rooms.size(); ++i) {
    const long floor = floor_at.at(house.rooms[i].floor);
    if (floor < 0 || times.at(words.rooms[i]) < 2) continue;
    words.rooms[i] = words.floors[static_cast<std::size_t>(floor)] + " " + words.rooms[i];
  }
}

/// Numbers the names that are still shared, in the order of the record.
void add_numbers(std::vector<std::string>& names) {
  auto times = counted(names);
  std::map<std::string, int> given;
  for (std::string& name : names) {
    if (times[name] < 2) continue;
    std::string numbered;
    do numbered = name + " " + std::to_string(++given[name]);
    while (times.contains(numbered));
    name = numbered;
  }
}

}  // namespace

RoomWords room_words(const House& house) {
  RoomWords words;
  for (std::size_t i = 0; i < house.floors.size(); ++i) words.floors.push_back(floor_words(house.floors[i], i));
  for (std::size_t i = 0; i < house.rooms.size(); ++i)
    words.rooms.push_back(with_capital(short_name(house.rooms[i].name, "Room " + std::to_string(i + 1))));
  add_floors(house, words);
  add_numbers(words.rooms);
  return words;
}

}  // namespace ohmstead
