#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <sstream>

#include "json/json_line.h"
#include "cli/trace_lines.h"
#include "cli/trace_terminal.h"
#include "tests/trace/simulated_house.h"

namespace ohmstead::test {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

HouseMaker two_breakers() {
  HouseMaker made;
  const auto kitchen = made.add_room("Kitchen");
  const auto a = made.add_breaker(1), b = made.add_breaker(2);
  made.add_point(kitchen, "receptacle 1", {{1, a, 1}});
  made.add_point(kitchen, "receptacle 2", {{1, b, 1}});
  return made;
}

struct Kept {
  std::vector<std::string> what;
  House last;
  KeepFn fn() {
    return [this](const std::string& text, const House& next) { what.push_back(text), last = next; };
  }
};

TraceOptions fixed_time() {
  TraceOptions options;
  options.now = [] { return std::string("2026-03-01T08:00:00Z"); };
  return options;
}

std::string run_terminal(TraceSession& session, const std::string& input, Kept& kept, TraceEnd& end) {
  std::istringstream in(input);
  std::ostringstream out;
  end = run_trace_terminal(session, in, out, kept.fn(), fixed_time());
  return out.str();
}

TEST(TraceTerminal, input_that_ends_loses_nothing_and_says_what_is_still_off) {
  TraceSession session(two_breakers().house);
  Kept kept;
  TraceEnd end{};
  const std::string shown = run_terminal(session, "\n\nd\n", kept, end);
  EXPECT_EQ(end, TraceEnd::input_ended);
  EXPECT_EQ(kept.what.size(), 3u);
  EXPECT_EQ(kept.last, session.house());
  EXPECT_THAT(shown, HasSubstr("The input ended. Every answer so far is kept"));
  EXPECT_THAT(shown, HasSubstr("Still off: breaker 1 in Main panel"));
}

TEST(TraceTerminal, a_key_that_means_nothing_changes_nothing) {
  TraceSession session(two_breakers().house);
  Kept kept;
  TraceEnd end{};
  const std::string shown = run_terminal(session, "x\nl\np\n", kept, end);
  EXPECT_EQ(end, TraceEnd::paused);
  EXPECT_TRUE(kept.what.empty());
  EXPECT_THAT(shown, HasSubstr("means nothing here"));
}

TEST(TraceTerminal, names_with_control_characters_come_out_plain) {
  HouseMaker made = two_breakers();
  made.house.points[0].name = "rec\x1b[31m\x07 1";
  TraceSession session(made.house);
  Kept kept;
  TraceEnd end{};
  const std::string shown = run_terminal(session, "\n\nl\n", kept, end);
  EXPECT_THAT(shown, Not(HasSubstr("\x1b")));
  EXPECT_THAT(shown, HasSubstr("[31m"));
}

TEST(TraceTerminal, no_line_is_longer_than_a_terminal_is_wide) {
  HouseMaker made = two_breakers();
  keep_manner(made.house, {2, true, 3, {}, false, Method::listening});
  TraceSession session(made.house);
  Kept kept;
  TraceEnd end{};
  std::istringstream shown(run_terminal(session, "\n?\nm\no\n\no\n?\nd\nw\n\nf\n\nx\np\n", kept, end));
  int lines = 0;
  for (std::string line; std::getline(shown, line); ++lines) EXPECT_LE(line.size(), 80U) << line;
  EXPECT_GT(lines, 60);
}

TEST(TraceTerminal, a_breaker_that_tripped_by_itself_is_told_by_its_number) {
  TraceSession session(two_breakers().house);
  Kept kept;
  TraceEnd end{};
  const std::string shown = run_terminal(session, "\nt\n2\nt\n77\nt\n\no\np\n", kept, end);
  EXPECT_THAT(shown, HasSubstr("From now on breaker 2 in Main panel counts as off."));
  EXPECT_THAT(shown, HasSubstr("Nothing was changed: "));
  EXPECT_THAT(shown, HasSubstr("- breaker 2 in Main panel"));
  EXPECT_EQ(kept.what.size(), 2U);
}

std::vector<nlohmann::json> run_lines(TraceSession& session, const std::string& input, Kept& kept) {
  std::istringstream in(input);
  std::ostringstream out;
  run_trace_lines(session, in, out, kept.fn(), fixed_time());
  std::vector<nlohmann::json> lines;
  std::istringstream answers(out.str());
  for (std::string line; std::getline(answers, line);) lines.push_back(nlohmann::json::parse(line));
  return lines;
}

TEST(TraceLines, a_bad_line_is_answered_and_the_session_goes_on) {
  const std::string bad[] = {"{", "[]", "3", "{\"do\":7}", "{\"do\":\"dance\"}", "{\"do\":\"answer\"}",
                             "{\"do\":\"answer\",\"answer\":\"live\"}", "{\"do\":\"answer\",\"answer\":\"done\",\"step\":9}",
                             "{\"do\":\"answer\",\"answer\":\"done\",\"method\":\"nose\"}",
                             R"({"do":"answer","answer":"done","handle":"breaker:000000000001"})", R"({"do":"answer","answer":"done","handle":7})",
                             R"({"do":"manner","at_once":0})", R"({"do":"manner","at_once":"some"})", R"({"do":"manner","at_once":1e99})",
                             R"({"do":"manner","at_once":99999999999999999999})", R"({"do":"manner","at_once":null})", R"({"do":"manner","helper":"yes"})",
                             R"({"do":"manner","lamps":51})", R"({"do":"manner","rooms":"Kitchen"})", R"({"do":"manner","rooms":[["x"]]})",
                             R"({"do":"manner","rooms":["000000000001"]})", R"({"do":"manner","method":"nose"})", R"({"do":"manner","only_plan":true})",
                             R"({"do":"again"})", R"({"do":"again","point":"000000000001"})", R"({"do":"again","room":"000000000001"})",
                             R"({"do":"found","kind":"light"})", R"({"do":"found","room":"000000000001","kind":"light"})",
                             R"({"do":"found","room":"000000000001","kind":"lamp"})", R"({"do":"found","room":"000000000001","kind":"light","hots":0})",
                             "{\"do\":\"withdraw\",\"observation\":\"000000000001\"}", "{\"do\":\"undo\"}",
                             std::string(200, '[') + std::string(200, ']'), std::string(kLongestLine + 10, 'x'), "\xff\xfe"};
  for (const std::string& line : bad) {
    TraceSession session(two_breakers().house);
    const House before = session.house();
    Kept kept;
    const auto lines = run_lines(session, line + "\n{\"do\":\"step\"}\n", kept);
    ASSERT_EQ(lines.size(), 3u) << line.substr(0, 60);
    EXPECT_EQ(lines[1]["type"], "error") << line.substr(0, 60);
    EXPECT_EQ(lines[2], lines[0]) << line.substr(0, 60);
    EXPECT_EQ(session.house(), before);
    EXPECT_TRUE(kept.what.empty());
  }
}

TEST(TraceLines, a_program_gets_the_manner_what_was_seen_and_what_is_settled) {
  HouseMaker made = two_breakers();
  TraceSession session(made.house);
  Kept kept;
  const auto lines = run_lines(session, R"({"do":"manner","at_once":"any","helper":true,"rooms":[")" + made.house.rooms[1].id.text() + R"("]})"
                               "\n{\"do\":\"manner\"}\n{\"do\":\"answer\",\"answer\":\"done\"}\n{\"do\":\"answer\",\"answer\":\"done\"}\n"
                               "{\"do\":\"answer\",\"answer\":\"dead\"}\n{\"do\":\"looks\"}\n{\"do\":\"summary\"}\n{\"do\":\"pause\"}\n", kept);
  ASSERT_EQ(lines.size(), 9U);
  EXPECT_EQ(lines[1]["type"], "step");
  EXPECT_EQ(lines[2]["at_once"], "any");
  EXPECT_EQ(lines[2]["rooms"][0], made.house.rooms[1].id.text());
  EXPECT_EQ(lines[3]["kind"], "open");
  EXPECT_EQ(lines[3]["by_helper"], true);
  EXPECT_EQ(lines[4]["off"], lines[3]["handles"]);
  EXPECT_EQ(lines[6]["looks"][0]["point"], lines[4]["point"]["id"]);
  EXPECT_EQ(lines[6]["looks"][0]["seen"], "dead");
  EXPECT_THAT(lines[7]["text"].get<std::string>(), HasSubstr("0 of 2 points are settled"));
  EXPECT_EQ(lines[8]["off"], lines[3]["handles"]);
  EXPECT_EQ(kept.what[1], "Read the caution");
  EXPECT_THAT(kept.what[2], HasSubstr("Opened breaker"));
}

TEST(TraceLines, a_program_adds_what_was_found_and_traces_a_point_again) {
  HouseMaker made = two_breakers();
  TraceSession session(made.house);
  Kept kept;
  const std::string room = made.house.rooms[1].id.text();
  const auto lines = run_lines(session, R"({"do":"found","room":")" + room + R"(","kind":"appliance","name":"freezer","place":"by the door"})" "\n"
                               R"({"do":"found","room":")" + room + R"(","kind":"appliance","name":"freezer"})" "\n"
                               R"({"do":"again","room":")" + room + R"("})" "\n", kept);
  ASSERT_EQ(lines.size(), 4U);
  EXPECT_EQ(lines[1]["progress"]["total"], 3);
  EXPECT_EQ(lines[2]["type"], "error");
  EXPECT_THAT(lines[2]["message"].get<std::string>(), HasSubstr("already"));
  EXPECT_EQ(lines[3]["type"], "step");
  EXPECT_EQ(kept.what, (std::vector<std::string>{"Found on the way: Kitchen, freezer (by the door)", "To be traced again"}));
}

TEST(TraceLines, each_answer_is_kept_before_the_next_step_is_written) {
  TraceSession session(two_breakers().house);
  std::istringstream in("{\"do\":\"answer\",\"answer\":\"done\"}\n{\"do\":\"answer\",\"answer\":\"done\"}\n");
  std::ostringstream out;
  std::vector<long> steps_written;
  const KeepFn keep = [&](const std::string&, const House&) {
    const std::string written = out.str();
    steps_written.push_back(std::count(written.begin(), written.end(), '\n'));
  };
  run_trace_lines(session, in, out, keep, fixed_time());
  EXPECT_EQ(steps_written, (std::vector<long>{1, 2}));
}

TEST(TraceLines, a_keep_that_fails_ends_the_session_without_a_next_step) {
  TraceSession session(two_breakers().house);
  std::istringstream in("{\"do\":\"answer\",\"answer\":\"done\"}\n");
  std::ostringstream out;
  const KeepFn keep = [](const std::string&, const House&) { throw Error(ErrorKind::storage, "The disk is full."); };
  EXPECT_THROW(run_trace_lines(session, in, out, keep, fixed_time()), Error);
  const std::string written = out.str();
  EXPECT_EQ(std::count(written.begin(), written.end(), '\n'), 1);
}

}  // namespace
}  // namespace ohmstead::test
