#include "print/directory_text.h"

#include <gmock/gmock.h>

#include <algorithm>

#include "rules/plain_words.h"
#include "tests/print/example_house.h"

namespace ohmstead {
namespace {

DirectoryText example_text() {
  const test::ExampleHouse example = test::example_house();
  return directory_text(example.house, row(example.house, example.main), panel_words(example.house, example.feeds, example.main), "2026-11-25 rev 12");
}

TEST(CodeTexts, say_first_which_panel_which_spaces_and_last_when) {
  const auto texts = code_texts(example_text(), kMostCodeBytes);
  ASSERT_GT(texts.size(), 1u);
  for (const CodeText& one : texts) {
    const std::string head = "Panel Main, spaces " + std::to_string(one.first_space) + "-" + std::to_string(one.last_space) + ".\n";
    EXPECT_TRUE(one.text.starts_with(head)) << one.text;
    EXPECT_LT(head.size(), 30u) << "a phone shows about 40 characters first (from memory); a breaker is among them";
    EXPECT_TRUE(one.text.ends_with(" As of 2026-11-25 rev 12.")) << one.text;
  }
}

TEST(CodeTexts, speak_for_every_space_once_and_hold_every_breaker_once) {
  const DirectoryText directory = example_text();
  for (const std::size_t most : {200u, 300u, 450u}) {
    int next = 1;
    std::string all;
    for (const CodeText& one : code_texts(directory, most)) {
      EXPECT_EQ(one.first_space, next);
      EXPECT_LE(one.text.size(), most);
      next = one.last_space + 1;
      all += one.text;
    }
    EXPECT_EQ(next, 41);
    for (const SpaceLines& space : directory.entries) {
      const std::string line = space.lines.substr(0, space.lines.size() - 2);
      const auto at = all.find(line);
      ASSERT_NE(at, std::string::npos) << line;
    }
  }
}

// Some phones take "word: rest" at the start of a text for an address (print-and-qr pitfalls, read
// in one public thread): no colon after the first word. Readers may show line ends as spaces.
TEST(CodeTexts, no_colon_at_the_start_and_every_line_ends_in_a_sign) {
  test::ExampleHouse example = test::example_house();
  row(example.house, example.main).name = "Panel: Garage";
  const auto directory = directory_text(example.house, row(example.house, example.main),
                                        panel_words(example.house, example.feeds, example.main), "2026-11-25 rev 12");
  for (const CodeText& one : code_texts(directory, kMostCodeBytes)) {
    EXPECT_EQ(one.text.substr(0, one.text.find(' ')).find(':'), std::string::npos) << one.text;
    for (std::size_t at = one.text.find('\n'); at != std::string::npos; at = one.text.find('\n', at + 1))
      EXPECT_TRUE(one.text[at - 1] == ';' || one.text[at - 1] == '.') << one.text;
  }
}

TEST(CodeTexts, spread_evenly_or_not_at_all) {
  const DirectoryText directory = example_text();
  EXPECT_TRUE(code_texts_in(directory, 1).empty()) << "the example is longer than one code may be";
  const auto five = code_texts_in(directory, 5);
  ASSERT_EQ(five.size(), 5u);
  const auto longest = std::ranges::max(five, {}, [](const CodeText& t) { return t.text.size(); }).text.size();
  EXPECT_LT(longest, code_texts(directory, kMostCodeBytes).front().text.size());
}

TEST(CodeTexts, an_empty_panel_says_so) {
  const DirectoryText empty{"Panel Shed", "2026-11-25 rev 1", "", 4, {}, {1, 2, 3, 4}};
  const auto texts = code_texts(empty, kMostCodeBytes);
  ASSERT_EQ(texts.size(), 1u);
  EXPECT_EQ(texts[0].text, "Panel Shed, spaces 1-4.\nNo breakers. As of 2026-11-25 rev 1.");
}

TEST(CodeTexts, signs_are_explained_in_each_code) {
  for (const CodeText& one : code_texts(example_text(), kMostCodeBytes)) {
    EXPECT_NE(one.text.find("? = not proved."), std::string::npos);
    EXPECT_NE(one.text.find("[G1] = backup position 1."), std::string::npos);
  }
}

}  // namespace
}  // namespace ohmstead
