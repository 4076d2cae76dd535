// Small drawn cases: each device kind once, by hand.

#include "feed/graph.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "feed/isolate.h"
#include "feed/liveness.h"
#include "feed/restore.h"
#include "feed/what_if.h"
#include "house/invariants.h"

namespace ohmstead {
namespace {

/// A main panel of 12 spaces in one room; the tests hang things on it.
struct Drawn {
  Drawn() {
    house.dwelling.id = Id<Dwelling>::fresh();
    house.floors.push_back({.id = Id<Floor>::fresh(), .name = "Ground"});
    house.rooms.push_back({.id = Id<Room>::fresh(), .floor = house.floors[0].id, .name = "Kitchen"});
    house.panels.push_back({.id = Id<Panel>::fresh(), .name = "Main", .room = house.rooms[0].id, .spaces = 12,
                            .supply = Supply::utility, .main_amps = 100});
  }
  Id<Breaker> breaker(int space, int poles = 1) {
    house.breakers.push_back({.id = Id<Breaker>::fresh(), .panel = house.panels[0].id, .space = space, .poles = poles, .amps = 20});
    return house.breakers.back().id;
  }
  std::size_t point(const char* name, Id<Breaker> breaker, int hots = 1, Id<Device> behind = {}) {
    house.points.push_back({.id = Id<Point>::fresh(), .room = house.rooms[0].id, .name = name, .hots = hots, .behind = behind});
    for (int h = 1; h <= hots && breaker; ++h)
      house.declared_feeds.push_back({.id = Id<DeclaredFeed>::fresh(), .point = house.points.back().id, .hot = h, .breaker = breaker, .pole = h});
    return house.points.size() - 1;
  }
  Id<Device> device(DeviceKind kind, Id<Breaker> breaker, int handles = 1, Id<Device> behind = {}) {
    const auto id = Id<Device>::fresh();
    house.devices.push_back({.id = id, .kind = kind, .name = "device", .behind = behind});
    for (int h = 0; h < handles; ++h) house.handles.push_back({.id = Id<Handle>::fresh(), .device = id});
    if (breaker)
      house.declared_feeds.push_back({.id = Id<DeclaredFeed>::fresh(), .device = id, .breaker = breaker});
    return id;
  }
  Id<Source> generator(SourceOutput output = SourceOutput::full, int watts = 0) {
    house.sources.push_back({.id = Id<Source>::fresh(), .name = "Generator", .output = output, .running_watts = watts});
    return house.sources.back().id;
  }
  void position(Id<Source> source, Id<Breaker> carries, int leg, int pole = 1, Id<Position> tie = {}) {
    if (house.transfer_devices.empty())
      house.transfer_devices.push_back({.id = Id<TransferDevice>::fresh(), .name = "Transfer", .source = source});
    const auto id = Id<Position>::fresh();
    house.positions.push_back({.id = id, .device = house.transfer_devices[0].id,
                               .number = static_cast<int>(house.positions.size()) + 1, .amps = 15, .leg = leg,
                               .tie = tie, .breaker = carries, .pole = pole});
  }
  void build() {
    require_sound(house);
    feeds = declared_feeds(house);
    graph = build_graph(house, feeds);
    state = usual_state(graph);
  }
  void move(HandleRef ref, Throw to) { move_handle(graph, state, graph.handle_of(ref), to); }
  [[nodiscard]] PointState at(std::size_t point) const {
    return point_state(graph, liveness(graph, state), point);
  }
  House house;
  Feeds feeds;
  Graph graph;
  State state;
};

HandleRef ref(Id<Breaker> id) { return {HandleKind::breaker, id.value}; }

TEST(Graph, a_range_with_one_leg_lost_is_part_live_and_never_dead) {
  Drawn d;
  const auto range = d.point("range", d.breaker(2, 2), 2);
  d.build();
  EXPECT_EQ(d.at(range), PointState::working);
  d.state.live_legs[0] = 0b01;
  EXPECT_EQ(d.at(range), PointState::part_live);
  d.state.live_legs[0] = 0;
  EXPECT_EQ(d.at(range), PointState::dead);
}

TEST(Graph, two_poles_on_untied_breakers_of_one_leg_give_no_240_volts) {
  Drawn d;
  const auto a = d.breaker(1), b = d.breaker(5);  // rows 1 and 3: both on leg 1
  const auto heater = d.point("heater", {}, 2);
  for (const auto& [hot, breaker] : {std::pair{1, a}, std::pair{2, b}})
    d.house.declared_feeds.push_back({.id = Id<DeclaredFeed>::fresh(), .point = d.house.points[heater].id, .hot = hot, .breaker = breaker});
  d.build();
  EXPECT_EQ(d.at(heater), PointState::part_live);
}

TEST(Graph, a_point_without_an_established_feed_is_unknown_even_with_the_main_off) {
  Drawn d;
  const auto lost = d.point("receptacle", {});
  d.build();
  d.move({HandleKind::main, d.house.panels[0].id.value}, kOff);
  EXPECT_EQ(d.at(lost), PointState::unknown);
}

TEST(Graph, a_likely_feed_is_never_called_dead) {
  Drawn d;
  const auto b = d.breaker(1);
  const auto p = d.point("receptacle", b);
  d.build();
  d.feeds.of_point[p].standing = Standing::likely;
  d.graph = build_graph(d.house, d.feeds);
  d.move(ref(b), kOff);
  EXPECT_EQ(d.at(p), PointState::unknown);
}

TEST(Graph, three_and_four_way_switches_turn_the_light_with_every_handle) {
  Drawn d;
  const auto group = d.device(DeviceKind::wall_switch, d.breaker(1), 3);
  const auto light = d.point("light", {}, 1, group);
  d.build();
  EXPECT_EQ(d.at(light), PointState::working);
  for (int turn = 0; turn < 8; ++turn) {
    const auto& handle = d.house.handles[static_cast<std::size_t>(turn % 3)];
    const auto h = d.graph.handle_of({HandleKind::device, handle.id.value});
    move_handle(d.graph, d.state, h, static_cast<Throw>(1 - d.state.throws[h]));
    EXPECT_EQ(d.at(light), turn % 2 == 0 ? PointState::dead : PointState::working) << turn;
  }
}

TEST(Graph, a_tripped_gfci_takes_down_what_is_downstream_and_not_what_is_before_it) {
  Drawn d;
  const auto b = d.breaker(1);
  const auto gfci = d.device(DeviceKind::gfci_receptacle, b);
  const auto own = d.point("GFCI face", {}, 1, gfci), downstream = d.point("downstream", {}, 1, gfci);
  const auto upstream = d.point("upstream", b);
  d.build();
  d.move({HandleKind::device, d.house.handles[0].id.value}, kOff);
  EXPECT_EQ(d.at(own), PointState::dead);
  EXPECT_EQ(d.at(downstream), PointState::dead);
  EXPECT_EQ(d.at(upstream), PointState::working);
}

TEST(Graph, a_position_on_backup_keeps_its_circuit_alive_with_the_branch_breaker_off) {
  Drawn d;
  const auto b = d.breaker(1);
  const auto freezer = d.point("freezer", b);
  const auto source = d.generator();
  d.position(source, b, 2);
  d.build();
  d.state = backup_state(d.house, d.graph, 0);
  EXPECT_EQ(d.at(freezer), PointState::working);
  d.move(ref(b), kOff);
  EXPECT_EQ(d.at(freezer), PointState::working) << "the branch breaker is not in the way on backup";
  const auto box = isolate(d.house, d.graph, d.feeds, only_point(freezer));
  EXPECT_TRUE(box.possible);
  EXPECT_EQ(box.open.size(), 2U) << "both sides of a double throw must be opened";
}

TEST(Graph, one_120_volt_output_on_both_legs_does_not_run_a_240_volt_pump) {
  Drawn d;
  const auto b = d.breaker(2, 2);
  const auto pump = d.point("pump", b, 2);
  const auto source = d.generator(SourceOutput::one_120_both_legs);
  const auto tie = Id<Position>::fresh();
  d.position(source, b, 1, 1, tie);
  d.position(source, b, 2, 2, tie);
  d.house.positions[0].id = tie;
  d.build();
  d.state = backup_state(d.house, d.graph, 0);
  EXPECT_EQ(d.at(pump), PointState::part_live);
}

/// An inlet on breaker 2-4, interlocked with the main.
Drawn with_backfeed(Id<Breaker>& inlet) {
  Drawn d;
  const auto source = d.generator();
  inlet = d.breaker(2, 2);
  d.house.breakers.back().backfed_from = source;
  d.house.interlocks.push_back({Id<Interlock>::fresh(), {HandleKind::main, d.house.panels[0].id.value}, ref(inlet)});
  return d;
}

TEST(Graph, restoring_through_a_backfed_breaker_opens_the_main_first) {
  Id<Breaker> inlet;
  Drawn d = with_backfeed(inlet);
  const auto light = d.point("light", d.breaker(1));
  d.build();
  d.state.live_legs = {0, 0b11};  // utility dead, generator running
  const Restoration answer = restore(d.house, d.graph, d.state, light, 1);
  ASSERT_EQ(answer.cannot, CannotRestore::none);
  ASSERT_EQ(answer.moves.size(), 2U);
  EXPECT_EQ(d.graph.handles[answer.moves[0].handle].ref.kind, HandleKind::main);
  EXPECT_EQ(answer.moves[0].to, kOff);
  EXPECT_EQ(d.graph.handles[answer.moves[1].handle].ref, ref(inlet));
}

TEST(Graph, main_and_backfed_breaker_both_on_join_two_sources) {
  Id<Breaker> inlet;
  Drawn d = with_backfeed(inlet);
  d.build();
  d.state.live_legs = {0b11, 0b11};
  d.move(ref(inlet), kOn);
  EXPECT_EQ(liveness(d.graph, d.state).joined.size(), 2U);
  EXPECT_EQ(broken_interlocks(d.graph, d.state).size(), 1U);
}

TEST(Restore, a_source_that_is_too_small_switches_the_least_important_load_off_first) {
  Id<Breaker> inlet;
  Drawn d = with_backfeed(inlet);
  d.house.sources[0].running_watts = 2000;
  const auto radio = d.breaker(1), freezer = d.breaker(6), pump = d.breaker(3);
  const auto add = [&](const char* name, Id<Breaker> b, int watts, Importance importance) {
    const auto p = d.point(name, b);
    d.house.loads.push_back({.id = Id<Load>::fresh(), .point = d.house.points[p].id, .name = name, .running_watts = watts, .importance = importance});
    return p;
  };
  const auto dim = add("radio", radio, 500, Importance::low);
  add("freezer", freezer, 600, Importance::high);
  const auto wanted = add("pump", pump, 900, Importance::normal);
  d.build();
  d.state.live_legs = {0, 0b11};
  d.move({HandleKind::main, d.house.panels[0].id.value}, kOff);
  d.move(ref(inlet), kOn);
  d.move(ref(pump), kOff);
  const Restoration answer = restore(d.house, d.graph, d.state, wanted, 1);
  ASSERT_EQ(answer.cannot, CannotRestore::none);
  EXPECT_EQ(answer.shed_moves, 1U);
  EXPECT_EQ(d.graph.handles[answer.moves[0].handle].ref, ref(radio));
  EXPECT_EQ(answer.goes_off, std::vector{dim});
}

TEST(WhatIf, a_neighbour_in_the_box_and_a_shared_neutral_are_said_to_stay_live) {
  Drawn d;
  const auto a = d.breaker(1), b = d.breaker(3);
  const auto shared = Id<Circuit>::fresh();
  d.house.circuits.push_back({.id = shared, .breaker = a, .multiwire = shared});
  d.house.circuits.push_back({.id = Id<Circuit>::fresh(), .breaker = b, .multiwire = shared});
  d.house.boxes.push_back({Id<Box>::fresh(), d.house.rooms[0].id, "sink"});
  const auto upper = d.point("upper half", a), lower = d.point("lower half", b);
  const auto other = d.breaker(6);
  for (const char* name : {"1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11", "12", "13"}) d.point(name, other);
  d.house.points[upper].box = d.house.points[lower].box = d.house.boxes[0].id;
  d.build();
  State after = d.state;
  move_handle(d.graph, after, d.graph.handle_of(ref(a)), kOff);
  const Change change = what_changes(d.house, d.graph, d.feeds, d.state, after);
  EXPECT_EQ(change.off, std::vector{upper});
  ASSERT_EQ(change.stays_live.size(), 2U);
  EXPECT_EQ(change.stays_live[0], (StaysLive{upper, Closeness::same_box, {ThingKind::point, d.house.points[lower].id.value}}));
  EXPECT_EQ(change.stays_live[1], (StaysLive{upper, Closeness::shared_neutral, {ThingKind::breaker, b.value}}));
  EXPECT_EQ(isolate(d.house, d.graph, d.feeds, in_box(d.house, d.house.boxes[0].id)).open.size(), 2U);
}

TEST(WhatIf, tied_handles_move_together) {
  Drawn d;
  const auto a = d.breaker(1), b = d.breaker(3);
  for (Breaker& breaker : d.house.breakers) breaker.tie = a;
  const auto first = d.point("first", a), second = d.point("second", b);
  d.build();
  d.move(ref(b), kOff);
  EXPECT_EQ(d.at(first), PointState::dead);
  EXPECT_EQ(d.at(second), PointState::dead);
}

TEST(Graph, a_panel_whose_supply_is_not_known_leaves_its_points_unknown) {
  Drawn d;
  d.house.panels.push_back({.id = Id<Panel>::fresh(), .name = "Found", .spaces = 4});
  d.house.breakers.push_back({.id = Id<Breaker>::fresh(), .panel = d.house.panels[1].id, .space = 1, .amps = 15});
  const auto p = d.point("lamp", d.house.breakers[0].id);
  d.build();
  d.state.live_legs[0] = 0;
  EXPECT_EQ(d.at(p), PointState::unknown);
}

}  // namespace
}  // namespace ohmstead
