#include "survey/keystrokes.h"

#include <gtest/gtest.h>

namespace ohmstead {
namespace {

TEST(Keystrokes, are_characters_and_enters) {
  EXPECT_EQ(count_keystrokes("Hall: 2r\n"), 9U);
  EXPECT_EQ(count_keystrokes("Hall: 2r"), 9U);
  EXPECT_EQ(count_keystrokes("# nothing\n\nHall: 2r # two\n"), 9U);
  EXPECT_EQ(count_keystrokes("Hall:\n 2r\n"), 10U);
  EXPECT_EQ(count_keystrokes("K\xC3\xBC" "che: 2r\n"), 10U);
  EXPECT_EQ(count_keystrokes(""), 0U);
}

TEST(Keystrokes, are_told_apart_by_what_they_are_for) {
  const Keystrokes strokes = keystrokes_of("Hall 2x3 m at 0,0: 2r\nFloor Up 1\nPanel M 8\nGenerator G 5 kW\nNote Hall: x\n");
  EXPECT_EQ(strokes.rooms, 9U);
  EXPECT_EQ(strokes.plan, 13U + 11U);
  EXPECT_EQ(strokes.panels, 10U);
  EXPECT_EQ(strokes.backup, 17U);
  EXPECT_EQ(strokes.record, 13U);
  EXPECT_EQ(strokes.total(), 9U + 24U + 10U + 17U + 13U);
}

}  // namespace
}  // namespace ohmstead
