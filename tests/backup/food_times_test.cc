#include "backup/food_times.h"

#include <gmock/gmock.h>

#include <set>

namespace ohmstead {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

TEST(FoodTimes, every_fact_is_there_once_with_a_full_sentence_and_its_source) {
  std::set<Fact> seen;
  for (const OutageFact& fact : outage_facts()) {
    EXPECT_TRUE(seen.insert(fact.fact).second);
    EXPECT_TRUE(fact.sentence.ends_with('.')) << fact.sentence;
    EXPECT_EQ(fact.source.empty(), fact.status == FactStatus::common_practice) << fact.sentence;
    EXPECT_EQ(&outage_fact(fact.fact), &fact);
  }
  EXPECT_EQ(seen.size(), static_cast<std::size_t>(Fact::pipes) + 1);
}

TEST(FoodTimes, what_is_from_memory_or_habit_says_so_on_screen) {
  EXPECT_THAT(cited(Fact::insulin), HasSubstr("(from memory: "));
  EXPECT_THAT(cited(Fact::pipes), HasSubstr("(from memory: "));
  EXPECT_THAT(cited(Fact::sump_pump), HasSubstr("(common practice, no source)"));
  EXPECT_THAT(cited(Fact::drinking_water), HasSubstr("as restated)"));
  EXPECT_THAT(cited(Fact::refrigerator_shut), Not(HasSubstr("from memory")));
}

// US Department of Agriculture, Food Safety and Inspection Service, as carried by the press (secondary).
TEST(FoodTimes, four_hours_forty_eight_and_twenty_four) {
  EXPECT_EQ(kRefrigeratorShutHours, 4);
  EXPECT_EQ(kFullFreezerHours, 48);
  EXPECT_EQ(kHalfFreezerHours, 24);
  const auto says = [](Fact fact, int number) { EXPECT_THAT(std::string(outage_fact(fact).sentence), HasSubstr(std::to_string(number) + " hours")); };
  says(Fact::refrigerator_shut, kRefrigeratorShutHours);
  says(Fact::freezer_full, kFullFreezerHours);
  says(Fact::freezer_half, kHalfFreezerHours);
  EXPECT_THAT(cited(Fact::refrigerator_shut), HasSubstr("Food Safety and Inspection Service"));
}

// US Consumer Product Safety Commission, release of 2020 (text).
TEST(FoodTimes, a_generator_stands_twenty_feet_away) {
  EXPECT_EQ(kGeneratorFeet, 20);
  EXPECT_THAT(cited(Fact::placement), HasSubstr("20 feet (6 m)"));
  EXPECT_THAT(cited(Fact::placement), HasSubstr("Consumer Product Safety Commission"));
}

TEST(FoodTimes, how_long_a_load_may_be_without_power) {
  const auto named = [](const char* name) {
    Load load;
    load.name = name;
    return load;
  };
  EXPECT_EQ(longest_off_min(named("kitchen refrigerator")), 240);
  EXPECT_EQ(longest_off_min(named("chest freezer")), 24 * 60);
  EXPECT_EQ(longest_off_min(named("septic pump")), 24 * 60);
  EXPECT_EQ(longest_off_min(named("sump pump")), std::nullopt);
  EXPECT_EQ(longest_off_min(named("kiln")), std::nullopt);
  Load oxygen = named("oxygen concentrator");
  oxygen.importance = Importance::life_safety;
  EXPECT_EQ(longest_off_min(oxygen), 0);
  oxygen.longest_off_min = 90;
  EXPECT_EQ(longest_off_min(oxygen), 90);
}

}  // namespace
}  // namespace ohmstead
