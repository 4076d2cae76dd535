#pragma once
// Builds small houses by hand in few words, for tests of wording and printing.

#include <string>
#include <vector>

#include "house/house.h"
#include "house/index.h"

namespace ohmstead::test {

/// Ids count up from 1, so that a house comes out the same every time. Every feed is declared.
class HouseMaker {
 public:
  HouseMaker();
  House house;

  Id<Floor> floor(const std::string& name, int level);
  Id<Room> room(const std::string& name, Id<Floor> floor);
  Id<Panel> panel(const std::string& name, Id<Room> room, int spaces, Numbering numbering = Numbering::odd_left_even_right);
  Id<Breaker> breaker(Id<Panel> panel, int space, int poles = 1, int amps = 20, Half half = Half::whole);
  /// A point fed by `breaker`; by nothing that is known if there is none.
  Id<Point> point(Id<Breaker> breaker, Id<Room> room, const std::string& name, PointKind kind = PointKind::receptacle);
  /// `count` points named "NAME 1", "NAME 2", ... after those the room has already.
  void points(Id<Breaker> breaker, Id<Room> room, int count, const std::string& name, PointKind kind = PointKind::receptacle);
  Id<Load> load(Id<Point> point, const std::string& name, Importance importance = Importance::normal);

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

}  // namespace ohmstead::test
