#include "ask/question.h"

#include <gtest/gtest.h>

#include <random>

#include "ask/question_cues.h"

namespace ohmstead {
namespace {

using Words = std::vector<std::string>;

TEST(ReadQuestion, kind_and_the_words_for_things) {
  struct Case {
    const char* text;
    QuestionKind kind;
    Words about;
  };
  const Case cases[] = {
      {"which breaker for the dishwasher", QuestionKind::feeds, {"dishwasher"}},
      {"WHICH BREAKER'S FOR THE DISHWASHER?!", QuestionKind::feeds, {"dishwasher"}},
      {"what goes off with 9-11 and 14", QuestionKind::off, {"9-11", "14"}},
      {"what do I switch off to change the upper bath light", QuestionKind::isolate, {"upper bath light"}},
      {"I am going to replace the yard light. What do I open?", QuestionKind::isolate, {"yard light"}},
      {"are the washer and the storage light on the same breaker", QuestionKind::circuit, {"washer", "storage light"}},
      {"what's still untraced", QuestionKind::open, {}},
      {"is hot water on the generator", QuestionKind::backup, {"waterheater"}},
      {"", QuestionKind::unknown, {}},
      {"???", QuestionKind::unknown, {}},
  };
  for (const Case& one : cases) {
    const Question question = read_question(one.text);
    EXPECT_EQ(text_of(question.kind), text_of(one.kind)) << one.text;
    EXPECT_EQ(question.about, one.about) << one.text;
  }
}

TEST(ReadQuestion, what_can_hurt_comes_before_anything_else) {
  for (const char* text : {"which breaker is safe to touch", "why does the dryer outlet spark", "is the dryer dead",
                           "how do I know the dryer is dead", "is the disposal off", "what goes off if I touch the bare wire",
                           "can I plug the generator into the dryer outlet", "how do I keep it from tripping with a bigger breaker"})
    EXPECT_EQ(read_question(text).kind, QuestionKind::danger) << text;
  EXPECT_EQ(read_question("why is the dryer dead").kind, QuestionKind::dead) << "a near miss: it asks for the reason";
  EXPECT_EQ(read_question("I smell gas").danger, Danger::gas);
  EXPECT_EQ(read_question("where is the gas valve").kind, QuestionKind::note);
}

TEST(ReadQuestion, that_and_what_goes_on) {
  EXPECT_TRUE(read_question("what else is on that circuit").that);
  EXPECT_FALSE(read_question("what else is on the washer circuit").that);
  EXPECT_TRUE(read_question("and the dishwasher?").goes_on);
  EXPECT_FALSE(read_question("the dishwasher").goes_on);
}

TEST(ReadQuestion, a_text_that_is_too_long_is_not_understood) {
  EXPECT_EQ(read_question("what is still untraced" + std::string(kLongestQuestion, ' ')).kind, QuestionKind::unknown);
}

TEST(ReadQuestion, any_bytes_are_a_question) {
  std::mt19937 random(3);
  for (int i = 0; i < 2000; ++i) {
    std::string text;
    for (std::uint64_t n = random() % 80; n > 0; --n) text += static_cast<char>(random() % 256);
    for (const std::string& words : read_question(text).about) EXPECT_FALSE(words.empty());
  }
}

TEST(Cues, every_alternative_is_written_as_it_is_looked_for) {
  for (const ask_detail::Cue& cue : ask_detail::cues()) {
    EXPECT_NE(cue.kind, QuestionKind::unknown);
    for (const std::string_view list : {cue.all, cue.none})
      for (const char c : list)
        EXPECT_TRUE((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || std::string_view(" ;|^$").find(c) != std::string_view::npos) << list;
  }
}

}  // namespace
}  // namespace ohmstead
