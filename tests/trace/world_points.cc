// Points of an invented house: what stands in each room, and the loads of the whole house.

#include <algorithm>
#include <map>

#include "tests/trace/world_parts.h"

namespace ohmstead::test {

namespace {

/// What stands in every room of a type.
const std::map<std::string, std::vector<HowMany>>& room_lists() {
  static const std::map<std::string, std::vector<HowMany>> lists = {
      {"hall", {{"light", {0, 23, 29, 25, 14}}, {"receptacle", {0, 38, 38, 15}}, {"smoke_alarm", {0, 1}}}},
      {"kitchen", {{"light", {0, 0, 22, 30, 8}}, {"fridge_receptacle", {0, 1}}, {"counter_receptacle", {0, 0, 4, 6, 11, 11, 12, 16}}}},
      {"living", {{"light", {0, 24, 13, 19, 4}}, {"receptacle", {0, 0, 0, 0, 1, 5, 12, 15, 13, 6, 5, 2}}}},
      {"family", {{"light", {0, 13, 9, 6, 2}}, {"receptacle", {0, 0, 0, 0, 0, 3, 7, 7, 5, 5, 3}}}},
      {"office", {{"light", {0, 1}}, {"receptacle", {0, 0, 0, 0, 4, 3, 7, 7, 8, 2}}}},
      {"dining", {{"light", {0, 1}}, {"receptacle", {0, 0, 0, 5, 14, 4, 3}}}},
      {"entry", {{"light", {0, 15, 12, 1}}, {"receptacle", {0, 16, 8, 4}}}},
      {"bath", {{"light", {0, 50, 45, 12}}, {"fan", {24, 83}}, {"bath_receptacle", {0, 48, 59}}, {"floor_heat", {89, 18}}}},
      {"bedroom", {{"light", {0, 90, 75, 28}}, {"receptacle", {0, 0, 0, 8, 39, 59, 50, 21, 12, 4}}}},
      {"laundry", {{"light", {0, 1}}}},
      {"garage", {{"light", {0, 29, 15, 6}}, {"garage_receptacle", {0, 0, 8, 9, 19, 6, 6, 2}}, {"opener_receptacle", {0, 1}}, {"freezer_receptacle", {86, 14}}}},
      {"basement", {{"light", {0, 0, 4, 9, 13, 4, 2}}, {"basement_receptacle", {0, 0, 7, 4, 8, 5, 5, 2}}, {"smoke_alarm", {0, 1}}, {"freezer_receptacle", {47, 53}}, {"sump_pump", {66, 34}}}},
      {"outdoor", {{"light", {0, 0, 15, 21, 20, 4}}, {"outdoor_receptacle", {0, 0, 32, 28}}, {"ac_condenser", {28, 72}}, {"hot_tub", {95, 5}}}}};
  return lists;
}

/// The same in an old house, which has less of everything.
const std::map<std::string, std::vector<HowMany>>& old_lists() {
  static const std::map<std::string, std::vector<HowMany>> lists = {
      {"hall", {{"light", {0, 1, 1}}, {"receptacle", {0, 2, 1}}}},
      {"kitchen", {{"light", {0, 2, 1}}, {"fridge_receptacle", {0, 1}}, {"counter_receptacle", {0, 0, 1, 2, 1}}}},
      {"living", {{"light", {0, 2, 1}}, {"receptacle", {0, 0, 0, 1, 2, 1}}}},
      {"dining", {{"light", {0, 1}}, {"receptacle", {0, 0, 1, 1}}}},
      {"bath", {{"light", {0, 2, 1}}, {"bath_receptacle", {0, 1}}}},
      {"bedroom", {{"light", {0, 3, 1}}, {"receptacle", {0, 0, 1, 2, 1}}}},
      {"basement", {{"light", {0, 0, 1, 1}}, {"basement_receptacle", {0, 1, 1}}, {"furnace", {1, 3}}, {"washer_receptacle", {0, 1}}}},
      {"outdoor", {{"light", {0, 1, 1}}, {"outdoor_receptacle", {0, 1, 1}}}}};
  return lists;
}

/// The same where the mains is 230 V: no loads between two legs.
const std::map<std::string, std::vector<HowMany>>& lists_230() {
  static const std::map<std::string, std::vector<HowMany>> lists = [] {
    auto all = room_lists();
    all["kitchen"] = {{"light", {0, 1, 2, 1}}, {"fridge_receptacle", {0, 1}}, {"counter_receptacle", {0, 0, 0, 1, 2, 2, 1}}, {"dishwasher", {1, 3}}, {"oven", {0, 1}}, {"range_hood", {1, 1}}};
    all["garage"] = {{"light", {0, 1, 1}}, {"garage_receptacle", {0, 0, 1, 1, 1}}, {"opener_receptacle", {1, 1}}, {"freezer_receptacle", {2, 1}}};
    all["basement"] = {{"light", {0, 0, 1, 2, 1}}, {"basement_receptacle", {0, 1, 2, 1}}, {"boiler", {0, 1}}, {"freezer_receptacle", {1, 1}}, {"washer_receptacle", {0, 1}}};
    all["laundry"] = {{"light", {0, 1}}, {"washer_receptacle", {0, 1}}, {"dryer_receptacle", {1, 1}}};
    all["outdoor"] = {{"light", {0, 1, 2, 1}}, {"outdoor_receptacle", {0, 2, 1}}};
    return all;
  }();
  return lists;
}

bool among(const std::string& kind, std::initializer_list<const char*> kinds) {
  return std::ranges::any_of(kinds, [&](const char* one) { return kind == one; });
}

PointClass class_of(const std::string& kind) {
  if (among(kind, {"light", "fan"})) return PointClass::light;
  if (kind == "smoke_alarm") return PointClass::smoke_alarm;
  if (kind.ends_with("receptacle") || kind.starts_with("split_")) return PointClass::receptacle;
  if (among(kind, {"ac_condenser", "water_heater", "range", "dryer", "baseboard", "air_handler", "well_pump", "ev_charger", "hot_tub"}))
    return PointClass::two_hots;
  return PointClass::appliance;
}

/// Seconds of one look: 2 where it is seen at a glance, 8 with a tester at a receptacle, 15 hard-wired.
double look_seconds_of(const std::string& kind) {
  if (among(kind, {"microwave_receptacle", "fridge_receptacle", "opener_receptacle", "freezer_receptacle", "gas_range_igniter",
                   "range_hood", "range", "oven", "ev_charger"})) return 2;
  const PointClass is = class_of(kind);
  return is == PointClass::light || is == PointClass::smoke_alarm ? 2 : is == PointClass::receptacle ? 8 : 15;
}

}  // namespace

int WorldBuilder::add_point(int room, const std::string& kind) {
  WorldPoint made{room, class_of(kind), kind, volts_to_neutral(world_.system), look_seconds_of(kind)};
  if (made.is == PointClass::two_hots) {
    if (const int volts = volts_between_legs(world_.system); volts > 0) made.volts = volts;
    else made.is = PointClass::appliance;
  }
  world_.points.push_back(made);
  wired_.push_back(false);
  return static_cast<int>(world_.points.size()) - 1;
}

void WorldBuilder::add_split(int room) {
  const int upper = add_point(room, "split_upper"), lower = add_point(room, "split_lower");
  point(upper).mate = lower, point(lower).mate = upper;
}

void WorldBuilder::points_by(const std::vector<HowMany>& list, int room) {
  for (const HowMany& some : list)
    for (int i = chance_.pick(some.weights); i > 0; --i) add_point(room, some.kind);
}

std::vector<int> WorldBuilder::points_of(std::initializer_list<const char*> kinds, int room) const {
  std::vector<int> found;
  for (int p = 0; p < static_cast<int>(world_.points.size()); ++p)
    if (!wired_[static_cast<std::size_t>(p)] && (room < 0 || point(p).room == room) && among(point(p).kind, kinds)) found.push_back(p);
  return found;
}

void WorldBuilder::ordinary_points() {
  const bool small = world_.kind == WorldKind::few_circuits, european = world_.kind == WorldKind::single_phase_230;
  const auto& lists = small ? old_lists() : european ? lists_230() : room_lists();
  const bool alarms_in_bedrooms = !small && chance_.percent(62), electric_heat = !small && !european && chance_.percent(10);
  for (int r = 0; r < static_cast<int>(world_.rooms.size()); ++r) {
    const std::string& type = room(r).type;
    points_by(lists.at(type), r);
    if (type == "bedroom" && alarms_in_bedrooms) add_point(r, "smoke_alarm");
    if (type == "bedroom" && electric_heat) add_point(r, "baseboard");
    if (!small && !european && chance_.percent(type == "living" ? 25 : type == "bedroom" ? 19 : 0)) add_split(r);
  }
  if (european && rooms_of("basement").empty()) add_point(rooms_of("kitchen").front(), "boiler");
  if (european && points_of({"washer_receptacle"}).empty()) add_point(rooms_of("bath").front(), "washer_receptacle");
  if (small) {
    if (chance_.percent(50)) add_point(rooms_of("kitchen").front(), "range");
    if (chance_.percent(40)) add_point(world_.panel_room, "water_heater");
  } else if (!european) {
    kitchen_points(), big_loads();
  }
}

void WorldBuilder::kitchen_points() {
  const int kitchen = rooms_of("kitchen").front();
  add_point(kitchen, chance_.percent(58) ? "range" : "gas_range_igniter");
  if (chance_.percent(78)) add_point(kitchen, "microwave_receptacle");
  if (chance_.percent(92)) add_point(kitchen, "dishwasher");
  if (chance_.percent(58)) add_point(kitchen, "disposal");
  if (chance_.percent(32)) add_point(kitchen, "range_hood");
  if (chance_.percent(18))
    for (int i = chance_.between(1, 2); i > 0; --i) add_split(kitchen);
}

/// Laundry, heating, water and what else a house has one of, in the room where it mostly stands.
void WorldBuilder::big_loads() {
  const auto first_of = [&](std::initializer_list<const char*> types) {
    for (const char* type : types)
      if (const auto rooms = rooms_of(type); !rooms.empty()) return rooms.front();
    return 0;
  };
  const int laundry = first_of({"laundry", "basement", "garage"}), cellar = first_of({"basement", "garage"});
  add_point(laundry, "washer_receptacle");
  add_point(laundry, chance_.percent(58) ? "dryer" : "gas_dryer_receptacle");
  if (chance_.percent(53)) add_point(laundry, "laundry_receptacle");
  add_point(cellar, chance_.percent(72) ? "furnace" : "air_handler");
  if (chance_.percent(60)) add_point(cellar, "water_heater");
  if (chance_.percent(15)) add_point(cellar, "well_pump");
  if (const auto garage = rooms_of("garage"); !garage.empty() && chance_.percent(14)) add_point(garage.front(), "ev_charger");
  if (chance_.percent(23)) add_point(hall_of(world_.floors - 1), "attic_fan");
}

}  // namespace ohmstead::test
