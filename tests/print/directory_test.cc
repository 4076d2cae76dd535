// The card as it is drawn: sizes, order, and nothing over anything else, in any house.
#include "print/directory.h"

#include <gmock/gmock.h>

#include <cmath>
#include <regex>
#include <set>

#include "house/error.h"
#include "house/numbering.h"
#include "print/fit_text.h"
#include "print/recording_canvas.h"
#include "tests/print/example_house.h"
#include "tests/print/geometry.h"
#include "tests/support/random_house.h"

namespace ohmstead {
namespace {

using test::ink, test::kSlack, test::overlap;
using testing::HasSubstr;

DirectoryOptions options_for(Id<Panel> panel, double width = 152, double height = 254) {
  DirectoryOptions options;
  options.panel = panel;
  options.pocket_width_mm = width, options.pocket_height_mm = height;
  options.date = "2026-11-25";
  options.revision = 12;
  return options;
}

Area area_of(const DrawnLine& line) {
  const double half = line.width_mm / 2;
  return {std::min(line.x1, line.x2) - half, std::min(line.y1, line.y2) - half, std::abs(line.x1 - line.x2) + line.width_mm,
          std::abs(line.y1 - line.y2) + line.width_mm};
}

void check_nothing_overlaps(const RecordingCanvas& canvas) {
  for (std::size_t i = 0; i < canvas.texts.size(); ++i) {
    const DrawnText& text = canvas.texts[i];
    const Area page = canvas.pages[static_cast<std::size_t>(text.page)], box = ink(text);
    EXPECT_TRUE(box.x >= 0 && box.y >= 0 && box.right() <= page.width && box.bottom() <= page.height) << text.words;
    EXPECT_LE(text.extent.width_mm, text.area.width + 0.05) << text.words;
    EXPECT_LE(text.extent.height_mm, text.area.height + 0.65) << text.words;
    for (std::size_t k = i + 1; k < canvas.texts.size(); ++k)
      if (canvas.texts[k].page == text.page) { EXPECT_FALSE(overlap(box, ink(canvas.texts[k]), kSlack)) << text.words << " / " << canvas.texts[k].words; }
    for (const DrawnLine& line : canvas.lines)
      if (line.page == text.page) { EXPECT_FALSE(overlap(box, area_of(line), kSlack)) << text.words; }
    for (const DrawnCode& code : canvas.codes)
      if (code.page == text.page) { EXPECT_FALSE(overlap(box, code.area, 0.01)) << text.words; }
  }
}

void check_sizes(const RecordingCanvas& canvas) {
  for (const DrawnText& text : canvas.texts) EXPECT_GE(text.style.points, kLeastPoints) << text.words;
  for (std::size_t i = 0; i < canvas.codes.size(); ++i) {
    const DrawnCode& code = canvas.codes[i];
    EXPECT_GE(code.area.width, 25 - 1e-9);
    EXPECT_GE(code.area.width / (code.code.modules + 2 * kQuietModules), 0.40 - 1e-9);
    for (std::size_t k = i + 1; k < canvas.codes.size(); ++k) EXPECT_FALSE(overlap(code.area, canvas.codes[k].area, 0.01) && code.page == canvas.codes[k].page);
  }
}

/// Each breaker's first number stands in its column, and in the order of the rows.
void check_order(const RecordingCanvas& canvas, const House& house, const Panel& panel) {
  const double middle = canvas.pages[0].width / 2;
  std::map<std::pair<int, int>, double> y_of_place;
  for (const Breaker& breaker : house.breakers) {
    if (breaker.panel != panel.id || breaker.half != Half::whole) continue;
    const PanelPlace place = place_of(panel, breaker.space).value_or(PanelPlace{});
    std::string number = std::to_string(breaker.space), joined = number;
    for (const PolePlace& pole : pole_places(panel, breaker))
      if (pole.space != breaker.space) joined += "\u00B7" + std::to_string(pole.space);
    const auto found = std::ranges::find_if(canvas.texts, [&](const DrawnText& t) {
      return t.page == 0 && t.style.face == Face::bold && (t.words == number || t.words == joined);
    });
    ASSERT_NE(found, canvas.texts.end()) << number;
    EXPECT_GE(found->style.points, 14);
    if (column_count(panel) == 2) { EXPECT_EQ(found->area.x > middle, place.column == 1) << number; }
    y_of_place[{place.column, place.row}] = found->area.y;
  }
  for (auto at = y_of_place.begin(); at != y_of_place.end() && std::next(at) != y_of_place.end(); ++at)
    if (std::next(at)->first.first == at->first.first) { EXPECT_LT(at->second, std::next(at)->second); }
}

/// The smallest size that a refusal names.
std::pair<double, double> size_in(const std::string& message) {
  std::smatch match;
  EXPECT_TRUE(std::regex_search(message, match, std::regex("at least ([0-9]+) x ([0-9]+) mm"))) << message;
  return {std::stod(match[1]), std::stod(match[2])};
}

/// Draws on a card of the given size, or on the smallest one the refusal names.
PrintedDirectory draw_somehow(const House& house, DirectoryOptions options, RecordingCanvas& canvas) {
  try {
    return draw_directory(house, declared_feeds(house), options, canvas);
  } catch (const Error& error) {
    std::tie(options.pocket_width_mm, options.pocket_height_mm) = size_in(error.what());
    return draw_directory(house, declared_feeds(house), options, canvas);
  }
}

TEST(Directory, in_random_houses_nothing_overlaps_and_every_size_is_as_promised) {
  int cards = 0, split = 0;
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    const House house = random_house(seed, 1 + static_cast<int>(seed % 9));
    for (const Panel& panel : house.panels) {
      if (row_count(panel) > 60) continue;
      SCOPED_TRACE("seed " + std::to_string(seed) + ", panel " + panel.name);
      RecordingCanvas canvas;
      DirectoryOptions options = options_for(panel.id);
      options.large = seed % 5 == 0;
      const PrintedDirectory printed = draw_somehow(house, options, canvas);
      check_nothing_overlaps(canvas);
      check_sizes(canvas);
      check_order(canvas, house, panel);
      EXPECT_EQ(canvas.codes.size(), printed.code_texts.size());
      const auto cut = std::ranges::count_if(canvas.texts, [](const DrawnText& t) { return t.extent.cut; });
      EXPECT_TRUE(cut == 0 || !printed.warnings.empty()) << "a text was cut in silence";
      ++cards, split += printed.codes_on_back;
    }
  }
  EXPECT_GT(cards, 60);
  EXPECT_GT(split, 0);
  EXPECT_LT(split, cards);
}

TEST(Directory, the_example_is_set_in_12_pt_with_numbers_of_17_and_loses_nothing) {
  const test::ExampleHouse example = test::example_house();
  RecordingCanvas canvas;
  const PrintedDirectory printed = draw_directory(example.house, example.feeds, options_for(example.main), canvas);
  EXPECT_THAT(printed.warnings, testing::IsEmpty());
  check_nothing_overlaps(canvas);
  std::set<std::string> words;
  for (const DrawnText& text : canvas.texts) {
    words.insert(text.words);
    EXPECT_EQ(text.extent.unknown_glyphs, 0) << text.words;
    if (text.words == "9" || text.words == "16") { EXPECT_GE(text.style.points, 17); }
    if (text.words == "SPARE" || text.words == "Kitchen range") { EXPECT_GE(text.style.points, 12); }
  }
  for (const char* expected : {"5\u00B77", "19a", "19b", "32b", "34a", "SPARE", "? not traced yet", "G1-2", "empty space", "MAIN"})
    EXPECT_TRUE(words.contains(expected)) << expected;
}

TEST(Directory, what_cannot_be_drawn_or_does_not_fit_is_reported_by_breaker) {
  test::ExampleHouse example = test::example_house();
  for (Room& room : example.house.rooms)
    if (room.name == "Kitchen") room.name = "Kitchen \U000F1234";
  for (Room& room : example.house.rooms)
    if (room.name == "Garage") room.name = "WWWWWWWWWWW WWWWWWWWWWWW";
  RecordingCanvas canvas;
  const auto printed = draw_directory(example.house, example.feeds, options_for(example.main, 152, 256), canvas);
  EXPECT_THAT(printed.warnings, testing::Contains(testing::AllOf(HasSubstr("breaker 5\u00B77"), HasSubstr("no installed font"))));
  EXPECT_THAT(printed.warnings, testing::Contains(testing::AllOf(HasSubstr("breaker 14"), HasSubstr("is cut"))));
}

TEST(Directory, codes_go_under_the_table_where_there_is_room_else_on_the_back) {
  const test::ExampleHouse example = test::example_house();
  RecordingCanvas small, tall;
  EXPECT_TRUE(draw_directory(example.house, example.feeds, options_for(example.main), small).codes_on_back);
  EXPECT_EQ(small.pages.size(), 2u);
  EXPECT_FALSE(draw_directory(example.house, example.feeds, options_for(example.main, 152, 330), tall).codes_on_back);
  EXPECT_EQ(tall.pages.size(), 1u);
  EXPECT_GE(tall.codes.size(), 2u);
}

TEST(Directory, a_sheet_has_the_card_in_its_middle_with_lines_to_cut_along) {
  const test::ExampleHouse example = test::example_house();
  DirectoryOptions options = options_for(example.main);
  options.sheet = Sheet::letter;
  RecordingCanvas canvas;
  draw_directory(example.house, example.feeds, options, canvas);
  EXPECT_NEAR(canvas.pages[0].width, 215.9, 1e-9);
  const auto cuts = std::ranges::count_if(canvas.lines, [](const DrawnLine& l) { return l.dashed && l.page == 0; });
  EXPECT_EQ(cuts, 4);
  for (const DrawnText& text : canvas.texts) EXPECT_GT(text.area.x, (215.9 - 152) / 2);
  options.pocket_height_mm = 275;
  EXPECT_THROW(draw_directory(example.house, example.feeds, options, canvas), Error);
}

struct Refused {
  const char* why;
  void (*change)(DirectoryOptions&);
};

TEST(Directory, options_that_cannot_be_are_refused_in_one_sentence) {
  const test::ExampleHouse example = test::example_house();
  const Refused cases[] = {
      {"width", [](DirectoryOptions& o) { o.pocket_width_mm = std::nan(""); }},
      {"width", [](DirectoryOptions& o) { o.pocket_width_mm = -5; }},
      {"height", [](DirectoryOptions& o) { o.pocket_height_mm = 1e9; }},
      {"date", [](DirectoryOptions& o) { o.date = "25.11.2026"; }},
      {"date", [](DirectoryOptions& o) { o.date = "2026-13-01"; }},
      {"No month has a day 2026-02-30", [](DirectoryOptions& o) { o.date = "2026-02-30"; }},
      {"date", [](DirectoryOptions& o) { o.date = "2026-11-25\n(evil)"; }},
      {"revision", [](DirectoryOptions& o) { o.revision = -1; }},
      {"no panel", [](DirectoryOptions& o) { o.panel = Id<Panel>{77777}; }},
      {"at least 1", [](DirectoryOptions& o) { o.pocket_width_mm = 60, o.pocket_height_mm = 90; }},
  };
  for (const Refused& refused : cases) {
    DirectoryOptions options = options_for(example.main);
    refused.change(options);
    try {
      (void)print_directory(example.house, example.feeds, options);
      ADD_FAILURE() << refused.why << " was not refused";
    } catch (const Error& error) {
      EXPECT_THAT(error.what(), HasSubstr(refused.why));
    }
  }
}

TEST(Directory, the_smallest_size_that_a_refusal_names_works_and_nothing_smaller) {
  const test::ExampleHouse example = test::example_house();
  for (const bool large : {false, true}) {
    DirectoryOptions options = options_for(example.main, 60, 90);
    options.large = large;
    RecordingCanvas canvas;
    try {
      draw_directory(example.house, example.feeds, options, canvas);
      FAIL();
    } catch (const Error& error) {
      std::tie(options.pocket_width_mm, options.pocket_height_mm) = size_in(error.what());
    }
    draw_directory(example.house, example.feeds, options, canvas);
    check_nothing_overlaps(canvas);
    options.pocket_height_mm -= 1.01;
    EXPECT_THROW(draw_directory(example.house, example.feeds, options, canvas), Error);
  }
}

}  // namespace
}  // namespace ohmstead
