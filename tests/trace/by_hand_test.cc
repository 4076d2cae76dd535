// The ways without a program cost what a reckoning by hand says, and are as good as they are said to be.

#include "tests/trace/by_hand.h"

#include <gtest/gtest.h>

#include "tests/trace/short_world.h"
#include "tests/trace/world_maker.h"

namespace ohmstead::test {
namespace {

TEST(UsualWay, costs_what_a_reckoning_by_hand_says) {
  const Tally tally = usual_way(short_world(), 0);
  const double breaker_0 = 24 + (5 + 2) + (4.5 + 5 + 8 + 2) + (4.5 + 4);  // the light that is dead anyway is given to it
  const double breaker_1 = 24 + (4.5 + 5 + 8) + (4.5 + 4);
  EXPECT_DOUBLE_EQ(tally.seconds, breaker_0 + breaker_1);
  EXPECT_EQ(tally.looks, 4);
  EXPECT_EQ(tally.opened, 2);
  EXPECT_EQ(tally.panel_visits, 3);
  EXPECT_EQ(tally.wrong, 1);
  EXPECT_EQ(tally.unresolved, 0);
}

TEST(CarefulWay, costs_what_a_reckoning_by_hand_says) {
  const Tally tally = careful_way(short_world(), 0);
  const double all_on = (5 + 2) + (4.5 + 5 + 8 + 2 + 20 + 2);
  const double breaker_0 = 4.5 + 24 + (5 + 2 + 2) + (4.5 + 5 + 8 + 2) + (4.5 + 4);
  const double breaker_1 = 24 + (4.5 + 5 + 8 + 8 + 2 + 2) + (4.5 + 4);
  EXPECT_DOUBLE_EQ(tally.seconds, all_on + breaker_0 + breaker_1);
  EXPECT_EQ(tally.looks, 12);
  EXPECT_EQ(tally.panel_visits, 3);
  EXPECT_EQ(tally.wrong + tally.unresolved, 0);
}

TEST(CarefulWay, with_a_helper_costs_what_a_reckoning_by_hand_says) {
  const Tally tally = careful_way(short_world(), 0, {1, true});
  const double all_on = (5 + 2) + (4.5 + 5 + 8 + 2 + 20 + 1);
  const double breaker_0 = 29 + (8 + 2) + (4.5 + 5 + 2 + 1) + 9;  // begins in the bath
  const double breaker_1 = 29 + (4.5 + 5 + 8 + 1 + 2 + 1) + 9;
  EXPECT_DOUBLE_EQ(tally.seconds, all_on + breaker_0 + breaker_1);
  EXPECT_EQ(tally.panel_visits, 0);
}

TEST(CarefulWay, says_dead_of_what_stays_dead_and_nothing_of_what_is_not_on_the_panel) {
  World world = short_world();
  world.points[kBathLight].at_start = AtStart::dead_for_good;
  world.points[kHallLight].breaker = -1;
  EXPECT_EQ(careful_way(world, 0).wrong + careful_way(world, 0).unresolved, 0);
  EXPECT_EQ(careful_way(world, 0).opened, 4) << "a second pass for the point without an answer";
  EXPECT_EQ(usual_way(world, 0).wrong, 1);
}

TEST(ByHand, a_feeder_is_left_alone) {
  World world = short_world();
  world.subpanels.push_back({1, 0});
  world.breakers[1].panel = 1, world.points[kHallLight].breaker = 1;
  const Tally tally = careful_way(world, 0);
  EXPECT_EQ(tally.opened, 1);
  EXPECT_EQ(tally.wrong + tally.unresolved, 0);
}

/// Sums over 60 ordinary houses.
template <class Way>
Tally over_houses(const Way& way, double error) {
  Tally sum;
  for (unsigned seed = 0; seed < 60; ++seed) sum.add(way(make_world(WorldKind::ordinary, seed), error, Manner{}));
  return sum;
}

TEST(ByHand, without_mistakes_the_careful_way_is_right_everywhere) {
  const Tally careful = over_houses(careful_way, 0);
  EXPECT_EQ(careful.wrong, 0);
  EXPECT_EQ(careful.unresolved, 0);
}

TEST(ByHand, with_one_reading_of_a_hundred_wrong_each_way_is_as_good_as_it_is_said_to_be) {
  const Tally usual = over_houses(usual_way, 0.01), careful = over_houses(careful_way, 0.01);
  EXPECT_NEAR(usual.wrong / 60.0, 14, 2.5);
  EXPECT_NEAR(usual.seconds / careful.seconds, 0.78, 0.03);
  EXPECT_NEAR(careful.seconds / 60 / 60, 280, 30);
  EXPECT_NEAR(careful.looks / 60.0, 1700, 170);
  // A live point is called dead when two of the looks at it are mistaken, of at most three: 2e^2 of all looks.
  EXPECT_NEAR(careful.wrong / 60.0, 2 * 0.01 * 0.01 * careful.looks / 60, 0.2);
  EXPECT_LT(careful.unresolved / 60.0, 0.3);
}

}  // namespace
}  // namespace ohmstead::test
