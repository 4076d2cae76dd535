// What was seen in daily life, told to the real program.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "program.h"

namespace ohmstead::whole {
namespace {

using Json = nlohmann::json;
using ::testing::HasSubstr;
using ::testing::Not;

class Saw : public ::testing::Test {
 protected:
  void SetUp() override {
    ASSERT_EQ(folder.run({"new", "a.house"}).code, 0);
    ASSERT_EQ(folder.run({"enter", "-"}, "Kitchen: 2r, 1l, freezer 100 W\nHall: 2r, ceiling light\n"
                                         "Panel Main in Hall 14 spaces, 100 A main: 1 20; 3 15; 12 15; 14 15\n").code, 0);
  }
  Json status() { return Json::parse(folder.run({"status", "--json"}).out); }
  Folder folder;
};

TEST_F(Saw, one_thing_is_recorded_and_what_it_changes_is_said) {
  const Ran ran = folder.run({"saw", "hall", "light", "dead", "--off", "12"});
  EXPECT_EQ(ran.code, 0) << ran.err;
  EXPECT_THAT(ran.out, HasSubstr("with Main panel breaker 12 off"));
  EXPECT_THAT(ran.out, HasSubstr("dead: Hall: ceiling light"));
  EXPECT_THAT(ran.out, HasSubstr("Hall, ceiling light: was open, now likely breaker 12"));
  EXPECT_THAT(folder.run({"where", "hall", "light"}).out, HasSubstr("Main panel breaker 12"));
  EXPECT_EQ(status()["observations"], 1);
}

TEST_F(Saw, several_handles_and_a_whole_room) {
  EXPECT_EQ(folder.run({"saw", "freezer", "live", "--off", "12", "--off", "14"}).code, 0);
  EXPECT_EQ(status()["observations"], 1);
  const Ran ran = folder.run({"saw", "hall", "dead", "--off", "12"});
  EXPECT_EQ(ran.code, 0) << ran.err;
  EXPECT_THAT(ran.out, HasSubstr("That is everything in Hall"));
  EXPECT_EQ(status()["observations"], 4);
}

TEST_F(Saw, free_words_with_who_and_when) {
  const Ran ran = folder.run({"saw", "--line", "12 tripped, and the hall went dark; kitchen still on", "--who", "Ana", "--when", "2026-03-03 18:30"});
  EXPECT_EQ(ran.code, 0) << ran.err;
  ASSERT_EQ(folder.run({"export", "-o", "a.json"}).code, 0);
  const std::string json = folder.read("a.json");
  EXPECT_THAT(json, HasSubstr("daily_life"));
  EXPECT_THAT(json, HasSubstr("2026-03-03T18:30:00Z"));
  EXPECT_THAT(json, HasSubstr("\"Ana\""));
  EXPECT_EQ(status()["observations"], 2) << "what is dark or on is told by the lights: the hall's and the kitchen's";
}

TEST_F(Saw, what_is_refused_records_nothing) {
  const std::string before = folder.read("a.house");
  const std::pair<std::vector<std::string>, const char*> cases[] = {
      {{"saw"}, "Say what was seen"},
      {{"saw", "hall", "dead"}, "--off 12"},
      {{"saw", "--line", "12 tripped and the kitchen frobs"}, "(understood: 12 off)"},
      {{"saw", "receptacle", "dead", "--off", "12"}, "Say which one"},
      {{"saw", "hall", "dead", "--off", "31"}, "31"},
      {{"saw", "hall", "dead", "--off", "12", "--nothing-off"}, "--nothing-off"},
      {{"saw", "hall", "dead", "--off", "12", "--when", "2999-01-01"}, "future"},
      {{"saw", "hall", "dead", "--off", "12", "--when", "2026-02-30"}, "UTC"},
      {{"saw", "hall", "dead", "--off", "12", "--when", "yesterday"}, "UTC"},
      {{"saw", "hall", "dead", "--off", "12", "--who", std::string(300, 'x')}, ""},
      {{"saw", "hall", "dead", "--off", "12", "--who", "A\x1b[31m"}, ""},
      {{"saw", "--line", std::string(10'000, 'x')}, "bytes"},
      {{"saw", "hall", "dead", "--take-back"}, "--take-back"},
      {{"saw", "--take-back"}, "Nothing was told"},
  };
  for (const auto& [words, says] : cases) {
    const Ran ran = folder.run(words);
    SCOPED_TRACE(ran.err);
    EXPECT_EQ(ran.code, 4);
    EXPECT_THAT(ran.err, HasSubstr(says));
    EXPECT_EQ(std::ranges::count(ran.err, '\n'), 1);
    EXPECT_LT(ran.err.size(), 700U);
    EXPECT_EQ(ran.err.find('\x1b'), std::string::npos);
    EXPECT_TRUE(folder.read("a.house") == before);
  }
}

TEST_F(Saw, two_people_who_disagree_both_stay_and_status_sends_somebody_to_look_again) {
  ASSERT_EQ(folder.run({"saw", "hall", "receptacle", "2", "dead", "--off", "12", "--who", "Bo", "--when", "2026-03-01"}).code, 0);
  EXPECT_THAT(folder.run({"status"}).out, Not(HasSubstr("contradicts")));
  const Ran ran = folder.run({"saw", "hall", "receptacle", "2", "live", "--off", "12", "--who", "Ana", "--when", "2026-03-03"});
  ASSERT_EQ(ran.code, 0) << ran.err;
  EXPECT_THAT(ran.out, HasSubstr("now disputed"));
  std::string shown = folder.run({"status"}).out;
  for (std::size_t at = 0; (at = shown.find("\n      ", at)) != std::string::npos;) shown.replace(at, 7, " ");  // long lines are wrapped
  EXPECT_THAT(shown, HasSubstr("Hall, receptacle 2: Ana saw it live with 12 off on 3 March 2026, but Bo saw it dead with 12 off on 1 March 2026. Look again."));
  const Json json = status();
  EXPECT_EQ(json["observations"], 2);
  ASSERT_EQ(json["contradictions"].size(), 1U);
  EXPECT_EQ(json["contradictions"][0]["against"][0]["who"], "Ana");
  EXPECT_EQ(json["disputed"].size(), 1U);
  ASSERT_EQ(folder.run({"saw", "--take-back"}).code, 0);
  EXPECT_EQ(status()["contradictions"].size(), 0U);
  EXPECT_EQ(status()["observations"], 1);
}

}  // namespace
}  // namespace ohmstead::whole
