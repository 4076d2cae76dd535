// Floors, rooms and marks of the floor plan.
#include "ask/floor_plan.h"

#include <gmock/gmock.h>

#include <algorithm>
#include <set>

#include "tests/support/random_house.h"
#include "tests/support/traced_sample.h"

namespace ohmstead {
namespace {

using testing::HasSubstr;

const PlanRoom* room_called(const FloorPlan& plan, const std::string& name) {
  for (const PlanFloor& floor : plan.floors)
    for (const PlanRoom& room : floor.rooms)
      if (room.name == name) return &room;
  return nullptr;
}

TEST(FloorPlan, the_sample_house_has_its_floors_from_below_and_its_rooms_to_scale) {
  const FloorPlan plan = floor_plan(traced_sample(), 12);
  ASSERT_EQ(plan.floors.size(), 4U);
  EXPECT_EQ(plan.floors[0].name, "Lower");
  EXPECT_EQ(plan.floors[1].name, "Middle");
  EXPECT_EQ(plan.floors[2].name, "Upper");
  EXPECT_DOUBLE_EQ(plan.floors[0].width_m, 12);
  EXPECT_DOUBLE_EQ(plan.floors[0].depth_m, 9);
  EXPECT_THAT(plan.floors[1].scale, HasSubstr("Rooms to scale"));
  const PlanRoom* kitchen = room_called(plan, "Kitchen");
  ASSERT_NE(kitchen, nullptr);
  EXPECT_TRUE(kitchen->measured);
  EXPECT_DOUBLE_EQ(kitchen->left_m, 13) << "the yard begins 8 m west of the house";
  EXPECT_DOUBLE_EQ(kitchen->width_m, 4);
  EXPECT_THAT(plan.letters, testing::ElementsAre("W: panel Workshop"));
}

TEST(FloorPlan, marks_say_number_panel_and_doubt) {
  Record record = traced_sample();
  const auto place_of_load = [&](const std::string& name) {
    const auto load = std::ranges::find(record.house.loads, name, &Load::name);
    return static_cast<std::size_t>(std::ranges::find(record.house.points, load->point, &Point::id) - record.house.points.begin());
  };
  const std::size_t saw = place_of_load("table saw"), pump = place_of_load("well pump"), freezer = place_of_load("freezer"), furnace = place_of_load("furnace");
  record.feeds.of_point[freezer].standing = Standing::likely;
  record.feeds.of_point[furnace].standing = Standing::open;
  const FloorPlan plan = floor_plan(record, 12);
  std::map<std::size_t, PlanPoint> points;
  for (const PlanFloor& floor : plan.floors)
    for (const PlanRoom& room : floor.rooms)
      for (const PlanPoint& point : room.points) points[point.point] = point;
  EXPECT_EQ(points.size(), record.house.points.size()) << "every point once";
  EXPECT_EQ(points[saw].label, "W5-7");
  EXPECT_EQ(points[pump].label, "20-22");
  EXPECT_EQ(points[freezer].label, "16b?");
  EXPECT_EQ(points[furnace].label, "?");
  EXPECT_EQ(points[furnace].circuit, -1);
}

TEST(FloorPlan, rooms_that_lie_over_each_other_or_were_not_measured_are_schematic) {
  Record record = traced_sample();
  for (Room& room : record.house.rooms)
    if (room.name == "Laundry") room.left_cm = 100;
  const FloorPlan over = floor_plan(record, 12);
  EXPECT_THAT(over.floors[0].scale, HasSubstr("not to scale: rooms that were measured lie over each other"));
  EXPECT_EQ(over.floors[0].width_m, 0);
  EXPECT_TRUE(std::ranges::none_of(over.floors[0].rooms, &PlanRoom::measured));
  for (Room& room : record.house.rooms) room.width_cm = room.depth_cm = 0;
  for (const PlanFloor& floor : floor_plan(record, 12).floors) EXPECT_THAT(floor.scale, HasSubstr("Schematic, not to scale"));
}

/// Circuits of one room have different patterns wherever twelve can do.
void check_patterns(const FloorPlan& plan, int patterns) {
  for (const PlanCircuitMark& mark : plan.circuits) EXPECT_TRUE(mark.pattern >= 0 && mark.pattern < patterns);
  std::set<std::string> labels;
  for (const PlanCircuitMark& mark : plan.circuits) EXPECT_TRUE(labels.insert(mark.label).second) << mark.label;
}

TEST(FloorPlan, circuits_of_one_room_never_share_a_pattern_in_the_sample_house) {
  const FloorPlan plan = floor_plan(traced_sample(), 12);
  check_patterns(plan, 12);
  EXPECT_GT(plan.circuits.size(), 12U) << "patterns come again";
  for (const PlanFloor& floor : plan.floors)
    for (const PlanRoom& room : floor.rooms) {
      std::set<int> circuits, used;
      for (const PlanPoint& point : room.points)
        if (point.circuit >= 0 && circuits.insert(point.circuit).second) { EXPECT_TRUE(used.insert(plan.circuits[static_cast<std::size_t>(point.circuit)].pattern).second) << room.name; }
    }
}

TEST(FloorPlan, in_random_houses_every_point_is_there_once_and_measured_rooms_lie_apart) {
  for (std::uint64_t seed = 0; seed < 60; ++seed) {
    SCOPED_TRACE(seed);
    const Record record = make_record(random_house(seed, 1 + static_cast<int>(seed % 9)));
    const FloorPlan plan = floor_plan(record, 12);
    check_patterns(plan, 12);
    std::multiset<std::size_t> points;
    for (const PlanFloor& floor : plan.floors)
      for (const PlanRoom& room : floor.rooms) {
        for (const PlanPoint& point : room.points) points.insert(point.point);
        if (!room.measured) continue;
        EXPECT_GE(room.left_m, -1e-9);
        EXPECT_GE(room.top_m, -1e-9);
        EXPECT_LE(room.left_m + room.width_m, floor.width_m + 1e-9);
        EXPECT_LE(room.top_m + room.depth_m, floor.depth_m + 1e-9);
      }
    EXPECT_EQ(points.size(), record.house.points.size());
    EXPECT_EQ(std::set<std::size_t>(points.begin(), points.end()).size(), points.size());
  }
}

}  // namespace
}  // namespace ohmstead
