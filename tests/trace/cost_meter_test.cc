// What each act of tracing costs, against sums made by hand.

#include "tests/trace/cost_meter.h"

#include <gtest/gtest.h>

#include <stdexcept>

#include "tests/trace/short_world.h"
#include "tests/trace/world_house.h"

namespace ohmstead::test {
namespace {

using Breakers = std::vector<std::size_t>;

TEST(CostMeter, walks_rooms_looks_and_handles_add_up) {
  const World world = short_world();
  CostMeter meter(world, {});
  meter.open(Breakers{0});
  EXPECT_DOUBLE_EQ(meter.tally.seconds, 4 + 20);
  meter.look(kBathReceptacle);
  EXPECT_DOUBLE_EQ(meter.tally.seconds, 24 + 4.5 + 5 + 8);
  meter.look(kBathLight);
  EXPECT_DOUBLE_EQ(meter.tally.seconds, 41.5 + 2);
  meter.repair(kBathLight), meter.look(kBathLight);
  EXPECT_DOUBLE_EQ(meter.tally.seconds, 43.5 + 20 + 2);
  meter.close(Breakers{0});
  EXPECT_DOUBLE_EQ(meter.tally.seconds, 65.5 + 4.5 + 4);
  meter.look(kHallLight);  // the panel's own room is entered, too
  EXPECT_DOUBLE_EQ(meter.tally.seconds, 74 + 5 + 2);
  EXPECT_EQ(meter.tally.looks, 4);
  EXPECT_EQ(meter.tally.opened, 1);
}

TEST(CostMeter, handles_moved_in_one_go_are_one_visit_to_the_panel) {
  const World world = short_world();
  CostMeter meter(world, {2});
  meter.open(Breakers{0, 1});
  EXPECT_DOUBLE_EQ(meter.tally.seconds, 2 * 4 + 2 * 20);
  meter.close(Breakers{0});
  meter.open(Breakers{0});
  EXPECT_EQ(meter.tally.panel_visits, 1);
  meter.look(kHallLight), meter.close(Breakers{0, 1});
  EXPECT_EQ(meter.tally.panel_visits, 2);
  EXPECT_EQ(meter.tally.opened, 3);
}

TEST(CostMeter, a_helper_saves_the_walk_and_takes_a_word_for_each_handle) {
  const World world = short_world();
  CostMeter meter(world, {2, true});
  meter.look(kBathReceptacle);
  EXPECT_DOUBLE_EQ(meter.tally.seconds, 4.5 + 5 + 8);
  meter.open(Breakers{0, 1});
  EXPECT_DOUBLE_EQ(meter.tally.seconds, 17.5 + 2 * (4 + 5 + 20));
  meter.look(kBathReceptacle);  // still standing at it
  EXPECT_DOUBLE_EQ(meter.tally.seconds, 75.5 + 1);
  meter.look(kBathLight), meter.look(kBathReceptacle);
  EXPECT_DOUBLE_EQ(meter.tally.seconds, 76.5 + 2 + 8);
  EXPECT_EQ(meter.tally.panel_visits, 0);
}

TEST(CostMeter, without_a_helper_a_second_look_costs_what_the_first_did) {
  const World world = short_world();
  CostMeter meter(world, {});
  meter.look(kBathReceptacle), meter.look(kBathReceptacle);
  EXPECT_DOUBLE_EQ(meter.tally.seconds, 4.5 + 5 + 8 + 8);
}

TEST(CostMeter, a_lamp_is_seen_from_the_door) {
  const World world = short_world();
  CostMeter meter(world, {1, false, 1});
  meter.put_lamp(kBathReceptacle);
  EXPECT_DOUBLE_EQ(meter.tally.seconds, 4.5 + 5 + 10);
  meter.open(Breakers{1});
  EXPECT_DOUBLE_EQ(meter.tally.seconds, 19.5 + 4.5 + 24);
  meter.look_from_door(kBathReceptacle);
  EXPECT_DOUBLE_EQ(meter.tally.seconds, 48 + 4.5 + 1);
  meter.look(kBathLight);  // for this one the room is entered
  EXPECT_DOUBLE_EQ(meter.tally.seconds, 53.5 + 5 + 2);
  EXPECT_EQ(meter.tally.looks, 2);
  EXPECT_THROW(meter.put_lamp(kBathLight), std::logic_error);
  EXPECT_THROW(meter.look_from_door(kBathLight), std::logic_error);
  meter.take_lamp(kBathReceptacle);
  EXPECT_DOUBLE_EQ(meter.tally.seconds, 60.5 + 10);
  EXPECT_THROW(meter.look_from_door(kBathReceptacle), std::logic_error);
}

TEST(CostMeter, what_may_only_be_off_alone_is_held_against_whoever_leaves_it_off) {
  World world = short_world();
  world.breakers[0].only_alone = true;
  CostMeter together(world, {2});
  together.open(Breakers{0}), together.open(Breakers{1}), together.close(Breakers{0, 1});
  EXPECT_EQ(together.tally.broken_rules, 1) << "once for one time off";
  together.open(Breakers{0}), together.close(Breakers{0}), together.open(Breakers{1});
  EXPECT_EQ(together.tally.broken_rules, 1) << "one after the other is allowed";

  for (const int repairs : {14, 15}) {  // 5 to enter, 20 each, 4 for the handle: 289 and 309 s
    CostMeter long_off(world, {});
    long_off.open(Breakers{0});
    for (int i = 0; i < repairs; ++i) long_off.repair(kHallLight);
    long_off.close(Breakers{0});
    EXPECT_EQ(long_off.tally.broken_rules, repairs == 14 ? 0 : 1);
  }
}

TEST(CostMeter, a_breaker_of_a_subpanel_is_moved_at_the_subpanel) {
  World world = short_world();
  world.subpanels.push_back({1, 0});
  world.breakers[1].panel = 1;
  CostMeter meter(world, {});
  meter.open(Breakers{1});
  EXPECT_DOUBLE_EQ(meter.tally.seconds, 4.5 + 24);
  meter.close(Breakers{1}), meter.open(Breakers{0});
  EXPECT_EQ(meter.tally.panel_visits, 2);
  EXPECT_DOUBLE_EQ(meter.tally.seconds, 28.5 + 4 + 4.5 + 24);
}

TEST(CostMeter, steps_of_a_session_are_charged_as_what_they_ask_for) {
  const World world = short_world();
  const House house = house_of(world).house;
  CostMeter steps(world, {}, house), acts(world, {});
  const std::vector<HandleRef> handle{{HandleKind::breaker, house.breakers[1].id.value}};
  const auto point = house.points[kBathLight].id;
  steps.take({StepKind::caution, StepReason::start, {}, {}, {}, false});
  EXPECT_EQ(steps.tally.seconds, 0);
  steps.take({StepKind::open, StepReason::most_expected, handle, {}, {}, false});
  steps.take({StepKind::look, StepReason::may_be_fed, handle, point, {}, false});
  steps.take({StepKind::close, StepReason::tour_over, handle, {}, {}, false});
  steps.take({StepKind::ask_dead, StepReason::dead_whatever, {}, point, {}, false});
  acts.open(Breakers{1}), acts.look(kBathLight), acts.close(Breakers{1}), acts.repair(kBathLight), acts.look(kBathLight);
  EXPECT_DOUBLE_EQ(steps.tally.seconds, acts.tally.seconds);
  EXPECT_DOUBLE_EQ(steps.tally.seconds, 24 + 11.5 + 8.5 + 4.5 + 5 + 20 + 2);
  EXPECT_EQ(steps.tally.looks, 2);
}

}  // namespace
}  // namespace ohmstead::test
