#include "tests/trace/world.h"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <set>

#include "house/error.h"

namespace ohmstead::test {

namespace {

using Json = nlohmann::json;

bool within(int place, std::size_t size) { return place >= 0 && static_cast<std::size_t>(place) < size; }

const WorldBreaker& breaker_at(const World& world, int breaker) { return world.breakers[static_cast<std::size_t>(breaker)]; }

std::string fault_of_rooms(const World& world) {
  const std::size_t n = world.rooms.size();
  if (!within(world.panel_room, n)) return "The main panel is in a room that is not there";
  if (world.walk_s.size() != n) return "The table of walks has not one row for each room";
  for (std::size_t a = 0; a < n; ++a) {
    if (world.walk_s[a].size() != n) return "A row of the table of walks has not one time for each room";
    if (world.walk_s[a][a] != 0) return "A walk from a room to itself takes time";
  }
  for (std::size_t a = 0; a < n; ++a)
    for (std::size_t b = 0; b < n; ++b) {
      if (world.walk_s[a][b] < 0 || world.walk_s[a][b] != world.walk_s[b][a]) return "A walk takes another time the other way";
      for (std::size_t c = 0; c < n; ++c)
        if (world.walk_s[a][c] + world.walk_s[c][b] < world.walk_s[a][b] - 1e-9) return "A walk is longer than the way through another room";
    }
  for (const auto& [a, b] : world.adjacent)
    if (!within(a, n) || !within(b, n) || a == b) return "A wall is shared with a room that is not there";
  return "";
}

std::string fault_of_panels(const World& world) {
  for (std::size_t i = 0; i < world.subpanels.size(); ++i) {
    if (!within(world.subpanels[i].room, world.rooms.size())) return "A subpanel is in a room that is not there";
    if (!within(world.subpanels[i].fed_by, world.breakers.size())) return "A subpanel is fed by a breaker that is not there";
    if (breaker_at(world, world.subpanels[i].fed_by).panel > static_cast<int>(i)) return "A subpanel feeds itself";
  }
  std::set<std::pair<int, int>> taken;
  for (const WorldBreaker& breaker : world.breakers) {
    if (!within(breaker.panel, world.subpanels.size() + 1)) return "A breaker is in a panel that is not there";
    if (breaker.poles < 1 || breaker.poles > leg_count(world.system)) return "A breaker has more poles than there are legs";
    if (breaker.amps <= 0 || breaker.slot < 1) return "A breaker has no rating or no slot";
    for (int pole = 0; pole < breaker.poles; ++pole)
      if (!taken.emplace(breaker.panel, breaker.slot + pole).second) return "Two breakers are in one slot";
    if (breaker.label.empty() != (breaker.label_status == LabelStatus::none)) return "A breaker's label and what is said of it do not agree";
  }
  return "";
}

std::string fault_of_point(const World& world, std::size_t i) {
  const WorldPoint& point = world.points[i];
  if (!within(point.room, world.rooms.size())) return "is in a room that is not there";
  if (point.kind.empty() || point.check_s <= 0) return "has no kind, or a look at it takes no time";
  if ((point.is == PointClass::two_hots) != (point.volts == volts_between_legs(world.system) && point.volts != 0))
    return "is called 240v and has not the volts between two legs, or the other way round";
  if (point.mate != -1 && (!within(point.mate, world.points.size()) || point.mate == static_cast<int>(i) ||
                           world.points[static_cast<std::size_t>(point.mate)].mate != static_cast<int>(i) ||
                           world.points[static_cast<std::size_t>(point.mate)].room != point.room))
    return "is half of a split receptacle whose other half does not say so";
  if (point.breaker == -1) return "";
  if (!within(point.breaker, world.breakers.size())) return "is fed by a breaker that is not there";
  if (is_feeder(world, point.breaker)) return "is fed by a breaker that feeds a subpanel";
  if (point.is == PointClass::two_hots && breaker_at(world, point.breaker).poles < 2) return "needs two hots and is on one pole";
  return "";
}

LabelStatus status_in(const Json& truth, std::size_t breaker, const std::string& label) {
  if (label.empty()) return LabelStatus::none;
  if (!truth.contains("label_status")) return LabelStatus::right;
  const auto status = parse_enum<LabelStatus>(truth.at("label_status").at(breaker).get<std::string>());
  return status.value_or(LabelStatus::right);
}

/// The enumerator of a word; `left_out` when the field is missing.
template <class E>
E word_in(const Json& json, const char* field, E left_out) {
  if (!json.contains(field)) return left_out;
  const auto word = json.at(field).get<std::string>();
  if (const auto value = parse_enum<E>(word)) return *value;
  throw Error(ErrorKind::invalid_input, "'" + word + "' is no word for '" + field + "'");
}

WorldPoint read_point(const Json& json, const Json& truth, std::size_t i) {
  WorldPoint point{json.at("room"), word_in(json, "class", PointClass::receptacle), json.at("kind"), json.at("volts"), json.at("check_s"),
                   json.value("mate", -1)};
  point.breaker = truth.at("breaker_of_point").at(i);
  const int at_start = truth.at("dead_at_start").at(i);
  if (at_start < 0 || at_start > 2) throw Error(ErrorKind::invalid_input, "'dead_at_start' is 0, 1 or 2");
  point.at_start = static_cast<AtStart>(at_start);
  point.stray = truth.at("stray").at(i).get<int>() != 0;
  return point;
}

World read_fields(const Json& json) {
  World world;
  world.seed = json.at("seed");
  world.kind = word_in(json, "kind", WorldKind::ordinary);
  world.system = word_in(json, "system", VoltageSystem::split_phase_120_240);
  world.floors = json.at("floors"), world.panel_room = json.at("panel_room");
  for (const Json& room : json.at("rooms")) world.rooms.push_back({room.at("name"), room.at("type"), room.at("floor")});
  world.walk_s = json.at("walk_s"), world.adjacent = json.at("adjacent");
  if (json.contains("subpanels"))
    for (const Json& panel : json.at("subpanels")) world.subpanels.push_back({panel.at("room"), panel.at("fed_by")});
  for (const Json& breaker : json.at("breakers")) {
    const std::string label = breaker.at("label").is_null() ? "" : breaker.at("label").get<std::string>();
    world.breakers.push_back({breaker.at("slot"), breaker.at("poles"), breaker.at("amps"), breaker.at("only_alone"), label,
                              breaker.value("panel", 0), status_in(json.at("truth"), world.breakers.size(), label)});
  }
  for (const Json& point : json.at("points"))
    world.points.push_back(read_point(point, json.at("truth"), world.points.size()));
  return world;
}

}  // namespace

int panel_room_of(const World& world, int breaker) {
  const int panel = breaker_at(world, breaker).panel;
  return panel == 0 ? world.panel_room : world.subpanels[static_cast<std::size_t>(panel) - 1].room;
}

bool is_feeder(const World& world, int breaker) {
  return std::ranges::any_of(world.subpanels, [&](const Subpanel& panel) { return panel.fed_by == breaker; });
}

bool goes_dead_with(const World& world, const WorldPoint& point, int breaker) {
  for (int above = point.breaker; above >= 0;) {
    if (above == breaker) return true;
    const int panel = breaker_at(world, above).panel;
    above = panel == 0 ? -1 : world.subpanels[static_cast<std::size_t>(panel) - 1].fed_by;
  }
  return false;
}

std::string fault_of(const World& world) {
  if (std::string fault = fault_of_rooms(world); !fault.empty()) return fault + ".";
  if (std::string fault = fault_of_panels(world); !fault.empty()) return fault + ".";
  for (std::size_t i = 0; i < world.points.size(); ++i)
    if (const std::string fault = fault_of_point(world, i); !fault.empty()) return "Point " + std::to_string(i) + " " + fault + ".";
  return "";
}

World read_world(const Json& json) {
  World world;
  try {
    world = read_fields(json);
  } catch (const std::exception& e) {  // of JSON, or a word of ours
    throw Error(ErrorKind::invalid_input, std::string("A house of the file cannot be read: ") + e.what() +
                                              ". tests/trace/world.h lists the fields of a house.");
  }
  if (const std::string fault = fault_of(world); !fault.empty())
    throw Error(ErrorKind::invalid_input, "House " + std::to_string(world.seed) + " cannot be: " + fault);
  return world;
}

Json write_world(const World& world) {
  Json rooms = Json::array(), subpanels = Json::array(), breakers = Json::array(), points = Json::array();
  Json truth = {{"breaker_of_point", Json::array()}, {"dead_at_start", Json::array()}, {"stray", Json::array()}, {"label_status", Json::array()}};
  for (const WorldRoom& room : world.rooms)
    rooms.push_back({{"id", rooms.size()}, {"name", room.name}, {"type", room.type}, {"floor", room.floor}});
  for (const Subpanel& panel : world.subpanels) subpanels.push_back({{"room", panel.room}, {"fed_by", panel.fed_by}});
  for (const WorldBreaker& breaker : world.breakers) {
    breakers.push_back({{"id", breakers.size()}, {"slot", breaker.slot}, {"poles", breaker.poles}, {"amps", breaker.amps},
                        {"only_alone", breaker.only_alone}, {"label", breaker.label.empty() ? Json(nullptr) : Json(breaker.label)}});
    if (breaker.panel != 0) breakers.back()["panel"] = breaker.panel;
    truth["label_status"].push_back(text_of(breaker.label_status));
  }
  for (const WorldPoint& point : world.points) {
    points.push_back({{"id", points.size()}, {"room", point.room}, {"class", text_of(point.is)}, {"kind", point.kind},
                      {"volts", point.volts}, {"check_s", point.check_s}});
    if (point.mate != -1) points.back()["mate"] = point.mate;
    truth["breaker_of_point"].push_back(point.breaker);
    truth["dead_at_start"].push_back(static_cast<int>(point.at_start));
    truth["stray"].push_back(point.stray ? 1 : 0);
  }
  return {{"seed", world.seed}, {"kind", text_of(world.kind)}, {"system", text_of(world.system)}, {"floors", world.floors},
          {"panel_room", world.panel_room}, {"rooms", rooms}, {"walk_s", world.walk_s}, {"adjacent", world.adjacent},
          {"subpanels", subpanels}, {"breakers", breakers}, {"points", points}, {"truth", truth}};
}

std::vector<World> read_worlds(std::string_view text, const std::string& name) {
  const Json all = Json::parse(text, nullptr, false);
  if (!all.is_array())
    throw Error(ErrorKind::invalid_input, "'" + name + "' is no list of houses: it must be one JSON array.");
  std::vector<World> worlds;
  for (const Json& one : all) worlds.push_back(read_world(one));
  return worlds;
}

std::string write_worlds(std::span<const World> worlds) {
  std::string text = "[";
  for (const World& world : worlds) text += (text.size() > 1 ? ",\n" : "\n") + write_world(world).dump();
  return text + "\n]\n";
}

}  // namespace ohmstead::test
