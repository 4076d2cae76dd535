#include "house/walking.h"

#include <gtest/gtest.h>

#include "example.h"

namespace ohmstead {
namespace {

constexpr std::size_t kKitchen = 0, kHall = 1, kBedroom = 2, kShop = 3;

/// A house of one floor with these rooms.
House plan(const std::vector<Room>& rooms) {
  House house;
  house.floors = {{.id = {1}, .name = "Ground"}};
  house.rooms = rooms;
  for (std::size_t i = 0; i < rooms.size(); ++i) house.rooms[i].id = {10 + i}, house.rooms[i].floor = {1};
  return house;
}

// 1.2 m/s, 12 s a floor and 45 s to another building are common practice, no source.
TEST(Walking, neighbours_are_the_distance_of_their_centers_apart) {
  const House house = plan({{.left_cm = 0, .top_cm = 0, .width_cm = 600, .depth_cm = 600},
                            {.left_cm = 600, .top_cm = 0, .width_cm = 600, .depth_cm = 600},
                            {.left_cm = 1200, .top_cm = 0, .width_cm = 600, .depth_cm = 600}});
  const auto seconds = walking_seconds(house);
  EXPECT_EQ(seconds[0][1], 5);   // 6 m at 1.2 m/s
  EXPECT_EQ(seconds[0][2], 10);  // through the middle room
  EXPECT_EQ(seconds[2][2], 0);
}

TEST(Walking, the_way_around_is_longer_than_the_straight_line) {
  // A corner: rooms 0 and 2 touch room 1 only. Straight it would be sqrt(2) * 6 m, 7 s.
  const House house = plan({{.left_cm = 0, .top_cm = 0, .width_cm = 600, .depth_cm = 600},
                            {.left_cm = 600, .top_cm = 0, .width_cm = 600, .depth_cm = 600},
                            {.left_cm = 600, .top_cm = 600, .width_cm = 600, .depth_cm = 600}});
  EXPECT_EQ(walking_seconds(house)[0][2], 10);
}

TEST(Walking, rooms_that_do_not_touch_are_reached_through_others) {
  // Room 2 is 4 m away from room 0, straight; the way leads through room 1 below both.
  const House house = plan({{.left_cm = 0, .top_cm = 0, .width_cm = 300, .depth_cm = 300},
                            {.left_cm = 0, .top_cm = 300, .width_cm = 1000, .depth_cm = 900},
                            {.left_cm = 700, .top_cm = 0, .width_cm = 300, .depth_cm = 300}});
  const auto seconds = walking_seconds(house);
  EXPECT_EQ(seconds[0][1], 6);   // centers 6.95 m apart
  EXPECT_EQ(seconds[0][2], 12);  // 7 m straight would be 6 s
}

TEST(Walking, a_given_time_wins_over_the_plan_and_serves_as_a_way) {
  House house = plan({{.width_cm = 600, .depth_cm = 600}, {.left_cm = 600, .width_cm = 600, .depth_cm = 600}, {}});
  house.walks = {{.id = {50}, .from = {10}, .to = {11}, .seconds = 30}, {.id = {51}, .from = {11}, .to = {12}, .seconds = 7}};
  const auto seconds = walking_seconds(house);
  EXPECT_EQ(seconds[0][1], 30);
  EXPECT_EQ(seconds[1][0], 30);
  EXPECT_EQ(seconds[0][2], 37);
}

TEST(Walking, floors_and_buildings_cost_what_the_header_says) {
  House house = example_house();
  house.walks.clear();
  const auto seconds = walking_seconds(house);
  EXPECT_EQ(seconds[kHall][kBedroom], 10 + 12);
  EXPECT_EQ(seconds[kHall][kShop], 10 + 45);
  EXPECT_EQ(seconds[kKitchen][kHall], 3);  // centers 3.1 m apart
  house.floors[1].level = 3;
  EXPECT_EQ(walking_seconds(house)[kHall][kBedroom], 10 + 3 * 12);
}

TEST(Walking, is_symmetric_and_never_longer_than_a_way_over_a_third_room) {
  const auto seconds = walking_seconds(example_house());
  for (std::size_t i = 0; i < seconds.size(); ++i) {
    EXPECT_EQ(seconds[i][i], 0);
    for (std::size_t j = 0; j < seconds.size(); ++j) {
      EXPECT_EQ(seconds[i][j], seconds[j][i]);
      for (std::size_t k = 0; k < seconds.size(); ++k) EXPECT_LE(seconds[i][j], seconds[i][k] + seconds[k][j]);
    }
  }
}

TEST(Walking, nothing_known_is_ten_seconds_and_no_rooms_is_no_table) {
  EXPECT_EQ(walking_seconds(plan({{}, {}}))[0][1], 10);
  EXPECT_TRUE(walking_seconds(House{}).empty());
}

}  // namespace
}  // namespace ohmstead
