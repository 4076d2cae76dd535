#include "ask/without_private.h"

#include <gmock/gmock.h>

#include <set>

#include "ask/record.h"
#include "house/invariants.h"
#include "tests/support/random_house.h"
#include "tests/support/traced_sample.h"

namespace ohmstead {
namespace {

/// What feeds the points of which that may be relied on. (What is only likely leans on names and old labels too.)
std::vector<std::vector<Tap>> relied_taps(const Feeds& feeds, const Feeds& by) {
  std::vector<std::vector<Tap>> taps;
  for (std::size_t p = 0; p < feeds.of_point.size(); ++p)
    if (relied_on(by.of_point[p].standing)) taps.push_back(feeds.of_point[p].taps);
  return taps;
}

TEST(WithoutPrivate, any_house_stays_sound_and_what_is_relied_on_is_fed_as_before) {
  for (std::uint64_t seed = 1; seed <= 150; ++seed) {
    const House house = random_house(seed, 1 + static_cast<int>(seed % 10));
    const House left = without_private(house);
    ASSERT_NO_THROW(require_sound(left)) << seed;
    const Feeds before = make_record(house).feeds, after = make_record(left).feeds;
    ASSERT_EQ(relied_taps(after, before), relied_taps(before, before)) << seed;
  }
}

TEST(WithoutPrivate, who_did_what_and_when_the_power_failed_is_gone) {
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    const House left = without_private(random_house(seed, 6));
    EXPECT_TRUE(left.outage_events.empty() && left.settings.empty() && left.printed.empty());
    EXPECT_TRUE(left.trips.empty() && left.diagnoses.empty() && left.diagnosis_looks.empty());
    for (const Round& round : left.rounds) EXPECT_EQ(round.who, "");
    for (const DeclaredFeed& feed : left.declared_feeds) EXPECT_EQ(feed.who, "");
    for (const Tick& tick : left.ticks) EXPECT_EQ(tick.who, "");
    for (const Note& note : left.notes) EXPECT_TRUE(note.who.empty() && !note.is_private);
  }
}

TEST(WithoutPrivate, notes_for_everybody_stay) {
  House house = sample_house();
  house.notes.push_back({Id<Note>::fresh(), {}, "the meter is read in May", false, "Ana", ""});
  house.notes.push_back({Id<Note>::fresh(), {}, "the key hangs behind the door", true, "Ana", ""});
  const std::size_t before = house.notes.size();
  EXPECT_EQ(without_private(house).notes.size(), before - 1);
  EXPECT_EQ(without_private(house).notes.back().text, "the meter is read in May");
}

TEST(WithoutPrivate, a_machine_that_a_life_hangs_on_is_not_told_but_where_it_is_part_of_the_house) {
  House house = sample_house();
  const auto kind_of = [&](const Load& load) { return std::ranges::find(house.points, load.point, &Point::id)->kind; };
  ASSERT_FALSE(house.loads.empty());
  std::size_t plugged_in = 0, wired_in = 0;
  for (Load& load : house.loads) {
    load.importance = Importance::life_safety;
    ++(kind_of(load) == PointKind::receptacle ? plugged_in : wired_in);
  }
  ASSERT_GT(plugged_in, 0U);
  ASSERT_GT(wired_in, 0U);
  EXPECT_EQ(without_private(house).loads.size(), wired_in);
}

TEST(WithoutPrivate, a_machine_that_tells_of_health_is_gone_with_its_name) {
  House house = sample_house();
  const Id<Room> room = house.rooms[0].id;
  for (const char* name : {"CPAP", "oxygen concentrator"}) {
    house.points.push_back({.id = Id<Point>::fresh(), .room = room, .name = name, .kind = PointKind::appliance});
    house.loads.push_back({.id = Id<Load>::fresh(), .point = house.points.back().id, .name = name});
  }
  house.breakers[0].old_label = "oxygen machine";
  const House left = without_private(house);
  EXPECT_EQ((left.points.end() - 2)->name, "appliance");
  EXPECT_EQ((left.points.end() - 1)->name, "appliance (2)");
  EXPECT_TRUE(std::ranges::none_of(left.loads, [](const Load& load) { return load.name == "CPAP" || load.name == "oxygen concentrator"; }));
  EXPECT_EQ(left.breakers[0].old_label, "");
  EXPECT_NO_THROW(require_sound(left));
}

TEST(WithoutPrivate, persons_go_from_names_and_names_stay_apart) {
  House house = sample_house();
  house.rooms[0].name = "Bob's room", house.rooms[1].name = "Ana's room", house.rooms[2].name = "Ana's";
  house.points[0].place = "beside Bob's bed";
  house.breakers[0].old_label = "Ana's heater";
  const House left = without_private(house);
  EXPECT_EQ(left.rooms[0].name, "room");
  EXPECT_EQ(left.rooms[1].name, "room (2)");
  EXPECT_EQ(left.rooms[2].name, "Room");
  EXPECT_EQ(left.points[0].place, "beside bed");
  EXPECT_EQ(left.breakers[0].old_label, "heater");
  EXPECT_NO_THROW(require_sound(left));
}

}  // namespace
}  // namespace ohmstead
