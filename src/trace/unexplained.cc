#include "trace/unexplained.h"

#include <algorithm>

#include "house/index.h"
#include "house/walking.h"
#include "trace/manner.h"
#include "trace/step_text.h"

namespace ohmstead {

namespace {

std::string listed(const std::vector<std::string>& names) {
  std::string text;
  for (std::size_t i = 0; i < names.size(); ++i) text += (i == 0 ? "" : i + 1 == names.size() ? " and " : ", ") + names[i];
  return text;
}

/// "receptacle 1 and receptacle 2 in Garage, bench light in Workshop".
std::string named_by_room(const House& house, const std::vector<std::size_t>& group) {
  std::vector<Id<Room>> rooms;
  for (const std::size_t p : group)
    if (std::ranges::find(rooms, house.points[p].room) == rooms.end()) rooms.push_back(house.points[p].room);
  std::string text;
  for (const Id<Room> id : rooms) {
    std::vector<std::string> names;
    for (const std::size_t p : group)
      if (house.points[p].room == id) names.push_back(without_controls(house.points[p].name));
    const Room* room = find_row(house, id);
    text += (text.empty() ? "" : ", ") + listed(names) + (room == nullptr ? "" : " in " + without_controls(room->name));
  }
  return text;
}

}  // namespace

std::vector<std::vector<std::size_t>> unexplained_groups(const House& house, const Conclusions& conclusions) {
  std::vector<std::size_t> left;
  for (std::size_t p = 0; p < house.points.size(); ++p)
    if (const UnitConclusion& unit = conclusions.units[conclusions.readings.unit_of_point[p]]; unit.unexplained && !unit.dead_anyway) left.push_back(p);
  std::vector<std::vector<std::size_t>> groups;
  if (left.empty()) return groups;
  const auto walk = walking_seconds(house);
  const Index<Room> room_at(house.rooms);
  const auto close = [&](std::size_t a, std::size_t b) {
    const long from = room_at.at(house.points[a].room), to = room_at.at(house.points[b].room);
    return from == to || (from >= 0 && to >= 0 && walk[static_cast<std::size_t>(from)][static_cast<std::size_t>(to)] <= kCloseSeconds);
  };
  while (!left.empty()) {
    std::vector<std::size_t> group{left.front()};
    left.erase(left.begin());
    for (std::size_t i = 0; i < group.size(); ++i)
      for (std::size_t k = 0; k < left.size();)
        if (close(group[i], left[k])) group.push_back(left[k]), left.erase(left.begin() + static_cast<long>(k));
        else ++k;
    std::ranges::sort(group);
    groups.push_back(std::move(group));
  }
  return groups;
}

std::vector<std::string> unexplained_lines(const House& house, const Conclusions& conclusions) {
  const std::string hint = manner_of(house).at_once == 1 ? " Two at once can be found with more than one breaker off at a time." : "";
  std::vector<std::string> lines;
  for (const auto& group : unexplained_groups(house, conclusions))
    lines.push_back(group.size() == 1
                        ? point_name(house, house.points[group[0]].id) +
                              ": live whatever was off: nothing listed explains this. It may be fed by two breakers at once, by a breaker "
                              "that is not written down, or from a hidden panel." + hint
                        : "Nothing listed explains " + named_by_room(house, group) +
                              ": they were live whatever was off, and are close together. Look near them for a panel or a breaker that is not "
                              "written down; or two breakers feed them at once." + hint);
  return lines;
}

}  // namespace ohmstead
