#include "rules/plain_words.h"

#include <gtest/gtest.h>

#include <random>
#include <string>

namespace ohmstead {
namespace {

TEST(Printable, controls_become_one_space_and_broken_bytes_a_sign) {
  const struct {
    std::string in, out;
  } cases[] = {
      {"Kitchen", "Kitchen"},
      {"  Hall \t\r\n stair\x1b[31m ", "Hall stair [31m"},
      {"a\xE2\x80\xAE" "b", "a b"},                // right-to-left override
      {"a\xC2\x85" "b\xC2\xA0" "c", "a b c"},      // next line, no-break space
      {"x\xFFy", "x\uFFFDy"},
      {"\xC0\xAF", "\uFFFD\uFFFD"},                // overlong slash
      {"\xED\xA0\x80", "\uFFFD\uFFFD\uFFFD"},      // half of a surrogate pair
      {"\xF0\x9F\x94", "\uFFFD\uFFFD\uFFFD"},      // cut off
      {"K\u00FCche \u53A8\u623F", "K\u00FCche \u53A8\u623F"},
      {"", ""},
  };
  for (const auto& c : cases) EXPECT_EQ(printable(c.in), c.out);
}

TEST(Printable, any_bytes_give_text_without_controls_that_stays_the_same) {
  std::mt19937 random(7);
  for (int round = 0; round < 2000; ++round) {
    std::string bytes(random() % 40, ' ');
    for (char& byte : bytes) byte = static_cast<char>(random());
    const std::string text = printable(bytes);
    EXPECT_EQ(printable(text), text);
    for (const char c : text) EXPECT_TRUE(static_cast<unsigned char>(c) >= 0x20 && c != 0x7F);
    EXPECT_LE(character_count(text), bytes.size());
  }
}

TEST(WholeWords, never_cut_within_a_word) {
  EXPECT_EQ(whole_words("upper hall closet", 10), "upper hall");
  EXPECT_EQ(whole_words("upper hall closet", 9), "upper");
  EXPECT_EQ(whole_words("upper hall", 4), "");
  EXPECT_EQ(whole_words("bath and hall", 10), "bath");
  EXPECT_EQ(whole_words("bath and", 8), "bath and");
  EXPECT_EQ(whole_words("\u0431\u0430\u043D\u044F \u0438 \u0437\u0430\u043B", 7), "\u0431\u0430\u043D\u044F") << "the same in Russian";
  EXPECT_EQ(whole_words("\u53A8\u623F \u5367\u5BA4", 2), "\u53A8\u623F");
  EXPECT_EQ(whole_words(std::string(10'000, 'x'), 24), "");
}

// No description may depend on who lives in a room today: NFPA 70 408.4(A).
TEST(WithoutPerson, possessives_go_and_place_words_stay) {
  EXPECT_EQ(without_person("Bob's room"), "room");
  EXPECT_EQ(without_person("the girls' bath"), "the bath");
  EXPECT_EQ(without_person("Ann\u2019s NE bedroom"), "NE bedroom");
  EXPECT_EQ(without_person("NE bedroom"), "NE bedroom");
  EXPECT_EQ(without_person("'s"), "'s");
}

TEST(LabelName, signs_of_the_label_do_not_come_from_a_name) {
  EXPECT_EQ(label_name("Den? Bob's; 2", 24), "Den 2");
  EXPECT_EQ(label_name("?;", 24), "");
}

TEST(Plural, english_nouns) {
  for (const auto& [one, many] : {std::pair{"light", "lights"}, {"smoke alarm", "smoke alarms"}, {"switch", "switches"},
                                  {"battery", "batteries"}, {"bay", "bays"}, {"stairs", "stairs"}, {"box", "boxes"},
                                  {"l\u00E1mpar\u00E1", "l\u00E1mpar\u00E1"}})
    EXPECT_EQ(plural(one), many);
}

TEST(Number, is_taken_from_the_end_only) {
  EXPECT_EQ(without_number("counter receptacle 12"), "counter receptacle");
  EXPECT_EQ(number_at_end("counter receptacle 12"), "12");
  EXPECT_EQ(without_number("240 V outlet"), "240 V outlet");
  EXPECT_EQ(number_at_end("240 V outlet"), "");
  EXPECT_EQ(without_number("7"), "");
}

}  // namespace
}  // namespace ohmstead
