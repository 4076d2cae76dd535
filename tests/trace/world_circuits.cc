// Circuits of an invented house: what shares a breaker with what. Kitchen, bath, garage and outdoor
// receptacles are on 20 A, large loads on their own, lights of some rooms together, receptacles
// of one room together.

#include <algorithm>

#include "tests/trace/world_parts.h"

namespace ohmstead::test {

namespace {

/// Receptacles of living spaces.
constexpr std::initializer_list<const char*> kGeneral = {"receptacle", "split_upper", "split_lower"};
constexpr std::initializer_list<const char*> kLights = {"light", "fan"};
constexpr std::initializer_list<const char*> kLaundry = {"washer_receptacle", "laundry_receptacle", "gas_dryer_receptacle"};

}  // namespace

int WorldBuilder::wire(std::vector<int> points, int amps, int poles) {
  circuits_.push_back({poles, amps, {}});
  join(static_cast<int>(circuits_.size()) - 1, std::move(points));
  return static_cast<int>(circuits_.size()) - 1;
}

void WorldBuilder::join(int circuit, std::vector<int> points) {
  for (const int p : points) {
    circuits_[static_cast<std::size_t>(circuit)].points.push_back(p);
    wired_[static_cast<std::size_t>(p)] = true;
  }
}

/// Each point of these kinds on a breaker of its own.
void WorldBuilder::wire_each(std::initializer_list<const char*> kinds, const std::vector<int>& amps, int poles) {
  for (const int p : points_of(kinds)) wire({p}, chance_.any(amps), poles);
}

/// Some points on several breakers, each of which gets one at least.
void WorldBuilder::wire_in_parts(std::vector<int> points, int parts, int amps) {
  parts = std::min(parts, static_cast<int>(points.size()));
  if (parts == 0) return;
  chance_.shuffle(points);
  const int first = static_cast<int>(circuits_.size());
  for (int i = 0; i < parts; ++i) wire({points[static_cast<std::size_t>(i)]}, amps);
  for (std::size_t i = static_cast<std::size_t>(parts); i < points.size(); ++i) join(first + chance_.below(parts), {points[i]});
}

std::vector<int> WorldBuilder::points_in(const std::vector<int>& rooms, std::initializer_list<const char*> kinds) const {
  std::vector<int> found;
  for (const int r : rooms)
    for (const int p : points_of(kinds, r)) found.push_back(p);
  return found;
}

/// Up to `size` rooms of `open`, from `first` on: mostly through shared walls, now and then farther;
/// on one floor, or wherever with `any_floor`.
std::vector<int> WorldBuilder::grow(int first, int size, const std::set<int>& open, bool any_floor) {
  std::vector<int> rooms{first};
  while (static_cast<int>(rooms.size()) < size) {
    std::vector<int> next, anywhere;
    for (const int r : open) {
      if (std::ranges::find(rooms, r) != rooms.end() || (!any_floor && room(r).floor != room(first).floor)) continue;
      anywhere.push_back(r);
      if (std::ranges::any_of(rooms, [&](int have) { return share_a_wall(have, r); })) next.push_back(r);
    }
    if (anywhere.empty()) break;
    rooms.push_back(next.empty() || chance_.percent(15) ? chance_.any(anywhere) : chance_.any(next));
  }
  return rooms;
}

void WorldBuilder::ordinary_circuits() {
  own_circuits();
  kitchen_circuits();
  wet_circuits();
  mixed_circuits();
  receptacle_circuits();
  light_circuits();
  alarm_circuit();
}

void WorldBuilder::own_circuits() {
  wire_each({"dryer", "water_heater"}, {30}, 2), wire_each({"range"}, {40, 50}, 2), wire_each({"ac_condenser"}, {30, 40}, 2);
  wire_each({"air_handler"}, {60}, 2), wire_each({"well_pump"}, {20}, 2), wire_each({"ev_charger"}, {40, 50}, 2), wire_each({"hot_tub"}, {50}, 2);
  if (const auto heaters = points_of({"baseboard"}); !heaters.empty()) wire(heaters, 20, 2);
  wire_each({"furnace"}, {15, 20}), wire_each({"floor_heat", "attic_fan"}, {15}), wire_each({"sump_pump"}, {20});
  for (const int p : points_of({"freezer_receptacle"}))
    if (chance_.percent(92)) wire({p}, chance_.percent(70) ? 15 : 20);
}

void WorldBuilder::kitchen_circuits() {
  std::vector<int> counters = points_of({"counter_receptacle"});
  std::vector<int> halves = points_in(rooms_of("kitchen"), {"split_upper", "split_lower"});
  chance_.shuffle(counters);
  std::vector<int> circuits;
  if (!halves.empty() && chance_.percent(60)) {  // a multiwire pair with tied handles
    halves.push_back(counters.back()), counters.pop_back();
    circuits.push_back(wire(halves, 20, 2));
    halves.clear();
  }
  const int singles = std::max(1, (counters.size() > 3 && chance_.percent(48) ? 3 : 2) - static_cast<int>(circuits.size()));
  for (int i = 0; i < singles && !counters.empty(); ++i) circuits.push_back(wire({counters.back()}, 20)), counters.pop_back();
  for (const int p : counters) join(chance_.any(circuits), {p});
  for (const int p : halves) join(chance_.any(circuits), {p});
  const auto alone_or_joined = [&](const char* kind, int alone_percent, const std::vector<int>& amps) {
    for (const int p : points_of({kind})) {
      if (chance_.percent(alone_percent)) wire({p}, chance_.any(amps));
      else join(chance_.any(circuits), {p});
    }
  };
  if (chance_.percent(32)) {
    if (const auto both = points_of({"dishwasher", "disposal"}); !both.empty()) wire(both, chance_.percent(50) ? 15 : 20);
  }
  alone_or_joined("dishwasher", 100, {15, 20}), alone_or_joined("disposal", 50, {15, 20});
  alone_or_joined("fridge_receptacle", 44, {15, 15, 20}), alone_or_joined("microwave_receptacle", 62, {20});
  alone_or_joined("gas_range_igniter", 0, {20}), alone_or_joined("range_hood", 50, {15});
  if (chance_.percent(35)) join(chance_.any(circuits), points_in(rooms_of("dining"), kGeneral));
}

/// Baths, garage, outside, basement, laundry.
void WorldBuilder::wet_circuits() {
  const int baths = chance_.pick({38, 25, 22, 15});  // each its own; each with its lights; all together; with garage and outside
  if (baths <= 1)
    for (const int bath : rooms_of("bath")) {
      auto points = points_of({"bath_receptacle"}, bath);
      if (baths == 1) points = points_in({bath}, {"bath_receptacle", "light", "fan"});
      wire(points, 20);
    }
  else if (baths == 2) wire(points_of({"bath_receptacle"}), 20);
  if (chance_.percent(44)) wire_each({"opener_receptacle"}, {15});
  std::vector<int> garage = points_of({"garage_receptacle", "opener_receptacle"});
  const auto outside = points_of({"outdoor_receptacle"});
  if (!garage.empty() && chance_.percent(40)) {  // part of the garage by itself
    wire({garage.begin(), garage.begin() + 1 + chance_.below(2)}, 20);
    garage.erase(garage.begin(), garage.begin() + static_cast<long>(circuits_.back().points.size()));
  }
  auto together = points_of({"bath_receptacle"});
  together.insert(together.end(), garage.begin(), garage.end());
  const bool outside_alone = chance_.percent(baths == 3 ? 15 : 45);
  if (!outside_alone) together.insert(together.end(), outside.begin(), outside.end());
  for (const int p : points_of({"freezer_receptacle"})) together.push_back(p);
  if (!together.empty()) wire(together, 20);
  if (outside_alone) wire(outside, 20);
  if (!rooms_of("basement").empty()) {
    const int cellar = rooms_of("basement").front(), amps = chance_.percent(50) ? 15 : 20;
    if (chance_.percent(38)) wire(points_of({"basement_receptacle", "light"}, cellar), amps);
    else wire_in_parts(points_of({"basement_receptacle"}), chance_.percent(35) ? 2 : 1, amps);
  }
  wire_in_parts(points_of(kLaundry), chance_.percent(25) ? 2 : 1, 20);
}

/// Rooms whose lights are on the breaker of their receptacles.
void WorldBuilder::mixed_circuits() {
  const int share = chance_.between(18, 52);
  for (int r = 0; r < static_cast<int>(world_.rooms.size()); ++r) {
    if (points_of(kGeneral, r).empty() || room(r).type == "kitchen" || !chance_.percent(share)) continue;
    std::set<int> open;
    for (int other = 0; other < static_cast<int>(world_.rooms.size()); ++other)
      if (!points_of(kGeneral, other).empty() && room(other).type != "kitchen") open.insert(other);
    const auto rooms = grow(r, 1 + chance_.pick({75, 23, 2}), open, false);
    auto points = points_in(rooms, kGeneral);
    const auto lights = points_in(chance_.percent(80) ? rooms : std::vector<int>{r}, {"light"});
    points.insert(points.end(), lights.begin(), lights.end());
    wire(points, chance_.percent(65) ? 15 : 20);
  }
}

void WorldBuilder::receptacle_circuits() {
  std::set<int> open;
  for (int r = 0; r < static_cast<int>(world_.rooms.size()); ++r)
    if (!points_of(kGeneral, r).empty()) open.insert(r);
  while (!open.empty()) {
    const int r = chance_.any(std::vector<int>(open.begin(), open.end()));
    const auto rooms = grow(r, 1 + chance_.pick({82, 16, 2}), open, false);
    const std::string& type = room(r).type;
    const int in_two = type == "office" ? 60 : type == "living" || type == "family" ? 42 : 22;
    const int parts = rooms.size() == 1 && chance_.percent(in_two) ? 2 : 1;
    wire_in_parts(points_in(rooms, kGeneral), parts, chance_.percent(55) ? 15 : 20);
    for (const int wired : rooms) open.erase(wired);
  }
}

void WorldBuilder::light_circuits() {
  std::set<int> open;
  for (int r = 0; r < static_cast<int>(world_.rooms.size()); ++r)
    if (!points_of(kLights, r).empty()) open.insert(r);
  while (!open.empty()) {
    const int r = chance_.any(std::vector<int>(open.begin(), open.end()));
    const int size = 1 + chance_.pick({68, 95, 55, 26, 20, 9, 6, 4});
    const auto rooms = grow(r, size, open, chance_.percent(15));
    wire(points_in(rooms, kLights), chance_.percent(88) ? 15 : 20);
    for (const int wired : rooms) open.erase(wired);
  }
}

/// Alarms speak to each other, so all of them are on one breaker: their own, or one with lights.
void WorldBuilder::alarm_circuit() {
  const auto alarms = points_of({"smoke_alarm"});
  std::vector<int> with_lights;
  for (int c = 0; c < static_cast<int>(circuits_.size()); ++c) {
    const auto& points = circuits_[static_cast<std::size_t>(c)].points;
    if (std::ranges::any_of(points, [&](int p) { return point(p).kind == "light"; })) with_lights.push_back(c);
  }
  if (alarms.empty()) return;
  if (chance_.percent(30) || with_lights.empty()) wire(alarms, 15);
  else join(chance_.any(with_lights), alarms);
}

}  // namespace ohmstead::test
