#include "ask/words.h"

#include <gtest/gtest.h>

#include <random>

namespace ohmstead {
namespace {

std::string meanings(std::string_view text) {
  std::string out;
  for (const Word& word : words_of_text(text)) out += (out.empty() ? "" : " ") + word.meaning;
  return out;
}

TEST(Words, are_folded_singular_and_in_the_trades_terms) {
  const std::pair<const char*, const char*> cases[] = {
      {"Kitchen LIGHTS", "kitchen light"},
      {"the fridge in the cellar", "refrigerator basement"},
      {"outlets", "receptacle"},
      {"hot water tank", "waterheater"},
      {"Clothes dryer", "dryer"},
      {"smoke detectors", "smoke alarm"},
      {"3-way switches", "3way switch"},
      {"three way", "3way"},
      {"A/C", "airconditioner"},
      {"Café über-light", "cafe uber light"},
      {"Cafe\xCC\x81", "cafe"},
      {"ŁÓDŹ", "lodz"},
      {"КУХНЯ", "кухня"},
      {"batteries boxes switches glass gas bus", "battery box switch glass gas bus"},
      {"neighbor's den", "neighbor den"},
      {"in the", "in the"},
      {" \t ", ""},
      {"...", ""},
  };
  for (const auto& [given, expected] : cases) EXPECT_EQ(meanings(given), expected) << given;
}

TEST(Words, numbers_know_that_they_are_numbers) {
  const std::pair<const char*, bool> cases[] = {{"12", true}, {"4a", true}, {"4b", true}, {"4c", false}, {"t3", false}, {"3-way", false}};
  for (const auto& [given, number] : cases) EXPECT_EQ(words_of_text(given).at(0).number, number) << given;
}

TEST(Words, longer_text_than_a_name_has_no_words) {
  EXPECT_EQ(words_of_text(std::string(kLongestQuery, 'a')).size(), 1u);
  EXPECT_TRUE(words_of_text(std::string(kLongestQuery + 1, 'a')).empty());
}

TEST(Slips, are_letters_left_out_added_changed_or_swapped) {
  struct Case { const char *a, *b; int most, slips; };
  const Case cases[] = {{"kitchen", "kitchen", 2, 0}, {"kichen", "kitchen", 2, 1}, {"kitchenn", "kitchen", 2, 1},
                        {"kotchen", "kitchen", 2, 1}, {"ktichen", "kitchen", 2, 1}, {"ktichenn", "kitchen", 2, 2},
                        {"bath", "hall", 3, 3},       {"bath", "kitchen", 2, 3},    {"", "ab", 2, 2},
                        {"abc", "", 2, 3},            {"bath", "hall", 1, 2}};
  for (const Case& c : cases) {
    EXPECT_EQ(slips_between(c.a, c.b, c.most), c.slips) << c.a << " " << c.b;
    EXPECT_EQ(slips_between(c.b, c.a, c.most), c.slips) << c.b << " " << c.a;
  }
}

TEST(Folded, garbage_is_folded_to_itself_the_second_time) {
  std::mt19937 random(3);
  for (int round = 0; round < 3000; ++round) {
    std::string text(random() % 30, ' ');
    for (char& c : text) c = static_cast<char>(random());
    const std::string once = folded(text);
    EXPECT_EQ(folded(once), once);
    EXPECT_EQ(once.find('\n'), std::string::npos);
  }
}

}  // namespace
}  // namespace ohmstead
