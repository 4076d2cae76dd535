#include "tests/print/house_maker.h"

#include <algorithm>

namespace ohmstead::test {

HouseMaker::HouseMaker() { house.dwelling = {next<Dwelling>(), "Example", VoltageSystem::split_phase_120_240}; }

Id<Floor> HouseMaker::floor(const std::string& name, int level) { return add(house.floors, Floor{next<Floor>(), name, "", level}); }

Id<Room> HouseMaker::room(const std::string& name, Id<Floor> floor) {
  Room room;
  room.id = next<Room>(), room.floor = floor, room.name = name;
  return add(house.rooms, room);
}

Id<Panel> HouseMaker::panel(const std::string& name, Id<Room> room, int spaces, Numbering numbering) {
  Panel panel;
  panel.id = next<Panel>(), panel.name = name, panel.room = room, panel.spaces = spaces, panel.numbering = numbering;
  panel.supply = Supply::utility;
  return add(house.panels, panel);
}

Id<Breaker> HouseMaker::breaker(Id<Panel> panel, int space, int poles, int amps, Half half) {
  Breaker breaker;
  breaker.id = next<Breaker>(), breaker.panel = panel, breaker.space = space, breaker.half = half;
  breaker.poles = poles, breaker.amps = amps;
  return add(house.breakers, breaker);
}

Id<Point> HouseMaker::point(Id<Breaker> breaker, Id<Room> room, const std::string& name, PointKind kind) {
  Point point;
  point.id = next<Point>(), point.room = room, point.name = name, point.kind = kind;
  house.points.push_back(point);
  if (!breaker) return point.id;
  DeclaredFeed feed;
  feed.id = next<DeclaredFeed>(), feed.point = point.id, feed.breaker = breaker;
  house.declared_feeds.push_back(feed);
  return point.id;
}

void HouseMaker::points(Id<Breaker> breaker, Id<Room> room, int count, const std::string& name, PointKind kind) {
  int number = 0;
  for (int made = 0; made < count; ++made) {
    std::string numbered;
    const auto taken = [&](const Point& p) { return p.room == room && p.name == numbered; };
    do numbered = name + " " + std::to_string(++number);
    while (std::ranges::any_of(house.points, taken));
    point(breaker, room, numbered, kind);
  }
}

Id<Load> HouseMaker::load(Id<Point> point, const std::string& name, Importance importance) {
  Load load;
  load.id = next<Load>(), load.point = point, load.name = name, load.importance = importance;
  return add(house.loads, load);
}

}  // namespace ohmstead::test
