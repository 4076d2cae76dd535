// Labels as they are drawn: nothing clipped, over another or off its label, in any house and on any stock; codes are
// read back by programs that are not ours from what poppler drew.
#include "print/labels.h"

#include <cairo.h>
#include <gmock/gmock.h>

#include <chrono>
#include <set>

#include "house/error.h"
#include "print/code_sheet.h"
#include "print/fit_text.h"
#include "print/label_layout.h"
#include "print/recording_canvas.h"
#include "rules/panel_text.h"
#include "tests/print/decode.h"
#include "tests/print/example_house.h"
#include "tests/print/geometry.h"
#include "tests/print/house_maker.h"
#include "tests/support/random_house.h"
#include "tests/support/traced_sample.h"

namespace ohmstead {
namespace {

using test::ink, test::kSlack, test::overlap;
using testing::Contains;
using testing::HasSubstr;

constexpr const char* kAsOf = "2026-11-25 rev 12";

LabelOptions options_on(const LabelStock& stock) {
  LabelOptions options;
  options.stock = stock, options.date = "2026-11-25", options.revision = 12;
  return options;
}

LabelStock plain(double width, double height) {
  StockMeasures measures;
  measures.label_width_mm = width, measures.label_height_mm = height;
  return sheet_stock(measures);
}

std::vector<std::size_t> all_points(const House& house) {
  std::vector<std::size_t> points(house.points.size());
  for (std::size_t p = 0; p < points.size(); ++p) points[p] = p;
  return points;
}

const Record& example_record() {
  static const Record kRecord = make_record(test::example_house().house);
  return kRecord;
}

RecordingCanvas& draw(const LabelPages& pages, RecordingCanvas& canvas) {
  for (const LabelPage& page : pages.pages) draw_label_page(page, canvas);
  return canvas;
}

/// Nothing cut, over another, or beyond the page; no words under the sizes that are promised.
void check_pages(const LabelPages& pages) {
  RecordingCanvas canvas;
  draw(pages, canvas);
  for (std::size_t i = 0; i < canvas.texts.size(); ++i) {
    const DrawnText& text = canvas.texts[i];
    const Area page = canvas.pages[static_cast<std::size_t>(text.page)], box = ink(text);
    EXPECT_FALSE(text.extent.cut) << text.words;
    EXPECT_LE(text.extent.width_mm, text.area.width + 0.05) << text.words;
    EXPECT_LE(text.extent.height_mm, text.area.height + 0.05) << text.words;
    EXPECT_TRUE(box.x >= 0 && box.y >= -0.01 && box.right() <= page.width && box.bottom() <= page.height + 0.01) << text.words;
    const bool small = text.words.starts_with("2026-") || text.words.starts_with("rev ") || text.words == "WWWWWW";
    EXPECT_GE(text.style.points, small ? 6 : kLeastPoints) << text.words;
    for (std::size_t k = i + 1; k < canvas.texts.size(); ++k)
      if (canvas.texts[k].page == text.page) { EXPECT_FALSE(overlap(box, ink(canvas.texts[k]), kSlack)) << text.words << " / " << canvas.texts[k].words; }
    for (const DrawnCode& code : canvas.codes)
      if (code.page == text.page) { EXPECT_FALSE(overlap(box, code.area, 0.05)) << text.words; }
    for (const DrawnFrame& frame : canvas.frames)  // a frame is the edge of a label: a text is within it or beside it
      if (frame.page == text.page && overlap(box, frame.area, kSlack)) { EXPECT_TRUE(box.x > frame.area.x && box.right() < frame.area.right() && box.y > frame.area.y - 0.01 && box.bottom() < frame.area.bottom() + 0.01) << text.words; }
  }
  for (const DrawnCode& code : canvas.codes) {
    EXPECT_GE(code.area.width / (code.code.modules + 2 * kQuietModules), 0.40 - 1e-9);
    EXPECT_NEAR(code.area.width, code.area.height, 1e-9);
  }
}

/// Every text and code lies within one of the stock's labels.
void check_on_labels(const LabelPages& pages, const LabelStock& stock, int labels) {
  RecordingCanvas canvas;
  draw(pages, canvas);
  std::vector<LabelPlace> places;
  for (int n = 0; n < labels; ++n) places.push_back(place_of_label(stock, n));
  const auto inside = [&](int page, const Area& box) {
    return std::ranges::any_of(places, [&](const LabelPlace& place) {
      const Area& a = place.area;
      return place.page == page && box.x >= a.x - 0.1 && box.y >= a.y - 0.1 && box.right() <= a.right() + 0.1 && box.bottom() <= a.bottom() + 0.1;
    });
  };
  for (const DrawnText& text : canvas.texts) EXPECT_TRUE(inside(text.page, ink(text))) << text.words;
  for (const DrawnCode& code : canvas.codes) EXPECT_TRUE(inside(code.page, code.area));
}

/// Sizes from the smallest that is common to a large one.
const std::vector<LabelStock>& stocks() {
  static const std::vector<LabelStock> kStocks{plain(65, 32), plain(66, 25.4), plain(48, 20), plain(100, 50)};
  return kStocks;
}

/// On labels of the stock, or of the size that a refusal names, once.
LabelPages lay_out_somehow(const std::vector<LabelItem>& items, LabelStock& stock) {
  try {
    return lay_out_labels(items, options_on(stock));
  } catch (const Error& error) {
    const std::string said = error.what();
    const auto at = said.find("give at least ");
    EXPECT_NE(at, std::string::npos) << said;
    double width = 0, height = 0;
    EXPECT_EQ(std::sscanf(said.c_str() + at, "give at least %lf x %lf mm", &width, &height), 2) << said;
    stock = plain(width, height);
    return lay_out_labels(items, options_on(stock));
  }
}

void check_house(const House& house, std::uint64_t seed) {
  const Record record = make_record(house);
  const LabelRecord from{record, kAsOf};
  LabelStock stock = stocks()[seed % stocks().size()];
  const auto plates = plate_labels(from, all_points(record.house));
  if (!plates.empty()) {
    const LabelPages pages = lay_out_somehow(plates, stock);
    check_pages(pages);
    check_on_labels(pages, stock, static_cast<int>(plates.size()));
    check_pages(lay_out_labels(plates, options_on(tape_stock(seed % 2 == 0 ? 12 : 24, 0, 180))));
  }
  stock = plain(13, 13);
  if (const auto dots = breaker_dots(from, std::nullopt); !dots.empty()) check_on_labels(lay_out_somehow(dots, stock), stock, static_cast<int>(dots.size()));
  LabelOptions options = options_on(plain(65, 32));
  options.strip_codes = seed % 2 == 0;
  if (const auto strips = breaker_strips(from, std::nullopt); !strips.empty()) check_pages(lay_out_strips(strips, options));
  if (const auto strips = transfer_strips(from); !strips.empty()) check_pages(lay_out_strips(strips, options));
}

TEST(Labels, in_random_houses_nothing_is_clipped_over_another_or_off_its_label) {
  for (std::uint64_t seed = 1; seed <= 12; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    check_house(random_house(seed, 1 + static_cast<int>(seed % 5)), seed);
  }
}

TEST(LabelsMany, in_200_random_houses_nothing_is_clipped_over_another_or_off_its_label) {
  for (std::uint64_t seed = 1001; seed <= 1200; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    check_house(random_house(seed, 1 + static_cast<int>(seed % 5)), seed);
  }
}

House with_hostile_names() {
  House house = test::example_house().house;
  const std::vector<std::string> names{"Bob's \xE2\x80\xAEroom\nand\tmore", std::string(200, 'W'), "\xD0\x9A\xD1\x83\xD1\x85\xD0\xBD\xD1\x8F", "\xD7\xA9\xD7\x9C\xD7\x95\xD7\x9D",
                                       "\xE5\x8E\xA8\xE6\x88\xBF", "<b>&amp;</b>", "?;:", "bad \xFF bytes"};
  for (std::size_t i = 0; i < house.rooms.size(); ++i) house.rooms[i].name = names[i % names.size()] + (i < names.size() ? "" : " " + std::to_string(i));
  for (std::size_t i = 0; i < house.points.size(); i += 3) house.points[i].name = names[(i / 3) % names.size()] + " " + std::to_string(i);
  return house;
}

TEST(Labels, hostile_names_are_shortened_by_words_and_nothing_is_cut) { check_house(with_hostile_names(), 0); }

TEST(Labels, what_the_pdf_says_is_what_the_record_says) {
  const LabelRecord from{example_record(), kAsOf};
  const auto items = plate_labels(from, all_points(example_record().house));
  LabelOptions options = options_on(plain(100, 50));
  const LabelPages pages = lay_out_labels(items, options);
  RecordingCanvas canvas;
  draw(pages, canvas);
  std::string drawn, read = test::text_of_pdf(labels_pdf(pages, "test", options.date));
  for (const DrawnText& text : canvas.texts) drawn += text.words;
  const auto bare = [](std::string text) {
    std::erase_if(text, [](char c) { return c == ' ' || c == '\n' || c == '\f'; });
    for (std::size_t at = 0; (at = text.find("\u00A0", at)) != std::string::npos;) text.erase(at, 2);
    return text;
  };
  EXPECT_EQ(bare(read), bare(drawn));
  for (const LabelItem& item : items)
    for (const LabelLine& line : item.lines)
      if (line.required) { EXPECT_TRUE(std::ranges::any_of(line.ways, [&](const std::string& way) { return bare(drawn).find(bare(way)) != std::string::npos; })) << line.ways[0]; }
  const auto count = [&](const std::string& what) {
    std::size_t found = 0;
    for (const DrawnText& text : canvas.texts) found += text.words == what;
    return found;
  };
  EXPECT_EQ(count("2026-11-25  rev 12"), items.size()) << "every label bears date and revision";
}

/// Codes of some plates, with characters that are not ASCII among them, from a PDF drawn by poppler at `dpi`.
void expect_codes_read(const LabelPages& pages, const std::string& pdf, int dpi) {
  RecordingCanvas canvas;
  draw(pages, canvas);
  ASSERT_EQ(canvas.codes.size(), pages.code_texts.size());
  ASSERT_GT(canvas.codes.size(), 0u);
  for (std::size_t page = 0; page < pages.pages.size(); ++page) {
    const test::Picture picture = test::rendered(pdf, static_cast<int>(page), dpi);
    for (std::size_t i = 0; i < canvas.codes.size(); ++i) {
      if (canvas.codes[i].page != static_cast<int>(page)) continue;
      const test::Picture code = test::cropped(picture, canvas.codes[i].area, dpi, 0);
      EXPECT_THAT(test::zbar_read(code), Contains(pages.code_texts[i])) << dpi << " dpi, code " << i;
      EXPECT_EQ(test::zxing_read(code), pages.code_texts[i]) << dpi << " dpi, code " << i;
    }
  }
}

TEST(Labels, every_code_is_read_back_byte_for_byte_at_203_300_and_600_dpi) {
  House house = test::example_house().house;
  for (Room& room : house.rooms)
    if (room.name == "Kitchen") room.name = "K\u00FCche";
  const Record record = make_record(house);
  std::vector<std::size_t> points;
  for (std::size_t p = 0; p < record.house.points.size(); p += 3) points.push_back(p);
  for (const LabelStock& stock : {plain(65, 32), plain(66, 25.4)}) {
    const LabelPages pages = lay_out_labels(plate_labels({record, kAsOf}, points), options_on(stock));
    EXPECT_EQ(pages.code_texts.size(), points.size()) << "all of them have one";
    const std::string pdf = labels_pdf(pages, "test", "2026-11-25");
    for (const int dpi : {203, 300, 600}) expect_codes_read(pages, pdf, dpi);
  }
}

TEST(Labels, the_same_input_and_date_give_the_same_bytes_in_every_format) {
  const LabelRecord from{example_record(), kAsOf};
  const auto made = [&](const std::string& date) {
    LabelOptions options = options_on(plain(65, 32));
    options.date = date;
    const LabelPages pages = lay_out_labels(plate_labels(from, {0, 1, 2, 3}), options);
    return std::vector<std::string>{labels_pdf(pages, "test", options.date), label_page_svg(pages.pages[0]), label_page_png(pages.pages[0], 203)};
  };
  EXPECT_TRUE(made("2026-11-25") == made("2026-11-25"));
  EXPECT_TRUE(made("2026-11-26")[0] != made("2026-11-25")[0]);
}

TEST(Labels, without_room_for_a_code_there_is_none_and_that_is_said_with_the_size_that_has_it) {
  const LabelRecord from{example_record(), kAsOf};
  const auto items = plate_labels(from, all_points(example_record().house));
  const LabelPages pages = lay_out_labels(items, options_on(plain(50, 16)));
  EXPECT_TRUE(pages.code_texts.empty());
  const auto said = std::ranges::find_if(pages.warnings, [](const std::string& warning) { return warning.find("no room for a code") != std::string::npos; });
  ASSERT_NE(said, pages.warnings.end());
  double width = 0, height = 0;
  ASSERT_EQ(std::sscanf(said->c_str() + said->find("labels of "), "labels of %lf x %lf mm", &width, &height), 2) << *said;
  EXPECT_GT(lay_out_labels(items, options_on(plain(width, height))).code_texts.size(), items.size() / 2) << *said;
}

TEST(Labels, too_small_a_label_is_refused_with_a_size_that_works) {
  const LabelRecord from{example_record(), kAsOf};
  for (const auto& items : {plate_labels(from, all_points(example_record().house)), breaker_dots(from, std::nullopt), panel_labels(from, std::nullopt)}) {
    LabelStock stock = plain(6, 5);
    EXPECT_THROW((void)lay_out_labels(items, options_on(stock)), Error);
    const LabelPages pages = lay_out_somehow(items, stock);
    EXPECT_EQ(pages.labels, std::ranges::count(items, false, &LabelItem::heading));
    EXPECT_LE(stock.label_height_mm, 40);
  }
}

TEST(Labels, bad_options_are_refused_in_one_sentence) {
  const auto items = plate_labels({example_record(), kAsOf}, {0, 1});
  const auto refused = [&](auto change) {
    LabelOptions options = options_on(plain(65, 32));
    change(options);
    EXPECT_THROW((void)lay_out_labels(items, options), Error);
  };
  refused([](LabelOptions& o) { o.date = "2026-13-01"; });
  refused([](LabelOptions& o) { o.revision = -1; });
  refused([](LabelOptions& o) { o.stock.start = 25; });
  refused([](LabelOptions& o) { o.stock.dpi = 20; });
  refused([](LabelOptions& o) { o.stock.printer_margin_mm = 20; });
  refused([](LabelOptions& o) { o.stock.shift_x_mm = -24; });
  EXPECT_THROW((void)lay_out_labels({}, options_on(plain(65, 32))), Error);
}

TEST(Labels, a_start_in_a_used_sheet_leaves_the_labels_before_it_free) {
  LabelStock stock = plain(65, 32);
  stock.start = 23;
  const auto items = plate_labels({example_record(), kAsOf}, {0, 1, 2, 3});
  const LabelPages pages = lay_out_labels(items, options_on(stock));
  ASSERT_EQ(pages.pages.size(), 2u);
  check_on_labels(pages, stock, 4);
  for (const PlacedText& text : pages.pages[0].content.texts) EXPECT_GT(text.area.y, stock.top_mm + 7 * 32 - 0.01);
}

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

TEST(Labels, a_check_code_stands_beside_the_date_of_its_label) {
  LabelOptions options = options_on(plain(65, 32));
  std::vector<std::string> keys;
  options.check_code = [&](const std::string& key) {
    keys.push_back(key);
    return std::string("WWWWWW");  // the widest there is
  };
  const LabelPages pages = lay_out_labels(plate_labels({example_record(), kAsOf}, {0, 1, 2}), options);
  EXPECT_EQ(keys.size(), 3u);
  EXPECT_THAT(keys[0], HasSubstr("plate:"));
  EXPECT_EQ(std::ranges::count(pages.pages[0].content.texts, "WWWWWW", &PlacedText::words), 3);
  check_pages(pages);
}

/// A PNG as cairo reads it.
test::Picture read_png(const std::string& png) {
  std::size_t at = 0;
  std::pair<const std::string*, std::size_t*> from{&png, &at};
  const auto read = [](void* closure, unsigned char* data, unsigned int length) {
    auto& [bytes, place] = *static_cast<std::pair<const std::string*, std::size_t*>*>(closure);
    if (*place + length > bytes->size()) return CAIRO_STATUS_READ_ERROR;
    std::copy_n(bytes->data() + *place, length, data);
    *place += length;
    return CAIRO_STATUS_SUCCESS;
  };
  cairo_surface_t* surface = cairo_image_surface_create_from_png_stream(read, &from);
  test::Picture picture{cairo_image_surface_get_width(surface), cairo_image_surface_get_height(surface), {}};
  for (int y = 0; y < picture.height; ++y)
    for (int x = 0; x < picture.width; ++x) picture.grey.push_back(cairo_image_surface_get_data(surface)[y * cairo_image_surface_get_stride(surface) + 4 * x]);
  cairo_surface_destroy(surface);
  return picture;
}

TEST(Labels, a_picture_is_black_and_white_in_the_resolution_of_the_printer_and_its_codes_are_read) {
  for (const double dpi : {203.0, 300.0}) {
    LabelOptions options = options_on(plain(65, 32));
    options.stock.dpi = dpi;
    const LabelPages pages = lay_out_labels(plate_labels({example_record(), kAsOf}, {0, 1, 2}), options);
    const std::string png = label_page_png(pages.pages[0], dpi);
    const test::Picture picture = read_png(png);
    EXPECT_EQ(picture.width, std::lround(215.9 / 25.4 * dpi));
    EXPECT_EQ(std::ranges::count_if(picture.grey, [](std::uint8_t grey) { return grey != 0 && grey != 255; }), 0);
    EXPECT_GT(std::ranges::count(picture.grey, 0), 1000);
    const auto at = png.find("pHYs");
    ASSERT_NE(at, std::string::npos);
    const auto byte = [&](std::size_t i) { return static_cast<unsigned>(static_cast<unsigned char>(png[at + i])); };
    EXPECT_EQ(byte(6) << 8 | byte(7), static_cast<unsigned>(std::lround(dpi / 0.0254))) << "dots per metre";
    ASSERT_EQ(pages.code_texts.size(), 3u);
    for (std::size_t i = 0; i < 3; ++i) EXPECT_EQ(test::zxing_read(test::cropped(picture, pages.pages[0].content.codes[i].area, dpi, 0)), pages.code_texts[i]) << dpi;
  }
}

TEST(Labels, modules_are_whole_dots_of_the_printer_and_begin_at_a_dot) {
  for (const double dpi : {180.0, 203.0, 300.0, 600.0}) {
    LabelStock stock = plain(65, 32);
    stock.dpi = dpi;
    const LabelPages pages = lay_out_labels(plate_labels({example_record(), kAsOf}, {0, 1, 2}), options_on(stock));
    ASSERT_FALSE(pages.pages[0].content.codes.empty());
    for (const PaperCode& code : pages.pages[0].content.codes) {
      const double dot = 25.4 / dpi, module = code.area.width / (code.code.modules + 2 * kQuietModules);
      EXPECT_NEAR(module / dot, std::round(module / dot), 1e-6) << dpi;
      EXPECT_NEAR(code.area.x / dot, std::round(code.area.x / dot), 1e-6) << dpi;
    }
  }
}

TEST(Labels, on_tape_each_is_a_page_as_high_as_the_tape_or_all_are_one_strip_to_cut) {
  const auto items = plate_labels({example_record(), kAsOf}, {0, 1, 2, 3, 4});
  LabelStock stock = tape_stock(12, 0, 180);
  const LabelPages cut = lay_out_labels(items, options_on(stock));
  EXPECT_EQ(cut.pages.size(), 5u);
  for (const LabelPage& page : cut.pages) EXPECT_DOUBLE_EQ(page.height_mm, 12);
  stock.cut_between = false;
  const LabelPages whole = lay_out_labels(items, options_on(stock));
  ASSERT_EQ(whole.pages.size(), 1u);
  EXPECT_EQ(std::ranges::count(whole.pages[0].content.lines, true, &PaperLine::dashed), 4) << "one between each two";
  check_pages(whole);
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

TEST(LabelTestPage, outlines_are_where_the_labels_are_moved_by_the_shift) {
  LabelStock stock = plain(65, 32);
  stock.shift_x_mm = 1.5, stock.shift_y_mm = -0.5;
  const LabelPages pages = lay_out_test_page(stock);
  ASSERT_EQ(pages.pages.size(), 2u);
  check_pages(pages);
  const auto& frames = pages.pages[0].content.frames;
  ASSERT_EQ(frames.size(), 24u);
  for (int n = 0; n < 24; ++n) {
    const Area place = place_of_label(stock, n).area;
    EXPECT_NEAR(frames[static_cast<std::size_t>(n)].area.x, place.x + 1.5, 1e-9);
    EXPECT_NEAR(frames[static_cast<std::size_t>(n)].area.y, place.y - 0.5, 1e-9);
  }
  EXPECT_EQ(lay_out_test_page(tape_stock(12, 0, 180)).pages[0].height_mm, 12);
}

TEST(Labels, two_hundred_plates_are_a_small_pdf) {
  test::HouseMaker maker;
  const auto floor = maker.floor("Ground floor", 0);
  const auto panel = maker.panel("Main", maker.room("Garage", floor), 42);
  for (int space = 1; space <= 20; ++space) {
    const auto breaker = maker.breaker(panel, space);
    const auto room = maker.room("Room " + std::to_string(space), floor);
    maker.points(breaker, room, 10, "receptacle");
  }
  const Record record = make_record(maker.house);
  const LabelPages pages = lay_out_labels(plate_labels({record, kAsOf}, all_points(record.house)), options_on(plain(65, 32)));
  EXPECT_EQ(pages.labels, 200);
  LabelOptions bare = options_on(plain(65, 32));
  bare.codes = false;
  EXPECT_LT(labels_pdf(lay_out_labels(plate_labels({record, kAsOf}, all_points(record.house)), bare), "t", "2026-11-25").size(), 74'000u);
  RecordProperty("pdf_bytes_with_codes", static_cast<int>(labels_pdf(pages, "t", "2026-11-25").size()));
}

}  // namespace
}  // namespace ohmstead
