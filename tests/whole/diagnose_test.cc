// The real program asks why something is dead: at the terminal, by lines, as one answer.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "program.h"

namespace ohmstead::whole {
namespace {

using Json = nlohmann::json;
using ::testing::HasSubstr;
using ::testing::Not;

class Diagnose : public ::testing::Test {
 protected:
  void SetUp() override {
    ASSERT_EQ(folder.start_house("Kitchen: 2r, 1l\nHall: 2r, 1l\nPanel Main in Hall 12 spaces, 100 A main: 1 20; 3 15\nBy J.\n"
                                 "Kitchen receptacle 1 <- Main 1\nKitchen receptacle 2 <- Main 1\nKitchen light <- Main 1\n"
                                 "Hall receptacle 1 <- Main 3\nHall receptacle 2 <- Main 3\nHall light <- Main 3\n").code, 0);
  }
  /// How the house answers with breaker 1 tripped.
  static std::string seen(const Json& step) {
    if (step["kind"] == "cure") return step["handle"]["name"].get<std::string>().find("breaker 1 ") == 0 ? "works" : "still_dead";
    if (step["what"] == "neighbors") return "yes";
    if (step["what"] == "handle") return step["handle"]["name"].get<std::string>().find("breaker 1 ") == 0 ? "tripped" : "on";
    return step["point"]["name"].get<std::string>().find("Kitchen") == 0 ? "dead" : "live";
  }
  Folder folder;
};

TEST_F(Diagnose, by_lines_until_it_works_again_and_the_trip_is_kept) {
  Talk talk(folder, {"diagnose", "kitchen", "light", "--json-lines", "--before", "appliance"});
  Json step = Json::parse(talk.receive());
  for (int i = 0; i < 20 && step["kind"] != "done"; ++i) {
    talk.send(Json{{"do", "answer"}, {"step", step["step"]}, {"answer", seen(step)}}.dump());
    step = Json::parse(talk.receive());
    ASSERT_EQ(step["type"], "step") << step.dump();
  }
  EXPECT_EQ(step["end"], "cured");
  EXPECT_EQ(step["causes"][0]["kind"], "handle_open");
  const Json kept = Json::parse(folder.run({"export", "-o", "-"}).out);
  ASSERT_EQ(kept["trip"].size(), 1U);
  EXPECT_EQ(kept["trip"][0]["cause"], "something was switched on");
  EXPECT_EQ(kept["observation"].size(), 0U) << "looks of a diagnosis are no evidence of feeds";
}

TEST_F(Diagnose, at_the_terminal_it_goes_on_where_it_was_left) {
  const Ran first = folder.run({"diagnose", "kitchen light"}, "?\np\n");
  EXPECT_EQ(first.code, 0) << first.err;
  EXPECT_THAT(first.out, HasSubstr("It can be, likeliest first:"));
  const Ran second = folder.run({"diagnose"}, "z\n");
  EXPECT_EQ(second.code, 1);
  EXPECT_THAT(second.out, HasSubstr("This key means nothing here"));
  EXPECT_THAT(second.out, HasSubstr("The input ended. Every answer so far is kept"));
}

TEST_F(Diagnose, as_one_answer_nothing_is_written) {
  const std::string before = folder.read("a.house");
  const Ran ran = folder.run({"diagnose", "--json", "kitchen dark, hall on, 1 tripped"});
  ASSERT_EQ(ran.code, 0) << ran.err;
  const Json json = Json::parse(ran.out);
  EXPECT_EQ(json["question"], "diagnose");
  EXPECT_EQ(json["causes"][0]["kind"], "handle_open");
  EXPECT_GT(json["causes"][0]["belief"], 0.5);
  EXPECT_EQ(folder.read("a.house"), before);
}

TEST_F(Diagnose, bright_lights_are_no_case_for_questions) {
  for (const char* said : {"hall light too bright", "lights flicker", "kitchen light dim"}) {
    const Ran ran = folder.run({"diagnose", said});
    EXPECT_EQ(ran.code, 1);
    EXPECT_THAT(ran.out, HasSubstr("Turn the MAIN off NOW"));
  }
}

TEST_F(Diagnose, what_makes_no_sense_is_said_and_nothing_is_written) {
  const std::string before = folder.read("a.house");
  for (const auto& [words, said] : {std::pair{std::vector<std::string>{"diagnose"}, "Say what is dead"},
                                    {{"diagnose", "kitchen light", "--before", "lunch"}, "storm, appliance, work or backup"},
                                    {{"diagnose", "kitchen light on"}, "Name what is dead"},
                                    {{"diagnose", "aquarium"}, "aquarium"},
                                    {{"diagnose", "kitchen light", "--on-backup"}, "no source besides the utility"}}) {
    const Ran ran = folder.run(words);
    EXPECT_EQ(ran.code, 4) << said;
    EXPECT_THAT(ran.err, HasSubstr(said));
  }
  EXPECT_EQ(folder.read("a.house"), before);
}

TEST_F(Diagnose, a_breaker_that_trips_often_is_noticed) {
  for (const char* when : {"2026-01-10", "2026-02-10", "2026-03-01"})
    ASSERT_EQ(folder.run({"saw", "1", "tripped", "--cause", "heater and kettle", "--when", when}).code, 0);
  EXPECT_THAT(folder.run({"findings"}).out, HasSubstr("tripped 3 times within 90 days: heater and kettle"));
  EXPECT_THAT(folder.run({"where", "kitchen", "light"}).out, HasSubstr("tripped 3 times"));
  EXPECT_THAT(folder.run({"off", "1"}).out, HasSubstr("tripped 3 times"));
  EXPECT_EQ(folder.run({"saw", "--take-back"}).code, 0);
  EXPECT_THAT(folder.run({"findings"}).out, Not(HasSubstr("tripped 3 times")));
  EXPECT_THAT(folder.run({"saw", "kitchen", "light", "dead", "--off", "1", "--cause", "heater"}).err, HasSubstr("nothing is said to have tripped"));
}

}  // namespace
}  // namespace ohmstead::whole
