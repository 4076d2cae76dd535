// Lines for a terminal: nothing is lost, words stay whole, and a key stays with what it does.

#include "cli/wrapped.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <random>
#include <utility>

namespace ohmstead {
namespace {

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines{""};
  for (const char letter : text) letter == '\n' ? lines.emplace_back() : lines.back() += letter;
  return lines;
}

std::vector<std::string> words_of(const std::string& text) {
  std::vector<std::string> words;
  std::string word;
  for (const char letter : text + ' ') {
    if (letter != ' ' && letter != '\n') word += letter;
    else if (!word.empty()) words.push_back(std::exchange(word, ""));
  }
  return words;
}

TEST(Wrapped, lines_end_between_words_and_what_is_listed_hangs) {
  EXPECT_EQ(wrapped("the kitchen and the hall", 2, 14), "  the kitchen\n  and the hall");
  EXPECT_EQ(wrapped("- the kitchen and the hall\nboth", 0, 14), "- the kitchen\n  and the hall\nboth");
  EXPECT_EQ(wrapped("", 4), "    ");
  EXPECT_EQ(wrapped("refrigerator", 0, 5), "refrigerator") << "a word is not broken";
}

TEST(Wrapped, a_key_stays_with_its_words) {
  const std::string keys = "l  live     d  dead     m  dimmer     b  brighter     n  not sure     s  skip";
  for (std::size_t width = 20; width < 90; ++width)
    for (const std::string& line : lines_of(wrapped(keys, 2, width))) {
      EXPECT_LE(line.size(), width);
      EXPECT_EQ(words_of(line).size() % 2, line.find("not sure") == std::string::npos ? 0U : 1U) << line;
      EXPECT_TRUE(line.find("not") == std::string::npos || line.find("not sure") != std::string::npos) << line;
      EXPECT_THAT(line, testing::MatchesRegex("  [^ ].*[^ ]")) << "no space at its ends but the margin";
    }
  EXPECT_EQ(wrapped("Enter  I have read this", 0, 12), "Enter  I\nhave read\nthis");
}

TEST(Wrapped, keeps_every_word_in_its_order) {
  std::mt19937 random(4);
  for (int round = 0; round < 3000; ++round) {
    std::string text;
    for (auto left = random() % 60; left > 0; --left) text += "ab  \n- "[random() % 7];
    const std::string shown = wrapped(text, random() % 5, 1 + random() % 20);
    ASSERT_EQ(words_of(shown), words_of(text)) << text;
  }
}

}  // namespace
}  // namespace ohmstead
