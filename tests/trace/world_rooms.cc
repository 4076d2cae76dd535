// Rooms of an invented house, and the walks between them: every room has a door to the hall of its
// floor, some have a door to the next room, halls are joined by stairs.

#include <algorithm>

#include "tests/trace/world_parts.h"

namespace ohmstead::test {

namespace {

constexpr double kNoWay = 1e6;

}  // namespace

int WorldBuilder::add_room(const std::string& name, const std::string& type, int floor) {
  world_.rooms.push_back({name, type, floor});
  return static_cast<int>(world_.rooms.size()) - 1;
}

std::vector<int> WorldBuilder::rooms_of(const std::string& type) const {
  std::vector<int> found;
  for (std::size_t r = 0; r < world_.rooms.size(); ++r)
    if (world_.rooms[r].type == type) found.push_back(static_cast<int>(r));
  return found;
}

/// The hall of a floor; a basement has none, one comes to it from the ground floor's.
int WorldBuilder::hall_of(int floor) const {
  for (const int hall : rooms_of("hall"))
    if (room(hall).floor == std::max(floor, 0)) return hall;
  return 0;
}

/// "Bath" if there is one, else "Bath 1", "Bath 2", ...
void WorldBuilder::name_by_number(const std::string& type, const std::string& name) {
  const auto rooms = rooms_of(type);
  for (std::size_t i = 0; i < rooms.size(); ++i)
    world_.rooms[static_cast<std::size_t>(rooms[i])].name = rooms.size() == 1 ? name : name + " " + std::to_string(i + 1);
}

void WorldBuilder::ordinary_rooms() {
  const int storeys = world_.floors = 1 + chance_.pick({55, 38, 7});
  const char* const upper[] = {"", "Hall up", "Hall 3rd floor"};
  for (int floor = 0; floor < storeys; ++floor)
    add_room(storeys == 1 ? "Hall" : floor == 0 ? "Hall down" : storeys == 3 && floor == 1 ? "Hall 2nd floor" : upper[floor], "hall", floor);
  const auto upstairs = [&](int share) { return storeys > 1 && chance_.percent(share) ? chance_.between(1, storeys - 1) : 0; };
  add_room("Kitchen", "kitchen", 0), add_room("Living room", "living", 0);
  const int baths = 1 + chance_.pick({38, 45, 17}), bedrooms = 2 + chance_.pick({20, 43, 32, 5});
  for (int i = 0; i < baths; ++i) add_room("Bath", "bath", upstairs(i == 0 ? 75 : 15));
  for (int i = 0; i < bedrooms; ++i) add_room("Bedroom", "bedroom", upstairs(95));
  for (int i = chance_.pick({50, 46, 4}); i > 0; --i) add_room("Office", "office", upstairs(45));
  if (chance_.percent(46)) add_room("Family room", "family", 0);
  const bool laundry = chance_.percent(48);
  if (laundry) add_room("Laundry", "laundry", upstairs(35));
  if (chance_.percent(48)) add_room("Entry", "entry", 0);
  if (chance_.percent(43)) add_room("Dining room", "dining", 0);
  const bool basement = chance_.percent(53), garage = !basement || chance_.percent(70);
  if (garage) add_room("Garage", "garage", 0);
  if (basement) add_room("Basement", "basement", -1);
  add_room("Outside", "outdoor", 0);
  name_by_number("bath", "Bath"), name_by_number("bedroom", "Bedroom"), name_by_number("office", "Office");
  world_.panel_room = rooms_of(garage && (!basement || chance_.percent(50)) ? "garage" : "basement").front();
  walks();
}

void WorldBuilder::old_rooms() {
  const int storeys = world_.floors = 1 + chance_.pick({50, 50});
  add_room(storeys == 1 ? "Hall" : "Hall down", "hall", 0);
  if (storeys > 1) add_room("Hall up", "hall", 1);
  add_room("Kitchen", "kitchen", 0), add_room("Living room", "living", 0);
  add_room("Bath", "bath", storeys - 1);
  for (int i = chance_.between(2, 3); i > 0; --i) add_room("Bedroom", "bedroom", storeys - 1);
  if (chance_.percent(60)) add_room("Dining room", "dining", 0);
  world_.panel_room = chance_.percent(60) ? add_room("Basement", "basement", -1) : 0;
  add_room("Outside", "outdoor", 0);
  name_by_number("bedroom", "Bedroom");
  walks();
}

void WorldBuilder::many_rooms() {
  world_.floors = 3;
  for (int floor = 0; floor < 3; ++floor) add_room("Hall " + std::to_string(floor + 1), "hall", floor);
  for (int i = 0; i < 97; ++i) add_room("Office", "office", i % 3);
  name_by_number("office", "Office");
  walks();
}

void WorldBuilder::link(int a, int b, double seconds, bool wall) {
  const auto from = static_cast<std::size_t>(a), to = static_cast<std::size_t>(b);
  if (seconds < world_.walk_s[from][to]) world_.walk_s[from][to] = world_.walk_s[to][from] = seconds;
  if (wall && !share_a_wall(a, b)) world_.adjacent.emplace_back(std::min(a, b), std::max(a, b));
}

bool WorldBuilder::share_a_wall(int a, int b) const {
  return std::ranges::find(world_.adjacent, std::pair{std::min(a, b), std::max(a, b)}) != world_.adjacent.end();
}

void WorldBuilder::walks() {
  const auto n = world_.rooms.size();
  world_.walk_s.assign(n, std::vector<double>(n, kNoWay));
  for (std::size_t r = 0; r < n; ++r) world_.walk_s[r][r] = 0;
  const auto half_seconds = [&](int low, int high) { return chance_.between(low, high) / 2.0; };
  for (int r = 0; r < static_cast<int>(n); ++r) {
    const std::string& type = room(r).type;
    if (type == "hall" && room(r).floor > 0) link(r, hall_of(room(r).floor - 1), half_seconds(17, 22), false);
    else if (type == "basement") link(r, hall_of(0), half_seconds(20, 28));
    else if (type == "garage") link(r, hall_of(0), half_seconds(16, 21));
    else if (type == "outdoor") {
      link(r, rooms_of("kitchen").front(), half_seconds(20, 30));
      if (const auto garage = rooms_of("garage"); !garage.empty()) link(r, garage.front(), half_seconds(16, 24));
    } else if (type != "hall") link(r, hall_of(room(r).floor), half_seconds(6, 13));
  }
  const std::pair<const char*, const char*> doors[] = {{"kitchen", "dining"}, {"kitchen", "family"}, {"kitchen", "living"},
                                                       {"dining", "living"}, {"family", "living"}, {"entry", "living"}};
  for (const auto& [a, b] : doors)
    for (const int from : rooms_of(a))
      for (const int to : rooms_of(b))
        if (room(from).floor == room(to).floor && chance_.percent(60)) link(from, to, half_seconds(6, 11));
  for (int floor = 0; floor < world_.floors; ++floor) {  // round the hall, each room has a wall with the next
    std::vector<int> ring;
    for (int r = 0; r < static_cast<int>(n); ++r)
      if (room(r).floor == floor && room(r).type != "hall" && room(r).type != "outdoor" && room(r).type != "garage") ring.push_back(r);
    chance_.shuffle(ring);
    for (std::size_t i = 1; i < ring.size(); ++i)
      if (chance_.percent(80)) link(ring[i - 1], ring[i], kNoWay);
  }
  for (std::size_t k = 0; k < n; ++k)
    for (std::size_t a = 0; a < n; ++a)
      for (std::size_t b = 0; b < n; ++b)
        world_.walk_s[a][b] = std::min(world_.walk_s[a][b], world_.walk_s[a][k] + world_.walk_s[k][b]);
}

}  // namespace ohmstead::test
