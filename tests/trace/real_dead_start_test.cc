// What is dead before anything was opened: the session asks for the switch, the GFCI or the bulb,
// learns, and blames no breaker. With one, four and any number of breakers off at once.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "house/invariants.h"
#include "tests/trace/real_drive.h"
#include "trace/step_text.h"

namespace ohmstead::test {
namespace {

using ::testing::HasSubstr;
using ::testing::IsEmpty;

/// Points by what is wrong with them; the house is otherwise FourRooms.
struct DeadAtStart : FourRooms {
  const std::size_t bulb = at(0, 3), lamp_half = at(2, 0), heater = at(1, 1), switched_light = at(3, 3);
  std::vector<std::size_t> behind_gfci = {at(3, 0), at(3, 1), at(3, 2)};
  DeadAtStart() {
    truth.at_start[bulb] = AtStart::dead_until_repaired;    // a burnt bulb, nothing recorded about it
    truth.at_start[heater] = AtStart::dead_for_good;        // a broken receptacle
    put_behind(DeviceKind::gfci_receptacle, "garage GFCI", behind_gfci);
    put_behind(DeviceKind::wall_switch, "garage switch", {switched_light});
    for (const std::size_t p : behind_gfci) truth.at_start[p] = AtStart::dead_until_repaired;
    truth.at_start[switched_light] = AtStart::dead_until_repaired;
  }
  void put_behind(DeviceKind kind, const std::string& name, const std::vector<std::size_t>& points) {
    house.devices.push_back({Id<Device>::fresh(), kind, name});
    house.handles.push_back({Id<Handle>::fresh(), house.devices.back().id, house.rooms[3].id, {}, name});
    if (kind == DeviceKind::gfci_receptacle) house.devices.back().at_point = house.points[points[0]].id;
    for (const std::size_t p : points) house.points[p].behind = house.devices.back().id;
  }
};

TEST(DeadAtStart, is_asked_about_and_repaired_and_then_everything_is_proved) {
  for (const int at_once : kWays) {
    const DeadAtStart made;
    ASSERT_TRUE(problems_of(made.house).empty()) << problems_of(made.house)[0].message;
    const auto [session, seen] = driven_truthfully(made, at_once);
    auto expected = right(made.truth);
    expected[made.heater] = {};
    EXPECT_EQ(proved(session), expected) << at_once;
    EXPECT_EQ(session.progress().dead_anyway, 1) << at_once;
    for (const std::size_t p : {made.bulb, made.heater, made.switched_light})
      EXPECT_TRUE(seen.asked_dead.contains(made.house.points[p].id)) << at_once << ": " << made.house.points[p].name;
    EXPECT_LE(seen.asked_dead.size(), 4U) << at_once << ": one of those behind the GFCI is enough";
    EXPECT_LE(seen.looks, 110) << at_once;
    EXPECT_LE(seen.looks_at.at(made.house.points[made.heater].id), 12) << at_once;
    EXPECT_THAT(summary_text(session.house(), session.conclusions()), HasSubstr("Kitchen, receptacle 2: dead for another reason than a breaker"));
  }
}

TEST(DeadAtStart, blames_no_breaker_with_one_reading_of_a_hundred_wrong) {
  for (const int at_once : kWays) {
    std::size_t wrong = 0, open = 0, blamed_dead = 0, looks = 0;
    for (unsigned seed = 0; seed < 40; ++seed) {
      const DeadAtStart made;
      TraceSession session = session_of(made.house, at_once);
      Walker walker(made.truth, 0.01, seed);
      const Drive seen = drive(session, walker);
      ASSERT_TRUE(seen.ended);
      EXPECT_THAT(seen.broken, IsEmpty());
      wrong += wrongly_blamed(session, made.truth).size(), looks += static_cast<std::size_t>(seen.looks);
      blamed_dead += proved(session)[made.heater] ? 1 : 0;
      const auto found = proved(session), truth = right(made.truth);
      for (std::size_t p = 0; p < found.size(); ++p) open += p != made.heater && found[p] != truth[p] ? 1 : 0;
    }
    EXPECT_LE(wrong, 4U) << at_once << ": of 680 points, 280 of them dead at the start";
    EXPECT_LE(blamed_dead, 1U) << at_once << ": of 40";
    EXPECT_LE(open, 6U) << at_once;
    EXPECT_LE(looks, 40U * 115) << at_once;
  }
}

TEST(DeadAtStart, a_whole_house_without_power_says_so_and_ends) {
  for (const int at_once : kWays) {
    FourRooms made;
    for (AtStart& start : made.truth.at_start) start = AtStart::dead_for_good;
    const auto [session, seen] = driven_truthfully(made, at_once);
    EXPECT_LE(seen.looks, 17 * 12) << at_once;
    EXPECT_EQ(session.progress().dead_anyway, 17) << at_once;
    for (const Feed& feed : conclude(session.house()).of_point) EXPECT_FALSE(relied_on(feed.standing)) << at_once;
  }
}

}  // namespace
}  // namespace ohmstead::test
