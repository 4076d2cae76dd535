// The ways people work while tracing, told to the real program and kept by it.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>

#include "program.h"

namespace ohmstead::whole {
namespace {

using Json = nlohmann::json;
using ::testing::HasSubstr;
using ::testing::Not;

/// Which breaker really feeds what, by the names that the session gives.
const std::map<std::string, std::string> kTruth{
    {"Kitchen, receptacle 1", "1"}, {"Kitchen, receptacle 2", "1"}, {"Kitchen, light", "3"}, {"Kitchen, freezer", "5"},
    {"Hall, receptacle 1", "2"},    {"Hall, light", "3"},           {"Bath, receptacle 1", "4"}, {"Bath, light", "3"}};

class TraceWays : public ::testing::Test {
 protected:
  void SetUp() override {
    ASSERT_EQ(folder.run({"new", "a.house"}).code, 0);
    ASSERT_EQ(folder.run({"enter", "-"}, "Kitchen: 2r, light, freezer\nHall: 1r, light\nBath: 1r, light\n"
                                         "Panel Main in Hall 12 spaces, 100 A main: 1 20; 2 15; 3 15; 4 20; 5 15; 6 15\n").code, 0);
  }

  /// What the session says of the way of working, started with these words.
  Json manner(std::vector<std::string> words) {
    words.insert(words.begin(), {"trace", "--json-lines"});
    const Ran ran = folder.run(words, "{\"do\":\"manner\"}\n{\"do\":\"pause\"}\n");
    EXPECT_EQ(ran.code, 0) << ran.err;
    const std::size_t second = ran.out.find('\n') + 1;
    return Json::parse(ran.out.substr(second, ran.out.find('\n', second) - second));
  }

  static std::string true_answer(const Json& step) {
    const std::string kind = step.at("kind");
    if (kind != "look" && kind != "ask_dead") return "done";
    const std::string breaker = "breaker " + kTruth.at(step.at("point").at("name")) + " in Main";
    return std::ranges::any_of(step.at("off"), [&](const Json& off) { return off.at("name") == breaker; }) ? "dead" : "live";
  }

  /// Answers as it is, until `enough` says so or nothing is left; the step that waits then.
  template <class Enough>
  static Json play(Talk& talk, Enough enough) {
    Json step = Json::parse(talk.receive());
    for (int i = 0; i < 500 && step.at("kind") != "done" && !enough(step); ++i) {
      talk.send(R"({"do":"answer","answer":")" + true_answer(step) + "\"}");
      step = Json::parse(talk.receive());
    }
    return step;
  }
  Json play_to_the_end(const std::vector<std::string>& words) {
    Talk talk(folder, words);
    return play(talk, [](const Json&) { return false; });
  }

  Folder folder;
};

TEST_F(TraceWays, one_breaker_at_a_time_and_alone_is_usual) {
  const Json usual = manner({});
  EXPECT_EQ(usual["at_once"], 1);
  EXPECT_EQ(usual["helper"], false);
  EXPECT_EQ(usual["text"], "One breaker off at a time, alone, by tester.");
  EXPECT_THAT(folder.run({"trace"}, "p\n").out, HasSubstr("One breaker off at a time, alone, by tester."));
}

TEST_F(TraceWays, every_option_is_kept_until_it_is_changed) {
  const std::pair<std::vector<std::string>, Json> steps[] = {
      {{"--at-once", "4"}, {{"at_once", 4}}},
      {{"--helper"}, {{"at_once", 4}, {"helper", true}}},
      {{"--lamps", "6"}, {{"helper", true}, {"lamps", 6}}},
      {{"--with", "sound"}, {{"lamps", 6}, {"method", "listening"}}},
      {{"--only-plan"}, {{"only_plan", true}, {"method", "listening"}}},
      {{"--at-once", "any", "--alone", "--lamps", "0"}, {{"at_once", "any"}, {"helper", false}, {"lamps", 0}, {"only_plan", true}}},
      {{"--everything", "--with", "tester"}, {{"only_plan", false}, {"method", "tester"}, {"at_once", "any"}}},
  };
  for (const auto& [words, expected] : steps) {
    for (const Json& now : {manner(words), manner({})})
      for (const auto& [name, value] : expected.items()) EXPECT_EQ(now[name], value) << words[0] << ' ' << name;
  }
}

TEST_F(TraceWays, rooms_are_matched_as_where_does_and_all_lifts_them) {
  EXPECT_THAT(manner({"--room", "kitchn", "--room", "bath"})["text"], HasSubstr("Only in: Kitchen, Bath."));
  Talk talk(folder, {"trace", "--json-lines"});
  const Json end = play(talk, [](const Json& step) {
    EXPECT_TRUE(!step.contains("point") || !step["point"]["name"].get<std::string>().starts_with("Hall"));
    return false;
  });
  EXPECT_EQ(end["progress"]["total"], 6);
  EXPECT_EQ(end["progress"]["settled"], 6);
  EXPECT_EQ(manner({"--room", "all"})["rooms"], Json::array());
  EXPECT_EQ(play_to_the_end({"trace", "--json-lines"})["progress"]["settled"], 8);
}

TEST_F(TraceWays, what_makes_no_sense_is_one_sentence_and_changes_nothing) {
  const std::string before = folder.read("a.house");
  const std::pair<std::vector<std::string>, const char*> cases[] = {
      {{"--at-once", "0"}, "--at-once needs a whole number from 1 to 1000, or 'any'"},
      {{"--at-once", "4.5"}, "--at-once"}, {{"--at-once", "\x1b[31m"}, "<U+001B>"}, {{"--lamps", "-1"}, "--lamps"}, {{"--lamps", "51"}, "0 to 50"},
      {{"--helper", "--alone"}, "cannot both"}, {{"--only-plan", "--everything"}, "cannot both"}, {{"--with", "nose"}, "tester, sound, lamp, non-contact, eye"},
      {{"--room", "attic"}, "attic"}, {{"--room", "all", "--room", "Bath"}, "--room all"}, {{"--again", "light"}, "fits 3 things"}, {{"--again", "sauna"}, "sauna"},
      {{"--only-plan", "--room", "Bath"}, "leaves nothing to trace: no load"},
  };
  for (auto [words, says] : cases) {
    words.insert(words.begin(), "trace");
    const Ran ran = folder.run(words);
    SCOPED_TRACE(ran.err);
    EXPECT_EQ(ran.code, 4);
    EXPECT_THAT(ran.err, HasSubstr(says));
    EXPECT_EQ(std::ranges::count(ran.err, '\n'), 1);
    EXPECT_EQ(ran.err.find('\x1b'), std::string::npos);
    EXPECT_TRUE(folder.read("a.house") == before);
  }
}

TEST_F(TraceWays, a_room_is_traced_again_when_it_is_said) {
  ASSERT_EQ(play_to_the_end({"trace", "--json-lines"})["kind"], "done");
  std::map<std::string, int> seen;
  Talk talk(folder, {"trace", "--json-lines", "--again", "Bath"});
  const Json end = play(talk, [&](const Json& step) {
    if (step.contains("point")) ++seen[step["point"]["name"]];
    return false;
  });
  EXPECT_EQ(end["progress"]["settled"], 8);
  EXPECT_EQ(seen.size(), 2U);
  EXPECT_GE(seen["Bath, light"], 2);
  EXPECT_GE(seen["Bath, receptacle 1"], 2);
}

TEST_F(TraceWays, killed_with_several_breakers_off_it_goes_on_with_the_same_step) {
  Json step;
  {
    Talk talk(folder, {"trace", "--json-lines", "--at-once", "3", "--helper"});
    step = play(talk, [](const Json& now) { return now["kind"] == "look" && now["off"].size() >= 2; });
    talk.send(R"({"do":"answer","answ)");
    talk.kill();
  }
  ASSERT_EQ(step["kind"], "look");
  const std::string shown = folder.run({"trace"}, "o\np\n").out;
  for (const Json& off : step["off"]) EXPECT_THAT(shown, HasSubstr("- " + off["name"].get<std::string>() + "\n"));
  EXPECT_THAT(shown, HasSubstr("Off since before the pause"));
  EXPECT_THAT(shown, HasSubstr("Still off:"));
  EXPECT_THAT(shown, HasSubstr(step["point"]["name"].get<std::string>()));
  Talk talk(folder, {"trace", "--json-lines"});
  bool first = true;
  const Json end = play(talk, [&](Json now) {
    if (first) {
      now["step"] = step["step"];
      EXPECT_EQ(now, step);
    }
    first = false;
    return false;
  });
  EXPECT_EQ(end["progress"]["settled"], 8);
  EXPECT_EQ(end["off"], Json::array());
}

TEST_F(TraceWays, a_program_that_stops_in_the_middle_of_a_line_loses_nothing) {
  const std::string head = "{\"do\":\"answer\",\"answer\":\"done\"}\n{\"do\":\"answer\",\"answer\":\"done\"}\n{\"do\":\"answer\",\"answer\":\"done\"}\n";
  const Ran ran = folder.run({"trace", "--json-lines"}, head + R"({"do":"answer","answer":"de)");
  EXPECT_EQ(ran.code, 1);
  EXPECT_THAT(ran.out, HasSubstr("The line is not JSON"));
  EXPECT_THAT(ran.err, HasSubstr("Every answer so far is kept; start again"));
  EXPECT_EQ(std::ranges::count(ran.err, '\n'), 1);
  const Ran next = folder.run({"trace", "--json-lines"}, "{\"do\":\"pause\"}\n");
  EXPECT_EQ(next.code, 0);
  EXPECT_THAT(next.out, HasSubstr("\"kind\":\"look\""));
  EXPECT_EQ(Json::parse(next.out.substr(0, next.out.find('\n')))["off"].size(), 1U);
}

TEST_F(TraceWays, what_is_found_on_the_way_is_written_down_and_traced) {
  const Ran ran = folder.run({"trace"}, "\nf\n2\nbath\nmirror light\nf\n1\n\n\nf\n3\nbath\nlight\np\n");
  EXPECT_EQ(ran.code, 0) << ran.err;
  EXPECT_THAT(ran.out, HasSubstr("Written down: Bath, mirror light. It is traced with the others."));
  EXPECT_THAT(ran.out, HasSubstr("0 of 10 points settled"));
  EXPECT_THAT(ran.out, HasSubstr("Not written down: There is a 'light' in 'Bath' already"));
  EXPECT_THAT(folder.run({"where", "mirror", "light"}).out, HasSubstr("Bath"));
  EXPECT_EQ(folder.run({"check"}).code, 0);
}

TEST_F(TraceWays, an_earlier_answer_that_was_wrong_is_taken_back) {
  const Ran ran = folder.run({"trace"}, "\n\n\nd\nd\nw\n2\nw\n\np\n");
  EXPECT_EQ(ran.code, 0) << ran.err;
  EXPECT_THAT(ran.out, HasSubstr("Which of these was wrong?"));
  EXPECT_THAT(ran.out, HasSubstr("Taken back: "));
  EXPECT_EQ(Json::parse(folder.run({"status", "--json"}).out)["observations"], 1);
}

TEST_F(TraceWays, of_several_breakers_the_one_that_will_not_reset_is_named) {
  Json step;
  {
    Talk talk(folder, {"trace", "--json-lines", "--at-once", "3"});
    step = play(talk, [](const Json& now) { return now["kind"] == "close" && now["handles"].size() >= 2; });
    talk.kill();
  }
  ASSERT_EQ(step["kind"], "close");
  const std::string stuck = step["handles"][1]["name"];
  const Ran ran = folder.run({"trace"}, "r\n2\np\n");
  EXPECT_THAT(ran.out, HasSubstr("r  one trips, or will not reset"));
  EXPECT_THAT(ran.out, HasSubstr("From now on " + stuck + " counts as off. Turn the others of the list on."));
  EXPECT_THAT(ran.out.substr(ran.out.find("Paused.")), HasSubstr(stuck));
  const Ran next = folder.run({"trace"}, "p\n");
  EXPECT_THAT(next.out, HasSubstr("Counted as off, for it would not come on (once it does: --retry-skipped):\n  - " + stuck));
  Talk talk(folder, {"trace", "--json-lines", "--retry-skipped"});
  const Json end = play(talk, [&](const Json& now) {
    if (now["step"] == 1) {
      EXPECT_TRUE(std::ranges::none_of(now["off"], [&](const Json& off) { return off["name"] == stuck; }));
    }
    return false;
  });
  EXPECT_EQ(end["off"], Json::array());
  EXPECT_EQ(end["progress"]["settled"], 8);
}

}  // namespace
}  // namespace ohmstead::whole
