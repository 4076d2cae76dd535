#include "survey/walk_through.h"

#include <gmock/gmock.h>

#include "house/error.h"
#include "house/invariants.h"
#include "house/numbering.h"

namespace ohmstead {
namespace {

using testing::HasSubstr;

TEST(WalkThrough, walks_rooms_then_panel) {
  WalkThrough walk{House{}};
  EXPECT_THAT(walk.question().ask, HasSubstr("Which rooms"));
  (void)walk.answer("Kitchen, Hall, Floor Upper 1, Bedroom 1");
  (void)walk.answer("Bedroom 2");
  (void)walk.answer("");
  EXPECT_EQ(walk.question().ask, "What is in Kitchen?");
  (void)walk.answer("4r, 2l sw, dw");
  EXPECT_EQ(walk.question().ask, "What is in Hall?");
  (void)walk.answer("-");
  EXPECT_EQ(walk.question().empty, "4 receptacles, 1 light on switch, smoke alarm");
  (void)walk.answer("");
  EXPECT_EQ(walk.question().ask, "What is in Bedroom 2?");
  (void)walk.answer("1r");
  (void)walk.answer("Main 12 100A");
  EXPECT_THAT(walk.question().ask, HasSubstr("left column of panel Main, from space 1 down"));
  (void)walk.answer("20 kitchen 15");
  EXPECT_THAT(walk.question().ask, HasSubstr("from space 5 down"));
  (void)walk.answer("30x2 range");
  (void)walk.answer("");
  EXPECT_THAT(walk.question().ask, HasSubstr("right column"));
  (void)walk.answer("6+8 20 pump");
  EXPECT_THAT(walk.question().ask, HasSubstr("from space 10 down"));
  (void)walk.answer("15 15");
  EXPECT_THAT(walk.question().ask, HasSubstr("another panel"));  // the column is full
  (void)walk.answer("");
  EXPECT_TRUE(walk.done());

  const House& house = walk.house();
  EXPECT_TRUE(problems_of(house).empty());
  EXPECT_EQ(house.points.size(), 7U + 6U + 1U);
  ASSERT_EQ(house.floors.size(), 2U);
  EXPECT_EQ(house.rooms[3].floor, house.floors[1].id);
  std::string numbers;
  for (const Breaker& breaker : house.breakers) numbers += breaker_number(house.panels[0], breaker) + " ";
  EXPECT_EQ(numbers, "1 3 5-7 6-8 10 12 ");
}

TEST(WalkThrough, a_refused_answer_changes_nothing) {
  WalkThrough walk{House{}};
  (void)walk.answer("Den");
  (void)walk.answer("");
  const House before = walk.house();
  try {
    (void)walk.answer("4r, blorb");
    FAIL() << "it was taken";
  } catch (const Error& error) {
    EXPECT_THAT(error.what(), testing::StartsWith("'blorb' is not a thing I know"));
  }
  EXPECT_EQ(walk.house(), before);
  EXPECT_EQ(walk.question().ask, "What is in Den?");
  EXPECT_THROW((void)walk.answer("1r\nHall: 1r"), Error);
}

TEST(WalkThrough, undo_goes_back_answer_by_answer) {
  WalkThrough walk{House{}};
  EXPECT_FALSE(walk.undo());
  (void)walk.answer("Den");
  const House with_den = walk.house();
  (void)walk.answer("");
  (void)walk.answer("2r");
  EXPECT_EQ(walk.house().points.size(), 2U);
  EXPECT_TRUE(walk.undo());
  EXPECT_EQ(walk.house(), with_den);
  EXPECT_EQ(walk.question().ask, "What is in Den?");
}

TEST(WalkThrough, a_house_in_part_is_asked_for_the_rest) {
  WalkThrough first{House{}};
  (void)first.answer("Den, Bath");
  (void)first.answer("");
  (void)first.answer("2r");
  WalkThrough again(first.house());
  (void)again.answer("");
  EXPECT_EQ(again.question().ask, "What is in Bath?");
  again.skip();
  EXPECT_THAT(again.question().ask, HasSubstr("panel"));
}

}  // namespace
}  // namespace ohmstead
