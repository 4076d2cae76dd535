#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <sstream>

#include "cli/json_line.h"
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
