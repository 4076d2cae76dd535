// What the written set (phrasings_test.cc) does not say of an answer.

#include "ask/ask.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/traced_sample.h"

namespace ohmstead {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

struct Asking : ::testing::Test {
  Record record = traced_sample();
  Names names{record.house};
  Sitting sitting;
  AskAnswer ask(std::string_view words) { return answer_question({record, names, "2026-03-05T12:00:00Z"}, sitting, words); }
  static std::string text(const AskAnswer& answer) {
    std::string all;
    for (const Line& line : answer.lines) {
      all += line.text + "\n";
      for (const std::string& item : line.items) all += item + "\n";
    }
    return all;
  }
};

TEST_F(Asking, what_was_understood_is_said_with_the_names_of_the_things) {
  EXPECT_EQ(ask("dishwaser breaker?").understood, "what feeds Kitchen dishwasher");
  EXPECT_EQ(ask("what goes off with main 9 and 14").understood, "what goes off with Main panel breaker 9 and Main panel breaker 14");
  EXPECT_EQ(ask("which breaker for the bathroom light").understood, "");
}

TEST_F(Asking, the_answer_is_that_of_the_command) {
  const auto dishwasher = std::ranges::find(record.house.points, std::string("dishwasher"), &Point::name);
  const auto lines = words_of_answer(record, names, where_is(record, static_cast<std::size_t>(dishwasher - record.house.points.begin())));
  const AskAnswer answer = ask("which breaker for the dishwasher");
  ASSERT_GE(answer.lines.size(), lines.size());
  for (std::size_t i = 0; i < lines.size(); ++i) EXPECT_EQ(answer.lines[i].text, lines[i].text);
}

TEST_F(Asking, a_danger_of_several_things_says_for_which_of_them_it_does_not_tell_what_to_open) {
  EXPECT_THAT(text(ask("is it safe to touch the freezer and the frobnicator")), HasSubstr("What is to be opened for 'frobnicator' is not told here"));
  EXPECT_THAT(text(ask("is it safe to touch the freezer and the bath light")), HasSubstr("'bath light'"));
  EXPECT_THAT(text(ask("is it safe to touch the freezer")), Not(HasSubstr("is not told here")));
}

TEST_F(Asking, one_of_the_candidates_is_chosen_by_some_of_its_words_or_asked_about_again) {
  EXPECT_TRUE(ask("what do I switch off to change the bathroom light").asks_back);
  EXPECT_TRUE(ask("banana").asks_back) << "none of them";
  EXPECT_TRUE(ask("what do I switch off to change the bathroom light").asks_back);
  const AskAnswer answer = ask("the upper one");
  EXPECT_FALSE(answer.asks_back);
  EXPECT_EQ(answer.kind, QuestionKind::isolate);
  EXPECT_THAT(text(answer), HasSubstr("breaker 25"));
}

TEST_F(Asking, before_work_a_misspelled_name_is_asked_about_and_yes_takes_it) {
  const AskAnswer asked = ask("what do I turn off to replace the dishwahser");
  ASSERT_TRUE(asked.asks_back);
  EXPECT_THAT(text(asked), Not(HasSubstr("breaker 9")));
  EXPECT_THAT(text(ask("yes")), HasSubstr("breaker 9"));
}

TEST_F(Asking, a_word_that_fits_nothing_is_never_dropped) {
  EXPECT_TRUE(ask("which breaker for the kitchen sauna").asks_back);
  EXPECT_TRUE(ask("is the freezer unicorn on the generator").asks_back);
}

TEST_F(Asking, that_needs_a_question_before_it) {
  EXPECT_TRUE(ask("what else is on that circuit").asks_back);
  EXPECT_FALSE(ask("which breaker for the washer").asks_back);
  EXPECT_FALSE(ask("what else is on that circuit").asks_back);
  EXPECT_FALSE(ask("and who traced it").asks_back);
}

TEST_F(Asking, danger_is_never_answered_with_yes_and_names_what_to_open) {
  const AskAnswer answer = ask("is the upper bath light safe to touch with 25 off");
  EXPECT_EQ(answer.kind, QuestionKind::danger);
  EXPECT_FALSE(answer.yes);
  EXPECT_EQ(answer.lines.front().kind, LineKind::danger);
  EXPECT_THAT(text(ask("is it safe to touch the upper bath light")), HasSubstr("open Main panel breaker 25"));
  EXPECT_THAT(text(ask("is it safe to touch the kitchen lights")), HasSubstr("open "));
  EXPECT_THAT(text(ask("can I run the generator in the garage")), HasSubstr("Never."));
}

TEST_F(Asking, who_depends_on_a_thing_comes_before_the_search_for_the_cause) {
  const AskAnswer answer = ask("why does the oxygen concentrator not work");
  EXPECT_EQ(answer.lines.front().kind, LineKind::danger);
  EXPECT_THAT(answer.lines.front().text, HasSubstr("battery or cylinder"));
  EXPECT_NE(ask("why does the dishwasher not work").lines.front().kind, LineKind::danger);
}

TEST_F(Asking, the_same_words_give_the_same_answer) {
  for (const char* words : {"which breaker for the tv", "what is on 25", "is the freezer on the generator"}) {
    sitting = {};
    const std::string first = text(ask(words));
    sitting = {};
    EXPECT_EQ(text(ask(words)), first);
  }
}

TEST_F(Asking, names_with_control_characters_are_printable_when_asked_back) {
  record.house.points.front().name = "free\x1b[2Jzer";
  const Names fresh(record.house);
  Sitting empty;
  const AskAnswer answer = answer_question({record, fresh, ""}, empty, "which breaker for the storage thing \x1b[31m");
  EXPECT_EQ(text(answer).find('\x1b'), std::string::npos);
}

}  // namespace
}  // namespace ohmstead
