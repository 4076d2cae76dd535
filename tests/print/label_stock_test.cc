#include "print/label_stock.h"

#include <gmock/gmock.h>

#include <cmath>

#include "house/error.h"

namespace ohmstead {
namespace {

using testing::HasSubstr;

StockMeasures sheet(double width, double height, int columns = 0, int rows = 0) {
  StockMeasures measures;
  measures.label_width_mm = width, measures.label_height_mm = height, measures.columns = columns, measures.rows = rows;
  return measures;
}

std::string refusal(const StockMeasures& measures) {
  try {
    (void)sheet_stock(measures);
  } catch (const Error& error) {
    EXPECT_EQ(error.kind, ErrorKind::invalid_input);
    return error.what();
  }
  return "accepted";
}

TEST(LabelStock, plain_paper_is_filled_from_its_middle_with_lines_to_cut) {
  const LabelStock stock = sheet_stock(sheet(65, 32));
  EXPECT_TRUE(stock.cut_lines);
  EXPECT_EQ(stock.columns, 3);
  EXPECT_EQ(stock.rows, 8);
  EXPECT_NEAR(stock.left_mm, (215.9 - 195) / 2, 1e-9);
  EXPECT_NEAR(stock.top_mm, (279.4 - 256) / 2, 1e-9);
}

TEST(LabelStock, the_seventh_label_of_three_columns_is_the_first_of_the_third_row) {
  StockMeasures measures = sheet(66, 25.4, 3, 10);
  measures.left_mm = 5, measures.top_mm = 12.7, measures.pitch_x_mm = 70;
  LabelStock stock = sheet_stock(measures);
  EXPECT_FALSE(stock.cut_lines);
  stock.start = 7;
  const LabelPlace first = place_of_label(stock, 0), last = place_of_label(stock, 23), next = place_of_label(stock, 24);
  EXPECT_NEAR(first.area.x, 5, 1e-9);
  EXPECT_NEAR(first.area.y, 12.7 + 2 * 25.4, 1e-9);
  EXPECT_EQ(last.page, 0);
  EXPECT_NEAR(last.area.x, 145, 1e-9);
  EXPECT_NEAR(last.area.y, 12.7 + 9 * 25.4, 1e-9);
  EXPECT_EQ(next.page, 1);
  EXPECT_NEAR(next.area.y, 12.7, 1e-9) << "the next sheet is a whole one";
}

TEST(LabelStock, what_cannot_be_is_refused_with_what_would_work) {
  EXPECT_THAT(refusal(sheet(300, 25)), HasSubstr("larger than the page of 215.9 x 279.4 mm; give a page of at least 300 x 279.4 mm"));
  EXPECT_THAT(refusal(sheet(0, 25)), HasSubstr("larger than 0 x 0"));
  EXPECT_THAT(refusal(sheet(std::nan(""), 25)), HasSubstr("larger than 0 x 0"));
  StockMeasures measures = sheet(66, 25.4, 3, 10);
  measures.pitch_x_mm = 60;
  EXPECT_THAT(refusal(measures), HasSubstr("the pitch must be at least 66 mm"));
  measures = sheet(66, 25.4, 3, 10);
  measures.left_mm = 5, measures.pitch_x_mm = 75;
  EXPECT_THAT(refusal(measures), HasSubstr("need 221 mm, and the page has 215.9")) << "5 + 2 * 75 + 66";
  measures.pitch_x_mm = 70;
  EXPECT_EQ(refusal(measures), "accepted");
  EXPECT_THAT(refusal(sheet(66, 25.4, 3, 12)), HasSubstr("12 labels down need"));
  EXPECT_THAT(refusal(sheet(66, 25.4, -1, -1)), HasSubstr("1 x 1"));
  measures = sheet(20, 12);
  measures.corner_mm = 7;
  EXPECT_THAT(refusal(measures), HasSubstr("at most 6 mm"));
  EXPECT_THAT(refusal(sheet(212, 20)), HasSubstr("at least 222 x 30 mm")) << "no room to cut";
}

std::string tape_refusal(double tape, double printable = 0) {
  try {
    (void)tape_stock(tape, printable, 180);
  } catch (const Error& error) {
    return error.what();
  }
  return "accepted";
}

TEST(LabelStock, a_tape_takes_one_line_of_the_smallest_type_or_is_refused) {
  EXPECT_EQ(tape_refusal(12), "accepted");
  EXPECT_THAT(tape_refusal(4), HasSubstr("is too low for letters of 9 pt"));
  EXPECT_THAT(tape_refusal(12, 2), HasSubstr("2 mm to print on"));
  EXPECT_THAT(tape_refusal(12, 14), HasSubstr("cannot reach 14 mm of a tape of 12 mm"));
  const std::string said = tape_refusal(4);
  const auto at = said.find("as on a tape of ");
  ASSERT_NE(at, std::string::npos) << said;
  EXPECT_EQ(tape_refusal(std::stod(said.substr(at + 16))), "accepted") << "the height that is named works: " << said;
  EXPECT_DOUBLE_EQ(tape_stock(12, 0, 180).printable_mm, 10);
}

TEST(LabelStock, words_keep_off_round_corners) {
  StockMeasures measures = sheet(20, 20);
  EXPECT_DOUBLE_EQ(inner_margin_mm(sheet_stock(measures)), 1.5);
  measures.corner_mm = 10;  // a circle: the largest square in it has sides of 14.1
  EXPECT_GT(inner_margin_mm(sheet_stock(measures)), (20 - 20 * std::sqrt(0.5)) / 2);
}

}  // namespace
}  // namespace ohmstead
