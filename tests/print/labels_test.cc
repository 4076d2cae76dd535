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
#include "tests/print/label_checks.h"
#include "tests/support/random_house.h"
#include "tests/support/traced_sample.h"

namespace ohmstead {
namespace {

using test::ink;
using test::all_points, test::check_pages, test::draw, test::example_record, test::expect_codes_read, test::kAsOf, test::options_on;
using testing::HasSubstr;

constexpr auto plain = test::plain_labels;

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
