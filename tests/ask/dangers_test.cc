// Answers that could get somebody killed: isolating too little, joining a generator to the
// utility, keeping silent about what may stay live.

#include "ask/dangers.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "ask/answers.h"
#include "house/invariants.h"

namespace ohmstead {
namespace {

/// A main panel in one room, and a box.
struct Drawn {
  Drawn() {
    house.dwelling.id = Id<Dwelling>::fresh();
    house.floors.push_back({.id = Id<Floor>::fresh(), .name = "Ground"});
    house.rooms.push_back({.id = Id<Room>::fresh(), .floor = house.floors[0].id, .name = "Hall"});
    house.boxes.push_back({Id<Box>::fresh(), house.rooms[0].id, "box"});
    house.panels.push_back({.id = Id<Panel>::fresh(), .name = "Main", .room = house.rooms[0].id, .spaces = 12, .supply = Supply::utility, .main_amps = 100});
  }
  Id<Breaker> breaker(int space, int poles = 1, std::size_t panel = 0) {
    house.breakers.push_back({.id = Id<Breaker>::fresh(), .panel = house.panels[panel].id, .space = space, .poles = poles, .amps = 20});
    return house.breakers.back().id;
  }
  std::size_t point(const char* name, Id<Breaker> fed_by, Id<Box> box = {}, int pole = 1) {
    house.points.push_back({.id = Id<Point>::fresh(), .room = house.rooms[0].id, .box = box, .name = name});
    if (fed_by)
      house.declared_feeds.push_back({.id = Id<DeclaredFeed>::fresh(), .point = house.points.back().id, .breaker = fed_by, .pole = pole});
    return house.points.size() - 1;
  }
  Id<Source> generator() {
    house.sources.push_back({.id = Id<Source>::fresh(), .name = "Generator"});
    return house.sources.back().id;
  }
  void positions_on(Id<Breaker> breaker, bool automatic) {
    house.transfer_devices.push_back({.id = Id<TransferDevice>::fresh(), .name = "Transfer", .source = generator(), .automatic = automatic});
    for (int pole = 1; pole <= 2; ++pole)
      house.positions.push_back({.id = Id<Position>::fresh(), .device = house.transfer_devices[0].id, .number = pole, .amps = 20, .leg = pole, .breaker = breaker, .pole = pole});
  }
  [[nodiscard]] Record record() const {
    require_sound(house);
    return make_record(house);
  }
  [[nodiscard]] Id<Box> box() const { return house.boxes[0].id; }
  House house;
};

HandleRef ref(Id<Breaker> breaker) { return {HandleKind::breaker, breaker.value}; }
HandleRef ref_of_main(const House& house) { return {HandleKind::main, house.panels[0].id.value}; }

TEST(Dangers, a_switch_whose_feed_is_not_traced_is_never_said_to_be_isolated) {
  Drawn d;
  d.point("receptacle", d.breaker(1), d.box());
  d.house.devices.push_back({.id = Id<Device>::fresh(), .kind = DeviceKind::wall_switch, .name = "switch"});
  d.house.handles.push_back({.id = Id<Handle>::fresh(), .device = d.house.devices[0].id, .room = d.house.rooms[0].id, .box = d.box()});
  EXPECT_TRUE(isolate_box(d.record(), d.box()).unknown_supply);
  d.house.handles[0].box = {};  // elsewhere: it has nothing to do with this box
  EXPECT_FALSE(isolate_box(d.record(), d.box()).unknown_supply);
}

TEST(Dangers, an_unexplored_panel_counts_as_live) {
  Drawn d;
  d.point("receptacle", d.breaker(1), d.box());
  d.house.panels.push_back({.id = Id<Panel>::fresh(), .name = "Found", .spaces = 4});
  d.point("other receptacle", d.breaker(1, 1, 1), d.box());
  EXPECT_TRUE(isolate_box(d.record(), d.box()).unknown_supply);
}

TEST(Dangers, halves_of_a_split_receptacle_are_close_though_no_box_is_recorded) {
  Drawn d;
  const auto a = d.breaker(1), b = d.breaker(5);
  const auto upper = d.point("upper", a), lower = d.point("lower", b);
  d.house.points[upper].half = ReceptacleHalf::upper, d.house.points[lower].half = ReceptacleHalf::lower;
  d.house.points[upper].mate = d.house.points[lower].id, d.house.points[lower].mate = d.house.points[upper].id;
  const Record record = d.record();
  const StaysLive lower_stays{upper, Closeness::same_box, {ThingKind::point, d.house.points[lower].id.value}};
  EXPECT_THAT(what_goes_off(record, {{ref(a), kOff}}, {}).change.stays_live, ::testing::ElementsAre(lower_stays));
  EXPECT_TRUE(what_goes_off(record, {{ref(a), kOff}, {ref(b), kOff}}, {}).change.stays_live.empty());
  const Isolation isolation = isolate_point(record, upper).isolation;
  EXPECT_THAT(isolation.goes_off, ::testing::ElementsAre(upper, lower));
}

TEST(Dangers, both_poles_that_share_a_neutral_are_isolated_on_every_position) {
  Drawn d;
  const auto both = d.breaker(1, 2);
  const auto circuit = Id<Circuit>::fresh();
  d.house.circuits.push_back({.id = circuit, .breaker = both, .multiwire = circuit});
  d.positions_on(both, false);
  d.point("left", both, d.box(), 1);
  d.point("right", both, {}, 2);
  const Record record = d.record();
  std::vector<HandleRef> open;
  for (const std::uint32_t h : isolate_box(record, d.box()).isolation.open) open.push_back(record.graph.handles[h].ref);
  const HandleRef first{HandleKind::position_breaker, d.house.positions[0].id.value};
  const HandleRef second{HandleKind::position_breaker, d.house.positions[1].id.value};
  EXPECT_THAT(open, ::testing::IsSupersetOf({first, second}));
}

TEST(Dangers, a_backfed_breaker_is_closed_only_with_the_main_open_even_while_the_utility_is_dead) {
  Drawn d;
  const auto inlet = d.breaker(1, 2);
  const auto generator = d.generator();
  d.house.breakers[0].backfed_from = generator;  // no interlock is recorded
  const auto lamp = d.point("lamp", d.breaker(2));
  const Record record = d.record();
  State now = state_when(record, {1});
  now.throws = usual_state(record.graph).throws;
  const RestoreAnswer answer = bring_back(record, lamp, now, {1});
  ASSERT_EQ(answer.restoration.cannot, CannotRestore::none);
  ASSERT_EQ(answer.restoration.moves.size(), 2U);
  EXPECT_EQ(answer.restoration.moves[0], (Move{record.graph.handle_of(ref_of_main(d.house)), kOff}));
  EXPECT_EQ(answer.restoration.moves[1], (Move{record.graph.handle_of(ref(inlet)), kOn}));
  EXPECT_TRUE(answer.restoration.goes_off.empty());  // in the outage nothing worked
  EXPECT_FALSE(what_goes_off(record, {{ref(inlet), kOn}}, {}).change.joined.empty());
  EXPECT_TRUE(what_goes_off(record, {{ref_of_main(d.house), kOff}, {ref(inlet), kOn}}, {}).change.joined.empty());
}

TEST(Dangers, an_untraced_neighbour_in_the_box_is_said_to_be_perhaps_live) {
  Drawn d;
  const auto a = d.breaker(1);
  const auto known = d.point("known", a, d.box()), unknown = d.point("not traced", {}, d.box());
  const OffAnswer answer = what_goes_off(d.record(), {{ref(a), kOff}}, {});
  const dangers::NotKnownNear near{known, {ThingKind::point, d.house.points[unknown].id.value}};
  EXPECT_THAT(answer.not_known_near, ::testing::ElementsAre(near));
}

TEST(Dangers, an_automatic_transfer_device_that_loses_the_utility_is_named) {
  for (const bool automatic : {true, false}) {
    Drawn d;
    d.positions_on(d.breaker(1, 2), automatic);
    const OffAnswer answer = what_goes_off(d.record(), {{ref_of_main(d.house), kOff}}, {});
    EXPECT_EQ(answer.will_move.size(), automatic ? 1U : 0U);
    EXPECT_TRUE(what_goes_off(d.record(), {}, {}).will_move.empty());
  }
}

}  // namespace
}  // namespace ohmstead
