#include "rules/record_names.h"

#include <algorithm>

#include "house/index.h"
#include "house/numbering.h"
#include "rules/plain_words.h"
#include "rules/room_words.h"

namespace ohmstead {

std::string joined(const std::vector<std::string>& parts) {
  std::string text;
  for (std::size_t i = 0; i < parts.size(); ++i)
    text += (i == 0 ? "" : i + 1 == parts.size() ? " and " : ", ") + parts[i];
  return text;
}

std::string point_label(const House& house, std::size_t point) {
  const Room* room = find_row(house, house.points[point].room);
  return (room == nullptr ? "" : room->name + " ") + house.points[point].name;
}

/// Position k of a set carries leg k of the panel behind it (feed/graph.h): the poles of breakers, leg after leg.
std::vector<LineSide> line_side(const House& house, const Panel& panel) {
  std::vector<LineSide> taps;
  if (panel.supply == Supply::breaker) {
    const Breaker* feeder = find_row(house, panel.feeder);
    for (int pole = 1; feeder != nullptr && pole <= feeder->poles; ++pole) taps.push_back({pole, feeder->id, pole});
  }
  const Position* named = panel.supply == Supply::position ? find_row(house, panel.position) : nullptr;
  if (named == nullptr) return taps;
  for (const Position& position : house.positions)
    if ((position.id == named->id || (named->tie && position.tie == named->tie)) && position.breaker) taps.push_back({position.pole, position.breaker, position.pole});
  std::ranges::sort(taps, {}, &LineSide::hot);
  return taps;
}

std::string panel_label(const House& house, Id<Panel> panel) {
  const auto found = std::ranges::find(house.panels, panel, &Panel::id);
  if (found == house.panels.end()) return "a panel that is not recorded";
  const std::string name = label_name(found->name, kLongestRoomWords);
  const bool same = std::ranges::any_of(house.panels, [&](const Panel& other) { return other.id != panel && label_name(other.name, kLongestRoomWords) == name; });
  const std::string number = std::to_string(found - house.panels.begin() + 1);
  return name.empty() ? "Panel " + number : same ? name + " (" + number + ")" : name;
}

std::string breaker_label(const House& house, Id<Breaker> breaker) {
  const Breaker* found = find_row(house, breaker);
  const Panel* panel = found == nullptr ? nullptr : find_row(house, found->panel);
  return panel == nullptr ? "not recorded" : panel_label(house, panel->id) + " " + breaker_number(*panel, *found);
}

Id<Breaker> feeder_of(const House& house, const Panel& panel) {
  const std::vector<LineSide> above = line_side(house, panel);
  return above.empty() ? Id<Breaker>{} : above.front().breaker;
}

}  // namespace ohmstead
