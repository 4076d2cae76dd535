#include "cli/survey_terminal.h"

#include <gmock/gmock.h>

#include <sstream>

#include "house/error.h"

namespace ohmstead {
namespace {

using testing::HasSubstr;

struct Outcome {
  SurveyEnd end = SurveyEnd::done;
  std::string out;
  std::vector<House> kept;
};

Outcome run_with(const std::string& typed) {
  Outcome run;
  std::istringstream in(typed);
  std::ostringstream out;
  WalkThrough survey{House{}};
  run.end = run_survey_terminal(survey, in, out, [&](const std::string& what, const House& next) {
    EXPECT_FALSE(what.empty());
    run.kept.push_back(next);
  });
  EXPECT_TRUE(run.kept.empty() || run.kept.back() == survey.house());
  run.out = out.str();
  return run;
}

TEST(SurveyTerminal, a_whole_survey) {
  const Outcome run = run_with("Kitchen, Bath\n\n4r 1l\n\nMain 4 60A\n20\n\n15\n\n\n");
  EXPECT_EQ(run.end, SurveyEnd::done);
  EXPECT_THAT(run.out, HasSubstr("Written down: 2 rooms, 8 points, 2 breakers."));
  EXPECT_EQ(run.kept.size(), 6U);
}

TEST(SurveyTerminal, an_answer_is_kept_before_the_next_question) {
  std::istringstream in("Kitchen\n\n4r\n");
  std::ostringstream out;
  WalkThrough survey{House{}};
  std::vector<std::string> shown;
  (void)run_survey_terminal(survey, in, out, [&](const std::string&, const House&) { shown.push_back(out.str()); });
  ASSERT_EQ(shown.size(), 2U);
  EXPECT_THAT(shown[1], HasSubstr("What is in Kitchen?"));
  EXPECT_THAT(shown[1], testing::Not(HasSubstr("What is the panel called")));
  EXPECT_THAT(out.str(), HasSubstr("What is the panel called"));
}

TEST(SurveyTerminal, closed_input_loses_nothing) {
  const Outcome run = run_with("Kitchen\n\n4r");
  EXPECT_EQ(run.end, SurveyEnd::input_ended);
  EXPECT_EQ(run.kept.back().points.size(), 4U);
  EXPECT_THAT(run.out, HasSubstr("The input ended. Every answer given is saved (1 room, 4 points, 0 breakers)."));
}

TEST(SurveyTerminal, undo_is_kept_too) {
  const Outcome run = run_with("Kitchen\n\n4r\nu\nq\n");
  EXPECT_EQ(run.end, SurveyEnd::paused);
  EXPECT_EQ(run.kept.size(), 3U);
  EXPECT_EQ(run.kept.back().points.size(), 0U);
}

TEST(SurveyTerminal, a_refusal_is_said_and_asked_again) {
  const Outcome run = run_with("Den\n\nblorb\n?\n2r\nq\n");
  EXPECT_THAT(run.out, HasSubstr("Not taken: 'blorb' is not a thing I know"));
  EXPECT_THAT(run.out, HasSubstr("For example: 4 receptacles"));
  EXPECT_EQ(run.kept.back().points.size(), 2U);
}

TEST(SurveyTerminal, an_endless_line_is_refused) {
  const Outcome run = run_with("Den\n\n" + std::string(100'000, 'x') + "\nq\n");
  EXPECT_EQ(run.end, SurveyEnd::paused);
  EXPECT_THAT(run.out, HasSubstr("Not taken: it is longer than 10000 bytes"));
}

TEST(SurveyTerminal, an_error_of_keeping_is_not_hidden) {
  std::istringstream in("Den\n");
  std::ostringstream out;
  WalkThrough survey{House{}};
  const KeepFn full_disk = [](const std::string&, const House&) { throw Error(ErrorKind::storage, "The disk is full."); };
  EXPECT_THROW((void)run_survey_terminal(survey, in, out, full_disk), Error);
}

}  // namespace
}  // namespace ohmstead
