#pragma once
// Two people who disagree, for tests.

#include "tests/trace/simulated_house.h"

namespace ohmstead::test {

/// Three rooms of the hall's size with two receptacles each, on breakers 1 to 3; 4 and 5 feed nothing.
struct ThreeRooms : HouseMaker {
  std::vector<Id<Breaker>> breakers;
  ThreeRooms() {
    for (int space = 1; space <= 5; ++space) breakers.push_back(add_breaker(space));
    const Id<Room> rooms[] = {house.rooms[0].id, add_room("Kitchen"), add_room("Bedroom")};
    for (std::size_t r = 0; r < 3; ++r)
      for (int i = 1; i <= 2; ++i) add_point(rooms[r], "receptacle " + std::to_string(i), {{1, breakers[r], 1}});
  }
};

/// What `who` told of daily life: this point, seen so with this breaker off.
inline void tell(House& house, std::size_t point, Seen seen, Id<Breaker> off, const std::string& who, const std::string& at) {
  const Id<Round> round = Id<Round>::fresh();
  house.rounds.push_back({round, RoundKind::daily_life, at, who, true});
  house.opened.push_back({Id<Opened>::fresh(), round, HouseMaker::off(off)});
  house.observations.push_back({Id<Observation>::fresh(), round, house.points[point].id, seen, Method::look, at});
}

}  // namespace ohmstead::test
