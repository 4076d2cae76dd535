#include "rules/panel_cells.h"

#include <gmock/gmock.h>

#include <map>

#include "house/numbering.h"
#include "rules/wording.h"
#include "tests/print/house_maker.h"

namespace ohmstead {
namespace {

using test::HouseMaker;
using testing::ElementsAre;

struct Table : HouseMaker {
  Id<Room> hall = room("Hall", floor("Ground floor", 0));
  Id<Panel> main;
  explicit Table(int spaces, Numbering numbering = Numbering::odd_left_even_right) { main = panel("Main", hall, spaces, numbering); }
  [[nodiscard]] PanelCells cells() const {
    return panel_cells(house, row(house, main), panel_words(house, declared_feeds(house), main));
  }
};

std::string drawn(const PanelCells& table) {
  std::string text;
  for (const PanelCell& cell : table.cells) {
    text += text.empty() ? "" : " ";
    text += (cell.column == 0 ? "L" : "R") + std::to_string(cell.first_half) + "+" + std::to_string(cell.halves) + "=";
    for (const std::string& number : cell.numbers) text += number + (cell.breaker ? "!" : "");
  }
  return text;
}

// Odd numbers left, even right: common practice, no source.
TEST(PanelCells, odd_left_even_right_with_a_two_pole_breaker_and_empty_spaces) {
  Table t(6);
  t.breaker(t.main, 1, 2), t.breaker(t.main, 4);
  EXPECT_EQ(drawn(t.cells()), "L0+4=1!3! R0+2=2 R2+2=4! L4+2=5 R4+2=6");
  EXPECT_THAT(t.cells().row_weights, ElementsAre(1.0, 1.0, kEmptyRowWeight));
}

TEST(PanelCells, numbered_straight_down) {
  Table t(6, Numbering::sequential_down);
  t.breaker(t.main, 2, 2);
  EXPECT_EQ(drawn(t.cells()), "L0+2=1 R0+2=4 L2+4=2!3! R2+2=5 R4+2=6");
}

TEST(PanelCells, one_column) {
  Table t(4, Numbering::single_column);
  t.breaker(t.main, 1, 3);
  EXPECT_EQ(t.cells().columns, 1);
  EXPECT_EQ(drawn(t.cells()), "L0+6=1!2!3! L6+2=4");
}

TEST(PanelCells, a_tandem_splits_its_row_and_a_missing_half_is_an_empty_cell) {
  Table t(4);
  t.breaker(t.main, 1, 1, 15, Half::a), t.breaker(t.main, 4, 1, 15, Half::b), t.breaker(t.main, 4, 1, 15, Half::a);
  EXPECT_EQ(drawn(t.cells()), "L0+1=1a! L1+1=1b R0+2=2 L2+2=3 R2+1=4a! R3+1=4b!");
  EXPECT_THAT(t.cells().row_weights, ElementsAre(kTandemRowWeight, kTandemRowWeight));
}

TEST(PanelCells, a_quad_has_its_inner_pair_in_one_cell_and_its_outer_pair_in_two) {
  Table t(4);
  t.breaker(t.main, 1, 2, 20, Half::a), t.breaker(t.main, 1, 2, 20, Half::b);
  const PanelCells table = t.cells();
  EXPECT_EQ(drawn(table), "L0+1=1a! L1+2=1b!3a! R0+2=2 L3+1=3b! R2+2=4");
  EXPECT_EQ(table.cells[3].text, "other pole of 1a");
  EXPECT_TRUE(table.cells[0].text.ends_with("(with 3b)"));
}

TEST(PanelCells, handle_ties_reach_from_the_first_to_the_last_handle) {
  Table t(6);
  const auto first = t.breaker(t.main, 1), second = t.breaker(t.main, 3);
  row(t.house, first).tie = first, row(t.house, second).tie = first;
  ASSERT_EQ(t.cells().ties.size(), 1u);
  EXPECT_EQ(t.cells().ties[0].first_half, 0);
  EXPECT_EQ(t.cells().ties[0].last_half, 3);
}

}  // namespace
}  // namespace ohmstead
