// What a session shows: its order, and that something said in between leaves the step as it is.

#include "cli/step_talk.h"

#include <gtest/gtest.h>

#include <sstream>

namespace ohmstead {
namespace {

struct AtDesk {
  std::istringstream in;
  std::ostringstream out;
  Keys keys{in, out, false};
  StepTalk talk{keys, out};
};

TEST(StepTalk, a_step_is_shown_from_how_far_it_is_to_the_prompt) {
  AtDesk desk;
  desk.talk.show("3 of 9", "Turn 12 off.\nThen go.", "Enter  done", "u  undo");
  EXPECT_EQ(desk.out.str(), "\n" + std::string(desk.keys.columns(), '-') + "\n3 of 9\n\n    Turn 12 off.\n    Then go.\n\n  Enter  done\n  u  undo\n> ");
}

TEST(StepTalk, without_how_far_it_is_nothing_stands_there) {
  AtDesk desk;
  desk.talk.show("", "Go.", "y  yes", "u  undo");
  EXPECT_EQ(desk.out.str(), "\n" + std::string(desk.keys.columns(), '-') + "\n    Go.\n\n  y  yes\n  u  undo\n> ");
}

TEST(StepTalk, what_is_told_in_between_shows_no_step_again) {
  AtDesk desk;
  EXPECT_FALSE(desk.talk.tell("Nothing is off."));
  EXPECT_EQ(desk.out.str(), "\n    Nothing is off.\n> ");
}

}  // namespace
}  // namespace ohmstead
