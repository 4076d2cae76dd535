// The sample house holds what its README promises, and its truth is possible.

#include <gmock/gmock.h>

#include <algorithm>
#include <map>
#include <set>

#include "feed/liveness.h"
#include "house/index.h"
#include "house/invariants.h"
#include "house/numbering.h"
#include "house/walking.h"
#include "sample-house/truth.h"
#include "survey/entry.h"
#include "survey/keystrokes.h"
#include "tests/support/sample_house.h"

namespace ohmstead {
namespace {

const House& house() {
  static const House kHouse = sample_house();
  return kHouse;
}

const Truth& truth() {
  static const Truth kTruth = read_truth(house(), source_file("sample-house/truth.csv"));
  return kTruth;
}

template <class Row, class Fits>
std::vector<const Row*> rows_that(const std::vector<Row>& table, Fits fits) {
  std::vector<const Row*> found;
  for (const Row& row : table)
    if (fits(row)) found.push_back(&row);
  return found;
}

const Panel& panel_called(std::string_view name) {
  return *rows_that(house().panels, [&](const Panel& p) { return p.name == name; }).at(0);
}

std::string room_name(Id<Room> room) { return row(house(), room).name; }

/// Place in house.points of a point with a load of this name.
std::size_t point_of_load(std::string_view name) {
  const Load& load = *rows_that(house().loads, [&](const Load& l) { return l.name == name; }).at(0);
  return static_cast<std::size_t>(Index<Point>(house().points).at(load.point));
}

std::string breaker_of(const Tap& tap) {
  const Breaker& breaker = row(house(), tap.breaker);
  const Panel& panel = row(house(), breaker.panel);
  return panel.name + " " + breaker_number(panel, breaker);
}

/// Points that the truth puts on a breaker.
std::size_t points_on(std::string_view breaker) {
  return static_cast<std::size_t>(std::ranges::count_if(truth().feeds.of_point, [&](const Feed& feed) {
    return !feed.taps.empty() && breaker_of(feed.taps[0]) == breaker;
  }));
}

TEST(SampleHouse, is_sound_and_of_the_size_it_should_be) {
  EXPECT_TRUE(problems_of(house()).empty());
  EXPECT_NEAR(static_cast<double>(house().points.size()), 110, 6);
  const auto in_panel = [](const Panel& panel) {
    return rows_that(house().breakers, [&](const Breaker& b) { return b.panel == panel.id; }).size();
  };
  EXPECT_EQ(in_panel(panel_called("Main")), 26u);
  EXPECT_EQ(panel_called("Workshop").spaces, 12);
  EXPECT_EQ(in_panel(panel_called("Workshop")), 8u);
  std::set<int> levels;
  for (const Floor& floor : house().floors)
    if (floor.building.empty()) levels.insert(floor.level);
  EXPECT_EQ(levels, (std::set{-1, 0, 1}));
  EXPECT_EQ(rows_that(house().floors, [](const Floor& f) { return f.building == "Workshop"; }).size(), 1u);
}

TEST(SampleHouse, has_the_backup_it_should_have) {
  ASSERT_EQ(house().sources.size(), 1u);
  EXPECT_EQ(house().sources[0].output, SourceOutput::full);
  EXPECT_LT(house().sources[0].running_watts, 5000);
  ASSERT_EQ(house().transfer_devices.size(), 1u);
  EXPECT_EQ(house().positions.size(), 8u);
  const auto tied = rows_that(house().positions, [](const Position& p) { return bool(p.tie); });
  ASSERT_EQ(tied.size(), 2u);  // the pump
  EXPECT_NE(tied[0]->leg, tied[1]->leg);
  EXPECT_EQ(tied[0]->breaker, tied[1]->breaker);
  EXPECT_NE(tied[0]->pole, tied[1]->pole);
}

TEST(SampleHouse, has_a_multiwire_circuit_on_a_tie_and_one_on_two_poles) {
  std::map<Id<Circuit>, std::vector<const Breaker*>> groups;
  for (const Circuit& circuit : house().circuits)
    if (circuit.multiwire) groups[circuit.multiwire].push_back(find_row(house(), circuit.breaker));
  ASSERT_EQ(groups.size(), 2u);
  std::multiset<std::size_t> sizes;
  for (const auto& [group, breakers] : groups) {
    sizes.insert(breakers.size());
    std::vector<int> legs;
    for (const Breaker* breaker : breakers)
      for (const PolePlace& place : pole_places(panel_called("Main"), *breaker))
        legs.push_back(bus_leg(panel_called("Main"), place.space, 2));
    EXPECT_EQ(std::set(legs.begin(), legs.end()).size(), legs.size()) << "the neutral would carry the sum";
    const bool opens_together = breakers.size() == 1 || (breakers[0]->tie && breakers[0]->tie == breakers[1]->tie);
    EXPECT_TRUE(opens_together);  // NFPA 70 210.4(B)
  }
  EXPECT_EQ(sizes, (std::multiset<std::size_t>{1, 2}));
}

TEST(SampleHouse, has_the_things_that_make_tracing_hard) {
  EXPECT_EQ(rows_that(house().breakers, [](const Breaker& b) { return b.half == Half::a; }).size(), 1u);
  EXPECT_EQ(rows_that(house().points, [](const Point& p) { return p.half == ReceptacleHalf::upper; }).size(), 6u);
  const auto half_hot = rows_that(house().points, [](const Point& p) { return p.half == ReceptacleHalf::upper && p.behind; });
  EXPECT_EQ(half_hot.size(), 4u);
  for (const Point* upper : half_hot) EXPECT_FALSE(row(house(), upper->mate).behind);
  const auto is_multi = [](const Device& device) {
    return std::ranges::count(house().handles, device.id, &Handle::device) == 2;
  };
  EXPECT_EQ(rows_that(house().devices, is_multi).size(), 3u);
  const auto in_another_room = [](const Point& point) {
    const Device* device = find_row(house(), point.behind);
    const Point* at = device == nullptr ? nullptr : find_row(house(), device->at_point);
    return at != nullptr && at->room != point.room;
  };
  std::set<std::string> rooms;
  for (const Point* point : rows_that(house().points, in_another_room)) rooms.insert(room_name(point->room));
  EXPECT_EQ(rooms, (std::set<std::string>{"Deck", "Lower bath"}));
  EXPECT_EQ(house().passings.size(), 1u);
}

TEST(SampleHouse, has_the_loads_that_matter_in_an_outage) {
  const std::size_t oxygen = point_of_load("oxygen concentrator");
  const Load& load = *rows_that(house().loads, [](const Load& l) { return l.name == "oxygen concentrator"; }).at(0);
  EXPECT_EQ(load.importance, Importance::life_safety);
  EXPECT_TRUE(load.hurt_by_power_loss);
  const Tap tap = truth().feeds.of_point[oxygen].taps.at(0);
  EXPECT_EQ(row(house(), tap.breaker).open_rule, OpenRule::briefly_alone);
  for (const char* name : {"oxygen concentrator", "freezer", "refrigerator", "furnace", "well pump"}) {
    const Feed& feed = truth().feeds.of_point[point_of_load(name)];
    for (const Tap& hot : feed.taps) {
      const auto carries = [&](const Position& p) { return p.breaker == hot.breaker && p.pole == hot.pole; };
      EXPECT_EQ(rows_that(house().positions, carries).size(), 1u) << name << " has no position on the transfer device";
    }
  }
}

TEST(SampleHouse, its_old_directory_is_as_bad_as_they_are) {
  std::size_t missing = 0;
  for (const Breaker& breaker : house().breakers) missing += breaker.old_label.empty() ? 1 : 0;
  EXPECT_GE(missing, 8u);
  const auto labelled = [](std::string_view label) {
    return rows_that(house().breakers, [&](const Breaker& b) { return b.old_label == label; });
  };
  ASSERT_EQ(labelled("sauna").size(), 1u);  // stale: it feeds the freezer now
  EXPECT_EQ(truth().feeds.of_point[point_of_load("freezer")].taps.at(0).breaker, labelled("sauna")[0]->id);
  EXPECT_EQ(points_on("Main 33"), 0u);      // stale: the attic fan is gone
  EXPECT_EQ(points_on("Workshop 10"), 0u);
}

TEST(SampleTruth, every_stray_is_alone_of_its_room_on_its_breaker_or_in_another_panel) {
  std::size_t strays = 0;
  for (std::size_t i = 0; i < house().points.size(); ++i) {
    if (!truth().stray[i]) continue;
    ++strays;
    const Tap& tap = truth().feeds.of_point[i].taps.at(0);
    for (std::size_t k = 0; k < house().points.size(); ++k) {
      const Feed& other = truth().feeds.of_point[k];
      const bool same = k != i && house().points[k].room == house().points[i].room && !other.taps.empty();
      EXPECT_FALSE(same && other.taps[0].breaker == tap.breaker) << house().points[k].name;
    }
  }
  EXPECT_EQ(strays, 4u);
}

TEST(SampleTruth, between_legs_means_a_two_pole_breaker_and_one_hot_a_single_pole_or_a_multiwire) {
  for (std::size_t i = 0; i < house().points.size(); ++i) {
    const Point& point = house().points[i];
    const Feed& feed = truth().feeds.of_point[i];
    if (feed.taps.empty()) continue;
    ASSERT_EQ(feed.taps.size(), static_cast<std::size_t>(point.hots)) << point.name;
    const Breaker& breaker = row(house(), feed.taps[0].breaker);
    const Circuit* circuit = nullptr;
    for (const Circuit& c : house().circuits)
      if (c.breaker == breaker.id) circuit = &c;
    const bool multiwire = circuit != nullptr && circuit->multiwire;
    EXPECT_EQ(breaker.poles == 2, point.hots == 2 || (multiwire && breaker.poles == 2)) << point.name;
    for (const Tap& tap : feed.taps) EXPECT_EQ(tap.breaker, breaker.id) << point.name;
    if (point.hots == 2) {
      EXPECT_NE(feed.taps[0].pole, feed.taps[1].pole) << point.name;
    }
  }
}

TEST(SampleTruth, breakers_fit_what_hangs_on_them) {
  for (std::size_t i = 0; i < house().points.size(); ++i) {
    const Point& point = house().points[i];
    if (truth().feeds.of_point[i].taps.empty()) continue;
    const Breaker& breaker = row(house(), truth().feeds.of_point[i].taps[0].breaker);
    const std::string room = room_name(point.room);
    EXPECT_TRUE(point.hots == 2 || breaker.amps == 15 || breaker.amps == 20) << room << " " << point.name;
    // NFPA 70 210.11(C): 20 A circuits for kitchen, dining, laundry and bath receptacles.
    const bool twenty = room == "Kitchen" || room == "Dining room" || room == "Laundry" || room.ends_with("bath");
    const bool is_twenty = breaker.amps == 20;
    EXPECT_TRUE(is_twenty || !twenty || point.kind != PointKind::receptacle) << room << " " << point.name;
  }
}

TEST(SampleTruth, on_an_ordinary_day_everything_works_but_what_is_dead_for_good) {
  const Graph graph = build_graph(house(), truth().feeds);
  const auto states = point_states(graph, liveness(graph, usual_state(graph)));
  for (std::size_t i = 0; i < states.size(); ++i)
    EXPECT_EQ(states[i] == PointState::working, truth().at_start[i] != AtStart::dead_for_good) << house().points[i].name;
  EXPECT_EQ(std::ranges::count(truth().at_start, AtStart::dead_for_good), 1);
  EXPECT_EQ(std::ranges::count(truth().at_start, AtStart::comes_alive), 8);
}

TEST(SampleHouse, its_plan_makes_walking_times) {
  EXPECT_THAT(rows_that(house().rooms, [](const Room& r) { return r.width_cm == 0; }), testing::IsEmpty());
  const auto seconds = walking_seconds(house());
  std::map<std::string, std::size_t> at;
  for (std::size_t i = 0; i < house().rooms.size(); ++i) at[house().rooms[i].name] = i;
  EXPECT_EQ(seconds[at.at("Garage")][at.at("Workshop")], 70);
  EXPECT_GT(seconds[at.at("NE bedroom")][at.at("Workshop")], 70);
  EXPECT_LT(seconds[at.at("Kitchen")][at.at("Dining room")], 10);
}

TEST(SampleHouse, the_quick_text_writes_down_the_same_number_of_points_and_breakers) {
  House empty;
  empty.dwelling = {Id<Dwelling>::fresh(), "House", VoltageSystem::split_phase_120_240};
  const House quick = enter_text(empty, source_file("sample-house/quick.txt")).house;
  EXPECT_EQ(quick.points.size(), house().points.size());
  EXPECT_EQ(quick.breakers.size(), house().breakers.size());
  EXPECT_EQ(quick.positions.size(), house().positions.size());
  EXPECT_LE(keystrokes_of(source_file("sample-house/quick.txt")).rooms, 5 * quick.points.size());
}

}  // namespace
}  // namespace ohmstead
