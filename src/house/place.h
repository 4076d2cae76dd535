#pragma once
// Where things are: floors of a building, rooms on a floor, how long it takes to walk between
// rooms, and the boxes in their walls.

#include <string>

#include "house/id.h"

namespace ohmstead {

struct Breaker;

/// One level of one building. Level 0 is the ground floor, -1 the basement.
/// A detached building ('Workshop') has floors of its own; the house itself has building "".
struct Floor {
  static constexpr const char* kTable = "floor";
  Id<Floor> id;
  std::string name;
  std::string building;
  int level = 0;
  bool operator==(const Floor&) const = default;
  template <class Self, class F>
  static void fields(Self& s, F&& f) {
    f("id", s.id), f("name", s.name), f("building", s.building), f("level", s.level);
  }
};

/// A room, or any place with points: hall, stair, crawl space, outside wall, yard.
/// Its rectangle is on the floor's plan: west edge, north edge, width (to the east), depth (to
/// the south), in centimetres; width 0 means that no plan was given.
struct Room {
  static constexpr const char* kTable = "room";
  Id<Room> id;
  Id<Floor> floor;
  std::string name;
  int left_cm = 0, top_cm = 0, width_cm = 0, depth_cm = 0;
  bool operator==(const Room&) const = default;
  template <class Self, class F>
  static void fields(Self& s, F&& f) {
    f("id", s.id), f("floor", s.floor), f("name", s.name), f("left_cm", s.left_cm), f("top_cm", s.top_cm),
        f("width_cm", s.width_cm), f("depth_cm", s.depth_cm);
  }
};

/// A measured walking time between two rooms, the same both ways. Where none is given the time
/// is computed from the plan (house/walking.h).
struct Walk {
  static constexpr const char* kTable = "walk";
  Id<Walk> id;
  Id<Room> from, to;
  int seconds = 0;
  bool operator==(const Walk&) const = default;
  template <class Self, class F>
  static void fields(Self& s, F&& f) {
    f("id", s.id), f("from_room", s.from), f("to_room", s.to), f("seconds", s.seconds);
  }
};

/// One enclosure in a wall or ceiling. It holds points, perhaps of several circuits, perhaps
/// switching devices, perhaps conductors that only pass through (Passing).
struct Box {
  static constexpr const char* kTable = "box";
  Id<Box> id;
  Id<Room> room;
  std::string name;
  bool operator==(const Box&) const = default;
  template <class Self, class F>
  static void fields(Self& s, F&& f) {
    f("id", s.id), f("room", s.room), f("name", s.name);
  }
};

/// A circuit's hot conductor that passes through a box without feeding a point in it.
struct Passing {
  static constexpr const char* kTable = "passing";
  Id<Passing> id;
  Id<Box> box;
  Id<Breaker> breaker;
  int pole = 1;  ///< 1-based pole of the breaker
  bool operator==(const Passing&) const = default;
  template <class Self, class F>
  static void fields(Self& s, F&& f) {
    f("id", s.id), f("box", s.box), f("breaker", s.breaker), f("pole", s.pole);
  }
};

}  // namespace ohmstead
