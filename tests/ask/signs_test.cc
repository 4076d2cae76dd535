// Which signs a house needs, and how large their letters are.
#include "ask/signs.h"

#include <gmock/gmock.h>

#include <algorithm>

#include "tests/support/random_house.h"
#include "tests/support/traced_sample.h"

namespace ohmstead {
namespace {

using testing::HasSubstr;

const Sign* sign_with(const SignSet& set, const std::string& words) {
  const auto found = std::ranges::find_if(set.signs, [&](const Sign& sign) { return sign.title.find(words) != std::string::npos; });
  return found == set.signs.end() ? nullptr : &*found;
}

std::string not_decided(const SignSet& set) {
  std::string all;
  for (const std::string& words : set.not_decided) all += words + "\n";
  return all;
}

constexpr const char* kHall = "Hall: 2r\n";
constexpr const char* kPanel = "Panel Main in Hall 8 spaces, 100 A main: 1 20; 5 15\n";

TEST(Signs, a_house_without_a_second_source_has_only_the_mark_of_its_service_disconnect) {
  const SignSet set = signs_for(entered_record(std::string(kHall) + kPanel));
  ASSERT_EQ(set.signs.size(), 1U);
  EXPECT_EQ(set.signs[0].title, "SERVICE DISCONNECT");
  EXPECT_EQ(set.signs[0].word, SignWord::none);
  EXPECT_THAT(not_decided(set), HasSubstr("230.85"));
}

TEST(Signs, a_source_that_nothing_connects_asks_for_none) {
  EXPECT_EQ(signs_for(entered_record(std::string(kHall) + kPanel + "Generator G 3000 W 120/240, 30 A inlet, bonded neutral\n")).signs.size(), 1U);
}

TEST(Signs, the_sample_house_names_its_generator_where_it_meets_the_house_and_a_floating_neutral) {
  const SignSet set = signs_for(traced_sample());
  const Sign* second = sign_with(set, "MORE THAN ONE SOURCE");
  ASSERT_NE(second, nullptr);
  EXPECT_EQ(second->word, SignWord::warning);
  EXPECT_THAT(second->lines.at(0), HasSubstr("Generator, at transfer device 'Transfer' in Utility room."));
  EXPECT_THAT(second->to_fill, testing::ElementsAre("To shut down Generator:"));
  EXPECT_THAT(second->rule, HasSubstr("702.7(A)"));
  EXPECT_NE(sign_with(set, "NONSEPARATELY DERIVED (FLOATING NEUTRAL)"), nullptr);
  EXPECT_EQ(sign_with(set, "A SEPARATELY DERIVED (BONDED"), nullptr);
  const Sign* live = sign_with(set, "LIVE WITH THE BREAKER OFF");
  ASSERT_NE(live, nullptr);
  EXPECT_THAT(live->lines.at(0), HasSubstr("circuits 1, 14, 16b, 19, 20-22, 21 and 24 in this panel"));
  EXPECT_NE(sign_with(set, "PANEL Workshop"), nullptr);
  EXPECT_EQ(sign_with(set, "SINGLE 120-VOLT"), nullptr) << "its generator has both legs";
}

TEST(Signs, bonded_floating_or_not_known) {
  const std::string panel = "Panel Main in Hall 8 spaces, 100 A main: 1+3 30 backfed from G, interlocked; 5 15\n";
  EXPECT_NE(sign_with(signs_for(entered_record(std::string(kHall) + "Generator G 3000 W 120/240, 30 A inlet, bonded neutral\n" + panel)), "A SEPARATELY DERIVED (BONDED NEUTRAL)"), nullptr);
  const SignSet unknown = signs_for(entered_record(std::string(kHall) + "Generator G 3000 W 120/240, 30 A inlet\n" + panel));
  EXPECT_EQ(sign_with(unknown, "DERIVED"), nullptr);
  EXPECT_THAT(not_decided(unknown), HasSubstr("702.7(C)"));
}

TEST(Signs, danger_only_where_it_will_kill) {
  Record record = entered_record(std::string(kHall) + "Generator G 3000 W 120/240, 30 A inlet, natural gas\nPanel Main in Hall 8 spaces, 100 A main: 1+3 30 backfed from G, interlocked; 5 15\n");
  const SignSet locked = signs_for(record);
  EXPECT_EQ(std::ranges::count(locked.signs, SignWord::danger, &Sign::word), 0);
  ASSERT_NE(sign_with(locked, "BREAKER 1-3 IS FED FROM G"), nullptr);
  record.house.interlocks.clear();
  const SignSet open = signs_for(record);
  const Sign* danger = sign_with(open, "DO NOT TURN ON BREAKER 1-3");
  ASSERT_NE(danger, nullptr);
  EXPECT_EQ(danger->word, SignWord::danger);
  EXPECT_EQ(sign_with(open, "IS FED FROM"), nullptr);
}

TEST(Signs, one_120_volt_output_forbids_multiwire_circuits) {
  const SignSet set = signs_for(entered_record(std::string(kHall) + kPanel + "Generator Small 1800/2200 W one leg, gasoline\nTransfer T in Hall 2 positions from Small: 1 15 L1 <- Main 1; 2 15 L1\n"));
  const Sign* single = sign_with(set, "SINGLE 120-VOLT SUPPLY");
  ASSERT_NE(single, nullptr);
  EXPECT_THAT(single->lines.at(0), HasSubstr("multiwire branch circuits"));
  EXPECT_THAT(single->rule, HasSubstr("710.15(C)"));
}

// Letter heights: 0.04 in a foot and 1/144 as the sign maker's table has them (ANSI Z535, restated: secondary).
TEST(SignLetters, follow_the_published_table) {
  constexpr double kFoot = 304.8, kInch = 25.4;
  for (const auto& [feet, inches] : {std::pair{4.0, 0.16}, {6.0, 0.24}, {10.0, 0.40}, {20.0, 0.80}, {100.0, 4.00}}) EXPECT_NEAR(letters_for(feet * kFoot, true).message_mm / kInch, inches, 0.001) << feet;
  for (const auto& [feet, inches] : {std::pair{4.0, 0.33}, {6.0, 0.50}, {8.0, 0.66}, {10.0, 0.83}, {60.0, 5.04}}) EXPECT_NEAR(letters_for(feet * kFoot, false).message_mm / kInch, inches, 0.05) << feet;
  EXPECT_NEAR(letters_for(2 * kFoot, true).message_mm / kInch, 0.16, 0.001) << "the smallest for a sign";
  for (const double feet : {2.0, 4.0, 10.0, 50.0})
    for (const bool good : {true, false}) {
      const SignLetters letters = letters_for(feet * kFoot, good);
      EXPECT_GE(letters.word_mm, letters.message_mm * 1.5 - 1e-9);
      EXPECT_GE(letters.word_mm, feet * kFoot / 150 - 1e-9);
    }
}

TEST(Signs, in_random_houses_each_has_words_a_place_a_rule_and_a_reason) {
  std::size_t count = 0;
  for (std::uint64_t seed = 0; seed < 60; ++seed)
    for (const Sign& sign : signs_for(make_record(random_house(seed, 3))).signs) {
      ++count;
      for (const std::string& text : {sign.title, sign.where, sign.rule, sign.why}) EXPECT_FALSE(text.empty()) << seed;
    }
  EXPECT_GT(count, 100U);
}

}  // namespace
}  // namespace ohmstead
