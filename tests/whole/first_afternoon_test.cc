// From nothing to a printed directory, as README tells it.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "program.h"

namespace ohmstead::whole {
namespace {

using Json = nlohmann::json;
using ::testing::HasSubstr;
using ::testing::Not;

/// The indented lines of README that begin with a word of a house, as a text to enter.
std::string readme_flat() {
  return "Kitchen: 4 counter receptacles, 2 lights, range, dishwasher, refrigerator 180 W\nLiving room: 6r 1l\n"
         "Hall: 1r 1l, smoke alarm\nBath: gfci, 1 light, bath fan\nBedroom: 4r 1l, smoke alarm\n"
         "Panel Main in Hall 12 spaces, 100 A main: 1 20 kitchen; 3 20 dishwasher; 2+4 50 range; 5 20 bath; 6 15 lights; 7 15 outlets; 8 15 ?\n"
         "By J.\nKitchen dishwasher <- Main 3\nKitchen range <- Main 2+4\n";
}

class Afternoon : public ::testing::Test {
 protected:
  void SetUp() override {
    ASSERT_EQ(folder.run({"new", "flat.house", "--name", "Flat 2"}).code, 0);
    const Ran entered = folder.run({"enter", "-"}, readme_flat());
    ASSERT_EQ(entered.code, 0) << entered.err;
  }
  Folder folder;
};

TEST_F(Afternoon, the_dishwasher_is_found_by_part_of_its_name_and_a_slip) {
  for (const char* words : {"dishwasher", "DISHWASHER", "dishwahser", "kitchen dishwasher"}) {
    const Ran ran = folder.run({"where", words});
    EXPECT_EQ(ran.code, 0) << words << ran.err;
    EXPECT_THAT(ran.out, HasSubstr("Main panel breaker 3, declared by J., not tested"));
  }
}

TEST_F(Afternoon, off_names_what_goes_off_and_what_is_not_traced) {
  const Ran ran = folder.run({"off", "3", "--json"});
  ASSERT_EQ(ran.code, 0) << ran.err;
  const Json answer = Json::parse(ran.out);
  ASSERT_EQ(answer["off"].size(), 1U);
  EXPECT_EQ(answer["off"][0]["name"], "dishwasher");
  EXPECT_EQ(answer["off"][0]["standing"], "declared");
  EXPECT_EQ(answer["unknown"].size(), 26U);
}

TEST_F(Afternoon, an_untraced_light_is_not_called_safe_to_work_on) {
  const Ran ran = folder.run({"isolate", "bath", "light"});
  EXPECT_EQ(ran.code, 1);
  EXPECT_THAT(ran.out, HasSubstr("Not safe to rely on"));
}

TEST_F(Afternoon, two_candidates_are_both_shown_and_none_is_chosen) {
  const Ran ran = folder.run({"where", "smoke", "alarm"});
  EXPECT_EQ(ran.code, 4);
  EXPECT_THAT(ran.err, HasSubstr("Hall smoke alarm"));
  EXPECT_THAT(ran.err, HasSubstr("Bedroom smoke alarm"));
  EXPECT_EQ(ran.out, "");
}

TEST_F(Afternoon, a_directory_comes_out_as_a_pdf_and_twice_the_same) {
  const std::vector<std::string> words{"directory", "-o", "d.pdf", "--date", "2026-01-02"};
  const Ran ran = folder.run(words);
  ASSERT_EQ(ran.code, 0) << ran.err;
  const std::string first = folder.read("d.pdf");
  EXPECT_EQ(first.substr(0, 5), "%PDF-");
  ASSERT_EQ(folder.run(words).code, 0);
  EXPECT_EQ(folder.read("d.pdf"), first);
}

TEST_F(Afternoon, what_is_exported_comes_back_the_same) {
  ASSERT_EQ(folder.run({"export", "-o", "a.json"}).code, 0);
  ASSERT_EQ(folder.run({"import", "a.json", "copy.house"}).code, 0);
  ASSERT_EQ(folder.run({"--house", "copy.house", "export", "-o", "b.json"}).code, 0);
  EXPECT_EQ(folder.read("a.json"), folder.read("b.json"));
  EXPECT_GT(folder.read("a.json").size(), 1000U);
}

TEST_F(Afternoon, words_of_one_handle_need_no_quotes) {
  const Json quoted = Json::parse(folder.run({"off", "Main 3", "--json"}).out);
  ASSERT_EQ(quoted["moved"].size(), 1U);
  for (const std::vector<std::string>& words : {std::vector<std::string>{"off", "Main", "3", "--json"}, {"off", "main", "panel", "breaker", "3", "--json"}})
    EXPECT_EQ(Json::parse(folder.run(words).out), quoted);
  EXPECT_EQ(Json::parse(folder.run({"off", "3", "Main", "1", "--json"}).out)["moved"].size(), 2U);
}

TEST_F(Afternoon, carries_sends_who_names_a_point_to_where) {
  const Ran ran = folder.run({"carries", "dishwasher"});
  EXPECT_EQ(ran.code, 4);
  EXPECT_NE(ran.err.find("`ohmstead where dishwasher`"), std::string::npos) << ran.err;
}

TEST_F(Afternoon, restore_names_the_breaker_that_stands_off) {
  const Ran ran = folder.run({"restore", "dishwasher", "--off", "3"});
  EXPECT_EQ(ran.code, 0) << ran.err;
  EXPECT_THAT(ran.out, HasSubstr("1. Turn Main panel breaker 3 on."));
}

TEST_F(Afternoon, tracing_in_the_terminal_keeps_what_was_answered_when_the_input_ends) {
  const Ran ran = folder.run({"trace", "--who", "J."}, "\n\n\nd\n");
  EXPECT_EQ(ran.code, 1);
  EXPECT_THAT(ran.out, HasSubstr("Every answer so far is kept"));
  EXPECT_THAT(folder.run({"status"}).out, HasSubstr("1 observation."));
}

}  // namespace
}  // namespace ohmstead::whole
