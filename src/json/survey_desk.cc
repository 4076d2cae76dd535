#include "json/survey_desk.h"

#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>

#include "house/index.h"
#include "json/json_line.h"
#include "survey/kind_words.h"
#include "survey/tap_entry.h"

namespace ohmstead {

namespace {

using Json = SurveyDesk::Json;

/// What most rooms have, in the order in which a hand reaches for them.
constexpr std::array kTaps{"receptacle", "light", "GFCI receptacle", "light on switch", "split receptacle", "smoke alarm", "fan", "refrigerator", "freezer", "dishwasher", "disposal", "range",
                           "microwave", "range hood", "washer", "dryer", "water heater", "furnace", "well pump", "sump pump", "garage opener", "air conditioner", "baseboard heater", "television", "router",
                           "computer", "doorbell", "oxygen concentrator", "EV charger", "hot tub"};

/// "GFCI receptacle" is written 'gfci' in an entry line.
std::string items_of_tap(std::string_view tap) {
  if (tap == "GFCI receptacle") return "gfci";
  return std::string(tap);
}

/// A text as it is: a line of quick entry may be longer than a name.
std::string words_field(const Json& request, const char* name) {
  const auto found = request.find(name);
  if (found == request.end() || !found->is_string()) throw refused_line(std::string("The field '") + name + "' must be a text.");
  return found->get<std::string>();
}

Id<Floor> floor_field(const Json& request) { return has_field(request, "floor") ? Id<Floor>{id_field(request, "floor")} : Id<Floor>{}; }

Json rooms_json(const House& house) {
  Json rooms = Json::array();
  for (const Room& room : house.rooms) {
    const Floor& floor = row(house, room.floor);
    Json points = Json::array();
    for (const Point& point : house.points)
      if (point.room == room.id) points.push_back({{"id", point.id.text()}, {"name", point.name}, {"place", point.place}, {"kind", text_of(point.kind)}});
    const std::string usual = template_for_room(room.name);
    rooms.push_back({{"id", room.id.text()}, {"name", room.name}, {"floor", floor.name}, {"points", points}, {"usual", usual.empty() ? "" : "=" + usual}});
  }
  return rooms;
}

Json panels_json(const House& house) {
  Json panels = Json::array();
  for (const Panel& panel : house.panels) {
    const auto breakers = std::ranges::count_if(house.breakers, [&](const Breaker& breaker) { return breaker.panel == panel.id; });
    panels.push_back({{"id", panel.id.text()}, {"name", panel.name}, {"spaces", panel.spaces}, {"breakers", breakers}});
  }
  return panels;
}

}  // namespace

SurveyDesk::Change SurveyDesk::change(const House& house, const Json& request) const {
  const std::string what = text_field(request, "do");
  if (what == "room") return {with_room(house, floor_field(request), words_field(request, "name")), "A room was written down"};
  if (what == "items") return {with_items(house, {id_field(request, "room")}, words_field(request, "items")), "Written down in a room"};
  if (what == "panel") return {with_panel(house, words_field(request, "words")), "A panel was written down"};
  if (what == "breakers") return {with_breakers(house, {id_field(request, "panel")}, words_field(request, "items")), "Breakers were written down"};
  if (what == "name") return {with_name(house, {id_field(request, "point")}, text_field(request, "name"), text_field(request, "place")), "A point was named"};
  if (what == "enter") return {enter_text(house, words_field(request, "text")), "Written down"};
  if (what != "undo") throw refused_line("The field 'do' must be one of: room, items, panel, breakers, name, enter, undo.");
  if (done_.empty()) throw refused_line("There is nothing to take back.");
  return {{taken_back(house, done_.back().first, done_.back().second), {"The last thing was taken back."}}, "Took back what was written down", true};
}

void SurveyDesk::kept(const House& before, const Change& change) {
  if (change.takes_back) return done_.pop_back();
  if (done_.size() >= kMostTakenBack) done_.erase(done_.begin());
  done_.emplace_back(before, change.result.house);
}

Json SurveyDesk::now(const House& house) const {
  Json taps = Json::array(), floors = Json::array();
  for (const char* tap : kTaps) taps.push_back({{"name", tap}, {"items", items_of_tap(tap)}});
  for (const Floor& floor : house.floors) floors.push_back({{"id", floor.id.text()}, {"name", floor.building.empty() ? floor.name : floor.building + ", " + floor.name}});
  return {{"floors", floors}, {"rooms", rooms_json(house)}, {"panels", panels_json(house)}, {"taps", taps}, {"can_undo", can_take_back()}};
}

}  // namespace ohmstead
