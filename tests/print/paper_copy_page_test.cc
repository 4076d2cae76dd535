// The paper copy as it is printed and as it comes back: drawn by poppler, turned, blurred, with noise and with blank codes.
#include "print/paper_copy_page.h"

#include <gmock/gmock.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <numeric>
#include <random>
#include <set>

#include "db/interchange.h"
#include "db/paper_copy.h"
#include "house/error.h"
#include "print/code.h"
#include "print/fit_text.h"
#include "print/recording_canvas.h"
#include "print/scan.h"
#include "tests/db/paper_copy_by_hand.h"
#include "tests/print/decode.h"
#include "tests/print/geometry.h"
#include "tests/print/paper_copies.h"
#include "tests/support/random_house.h"
#include "tests/support/sample_house.h"

namespace ohmstead {
namespace {

using test::Picture;
using testing::HasSubstr;

PaperCopySheet sheet_of(const House& house, CodeSize size = CodeSize::usual, Sheet paper = Sheet::letter) { return test::paper_copy_sheet(house, size, paper); }

House named_sample() {
  House house = sample_house();
  house.dwelling.name = "Hillside";
  return house;
}

enum class Ids { of_one_run, all_random };

/// As many looks as tracing this house takes, written down by one run of the program, or each row by another.
House traced_sample(Ids ids = Ids::of_one_run) {
  House house = named_sample();
  std::mt19937 random(5);
  std::uint64_t last = 1ULL << 41;
  const auto next_id = [&] { return ids == Ids::of_one_run ? ++last : static_cast<std::uint64_t>(random()) << 20 | random(); };
  for (int r = 0; r < 66; ++r) {
    Round round;
    round.id = {next_id()}, round.at = "2026-11-25T09:" + std::to_string(10 + r % 50) + ":00Z", round.finished = true;
    house.rounds.push_back(round);
    house.opened.push_back({{next_id()}, round.id, {HandleKind::breaker, house.breakers[random() % house.breakers.size()].id.value}});
    for (int look = 0; look < 9; ++look) {
      Observation seen;
      seen.id = {next_id()}, seen.round = round.id, seen.point = house.points[random() % house.points.size()].id;
      seen.seen = random() % 3 == 0 ? Seen::dead : Seen::live, seen.method = Method::tester, seen.at = "2026-11-25T10:" + std::to_string(10 + r % 50) + ":" + std::to_string(10 + look) + "Z";
      house.observations.push_back(seen);
    }
  }
  return house;
}

struct Drawn {
  RecordingCanvas canvas;
  PrintedPaperCopy printed;
};

void draw(const PaperCopySheet& sheet, Drawn& drawn) { drawn.printed = draw_paper_copy(sheet, drawn.canvas); }

TEST(PaperCopyPage, the_sample_house_is_on_one_letter_page_and_one_that_says_how) {
  const PaperCopySheet sheet = sheet_of(named_sample());
  const PrintedPaperCopy printed = print_paper_copy(sheet);
  EXPECT_EQ(printed.code_pages, 1);
  EXPECT_EQ(printed.pages, 2);
  EXPECT_TRUE(printed.warnings.empty()) << printed.warnings[0];
  EXPECT_EQ(print_paper_copy(sheet).pdf, printed.pdf) << "the same bytes each time";
}

TEST(PaperCopyPage, its_evidence_is_on_the_same_page) { EXPECT_EQ(print_paper_copy(sheet_of(traced_sample())).code_pages, 1); }

TEST(PaperCopyPage, rows_of_which_each_has_a_random_id_take_a_second_page_or_finer_codes) {
  const House house = traced_sample(Ids::all_random);
  EXPECT_EQ(print_paper_copy(sheet_of(house)).code_pages, 2);
  const PrintedPaperCopy fine = print_paper_copy(sheet_of(house, CodeSize::fine));
  EXPECT_EQ(fine.code_pages, 1);
  EXPECT_LT(fine.pdf.size(), 200'000u);
}

TEST(PaperCopyPage, says_what_it_is_on_each_page_and_nothing_lies_over_anything) {
  for (const Sheet paper : {Sheet::letter, Sheet::a4})
    for (const CodeSize size : {CodeSize::usual, CodeSize::fine}) {
      const PaperCopySheet sheet = sheet_of(traced_sample(), size, paper);
      Drawn drawn;
      draw(sheet, drawn);
      ASSERT_EQ(drawn.canvas.codes.size(), sheet.pieces.size());
      const double least = size == CodeSize::usual ? 0.42 : 0.338;
      std::vector<std::string> on_page(drawn.canvas.pages.size());
      for (const DrawnText& text : drawn.canvas.texts) {
        on_page[static_cast<std::size_t>(text.page)] += text.words + "\n";
        EXPECT_GE(text.style.points, kLeastPoints);
        EXPECT_FALSE(text.extent.cut) << text.words;
        EXPECT_LE(text.extent.height_mm, text.area.height + 0.65) << text.words;
        for (const DrawnCode& code : drawn.canvas.codes)
          if (code.page == text.page) { EXPECT_FALSE(test::overlap(test::ink(text), code.area, 0.01)) << text.words; }
      }
      for (std::size_t page = 0; page < on_page.size(); ++page) {
        for (const std::string& words : std::vector<std::string>{"Paper copy: Hillside", "2026-11-27  rev 714", sheet.facts.sha256, "page " + std::to_string(page + 1) + " of " + std::to_string(on_page.size())})
          EXPECT_THAT(on_page[page], HasSubstr(words));
        if (page + 1 < on_page.size()) { EXPECT_THAT(on_page[page], HasSubstr("any " + std::to_string(sheet.facts.k) + " of these " + std::to_string(sheet.facts.k + sheet.facts.m))); }
        else { EXPECT_THAT(on_page[page], HasSubstr("Gaussian elimination")); }
      }
      for (std::size_t i = 0; i < drawn.canvas.codes.size(); ++i) {
        const DrawnCode& code = drawn.canvas.codes[i];
        const double module = code.area.width / (code.code.modules + 2 * kQuietModules), quiet = kQuietModules * module;
        EXPECT_GE(module, least);
        const Area pattern{code.area.x + quiet, code.area.y + quiet, code.area.width - 2 * quiet, code.area.height - 2 * quiet}, &paper_area = drawn.canvas.pages[0];
        EXPECT_TRUE(pattern.x >= 13.9 && pattern.right() <= paper_area.width - 13.9 && pattern.y >= 13.9 && pattern.bottom() <= paper_area.height - 13.9);
        for (std::size_t k = i + 1; k < drawn.canvas.codes.size(); ++k)
          if (drawn.canvas.codes[k].page == code.page) { EXPECT_FALSE(test::overlap(code.area, {drawn.canvas.codes[k].area.x + quiet, drawn.canvas.codes[k].area.y + quiet, pattern.width, pattern.height}, 0.01)); }
      }
    }
}

TEST(PaperCopyPage, neighbours_on_the_paper_are_not_neighbours_of_the_set) {
  const PaperCopySheet sheet = sheet_of(named_sample());
  Drawn drawn;
  draw(sheet, drawn);
  std::set<std::size_t> seen;
  int near = 0;
  std::size_t before = 0;
  for (const DrawnCode& code : drawn.canvas.codes) {
    std::size_t piece = 0;
    while (make_code_of_capitals(sheet.pieces[piece], sheet.version).dark != code.code.dark) ++piece;
    near += seen.empty() || (piece != before + 1 && before != piece + 1) ? 0 : 1;
    seen.insert(before = piece);
  }
  EXPECT_EQ(seen.size(), sheet.pieces.size()) << "each piece once";
  EXPECT_EQ(near, 0);
}

TEST(PaperCopyPage, what_cannot_be_printed_is_refused) {
  PaperCopySheet sheet = sheet_of(random_house(1, 1));
  sheet.facts.date = "today";
  EXPECT_THROW((void)print_paper_copy(sheet), Error);
  sheet.facts.date = "2026-11-27";
  sheet.pieces[0] += std::string(1000, 'A');
  EXPECT_THROW((void)print_paper_copy(sheet), Error);
  EXPECT_THROW((void)best_code_grid(Sheet::letter, CodeSize::usual, [](int) -> int { throw Error(ErrorKind::invalid_input, "Too large."); }), Error);
}

std::string pgm_of(const Picture& picture) {
  return "P5\n" + std::to_string(picture.width) + " " + std::to_string(picture.height) + "\n255\n" + std::string(picture.grey.begin(), picture.grey.end());
}

/// White where the code is.
void blank(Picture& page, const Area& area, double dpi) {
  const auto dots = [&](double mm) { return static_cast<int>(std::lround(mm * dpi / 25.4)); };
  for (int y = std::max(0, dots(area.y)); y < std::min(page.height, dots(area.bottom())); ++y)
    for (int x = std::max(0, dots(area.x)); x < std::min(page.width, dots(area.right())); ++x) page.grey[static_cast<std::size_t>(y) * static_cast<std::size_t>(page.width) + static_cast<std::size_t>(x)] = 255;
}

/// Scans of all pages of codes at 300 dpi, skewed by 1.5 degrees, blurred, with noise, m codes blank.
std::vector<std::string> bad_scans(const PaperCopySheet& sheet, const std::vector<Picture>& pages, const std::vector<DrawnCode>& codes, unsigned seed) {
  std::mt19937 random(seed);
  std::vector<std::size_t> order(codes.size());
  std::iota(order.begin(), order.end(), 0);
  std::ranges::shuffle(order, random);
  order.resize(static_cast<std::size_t>(sheet.facts.m));
  std::vector<std::string> scans;
  for (std::size_t page = 0; page < pages.size(); ++page) {
    Picture picture = pages[page];
    for (const std::size_t i : order)
      if (codes[i].page == static_cast<int>(page)) blank(picture, codes[i].area, 300);
    picture = test::blurred(test::rotated(picture, random() % 2 == 0 ? 1.5 : -1.5), 1.0);
    scans.push_back(pgm_of(test::noisy(picture, 12, static_cast<unsigned>(random()))));
  }
  return scans;
}

/// Reads scans until there is enough; the document that comes back, or "".
std::string restored(const std::vector<std::string>& scans, std::string& why) {
  PaperReading reading;
  for (const std::string& scan : scans)
    read_codes_of_picture(scan, "scan", [&](const std::string& text) { return reading.add(text), !reading.enough(); });
  try {
    return reading.bring_back().document;
  } catch (const Error& error) {
    why = error.what();
    return "";
  }
}

void expect_restored_from_bad_scans(const House& house, CodeSize size, unsigned first_seed, unsigned seeds) {
  const PaperCopySheet sheet = sheet_of(house, size);
  const std::string document = house_to_json(house);
  Drawn drawn;
  draw(sheet, drawn);
  const std::string pdf = print_paper_copy(sheet).pdf;
  std::vector<Picture> pages;
  for (int page = 0; page < drawn.printed.code_pages; ++page) pages.push_back(test::rendered(pdf, page, 300));
  double longest = 0;
  for (unsigned seed = first_seed; seed < first_seed + seeds; ++seed) {
    std::string why;
    const std::vector<std::string> scans = bad_scans(sheet, pages, drawn.canvas.codes, seed);
    const auto start = std::chrono::steady_clock::now();
    EXPECT_TRUE(restored(scans, why) == document) << "seed " << seed << ": " << why;
    longest = std::max(longest, std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count());
  }
  std::printf("%u scans, %d of %d codes blank; reading one took at most %.1f s\n", seeds, sheet.facts.m, sheet.facts.k + sheet.facts.m, longest);
}

unsigned scans_to_try() {
  const char* asked = std::getenv("OHMSTEAD_SCANS");
  return asked == nullptr ? 2 : static_cast<unsigned>(std::atoi(asked));
}

TEST(PaperCopyScan, a_bad_scan_with_m_codes_blank_brings_the_sample_house_back) { expect_restored_from_bad_scans(named_sample(), CodeSize::usual, 1, scans_to_try()); }
TEST(PaperCopyScan, as_does_one_of_the_traced_house) { expect_restored_from_bad_scans(traced_sample(), CodeSize::usual, 1001, scans_to_try()); }
TEST(PaperCopyScan, as_do_two_pages) { expect_restored_from_bad_scans(traced_sample(Ids::all_random), CodeSize::usual, 3001, scans_to_try() / 2); }
TEST(PaperCopyScan, and_fine_codes) { expect_restored_from_bad_scans(traced_sample(Ids::all_random), CodeSize::fine, 2001, scans_to_try()); }

TEST(PaperCopyScan, every_code_is_read_by_a_second_reader_and_by_hand) {
  const House house = random_house(7, 3);
  const PaperCopySheet sheet = sheet_of(house);
  Drawn drawn;
  draw(sheet, drawn);
  const Picture page = test::rendered(print_paper_copy(sheet).pdf, 0, 300);
  std::vector<std::string> texts;
  for (const DrawnCode& code : drawn.canvas.codes) texts.push_back(test::zxing_read(test::cropped(page, code.area, 300, 0)));
  EXPECT_EQ(std::set(texts.begin(), texts.end()), std::set(sheet.pieces.begin(), sheet.pieces.end()));
  EXPECT_EQ(test::document_by_hand(texts), house_to_json(house));
}

TEST(PaperCopyScan, png_and_jpeg_are_read_like_pgm) {
  const House house = random_house(7, 2);
  const test::TemporaryFolder folder;
  const std::string file = folder.write("copy.pdf", print_paper_copy(sheet_of(house)).pdf);
  for (const std::string kind : {"png", "jpeg"}) {
    (void)test::output_of("pdftoppm -" + kind + " -singlefile -r 300 -f 1 " + file + " " + folder.path("page") + " 2>&1");
    const std::string picture = test::output_of("cat " + folder.path("page") + "." + (kind == "png" ? "png" : "jpg"));
    std::string why;
    EXPECT_EQ(restored({picture}, why), house_to_json(house)) << kind << ": " << why;
    EXPECT_TRUE(is_picture(picture));
    EXPECT_THROW(read_codes_of_picture(picture.substr(0, 30), "scan", [](const std::string&) { return true; }), Error);
  }
}

TEST(PaperCopyScan, pictures_that_cannot_be_are_refused_in_a_sentence) {
  const std::pair<std::string, const char*> cases[] = {
      {"P5\n100 100\n255\nshort", "scan is a damaged picture."},
      {"P5\n100 100\n65535\nx", "with other than 8 bits"},
      {"P5\n99999 99999\n255\nx", "more than 120 megapixels"},
      {"P5\n-5 5\n255\nx", "scan is a damaged picture."},
      {"P5 x", "scan is a damaged picture."},
      {"\x89PNG\r\n\x1a\n", "scan is a damaged picture."},
      {std::string("\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\1\0\0\0\1\0\0\x08\0\0\0\0", 29), "more than 120 megapixels"},
      {"\xFF\xD8\xFF nothing", "scan is a damaged picture."},
  };
  for (const auto& [bytes, words] : cases) {
    std::string message;
    try {
      read_codes_of_picture(bytes, "scan", [](const std::string&) { return true; });
    } catch (const Error& error) {
      message = error.what();
    }
    EXPECT_THAT(message, HasSubstr(words));
  }
  EXPECT_FALSE(is_picture("OHP1/00000000/1/1.1.3/AAAA"));
  EXPECT_FALSE(is_picture("P55"));
}

}  // namespace
}  // namespace ohmstead
