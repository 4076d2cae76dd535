#pragma once
// An invented house for looking at a printed card: 26 breakers of every kind in one panel, a
// subpanel, a transfer device, an interlocked inlet.

#include "feed/feeds.h"
#include "house/house.h"
#include "house/index.h"

namespace ohmstead::test {

/// Builds houses by hand in few words. Every feed is declared.
class HouseMaker {
 public:
  House house;

  HouseMaker() { house.dwelling = {next<Dwelling>(), "Example", VoltageSystem::split_phase_120_240}; }

  Id<Floor> floor(const std::string& name, int level) { return add(house.floors, Floor{next<Floor>(), name, "", level}); }
  Id<Room> room(const std::string& name, Id<Floor> floor) {
    Room room{next<Room>(), floor, name};
    return add(house.rooms, room);
  }
  Id<Panel> panel(const std::string& name, Id<Room> room, int spaces, Numbering numbering = Numbering::odd_left_even_right) {
    Panel panel{next<Panel>(), name, room, spaces, numbering};
    panel.supply = Supply::utility;
    return add(house.panels, panel);
  }
  Id<Breaker> breaker(Id<Panel> panel, int space, int poles = 1, int amps = 20, Half half = Half::whole) {
    Breaker breaker{next<Breaker>(), panel, space, half, poles, amps};
    return add(house.breakers, breaker);
  }
  Id<Point> point(Id<Breaker> breaker, Id<Room> room, const std::string& name, PointKind kind = PointKind::receptacle) {
    Point point{next<Point>(), room};
    point.name = name;
    point.kind = kind;
    const Id<Point> id = add(house.points, point);
    if (breaker) {
      DeclaredFeed feed{next<DeclaredFeed>(), id};
      feed.breaker = breaker;
      house.declared_feeds.push_back(feed);
    }
    return id;
  }
  /// `count` points named "NAME 1", "NAME 2", ...
  void points(Id<Breaker> breaker, Id<Room> room, int count, const std::string& name, PointKind kind = PointKind::receptacle) {
    for (int i = 0; i < count; ++i) {
      int number = 1;
      const auto taken = [&] {
        for (const Point& p : house.points)
          if (p.room == room && p.name == name + " " + std::to_string(number)) return true;
        return false;
      };
      while (taken()) ++number;
      point(breaker, room, name + " " + std::to_string(number), kind);
    }
  }
  template <class Row>
  Id<Row> next() {
    return Id<Row>{++last_};
  }
  template <class Row>
  Id<Row> add(std::vector<Row>& table, Row row) {
    table.push_back(row);
    return table.back().id;
  }

 private:
  std::uint64_t last_ = 0;
};

struct ExampleHouse {
  House house;
  Feeds feeds;
  Id<Panel> main, workshop;
};

[[nodiscard]] ExampleHouse example_house();

}  // namespace ohmstead::test
