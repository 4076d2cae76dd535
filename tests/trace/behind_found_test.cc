#include "trace/behind_found.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "feed/graph.h"
#include "feed/liveness.h"
#include "house/invariants.h"
#include "tests/trace/behind_world.h"
#include "trace/conclude.h"

namespace ohmstead::test {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

/// One room, one breaker, four receptacles, and devices of which nothing is written down.
struct OneRoom : HouseMaker {
  Id<Breaker> breaker = add_breaker(1);
  OneRoom() {
    for (int i = 1; i <= 4; ++i) add_point(house.rooms[0].id, "receptacle " + std::to_string(i), {{1, breaker, 1}});
  }
  Id<Device> add_device(DeviceKind kind, const std::string& name) {
    Device device;
    device.id = Id<Device>::fresh(), device.kind = kind, device.name = name;
    house.devices.push_back(device);
    house.handles.push_back({Id<Handle>::fresh(), device.id, house.rooms[0].id, {}, name});
    return device.id;
  }
  [[nodiscard]] HandleRef handle(Id<Device> device) const {
    return {HandleKind::device, std::ranges::find(house.handles, device, &Handle::device)->id.value};
  }
  /// Proves what it takes down and what not.
  void prove(Id<Device> device, const std::vector<std::size_t>& behind, const std::vector<std::size_t>& not_behind = {}) {
    for (const std::size_t p : behind) {
      for (int i = 0; i < 3; ++i) see(p, Seen::dead, {handle(device)});
      see(p, Seen::live, {});
    }
    for (const std::size_t p : not_behind)
      for (int i = 0; i < 3; ++i) see(p, Seen::live, {handle(device)});
  }
  [[nodiscard]] House found() const {
    House as_found = house_as_found(house).house;
    EXPECT_THAT(problems_of(as_found), IsEmpty());
    return as_found;
  }
};

TEST(BehindFound, what_looks_have_proved_is_behind_and_goes_dead_with_it) {
  OneRoom made;
  const Id<Device> gfci = made.add_device(DeviceKind::gfci_receptacle, "GFCI");
  made.prove(gfci, {1, 2}, {3});
  for (int i = 0; i < 2; ++i) made.see(0, Seen::dead, {HouseMaker::off(made.breaker)});
  made.house.declared_feeds.push_back({Id<DeclaredFeed>::fresh(), made.house.points[1].id, {}, 1, made.breaker, 1});
  const House house = made.found();
  EXPECT_EQ(house.points[1].behind, gfci);
  EXPECT_EQ(house.points[2].behind, gfci);
  EXPECT_FALSE(house.points[3].behind);
  EXPECT_FALSE(house.points[0].behind) << "never looked at";
  const Graph graph = build_graph(house, conclude(house));
  State state = usual_state(graph);
  move_handle(graph, state, graph.handle_of(made.handle(gfci)), kOff);
  const Liveness live = liveness(graph, state);
  EXPECT_EQ(point_state(graph, live, 1), PointState::dead) << "the declared breaker is the device's now";
  EXPECT_EQ(point_state(graph, live, 2), PointState::dead);
  EXPECT_NE(point_state(graph, live, 0), PointState::dead);
  EXPECT_NE(point_state(graph, live, 3), PointState::dead);
}

TEST(BehindFound, a_look_that_is_taken_back_takes_its_finding_with_it_and_the_record_is_not_changed) {
  OneRoom made;
  const Id<Device> gfci = made.add_device(DeviceKind::gfci_receptacle, "GFCI");
  made.prove(gfci, {1});
  EXPECT_THAT(house_as_found(made.house).found, ElementsAre(FoundBehind{gfci, 1}));
  EXPECT_FALSE(made.house.points[1].behind);
  made.house.observations.back().withdrawn = true;
  EXPECT_EQ(house_as_found(made.house).house, made.house);
}

TEST(BehindFound, looks_outrank_words_but_a_gfci_is_behind_itself) {
  OneRoom made;
  const Id<Device> gfci = made.add_device(DeviceKind::gfci_receptacle, "GFCI"), outer = made.add_device(DeviceKind::disconnect, "disconnect");
  made.house.devices[0].at_point = made.house.points[0].id, made.house.devices[0].behind = outer;
  made.house.points[0].behind = made.house.points[1].behind = gfci;
  made.prove(gfci, {}, {0, 1});
  const HouseAsFound as_found = house_as_found(made.house);
  EXPECT_EQ(as_found.house.points[1].behind, outer) << "it is still behind what the GFCI is behind";
  EXPECT_EQ(as_found.house.points[0].behind, gfci);
  EXPECT_THAT(as_found.found, ElementsAre(FoundBehind{gfci, 0, false, false}, FoundBehind{gfci, 1, false, true}));
  EXPECT_THAT(problems_of(as_found.house), IsEmpty());
}

TEST(BehindFound, of_two_devices_the_one_that_takes_down_more_stands_nearer_to_the_breaker) {
  for (const bool gfci_first : {true, false}) {
    OneRoom made;
    const Id<Device> one = made.add_device(DeviceKind::wall_switch, "switch"), two = made.add_device(DeviceKind::gfci_receptacle, "GFCI");
    const Id<Device> three = made.add_device(DeviceKind::disconnect, "disconnect");
    if (gfci_first) made.prove(two, {0, 1, 2}), made.prove(one, {1}), made.prove(three, {1, 2});
    else made.prove(three, {1, 2}), made.prove(one, {1}), made.prove(two, {0, 1, 2});
    const House house = made.found();
    EXPECT_EQ(house.points[0].behind, two);
    EXPECT_EQ(house.points[1].behind, one);
    EXPECT_EQ(house.points[2].behind, three);
    EXPECT_EQ(house.devices[0].behind, three);
    EXPECT_EQ(house.devices[2].behind, two);
    EXPECT_FALSE(house.devices[1].behind);
  }
}

TEST(BehindFound, a_switch_whose_light_is_behind_a_gfci_is_behind_it_with_all_it_works) {
  OneRoom made;
  const Id<Device> wall = made.add_device(DeviceKind::wall_switch, "switch"), gfci = made.add_device(DeviceKind::gfci_receptacle, "GFCI");
  made.house.points[1].behind = made.house.points[2].behind = wall;
  made.prove(gfci, {0, 1});
  House house = made.found();
  EXPECT_EQ(house.devices[0].behind, gfci);
  EXPECT_EQ(house.points[1].behind, wall);
  made.prove(gfci, {}, {2});
  house = house_as_found(made.house).house;
  EXPECT_FALSE(house.devices[0].behind) << "one of its points stayed live: they cannot both be so";
  EXPECT_EQ(house.points[1].behind, wall);
  EXPECT_THAT(house_as_found(made.house).found, ElementsAre(FoundBehind{gfci, 0}, FoundBehind{gfci, 1, true, false}));
}

TEST(BehindFound, what_needs_more_hots_than_the_device_has_poles_is_not_taken_up) {
  OneRoom made;
  const Id<Device> gfci = made.add_device(DeviceKind::gfci_receptacle, "GFCI");
  made.house.points[1].hots = 2;
  made.prove(gfci, {1});
  EXPECT_FALSE(made.found().points[1].behind);
  EXPECT_THAT(house_as_found(made.house).found, ElementsAre(FoundBehind{gfci, 1, true, false}));
}

TEST(BehindFound, after_sessions_about_every_device_the_house_is_sound_and_has_what_is_true) {
  int taken_up = 0, not_true = 0;
  for (unsigned seed = 4000; seed < 4004; ++seed) {
    const DeviceWorld world = make_device_world(seed, true);
    House house = world.made.house;
    DeviceWalker walker(world, 0, seed);
    walker.clock = world.made.clock;
    for (const HiddenDevice& device : world.devices) {
      ask_behind(house, device.handle);
      TraceSession session(house);
      for (int i = 0; i < 1000 && session.step().kind != StepKind::done; ++i) session.answer(walker.answer(session));
      house = session.house();
    }
    const HouseAsFound as_found = house_as_found(house);
    EXPECT_THAT(problems_of(as_found.house), IsEmpty());
    for (const FoundBehind& found : as_found.found) {
      taken_up += found.taken_up ? 1 : 0;
      const auto device = static_cast<std::size_t>(Index<Device>(house.devices).at(found.device));
      not_true += world.devices[device].takes.contains(found.point) == found.is_behind ? 0 : 1;
    }
    const Graph graph = build_graph(as_found.house, conclude(as_found.house));
    for (const HiddenDevice& device : world.devices) {
      State state = usual_state(graph);
      move_handle(graph, state, graph.handle_of(device.handle), kOff);
      const Liveness live = liveness(graph, state);
      for (std::size_t p = 0; p < house.points.size(); ++p) EXPECT_TRUE(point_state(graph, live, p) != PointState::dead || device.takes.contains(p)) << house.points[p].name;
    }
  }
  EXPECT_GT(taken_up, 30);
  EXPECT_EQ(not_true, 0);
}

}  // namespace
}  // namespace ohmstead::test
