#include "tests/trace/world_house.h"

#include <algorithm>
#include <cmath>

namespace ohmstead::test {

namespace {

PointKind kind_of(PointClass is) {
  switch (is) {
    case PointClass::light: return PointKind::light;
    case PointClass::receptacle: return PointKind::receptacle;
    case PointClass::smoke_alarm: return PointKind::alarm;
    case PointClass::appliance:
    case PointClass::two_hots: break;
  }
  return PointKind::appliance;
}

void add_rooms(HouseMaker& made, const World& world) {
  House& house = made.house;
  house.rooms.clear(), house.floors.clear();
  for (const WorldRoom& room : world.rooms) {
    auto floor = std::ranges::find(house.floors, room.floor, &Floor::level);
    if (floor == house.floors.end())
      floor = house.floors.insert(house.floors.end(), {Id<Floor>::fresh(), "Floor " + std::to_string(room.floor), "", room.floor});
    house.rooms.push_back({Id<Room>::fresh(), floor->id, room.name});
  }
  for (std::size_t a = 0; a < house.rooms.size(); ++a)
    for (std::size_t b = 0; b < a; ++b)
      house.walks.push_back({Id<Walk>::fresh(), house.rooms[a].id, house.rooms[b].id, static_cast<int>(std::lround(world.walk_s[a][b]))});
}

/// Slots are numbered down one column.
void add_panels(HouseMaker& made, const World& world) {
  House& house = made.house;
  house.panels[0].room = house.rooms[static_cast<std::size_t>(world.panel_room)].id;
  for (std::size_t i = 0; i < world.subpanels.size(); ++i)
    house.panels.push_back({Id<Panel>::fresh(), "Subpanel " + std::to_string(i + 1), house.rooms[static_cast<std::size_t>(world.subpanels[i].room)].id,
                            1, Numbering::single_column, Supply::breaker});
  for (const WorldBreaker& breaker : world.breakers) {
    made.add_breaker(breaker.slot, breaker.poles, breaker.amps, breaker.label);
    Panel& panel = house.panels[static_cast<std::size_t>(breaker.panel)];
    house.breakers.back().panel = panel.id;
    if (breaker.only_alone) house.breakers.back().open_rule = OpenRule::briefly_alone;
    panel.spaces = std::max(panel.spaces, breaker.slot + breaker.poles - 1);
  }
  for (std::size_t i = 0; i < world.subpanels.size(); ++i)
    house.panels[i + 1].feeder = house.breakers[static_cast<std::size_t>(world.subpanels[i].fed_by)].id;
}

void add_points(HouseMaker& made, const World& world) {
  for (std::size_t i = 0; i < world.points.size(); ++i) {
    const WorldPoint& point = world.points[i];
    const int hots = point.is == PointClass::two_hots ? 2 : 1;
    std::vector<Tap> feed;
    for (int hot = 1; hot <= hots && point.breaker >= 0; ++hot)
      feed.push_back({hot, made.house.breakers[static_cast<std::size_t>(point.breaker)].id, hot});
    made.add_point(made.house.rooms[static_cast<std::size_t>(point.room)].id, point.kind + " " + std::to_string(i), feed, hots, kind_of(point.is));
    made.truth.at_start[i] = point.at_start;
  }
  for (std::size_t i = 0; i < world.points.size(); ++i) {
    if (world.points[i].mate < 0) continue;
    const auto mate = static_cast<std::size_t>(world.points[i].mate);
    made.house.points[i].half = i < mate ? ReceptacleHalf::upper : ReceptacleHalf::lower;
    made.house.points[i].mate = made.house.points[mate].id;
  }
}

}  // namespace

HouseMaker house_of(const World& world) {
  HouseMaker made(1);
  made.house.dwelling.system = world.system;
  made.house.panels[0].numbering = Numbering::single_column;
  add_rooms(made, world), add_panels(made, world), add_points(made, world);
  return made;
}

}  // namespace ohmstead::test
