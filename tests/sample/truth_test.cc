#include "sample-house/truth.h"

#include <gmock/gmock.h>

#include <string>

#include "house/error.h"
#include "house/invariants.h"

namespace ohmstead {
namespace {

constexpr const char* kHeading = "room,point,hot,panel,breaker,pole,dead_at_start,stray\n";

/// Den: a lamp and a receptacle behind one switch, and a heater between legs. Panel with 1 and 2-4.
House small_house() {
  House house;
  house.dwelling.id = {1};
  house.floors = {{{2}, "Ground", "", 0}};
  house.rooms = {{{3}, {2}, "Den", 0, 0, 0, 0}};
  Panel panel;
  panel.id = {4}, panel.name = "Main", panel.spaces = 8, panel.supply = Supply::utility;
  house.panels = {panel};
  Breaker one, two;
  one.id = {5}, one.panel = {4}, one.space = 1;
  two.id = {6}, two.panel = {4}, two.space = 2, two.poles = 2;
  house.breakers = {one, two};
  Device device;
  device.id = {7}, device.name = "switch";
  house.devices = {device};
  house.handles = {{{8}, {7}, {3}, {}, "switch"}};
  for (const char* name : {"lamp", "receptacle", "heater"}) {
    Point point;
    point.id = {10 + house.points.size()}, point.room = {3}, point.name = name;
    if (point.name == "heater") point.hots = 2;
    else point.behind = {7};
    house.points.push_back(point);
  }
  return house;
}

constexpr const char* kGood =
    "Den,lamp,1,Main,1,1,1,0\nDen,receptacle,1,Main,1,1,0,1\nDen,heater,1,Main,2-4,1,0,0\nDen,heater,2,Main,2-4,2,0,0\n";

std::string refused(const std::string& rows) {
  try {
    (void)read_truth(small_house(), kHeading + rows);
  } catch (const Error& error) {
    return error.what();
  }
  return "taken";
}

TEST(Truth, gives_points_and_their_devices_their_breakers) {
  const House house = small_house();
  require_sound(house);
  const Truth truth = read_truth(house, std::string(kHeading) + kGood);
  EXPECT_EQ(truth.feeds.of_point[0].taps, (std::vector<Tap>{{1, {5}, 1}}));
  EXPECT_EQ(truth.feeds.of_point[2].taps, (std::vector<Tap>{{1, {6}, 1}, {2, {6}, 2}}));
  EXPECT_EQ(truth.feeds.of_device[0].taps, (std::vector<Tap>{{1, {5}, 1}}));
  EXPECT_EQ(truth.feeds.of_device[0].standing, Standing::proved);
  EXPECT_EQ(truth.at_start, (std::vector{AtStart::comes_alive, AtStart::live, AtStart::live}));
  EXPECT_EQ(truth.stray, (std::vector{false, true, false}));
}

TEST(Truth, refuses_what_cannot_be_the_truth) {
  const std::string good = kGood;
  EXPECT_EQ(refused(good), "taken");
  const auto with = [&](const std::string& was, const std::string& is) {
    std::string rows = good;
    rows.replace(rows.find(was), was.size(), is);
    return refused(rows);
  };
  EXPECT_EQ(with("Den,lamp", "Den,lamps"), "truth, line 2: there is no point 'lamps' in 'Den'.");
  EXPECT_EQ(with("2-4,2", "2-4,3"), "truth, line 5: '3' must be a number from 1 to 2.");
  EXPECT_EQ(with("heater,2", "heater,1"), "truth, line 5: hot 1 of this point is given twice.");
  EXPECT_EQ(with("Main,2-4,2", "Main,2,2"), "truth, line 5: there is no breaker '2' in panel 'Main'.");
  EXPECT_EQ(with("Den,heater,2,Main,2-4,2,0,0\n", ""), "truth, line 4: the file ends and hot 2 of point 'heater' is missing.");
  EXPECT_EQ(with("Main,1,1,1,0", ",,,1,0"), "truth, line 2: a point has a breaker, or it is dead for good (2), and not both.");
  EXPECT_EQ(with("lamp,1,Main,1,1", "lamp,1,Main,2-4,1"),
            "truth, line 5: points behind device 'switch' are on different breakers.");
  EXPECT_EQ(refused("Den,lamp,1\n"), "truth, line 2: there must be 8 fields with commas between them.");
  EXPECT_THROW((void)read_truth(small_house(), "room,point\n"), Error);
}

TEST(Truth, a_point_dead_for_good_has_no_feed) {
  std::string rows = kGood;
  rows.replace(rows.find("Main,1,1,1"), 10, ",,,2");
  const Truth truth = read_truth(small_house(), kHeading + rows);
  EXPECT_TRUE(truth.feeds.of_point[0].taps.empty());
  EXPECT_EQ(truth.feeds.of_point[0].standing, Standing::open);
}

}  // namespace
}  // namespace ohmstead
