#include "trace/contradictions.h"

#include <gtest/gtest.h>

#include "house/invariants.h"
#include "tests/trace/disagreement.h"
#include "tests/trace/session_answers.h"

namespace ohmstead::test {
namespace {

std::vector<Contradiction> found_in(const House& house) { return contradictions_of(house, conclude_units(house)); }

TEST(Contradictions, nothing_contradicts_where_everybody_says_the_same) {
  ThreeRooms made;
  EXPECT_TRUE(found_in(made.house).empty());
  tell(made.house, 0, Seen::dead, made.breakers[0], "Bo", "2026-03-01T08:00:00Z");
  tell(made.house, 0, Seen::live, made.breakers[1], "Ana", "2026-03-02T08:00:00Z");
  EXPECT_TRUE(found_in(made.house).empty());
}

TEST(Contradictions, names_who_saw_it_otherwise_and_when_and_both_observations_stay) {
  ThreeRooms made;
  tell(made.house, 1, Seen::dead, made.breakers[0], "Bo", "2026-03-01T08:00:00Z");
  tell(made.house, 1, Seen::live, made.breakers[0], "Ana", "2026-03-03T08:00:00Z");
  EXPECT_TRUE(problems_of(made.house).empty());
  const auto found = found_in(made.house);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].point, 1U);
  EXPECT_EQ(found[0].standing, Standing::disputed);
  EXPECT_EQ(found[0].breakers, std::vector{made.breakers[0]});
  ASSERT_EQ(found[0].against.size(), 1U);
  EXPECT_EQ(found[0].against[0],
            (Sight{made.house.observations[1].id, false, "2026-03-03T08:00:00Z", "Ana", {HouseMaker::off(made.breakers[0])}}));
  ASSERT_EQ(found[0].in_favor.size(), 1U);
  EXPECT_EQ(found[0].in_favor[0].who, "Bo");
  EXPECT_FALSE(outweighed(found[0]));
}

TEST(Contradictions, a_reading_that_is_alone_against_several_is_outweighed) {
  ThreeRooms made;
  for (const char* at : {"2026-03-01T08:00:00Z", "2026-03-02T08:00:00Z", "2026-03-04T08:00:00Z"})
    tell(made.house, 0, Seen::dead, made.breakers[0], "Bo", at);
  tell(made.house, 0, Seen::dead, made.breakers[4], "Ana", "2026-03-03T08:00:00Z");
  const auto found = found_in(made.house);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].breakers, std::vector{made.breakers[0]});
  EXPECT_EQ(found[0].in_favor.size(), 3U);
  ASSERT_EQ(found[0].against.size(), 1U);
  EXPECT_TRUE(found[0].against[0].dead);
  EXPECT_TRUE(outweighed(found[0]));
}

TEST(Contradictions, what_it_was_seen_dead_with_counts_before_what_a_label_makes_likely) {
  ThreeRooms made;
  made.house.breakers[3].old_label = "Hall";
  tell(made.house, 0, Seen::dead, made.breakers[0], "Bo", "2026-03-01T08:00:00Z");
  tell(made.house, 0, Seen::live, made.breakers[0], "Ana", "2026-03-03T08:00:00Z");
  const Conclusions all = conclude_units(made.house);
  ASSERT_EQ(all.ways[all.units[0].candidates[0].first].breakers[0], 3U) << "the label makes another one likeliest";
  const auto found = contradictions_of(made.house, all);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].breakers, std::vector{made.breakers[0]});
  EXPECT_EQ(found[0].against.at(0).who, "Ana");
}

TEST(Contradictions, a_look_against_a_declaration_is_one_until_looks_prove_another_breaker) {
  ThreeRooms made;
  made.house.declared_feeds.push_back({Id<DeclaredFeed>::fresh(), made.house.points[0].id, {}, 1, made.breakers[3], 1, "J.", ""});
  tell(made.house, 0, Seen::live, made.breakers[3], "Ana", "2026-03-01T08:00:00Z");
  auto found = found_in(made.house);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_TRUE(found[0].declared);
  EXPECT_EQ(found[0].breakers, std::vector{made.breakers[3]});
  for (int i = 2; i < 5; ++i) tell(made.house, 0, Seen::dead, made.breakers[0], "Bo", "2026-03-0" + std::to_string(i) + "T08:00:00Z");
  EXPECT_EQ(conclude(made.house).of_point[0].standing, Standing::proved);
  EXPECT_TRUE(found_in(made.house).empty());
}

TEST(Contradictions, a_withdrawn_observation_contradicts_nothing) {
  ThreeRooms made;
  tell(made.house, 0, Seen::dead, made.breakers[0], "Bo", "2026-03-01T08:00:00Z");
  tell(made.house, 0, Seen::live, made.breakers[0], "Ana", "2026-03-03T08:00:00Z");
  made.house.observations[1].withdrawn = true;
  EXPECT_TRUE(found_in(made.house).empty());
}

}  // namespace
}  // namespace ohmstead::test
