// The bytes themselves, read back by programs that are not ours: poppler draws and reads the PDF,
// ZBar and ZXing read the codes from what poppler drew.
#include <gmock/gmock.h>

#include <regex>

#include "print/cairo_canvas.h"
#include "print/directory.h"
#include "print/recording_canvas.h"
#include "tests/print/decode.h"
#include "tests/print/example_house.h"

namespace ohmstead {
namespace {

using test::Picture;
using testing::Contains;
using testing::HasSubstr;

DirectoryOptions example_options(const test::ExampleHouse& example, double height = 254) {
  DirectoryOptions options;
  options.panel = example.main;
  options.pocket_height_mm = height;
  options.date = "2026-11-25";
  options.revision = 12;
  return options;
}

TEST(Pdf, the_same_house_and_date_give_the_same_bytes) {
  const test::ExampleHouse example = test::example_house();
  const auto first = print_directory(example.house, example.feeds, example_options(example));
  const auto second = print_directory(example.house, example.feeds, example_options(example));
  EXPECT_EQ(first.pdf, second.pdf);
  EXPECT_LT(first.pdf.size(), 60'000u);
  DirectoryOptions later = example_options(example);
  later.date = "2026-11-26";
  EXPECT_NE(print_directory(example.house, example.feeds, later).pdf, first.pdf);
}

TEST(Pdf, a_character_without_a_glyph_is_the_replacement_character_and_no_box) {
  PdfCanvas canvas("Sheet", "2026-11-25");
  canvas.begin_page(80, 40);
  canvas.text({5, 5, 70, 10}, {Face::normal, 12, Align::left, 1}, "Hall \U000F1234 light");
  EXPECT_THAT(test::text_of_pdf(canvas.finish()), HasSubstr("Hall \uFFFD light"));
}

TEST(Pdf, a_page_is_exactly_the_pocket_and_its_fonts_are_inside) {
  const test::ExampleHouse example = test::example_house();
  const auto printed = print_directory(example.house, example.feeds, example_options(example));
  const test::TemporaryFolder folder;
  const std::string file = folder.write("card.pdf", printed.pdf);
  const std::string info = test::output_of("TZ=UTC pdfinfo -isodates " + file);
  EXPECT_THAT(info, HasSubstr("Pages:           2"));
  EXPECT_THAT(info, HasSubstr("Page size:       430.866 x 720 pts")) << "152 x 254 mm";
  EXPECT_THAT(info, HasSubstr("2026-11-25T00:00:00"));
  const std::string fonts = test::output_of("pdffonts " + file + " | tail -n +3");
  const std::regex embedded("yes yes yes");
  EXPECT_GE(std::ranges::count(fonts, '\n'), 2);
  std::istringstream lines(fonts);
  for (std::string line; std::getline(lines, line);) EXPECT_TRUE(std::regex_search(line, embedded)) << line;
}

/// Places of texts in drawing order.
void expect_in_order(const std::string& text, const std::vector<std::string>& words) {
  std::size_t at = 0;
  for (const std::string& word : words) {
    const auto found = text.find(word, at);
    ASSERT_NE(found, std::string::npos) << word << " is missing or out of order in\n" << text;
    at = found + word.size();
  }
}

TEST(Pdf, text_comes_back_row_by_row_number_before_words) {
  const test::ExampleHouse example = test::example_house();
  const auto printed = print_directory(example.house, example.feeds, example_options(example));
  expect_in_order(test::text_of_pdf(printed.pdf),
                  {"Panel Main", "2026-11-25", "rev 12", "MAIN", "1\u00B73", "INLET from generator", "2\u00B74", "well", "5\u00B77", "Kitchen range", "6",
                   "NE bedroom", "9", "Kitchen counter", "10", "12", "Garage receptacles", "19a", "19b", "Porch lights", "21", "SPARE", "Subpanel", "32a",
                   "other pole of 32a", "empty space"});
}

/// The codes as they were drawn, for their places.
std::vector<DrawnCode> drawn_codes(const test::ExampleHouse& example, const DirectoryOptions& options) {
  RecordingCanvas canvas;
  draw_directory(example.house, example.feeds, options, canvas);
  return canvas.codes;
}

TEST(Pdf, every_code_is_read_back_byte_for_byte_at_203_300_and_600_dpi) {
  const test::ExampleHouse example = test::example_house();
  for (const double height : {254.0, 310.0}) {
    const DirectoryOptions options = example_options(example, height);
    const auto printed = print_directory(example.house, example.feeds, options);
    const auto codes = drawn_codes(example, options);
    ASSERT_EQ(codes.size(), printed.code_texts.size());
    for (const int dpi : {203, 300, 600}) {
      const Picture page = test::rendered(printed.pdf, codes[0].page, dpi);
      for (std::size_t i = 0; i < codes.size(); ++i) {
        const Picture code = test::cropped(page, codes[i].area, dpi, 0);
        EXPECT_THAT(test::zbar_read(code), Contains(printed.code_texts[i])) << dpi << " dpi, code " << i;
        EXPECT_EQ(test::zxing_read(code), printed.code_texts[i]) << dpi << " dpi, code " << i;
      }
    }
  }
}

TEST(Pdf, all_codes_are_found_on_the_whole_page) {
  const test::ExampleHouse example = test::example_house();
  const auto printed = print_directory(example.house, example.feeds, example_options(example, 310));
  const auto found = test::zbar_read(test::rendered(printed.pdf, 0, 300));
  for (const std::string& text : printed.code_texts) EXPECT_THAT(found, Contains(text));
}

TEST(Pdf, names_in_other_scripts_come_back_from_the_codes) {
  test::ExampleHouse example = test::example_house();
  for (Room& room : example.house.rooms)
    if (room.name == "Kitchen") room.name = "K\u00FCche \u041A\u0443\u0445\u043D\u044F";
  const DirectoryOptions options = example_options(example);
  const auto printed = print_directory(example.house, example.feeds, options);
  const auto codes = drawn_codes(example, options);
  const Picture page = test::rendered(printed.pdf, codes[0].page, 300);
  for (std::size_t i = 0; i < codes.size(); ++i)
    EXPECT_EQ(test::zxing_read(test::cropped(page, codes[i].area, 300, 0)), printed.code_texts[i]);
  EXPECT_THAT(printed.code_texts[0], HasSubstr("K\u00FCche \u041A\u0443\u0445\u043D\u044F"));
}

TEST(Pdf, codes_survive_mild_damage) {
  const test::ExampleHouse example = test::example_house();
  const DirectoryOptions options = example_options(example, 310);
  const auto printed = print_directory(example.house, example.feeds, options);
  const auto codes = drawn_codes(example, options);
  constexpr double kDpi = 300, kPixelsPerMm = kDpi / 25.4;
  const Picture page = test::rendered(printed.pdf, 0, 300);
  for (std::size_t i = 0; i < codes.size(); ++i) {
    const Picture code = test::cropped(page, codes[i].area, kDpi, 0);
    const auto expect_read = [&](const Picture& damaged, const std::string& what) {
      EXPECT_THAT(test::zbar_read(damaged), Contains(printed.code_texts[i])) << what << ", code " << i;
    };
    for (const double degrees : {5.0, 20.0, 45.0}) expect_read(test::rotated(code, degrees), "rotated " + std::to_string(degrees));
    expect_read(test::blurred(code, 0.10 * kPixelsPerMm), "blurred");
    expect_read(test::noisy(code, 25, 1), "noisy");
    expect_read(test::faded(code, 0.4), "40 % ink");
  }
}

TEST(Pdf, words_that_run_from_right_to_left_still_begin_at_the_left) {
  PdfCanvas canvas("test", "2026-11-25");
  canvas.begin_page(100, 20);
  canvas.text({0, 0, 100, 20}, {Face::normal, 12, Align::left, 1}, "\u05E9\u05DC\u05D5\u05DD");
  const test::TemporaryFolder folder;
  const std::string boxes = test::output_of("pdftotext -bbox " + folder.write("page.pdf", canvas.finish()) + " -");
  const auto at = boxes.find("xMin=\"");
  ASSERT_NE(at, std::string::npos) << boxes;
  EXPECT_LT(std::stod(boxes.substr(at + 6)), 10.0) << "points from the left edge, of 283";
}

TEST(Png, has_the_size_and_the_resolution_it_claims) {
  const test::ExampleHouse example = test::example_house();
  const std::string png = directory_picture(example.house, example.feeds, example_options(example), {.dpi = 100});
  const auto number = [&](std::size_t at) {
    std::uint32_t value = 0;
    for (std::size_t i = 0; i < 4; ++i) value = value << 8 | static_cast<unsigned char>(png[at + i]);
    return value;
  };
  EXPECT_EQ(number(16), 598u) << "152 mm at 100 dots per inch";
  EXPECT_EQ(number(20), 1000u);
  const auto resolution = png.find("pHYs");
  ASSERT_NE(resolution, std::string::npos);
  EXPECT_EQ(number(resolution + 4), 3937u) << "dots per metre";
  EXPECT_THROW((void)directory_picture(example.house, example.feeds, example_options(example), {.dpi = 5}), Error);
  EXPECT_THROW((void)directory_picture(example.house, example.feeds, example_options(example), {.dpi = 100}, 2), Error);
}

TEST(Svg, a_page_as_lines_has_its_size_and_needs_no_fonts) {
  const test::ExampleHouse example = test::example_house();
  const auto drawn = [&](int page) { return directory_picture(example.house, example.feeds, example_options(example), {.svg = true}, page); };
  const std::string svg = drawn(0);
  EXPECT_TRUE(svg.starts_with("<?xml"));
  const auto width = svg.find("width=\"");
  ASSERT_NE(width, std::string::npos);
  EXPECT_NEAR(std::stod(svg.substr(width + 7)), 152 / 25.4 * 72, 0.01) << "152 mm in points";
  EXPECT_EQ(svg.find("<text"), std::string::npos);
  EXPECT_NE(svg.find("<path"), std::string::npos);
  EXPECT_EQ(drawn(0), svg);
  EXPECT_THROW((void)drawn(2), Error);
}

}  // namespace
}  // namespace ohmstead
