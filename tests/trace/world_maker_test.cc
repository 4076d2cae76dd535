// What the invented houses are like.

#include "tests/trace/world_maker.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <set>

#include "house/invariants.h"
#include "tests/trace/world_house.h"
#include "trace/label_words.h"

namespace ohmstead::test {
namespace {

std::vector<WorldKind> all_kinds() {
  std::vector<WorldKind> kinds;
  for (std::size_t i = 0; i < words_of(WorldKind{}).size(); ++i) kinds.push_back(static_cast<WorldKind>(i));
  return kinds;
}

/// Sum over all characters of the file: a stand-in for the whole text.
unsigned long long digest(const World& world) {
  unsigned long long sum = 14695981039346656037ULL;  // FNV-1a
  for (const char c : write_worlds({&world, 1})) sum = (sum ^ static_cast<unsigned char>(c)) * 1099511628211ULL;
  return sum;
}

std::vector<const WorldPoint*> points_on(const World& world, std::size_t breaker) {
  std::vector<const WorldPoint*> points;
  for (const WorldPoint& point : world.points)
    if (point.breaker == static_cast<int>(breaker)) points.push_back(&point);
  return points;
}

TEST(MakeWorld, the_same_kind_and_seed_give_the_same_house) {
  for (const WorldKind kind : all_kinds()) {
    EXPECT_EQ(make_world(kind, 3), make_world(kind, 3)) << text_of(kind);
    EXPECT_NE(make_world(kind, 3).points, make_world(kind, 4).points) << text_of(kind);
  }
}

TEST(MakeWorld, a_house_is_the_same_with_every_compiler_and_library) {
  // Seen with GCC 12 and clang 19; they change only when the maker is changed on purpose.
  EXPECT_EQ(digest(make_world(WorldKind::ordinary, 1)), 5718918682825405374ULL);
  EXPECT_EQ(digest(make_world(WorldKind::single_phase_230, 1)), 7613316571373665146ULL);
}

TEST(MakeWorld, every_house_can_be_and_makes_a_sound_record) {
  for (const WorldKind kind : all_kinds())
    for (unsigned seed = 0; seed < (kind == WorldKind::big ? 1U : 40U); ++seed) {
      const World world = make_world(kind, seed);
      EXPECT_EQ(fault_of(world), "") << text_of(kind) << " " << seed;
      const HouseMaker made = house_of(world);
      const auto problems = problems_of(made.house);
      EXPECT_TRUE(problems.empty()) << text_of(kind) << " " << seed << ": " << problems.front().path << " " << problems.front().message;
      ASSERT_EQ(made.truth.feed.size(), world.points.size());
      for (std::size_t p = 0; p < world.points.size(); ++p)
        EXPECT_EQ(made.truth.feed[p].size(), world.points[p].breaker < 0 ? 0U : world.points[p].is == PointClass::two_hots ? 2U : 1U);
    }
}

TEST(MakeWorld, kinds_and_ratings_are_lawful) {
  for (const WorldKind kind : {WorldKind::ordinary, WorldKind::no_locality, WorldKind::two_panels})
    for (unsigned seed = 0; seed < 40; ++seed) {
      const World world = make_world(kind, seed);
      for (const WorldPoint& point : world.points) {
        if (point.breaker < 0 || point.stray) continue;
        const WorldBreaker& breaker = world.breakers[static_cast<std::size_t>(point.breaker)];
        EXPECT_EQ(point.is == PointClass::two_hots, breaker.poles == 2 && point.volts == 240);
        if (breaker.poles == 2 && point.volts == 120) {
          EXPECT_EQ(breaker.amps, 20) << "a tied multiwire pair";
        }
        if (point.volts == 120) {
          EXPECT_LE(breaker.amps, 20);
        }
        if (point.kind == "counter_receptacle" || point.kind == "bath_receptacle" || point.kind == "garage_receptacle") {
          EXPECT_EQ(breaker.amps, 20) << text_of(kind) << " " << seed << " " << point.kind;
        }
      }
    }
}

struct Means {
  double points = 0, breakers = 0, spare = 0, labelled = 0, right = 0, stray = 0, dead = 0, off_panel = 0, alone = 0, rooms = 0;
};

Means means_of(WorldKind kind, int houses) {
  Means sum;
  const auto add = [&](double& to, auto count) { to += static_cast<double>(count) / houses; };
  for (int seed = 0; seed < houses; ++seed) {
    const World world = make_world(kind, static_cast<unsigned>(seed));
    add(sum.points, world.points.size()), add(sum.breakers, world.breakers.size()), add(sum.rooms, world.rooms.size());
    for (std::size_t b = 0; b < world.breakers.size(); ++b) add(sum.spare, points_on(world, b).empty() && !is_feeder(world, static_cast<int>(b)) ? 1 : 0);
    add(sum.labelled, std::ranges::count_if(world.breakers, [](const WorldBreaker& b) { return !b.label.empty(); }));
    add(sum.right, std::ranges::count(world.breakers, LabelStatus::right, &WorldBreaker::label_status));
    add(sum.alone, std::ranges::count(world.breakers, true, &WorldBreaker::only_alone));
    add(sum.stray, std::ranges::count(world.points, true, &WorldPoint::stray));
    add(sum.dead, std::ranges::count_if(world.points, [](const WorldPoint& p) { return p.at_start != AtStart::live; }));
    add(sum.off_panel, std::ranges::count(world.points, -1, &WorldPoint::breaker));
  }
  return sum;
}

/// The figures of the sort of house that is meant: 97 points, 28 breakers of which 2 spare, 16 labelled, 5
/// points on a surprising circuit, 1.4 dead at the start.
TEST(MakeWorld, ordinary_houses_are_like_what_is_said_of_them) {
  const Means mean = means_of(WorldKind::ordinary, 200);
  EXPECT_NEAR(mean.points, 97, 4);
  EXPECT_NEAR(mean.breakers, 28, 2);
  EXPECT_NEAR(mean.spare, 2, 0.4);
  EXPECT_NEAR(mean.labelled, 16, 1.5);
  EXPECT_NEAR(mean.right / mean.labelled, 0.76, 0.05);
  EXPECT_NEAR(mean.stray, 5, 0.6);
  EXPECT_NEAR(mean.dead, 1.4, 0.3);
  EXPECT_NEAR(mean.off_panel, 0.2, 0.15);
  EXPECT_NEAR(mean.alone, 0.8, 0.2);
  EXPECT_NEAR(mean.rooms, 13.3, 0.7);
}

/// Share of pairs of receptacles of one room that share a breaker.
double share_in_one_room(WorldKind kind) {
  int pairs = 0, shared = 0;
  for (unsigned seed = 0; seed < 60; ++seed) {
    const World world = make_world(kind, seed);
    for (const WorldPoint& a : world.points)
      for (const WorldPoint& b : world.points)
        if (&a < &b && a.room == b.room && a.kind == "receptacle" && b.kind == "receptacle") ++pairs, shared += a.breaker == b.breaker ? 1 : 0;
  }
  return static_cast<double>(shared) / pairs;
}

TEST(MakeWorld, receptacles_of_one_room_share_a_breaker_unless_the_house_has_no_locality) {
  EXPECT_NEAR(share_in_one_room(WorldKind::ordinary), 0.78, 0.07);
  EXPECT_LT(share_in_one_room(WorldKind::no_locality), 0.15);
}

TEST(MakeWorld, wrong_labels_name_no_room_and_no_thing_of_their_circuit) {
  int labels = 0;
  for (unsigned seed = 0; seed < 40; ++seed) {
    const World world = make_world(WorldKind::labels_wrong, seed);
    const House house = house_of(world).house;
    for (std::size_t b = 0; b < world.breakers.size(); ++b) {
      if (world.breakers[b].label.empty()) continue;
      ++labels;
      const LabelSays says = read_label(house, world.breakers[b].label);
      for (const WorldPoint* point : points_on(world, b)) {
        if (point->stray) continue;
        EXPECT_FALSE(says.rooms.contains(static_cast<std::size_t>(point->room))) << seed << " " << world.breakers[b].label;
        if (!names_an_appliance(words_in(point->kind))) continue;  // "Bath lights" may stand beside lights of another room
        EXPECT_FALSE(says.words.contains(point->kind.substr(0, point->kind.find('_')))) << seed << " " << world.breakers[b].label << " " << point->kind;
      }
    }
  }
  EXPECT_GT(labels, 400);
  for (const WorldBreaker& breaker : make_world(WorldKind::no_labels, 1).breakers) EXPECT_EQ(breaker.label, "");
}

TEST(MakeWorld, an_old_house_has_few_circuits_of_lights_and_receptacles_of_one_floor) {
  int mixed = 0;
  for (unsigned seed = 0; seed < 60; ++seed) {
    const World world = make_world(WorldKind::few_circuits, seed);
    EXPECT_TRUE(world.breakers.size() >= 6 && world.breakers.size() <= 10) << seed << ": " << world.breakers.size();
    EXPECT_TRUE(world.points.size() >= 35 && world.points.size() <= 50) << seed << ": " << world.points.size();
    for (std::size_t b = 0; b < world.breakers.size(); ++b) {
      std::set<int> floors;
      std::set<PointClass> classes;
      for (const WorldPoint* point : points_on(world, b))
        if (!point->stray) floors.insert(std::max(0, world.rooms[static_cast<std::size_t>(point->room)].floor)), classes.insert(point->is);
      EXPECT_LE(floors.size(), 1U) << seed << " " << b;
      mixed += classes.contains(PointClass::light) && classes.contains(PointClass::receptacle) ? 1 : 0;
    }
  }
  EXPECT_GT(mixed, 60 * 3);
}

TEST(MakeWorld, a_house_with_two_panels_has_a_feeder_and_a_part_of_its_breakers_in_another_room) {
  for (unsigned seed = 0; seed < 40; ++seed) {
    const World world = make_world(WorldKind::two_panels, seed);
    ASSERT_EQ(world.subpanels.size(), 1U);
    EXPECT_NE(world.subpanels[0].room, world.panel_room);
    EXPECT_EQ(world.breakers[static_cast<std::size_t>(world.subpanels[0].fed_by)].panel, 0);
    const auto in_sub = std::ranges::count(world.breakers, 1, &WorldBreaker::panel);
    EXPECT_TRUE(in_sub >= 3 && in_sub < std::ssize(world.breakers) / 2) << seed << ": " << in_sub;
  }
}

TEST(MakeWorld, where_the_mains_is_230_volts_lights_are_on_10_and_sockets_on_16_amps) {
  for (unsigned seed = 0; seed < 40; ++seed) {
    const World world = make_world(WorldKind::single_phase_230, seed);
    for (const WorldBreaker& breaker : world.breakers) EXPECT_EQ(breaker.poles, 1);
    for (const WorldPoint& point : world.points) {
      EXPECT_EQ(point.volts, 230);
      EXPECT_NE(point.is, PointClass::two_hots);
      if (point.breaker < 0 || point.stray) continue;
      const int amps = world.breakers[static_cast<std::size_t>(point.breaker)].amps;
      if (point.is == PointClass::light) {
        EXPECT_TRUE(amps == 6 || amps == 10) << seed << " " << amps;
      }
      if (point.is == PointClass::receptacle) {
        EXPECT_EQ(amps, 16) << seed << " " << point.kind;
      }
    }
  }
}

TEST(MakeWorld, tiny_and_big_houses_have_their_sizes) {
  for (unsigned seed = 0; seed < 40; ++seed) {
    const World tiny = make_world(WorldKind::tiny, seed);
    EXPECT_EQ(tiny.breakers.size(), 4U);
    EXPECT_TRUE(tiny.points.size() >= 4 && tiny.points.size() <= 6);
  }
  const World big = make_world(WorldKind::big, 1);
  EXPECT_EQ(big.breakers.size(), 200U);
  EXPECT_EQ(big.points.size(), 1000U);
  EXPECT_EQ(big.subpanels.size(), 2U);
}

}  // namespace
}  // namespace ohmstead::test
