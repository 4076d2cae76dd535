// Circuits of the kinds of houses that are not ordinary.

#include <algorithm>
#include <map>

#include "tests/trace/world_parts.h"

namespace ohmstead::test {

namespace {

constexpr std::initializer_list<const char*> kOrdinaryThings = {
    "light", "fan", "receptacle", "basement_receptacle", "outdoor_receptacle", "bath_receptacle", "smoke_alarm", "washer_receptacle"};

/// Receptacles that are on 20 A in any lawful house (as experience has it).
bool wants_20(const WorldPoint& point) {
  return point.kind == "counter_receptacle" || point.kind == "bath_receptacle" || point.kind == "garage_receptacle" ||
         point.kind == "outdoor_receptacle" || point.kind == "laundry_receptacle" || point.kind == "washer_receptacle" ||
         point.kind == "gas_dryer_receptacle";
}

/// May another point take its place on a breaker?
bool is_common(const WorldPoint& point) {
  return wants_20(point) || point.kind == "light" || point.kind == "fan" || point.kind == "receptacle" || point.kind == "basement_receptacle";
}

}  // namespace

/// Few breakers: large loads on their own, the kitchen's receptacles on one, and on each floor the
/// rest of up to four neighbouring rooms together.
void WorldBuilder::old_circuits() {
  while (world_.points.size() < 35) add_point(chance_.any(rooms_of(chance_.percent(50) ? "bedroom" : "living")), "receptacle");
  wire_each({"range"}, {40, 50}, 2), wire_each({"water_heater"}, {30}, 2), wire_each({"furnace"}, {15});
  wire(points_of({"counter_receptacle", "fridge_receptacle"}), 20);
  std::set<int> open;
  for (int r = 0; r < static_cast<int>(world_.rooms.size()); ++r) open.insert(r);
  while (!open.empty()) {
    const int r = *open.begin();
    std::set<int> floor;  // the basement goes with the ground floor
    for (const int other : open)
      if (std::max(0, room(other).floor) == std::max(0, room(r).floor)) floor.insert(other);
    const auto rooms = grow(r, circuits_.size() < 8 ? chance_.between(1, 3) : 4, floor, true);
    wire(points_in(rooms, kOrdinaryThings), chance_.percent(60) ? 15 : 20);
    for (const int wired : rooms) open.erase(wired);
  }
  while (circuits_.size() < 6) wire({}, 15);
}

/// Lights of some rooms on 6 or 10 A, socket outlets on 16 A, larger loads on their own.
void WorldBuilder::circuits_230() {
  wire_each({"oven"}, {32}), wire_each({"dishwasher", "washer_receptacle", "dryer_receptacle", "floor_heat"}, {16}), wire_each({"boiler"}, {6, 10});
  wire_in_parts(points_of({"counter_receptacle"}), 2, 16);
  for (const int p : points_of({"fridge_receptacle", "range_hood", "freezer_receptacle"})) {
    if (chance_.percent(35)) wire({p}, 16);
    else join(static_cast<int>(circuits_.size()) - 1, {p});
  }
  const auto by_rooms = [&](std::initializer_list<const char*> kinds, int most_rooms, const std::vector<int>& amps) {
    std::set<int> open;
    for (int r = 0; r < static_cast<int>(world_.rooms.size()); ++r)
      if (!points_of(kinds, r).empty()) open.insert(r);
    while (!open.empty()) {
      const int r = chance_.any(std::vector<int>(open.begin(), open.end()));
      const auto rooms = grow(r, chance_.between(1, most_rooms), open, false);
      wire(points_in(rooms, kinds), chance_.any(amps));
      for (const int wired : rooms) open.erase(wired);
    }
  };
  by_rooms({"receptacle", "bath_receptacle"}, 3, {16});
  by_rooms({"garage_receptacle", "opener_receptacle", "outdoor_receptacle", "basement_receptacle"}, 3, {16});
  by_rooms({"light", "fan", "smoke_alarm"}, 6, {6, 10});
}

/// Common points change places with others anywhere in the house; circuits keep their size. What
/// must be on 20 A stays there.
void WorldBuilder::mix_up_places() {
  std::vector<std::size_t> places_20, places;  // circuit of each place for a common point
  std::vector<int> hard, easy;
  for (std::size_t c = 0; c < circuits_.size(); ++c) {
    if (circuits_[c].poles > 1) continue;
    for (const int p : circuits_[c].points) {
      if (!is_common(point(p))) continue;
      (circuits_[c].amps == 20 ? places_20 : places).push_back(c);
      (wants_20(point(p)) ? hard : easy).push_back(p);
    }
    std::erase_if(circuits_[c].points, [&](int p) { return is_common(point(p)); });
  }
  chance_.shuffle(places_20), chance_.shuffle(hard);
  for (const int p : hard) circuits_[places_20.back()].points.push_back(p), places_20.pop_back();
  places.insert(places.end(), places_20.begin(), places_20.end());
  chance_.shuffle(places), chance_.shuffle(easy);
  for (std::size_t i = 0; i < easy.size(); ++i) circuits_[places[i]].points.push_back(easy[i]);
}

/// A subpanel in `room`, fed from the main panel, with the circuits that are nearest to it.
void WorldBuilder::add_subpanel(int room, int share_percent) {
  const int panel = static_cast<int>(world_.subpanels.size()) + 1;
  std::vector<std::pair<double, std::size_t>> nearest;
  for (std::size_t c = 0; c < circuits_.size(); ++c) {
    double seconds = 0;
    for (const int p : circuits_[c].points) {
      const auto from = static_cast<std::size_t>(point(p).room);
      seconds += world_.walk_s[from][static_cast<std::size_t>(room)] - world_.walk_s[from][static_cast<std::size_t>(world_.panel_room)];
    }
    if (!circuits_[c].points.empty() && circuits_[c].panel == 0 && circuits_[c].feeds_panel == 0)
      nearest.emplace_back(seconds / static_cast<double>(circuits_[c].points.size()), c);
  }
  std::ranges::sort(nearest);
  for (std::size_t i = 0; i < nearest.size() * static_cast<std::size_t>(share_percent) / 100; ++i) circuits_[nearest[i].second].panel = panel;
  circuits_.push_back({2, 60, {}, 0, panel});
  world_.subpanels.push_back({room, -1});
}

void WorldBuilder::tiny_house() {
  const int hall = add_room("Hall", "hall", 0), kitchen = add_room("Kitchen", "kitchen", 0), living = add_room("Living room", "living", 0);
  world_.panel_room = hall;
  walks();
  for (int i = 0; i < 4; ++i) wire({}, chance_.percent(50) ? 15 : 20);
  for (int i = chance_.between(4, 6); i > 0; --i) {
    const int r = chance_.any(std::vector<int>{hall, kitchen, living});
    const int p = add_point(r, chance_.percent(50) ? "light" : "receptacle");
    join(chance_.below(4), {p});
  }
}

/// A hundred rooms of ten points each; receptacles by room, lights by room or two.
void WorldBuilder::big_house() {
  many_rooms();
  for (int r = 0; r < static_cast<int>(world_.rooms.size()); ++r) {
    for (int i = 0; i < 10; ++i) add_point(r, i < 3 ? "light" : "receptacle");
    wire(points_of({"receptacle"}, r), chance_.percent(50) ? 15 : 20);
    const auto lights = points_of({"light"}, r);
    if (r < 94) wire(lights, 15);
    else join(2 * (r - 94) + 1, lights);
  }
  for (int i = 0; i < 4; ++i) wire({}, 15);
  add_subpanel(hall_of(1), 33), add_subpanel(hall_of(2), 50);
}

}  // namespace ohmstead::test
