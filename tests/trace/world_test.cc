// Invented houses as values and as a file.

#include "tests/trace/world.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <functional>
#include <nlohmann/json.hpp>

#include "house/error.h"
#include "tests/trace/world_maker.h"

namespace ohmstead::test {
namespace {

using ::testing::HasSubstr;

TEST(World, comes_back_from_its_file_as_it_was) {
  std::vector<World> worlds;
  for (const WorldKind kind : {WorldKind::ordinary, WorldKind::two_panels, WorldKind::single_phase_230, WorldKind::tiny})
    worlds.push_back(make_world(kind, 5));
  EXPECT_EQ(read_worlds(write_worlds(worlds), "houses"), worlds);
}

/// A house of two rooms and two breakers, as somebody may have written it by hand.
nlohmann::json short_house() {
  return nlohmann::json::parse(R"({"seed": 7, "floors": 1, "panel_room": 0,
    "rooms": [{"name": "Hall", "type": "hall", "floor": 0}, {"name": "Bath", "type": "bath", "floor": 0}],
    "walk_s": [[0, 4.5], [4.5, 0]], "adjacent": [[0, 1]],
    "breakers": [{"slot": 1, "poles": 2, "amps": 20, "only_alone": false, "label": null},
                 {"slot": 3, "poles": 1, "amps": 15, "only_alone": true, "label": "Bath"}],
    "points": [{"room": 1, "class": "light", "kind": "light", "volts": 120, "check_s": 2},
               {"room": 0, "class": "240v", "kind": "baseboard", "volts": 240, "check_s": 15}],
    "truth": {"breaker_of_point": [1, 0], "dead_at_start": [1, 0], "stray": [0, 0]}})");
}

TEST(World, what_a_file_leaves_out_has_its_usual_value) {
  const World world = read_world(short_house());
  EXPECT_EQ(world.kind, WorldKind::ordinary);
  EXPECT_EQ(world.system, VoltageSystem::split_phase_120_240);
  EXPECT_EQ(world.points[0].mate, -1);
  EXPECT_EQ(world.points[0].at_start, AtStart::dead_until_repaired);
  EXPECT_EQ(world.points[1].is, PointClass::two_hots);
  EXPECT_EQ(world.breakers[1].panel, 0);
  EXPECT_TRUE(world.breakers[1].only_alone);
  EXPECT_EQ(world.breakers[0].label, "");
}

TEST(World, a_house_that_cannot_be_is_refused_with_the_reason) {
  struct Case {
    std::function<void(nlohmann::json&)> spoil;
    const char* says;
  };
  const Case cases[] = {
      {[](auto& house) { house.erase("rooms"); }, "'rooms'"},
      {[](auto& house) { house["points"][0]["class"] = "lamp"; }, "'lamp' is no word for 'class'"},
      {[](auto& house) { house["panel_room"] = 2; }, "main panel is in a room that is not there"},
      {[](auto& house) { house["walk_s"][0][1] = 5; }, "another time the other way"},
      {[](auto& house) { house["breakers"][1]["slot"] = 2; }, "Two breakers are in one slot"},
      {[](auto& house) { house["breakers"][1]["panel"] = 1; }, "in a panel that is not there"},
      {[](auto& house) { house["truth"]["breaker_of_point"][1] = 1; }, "Point 1 needs two hots and is on one pole"},
      {[](auto& house) { house["truth"]["breaker_of_point"][0] = 2; }, "Point 0 is fed by a breaker that is not there"},
      {[](auto& house) { house["truth"]["dead_at_start"][0] = 3; }, "'dead_at_start' is 0, 1 or 2"},
      {[](auto& house) { house["points"][0]["mate"] = 1; }, "other half does not say so"},
      {[](auto& house) { house["system"] = "single_230"; }, "more poles than there are legs"},
      {[](auto& house) { house["subpanels"] = nlohmann::json::parse(R"([{"room": 1, "fed_by": 1}])"); }, "feeds a subpanel"},
  };
  for (const Case& one : cases) {
    nlohmann::json house = short_house();
    one.spoil(house);
    try {
      (void)read_world(house);
      ADD_FAILURE() << "taken: " << one.says;
    } catch (const Error& e) {
      EXPECT_EQ(e.kind, ErrorKind::invalid_input);
      EXPECT_THAT(e.what(), HasSubstr(one.says));
    }
  }
}

TEST(World, a_file_that_is_no_list_is_refused_by_its_name) {
  for (const char* text : {"", "{", "{}", "7"}) {
    try {
      (void)read_worlds(text, "my.json");
      ADD_FAILURE() << text;
    } catch (const Error& e) {
      EXPECT_THAT(e.what(), HasSubstr("'my.json' is no list of houses"));
    }
  }
}

TEST(World, a_feeder_takes_down_what_hangs_on_its_subpanel) {
  World world = read_world(short_house());
  world.subpanels.push_back({1, 0});  // breaker 0 feeds it
  world.breakers.push_back({1, 1, 15, false, "", 1});
  world.points.push_back({1, PointClass::light, "light", 120, 2, -1, 2});
  EXPECT_TRUE(goes_dead_with(world, world.points[2], 2));
  EXPECT_TRUE(goes_dead_with(world, world.points[2], 0));
  EXPECT_FALSE(goes_dead_with(world, world.points[2], 1));
  EXPECT_FALSE(goes_dead_with(world, world.points[0], 0));
  EXPECT_EQ(panel_room_of(world, 2), 1);
  EXPECT_EQ(panel_room_of(world, 0), 0);
  EXPECT_TRUE(is_feeder(world, 0));
  EXPECT_FALSE(is_feeder(world, 2));
}

}  // namespace
}  // namespace ohmstead::test
