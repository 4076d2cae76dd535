#pragma once
// A house small enough to reckon with by hand: the panel in the hall, a bath 4.5 seconds away.

#include "tests/trace/world.h"

namespace ohmstead::test {

inline constexpr std::size_t kHallLight = 0, kBathReceptacle = 1, kBathLight = 2;

/// The hall's light is on breaker 0, the bath's receptacle and light on breaker 1; that light is dead
/// at the start, until somebody finds its wall switch.
[[nodiscard]] inline World short_world() {
  World world;
  world.rooms = {{"Hall", "hall", 0}, {"Bath", "bath", 0}};
  world.walk_s = {{0, 4.5}, {4.5, 0}};
  world.adjacent = {{0, 1}};
  world.breakers = {{1}, {2}};
  world.points = {{0, PointClass::light, "light", 120, 2, -1, 0},
                  {1, PointClass::receptacle, "receptacle", 120, 8, -1, 1},
                  {1, PointClass::light, "light", 120, 2, -1, 1, AtStart::dead_until_repaired}};
  return world;
}

}  // namespace ohmstead::test
