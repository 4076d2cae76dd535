#include "trace/conclude.h"

#include <gtest/gtest.h>

#include "feed/graph.h"
#include "tests/support/random_house.h"
#include "tests/trace/simulated_house.h"

namespace ohmstead::test {
namespace {

/// One room, breakers 1, 2, 3 of one pole, one receptacle.
struct OnePoint : HouseMaker {
  Id<Breaker> a = add_breaker(1), b = add_breaker(2), c = add_breaker(3);
  std::size_t point = add_point(house.rooms[0].id, "receptacle 1", {});
  void look(Seen seen, std::vector<Id<Breaker>> open) {
    std::vector<HandleRef> handles;
    for (const auto breaker : open) handles.push_back(off(breaker));
    see(point, seen, handles);
  }
  [[nodiscard]] Feed feed() const { return conclude(house).of_point[point]; }
};

TEST(Conclude, proved_needs_dead_with_it_open_and_live_with_it_closed) {
  OnePoint made;
  EXPECT_EQ(made.feed().standing, Standing::open);
  made.look(Seen::dead, {made.a});
  EXPECT_EQ(made.feed().standing, Standing::likely);
  made.look(Seen::dead, {made.a});
  EXPECT_EQ(made.feed().standing, Standing::likely) << "never seen live";
  made.look(Seen::live, {});
  EXPECT_EQ(made.feed().standing, Standing::proved);
  EXPECT_EQ(made.feed().taps, (std::vector<Tap>{{1, made.a, 1}}));
  EXPECT_GE(made.feed().belief, kProvedBelief);
}

TEST(Conclude, belief_alone_proves_nothing_that_was_not_seen_live) {
  OnePoint made;
  made.house.declared_feeds.push_back({Id<DeclaredFeed>::fresh(), made.house.points[0].id, {}, 1, made.a, 1});
  made.look(Seen::dead, {made.a}), made.look(Seen::dead, {made.a});
  EXPECT_GE(conclude_units(made.house).units[0].candidates[0].belief, kProvedBelief);
  EXPECT_EQ(made.feed().standing, Standing::declared);
  made.look(Seen::live, {});
  EXPECT_EQ(made.feed().standing, Standing::proved);
}

TEST(Conclude, elimination_alone_is_likely_not_proved) {
  OnePoint made;
  for (int i = 0; i < 3; ++i) made.look(Seen::live, {made.b}), made.look(Seen::live, {made.c});
  EXPECT_EQ(made.feed().standing, Standing::likely);
  EXPECT_EQ(made.feed().taps[0].breaker, made.a);
}

TEST(Conclude, withdrawn_and_unsure_looks_do_not_count) {
  OnePoint made;
  made.look(Seen::dead, {made.a});
  made.look(Seen::not_sure, {made.b});
  made.look(Seen::skipped, {made.c});
  made.house.observations[0].withdrawn = true;
  EXPECT_EQ(made.feed().standing, Standing::open);
}

TEST(Conclude, dead_and_live_with_the_same_breaker_open_is_disputed) {
  OnePoint made;
  made.look(Seen::dead, {made.a});
  made.look(Seen::live, {made.a});
  EXPECT_EQ(made.feed().standing, Standing::disputed);
  EXPECT_FALSE(relied_on(made.feed().standing));
}

TEST(Conclude, a_declaration_stands_until_a_look_speaks_against_it) {
  OnePoint made;
  made.house.declared_feeds.push_back({Id<DeclaredFeed>::fresh(), made.house.points[0].id, {}, 1, made.b, 1});
  EXPECT_EQ(made.feed().standing, Standing::declared);
  EXPECT_EQ(made.feed().belief, 1);
  made.look(Seen::live, {made.b});
  EXPECT_EQ(made.feed().standing, Standing::disputed);
  for (int i = 0; i < 3; ++i) made.look(Seen::dead, {made.a});
  EXPECT_EQ(made.feed().standing, Standing::proved) << "looks outrank words";
  EXPECT_EQ(made.feed().taps[0].breaker, made.a);
}

TEST(Conclude, a_point_that_was_dead_with_nothing_open_is_not_blamed_on_a_breaker) {
  OnePoint made;
  made.look(Seen::dead, {made.a});
  made.look(Seen::dead, {made.a});
  made.look(Seen::dead, {});
  EXPECT_EQ(made.feed().standing, Standing::open);
  EXPECT_TRUE(conclude_units(made.house).units[0].dead_anyway);
  made.look(Seen::live, {});  // the wall switch was off
  EXPECT_FALSE(conclude_units(made.house).units[0].dead_anyway);
  EXPECT_EQ(made.feed().standing, Standing::open);
}

TEST(Conclude, what_goes_dead_and_does_not_come_back_by_itself_still_counts) {
  OnePoint made;
  made.look(Seen::live, {made.b});
  made.look(Seen::dead, {made.a});
  made.look(Seen::dead, {made.a});
  made.look(Seen::dead, {});
  EXPECT_EQ(made.feed().taps, (std::vector<Tap>{{1, made.a, 1}}));
}

TEST(Conclude, what_stayed_dead_from_one_walk_to_the_next_and_with_all_on_counts_for_the_first_walk_only) {
  OnePoint made;
  made.look(Seen::live, {made.c});
  made.look(Seen::dead, {made.a, made.b});
  made.look(Seen::dead, {made.b});  // perhaps because nobody has reset it since
  made.look(Seen::dead, {});
  made.look(Seen::live, {});
  const auto candidates = conclude_units(made.house).units[0].candidates;
  EXPECT_NEAR(candidates[0].belief, candidates[1].belief, 0.01) << "a or b";
  EXPECT_NE(made.feed().standing, Standing::proved);
}

TEST(Conclude, live_with_every_breaker_open_means_nothing_listed_explains_it) {
  OnePoint made;
  for (int i = 0; i < 2; ++i)
    for (const auto breaker : {made.a, made.b, made.c}) made.look(Seen::live, {breaker});
  EXPECT_TRUE(conclude_units(made.house).units[0].unexplained);
  EXPECT_EQ(made.feed().standing, Standing::open);
  for (const auto breaker : {made.a, made.b, made.c}) EXPECT_TRUE(seems_spare(made.house, breaker));
}

TEST(Conclude, a_point_that_dies_only_with_two_breakers_is_fed_from_both) {
  OnePoint made;
  for (int i = 0; i < 3; ++i) {
    for (const auto breaker : {made.a, made.b, made.c}) made.look(Seen::live, {breaker});
    made.look(Seen::dead, {made.a, made.b});
    made.look(Seen::live, {made.a, made.c});
  }
  EXPECT_EQ(made.feed().standing, Standing::proved);
  EXPECT_EQ(made.feed().taps, (std::vector<Tap>{{1, made.a, 1}, {1, made.b, 1}}));
}

TEST(Conclude, a_240_volt_point_on_two_single_breakers_dies_with_either) {
  OnePoint made;
  made.house.points[0].hots = 2;
  for (int i = 0; i < 3; ++i)
    for (const auto breaker : {made.a, made.b}) made.look(Seen::dead, {breaker});
  made.look(Seen::live, {made.c}), made.look(Seen::live, {});
  EXPECT_EQ(made.feed().standing, Standing::proved);
  EXPECT_EQ(made.feed().taps, (std::vector<Tap>{{1, made.a, 1}, {2, made.b, 1}}));
}

TEST(Conclude, the_main_or_a_feeder_open_says_only_which_panel_it_is_in) {
  OnePoint made;
  made.house.panels[0].main_amps = 200;
  const auto feeder = made.add_breaker(5, 2, 60);
  made.house.panels.push_back({Id<Panel>::fresh(), "Workshop panel", {}, 12, Numbering::odd_left_even_right, Supply::breaker, feeder});
  Breaker in_sub{Id<Breaker>::fresh(), made.house.panels[1].id, 1};
  in_sub.amps = 15;
  made.house.breakers.push_back(in_sub);
  made.see(made.point, Seen::dead, {{HandleKind::main, made.house.panels[0].id.value}});
  EXPECT_EQ(made.feed().standing, Standing::open) << "the main kills everything";
  made.see(made.point, Seen::dead, {HouseMaker::off(feeder)});
  made.look(Seen::live, {made.a});
  EXPECT_EQ(made.feed().standing, Standing::likely);
  EXPECT_EQ(made.feed().taps[0].breaker, in_sub.id) << "the only breaker in the subpanel";
  made.look(Seen::dead, {in_sub.id});
  EXPECT_EQ(made.feed().standing, Standing::proved) << "its own handle was open";
}

TEST(Conclude, a_transfer_position_thrown_off_kills_like_the_breaker_it_carries) {
  OnePoint made;
  made.house.sources.push_back({Id<Source>::fresh(), "Generator"});
  made.house.transfer_devices.push_back({Id<TransferDevice>::fresh(), "Transfer switch", {}, TransferKind::circuits, made.house.sources[0].id});
  made.house.positions.push_back({Id<Position>::fresh(), made.house.transfer_devices[0].id, 1, 15, 1, {}, made.a, 1});
  const HandleRef thrown{HandleKind::position, made.house.positions[0].id.value};
  const Effect effect = effect_of(made.house, std::vector{thrown});
  EXPECT_EQ(effect.dead_poles, (std::vector<std::uint8_t>{1, 0, 0}));
  made.see(made.point, Seen::dead, {thrown});
  EXPECT_EQ(made.feed().taps[0].breaker, made.a);
}

TEST(Conclude, a_look_with_a_gfci_open_blames_no_breaker) {
  OnePoint made;
  made.house.devices.push_back({Id<Device>::fresh(), DeviceKind::gfci_receptacle, "GFCI"});
  made.house.handles.push_back({Id<Handle>::fresh(), made.house.devices[0].id});
  made.house.points[0].behind = made.house.devices[0].id;
  made.see(made.point, Seen::dead, {{HandleKind::device, made.house.handles[0].id.value}, HouseMaker::off(made.a)});
  EXPECT_EQ(made.feed().standing, Standing::open);
}

TEST(Conclude, everything_behind_a_device_has_its_feed) {
  OnePoint made;
  made.house.devices.push_back({Id<Device>::fresh(), DeviceKind::wall_switch, "switch"});
  made.house.points[0].behind = made.house.devices[0].id;
  const auto second = made.add_point(made.house.rooms[0].id, "light", {}, 1, PointKind::light);
  made.house.points[second].behind = made.house.devices[0].id;
  made.look(Seen::live, {});
  made.look(Seen::dead, {made.c}), made.look(Seen::dead, {made.c});
  const Feeds feeds = conclude(made.house);
  EXPECT_EQ(feeds.of_device[0].standing, Standing::proved);
  EXPECT_EQ(feeds.of_point[second], feeds.of_device[0]);
}

TEST(Conclude, tied_breakers_are_one_way_of_supply) {
  OnePoint made;
  made.house.breakers[0].tie = made.house.breakers[2].tie = made.a;  // spaces 1 and 3 are neighbours
  made.look(Seen::live, {});
  made.look(Seen::dead, {made.c}), made.look(Seen::dead, {made.a});
  EXPECT_EQ(made.feed().standing, Standing::proved);
  EXPECT_EQ(made.feed().taps, (std::vector<Tap>{{1, made.a, 1}})) << "which of the two cannot be seen: the first";
}

TEST(Conclude, the_pole_of_a_single_hot_is_the_declared_one_else_the_first) {
  OnePoint made;
  const auto two_pole = made.add_breaker(5, 2, 20);
  made.look(Seen::live, {});
  for (int i = 0; i < 3; ++i) made.look(Seen::dead, {two_pole});
  EXPECT_EQ(made.feed().taps, (std::vector<Tap>{{1, two_pole, 1}}));
  made.house.declared_feeds.push_back({Id<DeclaredFeed>::fresh(), made.house.points[0].id, {}, 1, two_pole, 2});
  EXPECT_EQ(made.feed().taps, (std::vector<Tap>{{1, two_pole, 2}}));
}

TEST(Conclude, fits_any_house_with_any_evidence) {
  for (std::uint64_t seed = 0; seed < 150; ++seed) {
    const House house = random_house(seed, 4);
    const Feeds feeds = conclude(house);
    ASSERT_EQ(feeds.of_point.size(), house.points.size());
    ASSERT_EQ(feeds.of_device.size(), house.devices.size());
    (void)build_graph(house, feeds);  // throws or crashes if a tap names what is not there
    for (const Feed& feed : feeds.of_point) {
      EXPECT_GE(feed.belief, 0);
      EXPECT_LE(feed.belief, 1 + 1e-9);
      EXPECT_EQ(feed.taps.empty(), feed.standing == Standing::open) << "seed " << seed;
      for (const Tap& tap : feed.taps) EXPECT_LE(tap.pole, row(house, tap.breaker).poles);
    }
  }
}

}  // namespace
}  // namespace ohmstead::test
