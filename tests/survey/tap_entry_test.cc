#include "survey/tap_entry.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <functional>

#include "house/error.h"
#include "house/invariants.h"
#include "tests/support/random_house.h"

namespace ohmstead {
namespace {

House empty_flat() {
  House house;
  house.dwelling = {Id<Dwelling>::fresh(), "Flat"};
  return house;
}

TEST(TapEntry, rooms_points_panels_and_breakers_are_added_one_tap_at_a_time) {
  House house = with_room(empty_flat(), {}, "Kitchen").house;
  ASSERT_EQ(house.rooms.size(), 1U);
  const Id<Room> kitchen = house.rooms[0].id;
  house = with_items(house, kitchen, "receptacle").house;
  house = with_items(house, kitchen, "receptacle").house;
  house = with_items(house, kitchen, "light").house;
  ASSERT_EQ(house.points.size(), 3U);
  EXPECT_EQ(house.points[1].name, "receptacle 2");
  EXPECT_EQ(house.points[2].kind, PointKind::light);
  house = with_panel(house, "Main 12 100A").house;
  house = with_breakers(house, house.panels[0].id, "1 20 kitchen; 2+4 30 dryer").house;
  EXPECT_EQ(house.breakers.size(), 2U);
  house = with_name(house, house.points[0].id, "counter receptacle", "left of the sink").house;
  EXPECT_EQ(house.points[0].place, "left of the sink");
  EXPECT_TRUE(problems_of(house).empty());
}

TEST(TapEntry, a_room_goes_to_the_floor_that_is_meant_also_where_two_floors_have_one_of_its_name) {
  House house = enter_text(empty_flat(), "Floor Ground 0\nHall: 1r\nFloor Upper 1\nBath: 1l\n").house;
  const Id<Floor> upper = house.floors[1].id;
  house = with_room(house, upper, "Hall").house;
  ASSERT_EQ(house.rooms.size(), 3U);
  EXPECT_EQ(house.rooms[2].floor, upper);
  house = with_items(house, house.rooms[2].id, "2 lights").house;
  EXPECT_EQ(std::ranges::count(house.points, house.rooms[2].id, &Point::room), 2);
  EXPECT_EQ(std::ranges::count(house.points, house.rooms[0].id, &Point::room), 1);
}

TEST(TapEntry, what_makes_no_sense_is_refused_in_one_sentence_that_names_no_line) {
  const House house = enter_text(empty_flat(), "Kitchen: 2r\nPanel Main 12 100A\n").house;
  const Id<Room> kitchen = house.rooms[0].id;
  const auto refusal = [](const std::function<void()>& act) -> std::string {
    try {
      act();
    } catch (const Error& error) {
      return error.what();
    }
    return "";
  };
  for (const std::string& said : {refusal([&] { (void)with_room(house, {}, "Kitchen"); }), refusal([&] { (void)with_room(house, {}, ""); }),
                                  refusal([&] { (void)with_room(house, {}, "Bath: 2r"); }), refusal([&] { (void)with_items(house, kitchen, "flux thing"); }),
                                  refusal([&] { (void)with_items(house, kitchen, "1r\nHall: 2r"); }), refusal([&] { (void)with_items(house, kitchen, " "); }),
                                  refusal([&] { (void)with_panel(house, "Main 12"); }), refusal([&] { (void)with_breakers(house, house.panels[0].id, "99 20 x"); }),
                                  refusal([&] { (void)with_name(house, house.points[0].id, "receptacle 2", ""); }),
                                  refusal([&] { (void)with_name(house, house.points[0].id, "", ""); })}) {
    EXPECT_FALSE(said.empty());
    EXPECT_FALSE(said.starts_with("line ")) << said;
  }
}

TEST(TapEntry, what_was_done_last_is_taken_back_and_what_came_since_stays) {
  const House before = enter_text(empty_flat(), "Kitchen: 2r\n").house;
  const House after = with_items(before, before.rooms[0].id, "dishwasher").house;
  EXPECT_EQ(taken_back(after, before, after), before);
  const House later = with_room(after, {}, "Hall").house;
  const House back = taken_back(later, before, after);
  EXPECT_EQ(back.points.size(), 2U);
  EXPECT_EQ(back.rooms.size(), 2U);
  EXPECT_TRUE(back.loads.empty());
}

TEST(TapEntry, what_was_used_or_changed_since_is_not_taken_back) {
  const House before = enter_text(empty_flat(), "Kitchen: 2r\n").house;
  const House after = with_room(before, {}, "Hall").house;
  const House used = with_items(after, after.rooms[1].id, "light").house;
  EXPECT_THROW((void)taken_back(used, before, after), Error);
  const House named_before = after, named = with_name(after, after.points[0].id, "by the door", "").house;
  const House again = with_name(named, named.points[0].id, "by the window", "").house;
  EXPECT_THROW((void)taken_back(again, named_before, named), Error);
  EXPECT_EQ(taken_back(named, named_before, named), named_before);
}

TEST(TapEntry, any_change_of_a_random_house_is_taken_back_exactly) {
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    const House before = random_house(seed, 5);
    if (before.rooms.empty()) continue;
    const House after = with_items(before, before.rooms[seed % before.rooms.size()].id, "3r 2l sw, freezer").house;
    ASSERT_GT(after.points.size(), before.points.size());
    EXPECT_EQ(taken_back(after, before, after), before) << seed;
  }
}

}  // namespace
}  // namespace ohmstead
