#include "ask/search_words.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace ohmstead {
namespace {

TEST(SearchWords, runs_of_letters_and_digits_and_nothing_else) {
  const auto words = search_words("\"GAS\" OR wall* (NEAR) \u00e9--12b");
  ASSERT_EQ(words.size(), 5U) << "'near' is a word such as 'the'";
  EXPECT_EQ(words[0].front(), "gas");
  EXPECT_EQ(words[1].front(), "or");
  EXPECT_EQ(words[3].front(), "e");
  EXPECT_EQ(words[4], SearchWord{"12b"});
  for (const SearchWord& group : words)
    for (const std::string& word : group) EXPECT_EQ(word.find_first_of("\"*()^:+-{} "), std::string::npos) << word;
}

TEST(SearchWords, other_words_for_the_same_thing_come_along) {
  const SearchWord fridge = search_words("fridge").front();
  EXPECT_NE(std::ranges::find(fridge, "refrig"), fridge.end()) << "it begins refrigerator";
  EXPECT_EQ(search_words("12").front(), SearchWord{"12"});
}

TEST(SearchWords, the_like_count_only_alone_and_too_many_are_left_out) {
  EXPECT_EQ(search_words("the gas in the wall").size(), 2U);
  EXPECT_EQ(search_words("the").size(), 1U);
  EXPECT_TRUE(search_words("").empty());
  EXPECT_TRUE(search_words("*** --- \x01").empty());
  std::string many;
  for (int i = 0; i < 500; ++i) many += "w" + std::to_string(i) + " ";
  EXPECT_EQ(search_words(many).size(), kMostSearchWords);
  EXPECT_TRUE(search_words(std::string(1500, 'x')).empty()) << "longer than any word";
}

}  // namespace
}  // namespace ohmstead
