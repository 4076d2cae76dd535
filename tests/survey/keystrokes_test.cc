#include "survey/keystrokes.h"

#include <gtest/gtest.h>

#include <fstream>
#include <iostream>
#include <sstream>

#include "survey/entry.h"

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

/// The aim: at most 5 keystrokes a point, rooms, panels, breakers and transfer device included, for
/// a house of about 110 points that is written in the short forms, without labels and plan.
TEST(Keystrokes, a_house_in_short_forms_takes_five_a_point_or_fewer) {
  std::ifstream file(OHMSTEAD_SOURCE_DIR "/tests/survey/short_house.txt");
  std::stringstream text;
  text << file.rdbuf();
  const House house = enter_text(House{}, text.str()).house;
  const std::size_t total = count_keystrokes(text.str());
  std::cout << total << " keystrokes for " << house.points.size() << " points, " << house.breakers.size() << " breakers\n";
  EXPECT_GE(house.points.size(), 100U);
  EXPECT_LE(house.points.size(), 120U);
  EXPECT_GE(house.breakers.size(), 26U);
  EXPECT_EQ(house.positions.size(), 8U);
  EXPECT_LE(total, 5 * house.points.size());
}

}  // namespace
}  // namespace ohmstead
