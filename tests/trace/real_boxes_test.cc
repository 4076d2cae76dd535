// Split receptacles, half-hot rooms, multiwire pairs, boxes with two circuits, points found on the way.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "house/invariants.h"
#include "tests/trace/real_drive.h"
#include "trace/step_text.h"

namespace ohmstead::test {
namespace {

using ::testing::HasSubstr;
using ::testing::IsEmpty;

/// FourRooms and: a split receptacle in the kitchen on the two breakers of a multiwire pair, tied or
/// not; a half-hot receptacle in the bedroom, its upper half behind a wall switch; a garage box with a receptacle of
/// breaker 4 and a light of breaker 9.
struct Boxes : FourRooms {
  std::size_t upper, lower, switched, always, in_box, light_in_box;
  explicit Boxes(bool tied) {
    const std::size_t a = 6, b = 8;  // spaces 7 and 9: neighbours in the left column
    if (tied) house.breakers[a].tie = house.breakers[b].tie = breakers[a];
    upper = add_half(1, "counter upper half", ReceptacleHalf::upper, a);
    lower = add_half(1, "counter lower half", ReceptacleHalf::lower, b);
    house.points[upper].mate = house.points[lower].id, house.points[lower].mate = house.points[upper].id;
    switched = add_half(2, "by the bed upper half", ReceptacleHalf::upper, 2);
    always = add_half(2, "by the bed lower half", ReceptacleHalf::lower, 2);
    house.points[switched].mate = house.points[always].id, house.points[always].mate = house.points[switched].id;
    house.devices.push_back({Id<Device>::fresh(), DeviceKind::wall_switch, "bedroom switch"});
    house.handles.push_back({Id<Handle>::fresh(), house.devices[0].id, rooms[2], {}, "bedroom switch"});
    house.points[switched].behind = house.devices[0].id;
    truth.at_start[switched] = AtStart::dead_until_repaired;  // the switch is off
    in_box = add_point(rooms[3], "door receptacle", {{1, breakers[3], 1}});
    light_in_box = add_point(rooms[3], "door light", {{1, breakers[7], 1}}, 1, PointKind::light);
    house.boxes.push_back({Id<Box>::fresh(), rooms[3], "door box"});
    house.points[in_box].box = house.points[light_in_box].box = house.boxes[0].id;
  }
  std::size_t add_half(std::size_t room, const std::string& name, ReceptacleHalf half, std::size_t breaker) {
    const std::size_t point = add_point(rooms[room], name, {{1, breakers[breaker], 1}});
    house.points[point].half = half;
    return point;
  }
  /// What a session can find: of tied breakers it is the first.
  [[nodiscard]] std::vector<Id<Breaker>> to_find() const {
    auto found = right(truth);
    if (house.breakers[6].tie) found[lower] = breakers[6];
    return found;
  }
};

TEST(Boxes, split_receptacles_half_hot_ones_and_boxes_of_two_circuits_are_found) {
  for (const int at_once : kWays)
    for (const bool tied : {false, true}) {
      const Boxes made(tied);
      ASSERT_TRUE(problems_of(made.house).empty()) << problems_of(made.house)[0].message;
      TraceSession session = session_of(made.house, at_once);
      Walker walker(made.truth, 0, 1);
      const Drive seen = drive(session, walker);
      ASSERT_TRUE(seen.ended) << at_once;
      EXPECT_THAT(seen.broken, IsEmpty()) << at_once;
      EXPECT_EQ(proved(session), made.to_find()) << at_once << (tied ? " tied" : "");
      EXPECT_TRUE(seen.asked_dead.contains(made.house.points[made.switched].id)) << at_once;
      EXPECT_EQ(seen.asked_dead.size(), 1U) << at_once;
      EXPECT_LE(seen.looks, 120) << at_once;
    }
}

TEST(Boxes, are_found_with_one_reading_of_a_hundred_wrong) {
  for (const int at_once : kWays) {
    std::size_t wrong = 0, open = 0;
    for (unsigned seed = 0; seed < 40; ++seed) {
      const Boxes made(seed % 2 == 0);
      TraceSession session = session_of(made.house, at_once);
      Walker walker(made.truth, 0.01, seed);
      const Drive seen = drive(session, walker);
      ASSERT_TRUE(seen.ended);
      EXPECT_THAT(seen.broken, IsEmpty());
      const auto found = proved(session), truth = made.to_find();
      for (std::size_t p = 0; p < found.size(); ++p) ++(!found[p] ? open : wrong) -= found[p] == truth[p] ? 1 : 0;
    }
    EXPECT_LE(wrong, 3U) << at_once << ": of 920 points";
    EXPECT_LE(open, 6U) << at_once;
  }
}

TEST(Boxes, the_step_says_which_half_counts) {
  const Boxes made(false);
  Step step{StepKind::look, StepReason::may_be_fed, {HouseMaker::off(made.breakers[6])}, made.house.points[made.lower].id};
  EXPECT_THAT(step_text(made.house, step), HasSubstr("Only the lower half counts."));
}

TEST(Boxes, of_a_tied_pair_only_one_handle_is_named_and_the_other_goes_with_it) {
  for (const int at_once : kWays) {
    const Boxes made(true);
    TraceSession session = session_of(made.house, at_once);
    Walker walker(made.truth, 0, 1);
    bool opened = false;
    for (int i = 0; i < 2000 && session.step().kind != StepKind::done; ++i) {
      const Step& step = session.step();
      if (step.kind == StepKind::open) {
        EXPECT_EQ(std::ranges::count(step.handles, HouseMaker::off(made.breakers[8])), 0);
        if (std::ranges::count(step.handles, HouseMaker::off(made.breakers[6])) > 0) {
          opened = true;
          EXPECT_THAT(step_text(session.house(), step), HasSubstr(step.handles.size() == 1 ? "The handle tied to it goes with it." : "- breaker 7 in Main panel, with the handle tied to it")) << at_once;
        }
      }
      session.answer(walker.answer(session));
    }
    EXPECT_TRUE(opened) << at_once;
  }
}

TEST(FoundOnTheWay, points_a_breaker_and_a_room_are_taken_in_while_several_are_off) {
  for (const int at_once : kWays)
    for (const int after : {3, 12, 30}) {
      FourRooms made;
      TraceSession session = session_of(made.house, at_once);
      Walker first(made.truth, 0, 1);
      for (int i = 0; i < after; ++i) session.answer(first.answer(session));
      made.house = session.house();
      const Id<Breaker> unlisted = made.add_breaker(20);  // found behind a blank
      const Id<Room> attic = made.add_room("Attic");
      made.add_point(attic, "attic light", {{1, unlisted, 1}}, 1, PointKind::light);
      made.add_point(made.rooms[1], "behind the fridge", {{1, made.breakers[1], 1}});
      session.adopt(made.house);
      Walker walker(made.truth, 0, 1);
      walker.resume(session);
      const Drive seen = drive(session, walker);
      ASSERT_TRUE(seen.ended) << at_once << " after " << after;
      EXPECT_EQ(proved(session), right(made.truth)) << at_once << " after " << after;
      EXPECT_LE(seen.looks + after, 130) << at_once;
    }
}

}  // namespace
}  // namespace ohmstead::test
