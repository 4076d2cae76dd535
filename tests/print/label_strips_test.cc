// Strips and number dots as they are drawn: as far apart as the breakers, and each tells its panel.
#include <gmock/gmock.h>

#include <cmath>
#include <set>

#include "house/error.h"
#include "print/labels.h"
#include "print/text.h"
#include "rules/panel_text.h"
#include "tests/print/house_maker.h"
#include "tests/print/label_checks.h"
#include "tests/support/traced_sample.h"

namespace ohmstead {
namespace {

using test::check_pages, test::draw, test::example_record, test::expect_codes_read, test::kAsOf, test::options_on;
using testing::Contains;
using testing::HasSubstr;

constexpr auto plain = test::plain_labels;

TEST(Dots, of_two_poles_are_set_in_two_lines_where_one_would_be_small) {
  const LabelPages pages = lay_out_labels(breaker_dots({example_record(), kAsOf}, std::nullopt), options_on(plain(13, 13)));
  bool two_lines = false;
  for (const PlacedText& text : pages.pages[0].content.texts) {
    if (text.words[0] < '0' || text.words[0] > '9') continue;  // the name of a panel
    EXPECT_GE(text.style.points, 12) << text.words;
    two_lines = two_lines || text.style.lines == 2;
  }
  EXPECT_TRUE(two_lines);
}

Record two_panels(const std::string& second) {
  test::HouseMaker maker;
  const Id<Room> hall = maker.room("Hall", maker.floor("Ground", 0));
  for (const std::string& name : {std::string("Main"), second}) {
    const Id<Panel> panel = maker.panel(name, hall, 8);
    for (int space = 1; space <= 4; ++space) maker.breaker(panel, space);
  }
  return make_record(maker.house);
}

TEST(Dots, of_several_panels_stand_behind_the_name_of_their_panel) {
  for (const std::string name : {"Workshop", "Outbuilding by the creek", "Old barn"}) {
    const Record record = two_panels(name);
    const auto dots = breaker_dots({record, kAsOf}, std::nullopt);
    for (const LabelStock& stock : {plain(13, 13), tape_stock(12, 0, 180)}) {
      const LabelPages pages = lay_out_labels(dots, options_on(stock));
      EXPECT_EQ(pages.labels, 8) << "headings are no labels";
      check_pages(pages);
      RecordingCanvas canvas;
      draw(pages, canvas);
      std::vector<std::string> words;
      for (const DrawnText& text : canvas.texts) words.push_back(text.words);
      ASSERT_EQ(words.size(), 10U);
      EXPECT_THAT(panel_title_ways(record.house, record.house.panels[0]), Contains(words[0]));
      EXPECT_THAT(panel_title_ways(record.house, record.house.panels[1]), Contains(words[5]));
    }
    EXPECT_EQ(breaker_dots({record, kAsOf}, record.house.panels[1].id).size(), 4U) << "one panel needs no name";
  }
}

TEST(Strips, on_a_narrow_tape_say_enough_of_the_name_to_tell_the_panel) {
  const Record record = two_panels("Outbuilding by the creek");
  const auto strips = breaker_strips({record, kAsOf}, std::nullopt);
  const LabelPages pages = lay_out_strips(strips, options_on(tape_stock(18, 0, 180)));
  ASSERT_EQ(pages.pages.size(), strips.size());
  std::set<std::string> heads;
  for (std::size_t i = 0; i < strips.size(); ++i) {
    std::vector<std::string> ways = strips[i].short_heads;
    ways.push_back(strips[i].head);
    const std::string head = pages.pages[i].content.texts.front().words;
    EXPECT_THAT(ways, Contains(head));
    heads.insert(head);
  }
  EXPECT_EQ(heads.size(), strips.size()) << "each tells which it is";
}

TEST(Strips, on_a_tape_of_18_mm_split_no_word_of_the_sample_house) {
  const Record record = traced_sample();
  const LabelPages pages = lay_out_strips(breaker_strips({record, kAsOf}, std::nullopt), options_on(tape_stock(18, 0, 180)));
  check_pages(pages);
  bool long_word = false;
  for (const LabelPage& page : pages.pages)
    for (const PlacedText& text : page.content.texts) {
      EXPECT_FALSE(measure_text(text.words, text.style, text.area.width).split_word) << text.words;
      long_word = long_word || text.words.find("Receptacles in") == 0;
    }
  EXPECT_TRUE(long_word) << "it is said, not left out";
}

TEST(Strips, cells_are_as_far_apart_as_the_breakers) {
  LabelOptions options = options_on(plain(65, 32));
  options.strip_pitch_mm = 19, options.strip_height_mm = 55;
  const LabelPages pages = lay_out_strips(breaker_strips({example_record(), kAsOf}, example_record().house.panels[0].id), options);
  check_pages(pages);
  std::size_t cells = 0;
  for (const LabelPage& page : pages.pages)
    for (const CardSide::Frame& frame : page.content.frames) {
      EXPECT_NEAR(frame.area.width, 55, 1e-9);
      EXPECT_NEAR(std::fmod(frame.area.height + 1e-6, 9.5), 0, 1e-5) << "halves of a pitch";
      ++cells;
    }
  EXPECT_GT(cells, 20u);
  options.strip_height_mm = 5;
  EXPECT_THROW((void)lay_out_strips(breaker_strips({example_record(), kAsOf}, std::nullopt), options), Error);
  options.strip_height_mm = 300;
  EXPECT_THROW((void)lay_out_strips(breaker_strips({example_record(), kAsOf}, std::nullopt), options), Error);
}

/// A house with a transfer device, wired in part.
const Record& transfer_record() {
  static const Record kRecord = entered_record("Cellar: freezer 100/400 W !, furnace 500/1200 W !\nYard: well pump 240 V 750/2200 W ! hurt\nPanel Main in Cellar 20 spaces, 100 A main: 1 15; 3 15; 2+4 20\n"
                                               "Generator G 3600/4500 W 120/240\nTransfer T in Cellar 4 positions from G: 1 15 <- Main 1; 2 15; 3+4 20 <- Main 2-4\n"
                                               "By J.\nCellar freezer <- Main 1\nCellar furnace <- Main 3\nYard well pump <- Main 2-4\n");
  return kRecord;
}

TEST(Strips, with_codes_each_cell_that_carries_something_has_one_and_both_readers_read_it) {
  const LabelRecord from{transfer_record(), kAsOf};
  LabelOptions options = options_on(plain(65, 32));
  options.strip_codes = true;
  const LabelPages across = lay_out_strips(transfer_strips(from), options), down = lay_out_strips(breaker_strips(from, std::nullopt), options);
  ASSERT_EQ(across.code_texts.size(), 2U);
  EXPECT_THAT(across.code_texts[0], testing::StartsWith("Position 1, breaker 1 of Panel Main. Cellar freezer."));
  EXPECT_THAT(across.code_texts[1], testing::StartsWith("Positions 3-4, breaker 2-4 of Panel Main. Yard well pump."));
  EXPECT_THAT(down.code_texts, Contains(testing::StartsWith("Breaker 1, Panel Main. Cellar freezer. 15 A. Backup G1. As of ")));
  for (const LabelPages& pages : {across, down}) {
    check_pages(pages);
    for (const std::string& text : pages.code_texts) EXPECT_EQ(text.find(':'), std::string::npos) << text;
    expect_codes_read(pages, labels_pdf(pages, "test", options.date), 300);
  }
  EXPECT_TRUE(lay_out_strips(transfer_strips(from), options_on(plain(65, 32))).code_texts.empty()) << "nobody asked for them";
}

TEST(Strips, a_pitch_or_height_that_leaves_no_room_for_codes_is_told_with_one_that_does) {
  const LabelRecord from{transfer_record(), kAsOf};
  LabelOptions options = options_on(plain(65, 32));
  options.strip_codes = true, options.strip_pitch_mm = 18, options.strip_height_mm = 60;
  const LabelPages none = lay_out_strips(transfer_strips(from), options);
  EXPECT_LT(none.code_texts.size(), 2U) << "a single position is too narrow";
  double width = 0, height = 0;
  ASSERT_FALSE(none.warnings.empty());
  const std::string& said = none.warnings.back();
  ASSERT_NE(said.find("labels of "), std::string::npos) << said;
  ASSERT_EQ(std::sscanf(said.c_str() + said.find("labels of "), "labels of %lf x %lf mm", &width, &height), 2) << said;
  options.strip_pitch_mm = width, options.strip_height_mm = height;
  EXPECT_EQ(lay_out_strips(transfer_strips(from), options).code_texts.size(), 2U) << said;
}

TEST(Strips, on_tape_say_the_name_of_their_panel_before_the_word_panel) {
  test::HouseMaker maker;
  const Id<Room> hall = maker.room("Hall", maker.floor("Ground", 0));
  for (const char* name : {"Main", "Workshop"}) maker.breaker(maker.panel(name, hall, 4), 1);
  const Record record = make_record(maker.house);
  const auto strips = breaker_strips({record, kAsOf}, std::nullopt);
  for (const double tape : {24.0, 36.0}) {
    const LabelPages pages = lay_out_strips(strips, options_on(tape_stock(tape, 0, 180)));
    ASSERT_EQ(pages.pages.size(), strips.size());
    for (std::size_t i = 0; i < strips.size(); ++i) {
      std::string words;
      for (const PlacedText& text : pages.pages[i].content.texts) words += text.words + "\n";
      EXPECT_THAT(words, HasSubstr(strips[i].head.substr(6))) << tape << ": " << strips[i].head;
    }
  }
}

}  // namespace
}  // namespace ohmstead
