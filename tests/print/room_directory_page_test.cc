#include "print/room_directory_page.h"

#include <gmock/gmock.h>

#include "house/error.h"
#include "print/fit_text.h"
#include "print/paper.h"
#include "print/recording_canvas.h"
#include "tests/print/decode.h"
#include "tests/print/example_house.h"
#include "tests/print/geometry.h"
#include "tests/support/random_house.h"

namespace ohmstead {
namespace {

using test::ink, test::kSlack, test::overlap;
using testing::HasSubstr;

RoomDirectoryOptions options_for(std::optional<Sheet> sheet = Sheet::letter, bool large = false) {
  RoomDirectoryOptions options;
  options.sheet = sheet, options.date = "2026-11-25", options.revision = 12, options.large = large;
  return options;
}

void check_layout(const RecordingCanvas& canvas, const std::vector<std::string>& warnings) {
  bool cut = false;
  for (std::size_t i = 0; i < canvas.texts.size(); ++i) {
    const DrawnText& text = canvas.texts[i];
    const Area page = canvas.pages[static_cast<std::size_t>(text.page)], box = ink(text);
    EXPECT_TRUE(box.x >= 4.9 && box.y >= 4.5 && box.right() <= page.width - 4.9 && box.bottom() <= page.height - 4.5) << text.words;
    EXPECT_GE(text.style.points, kLeastPoints);
    EXPECT_LE(text.extent.height_mm, text.area.height + 0.65) << text.words;
    cut = cut || text.extent.cut;
    for (std::size_t k = i + 1; k < canvas.texts.size(); ++k)
      if (canvas.texts[k].page == text.page) { EXPECT_FALSE(overlap(box, ink(canvas.texts[k]), kSlack)) << text.words << " / " << canvas.texts[k].words; }
    for (const DrawnCode& code : canvas.codes)
      if (code.page == text.page) { EXPECT_FALSE(overlap(box, code.area, 0.01)) << text.words; }
  }
  EXPECT_EQ(cut, std::ranges::any_of(warnings, [](const std::string& warning) { return warning.find("is cut") != std::string::npos; }));
}

TEST(RoomDirectoryPage, in_random_houses_nothing_overlaps_on_paper_and_in_a_pocket) {
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    const RoomDirectory directory = room_directory(make_record(random_house(seed, 1 + static_cast<int>(seed % 7))));
    if (directory.parts.empty()) continue;
    RoomDirectoryOptions options = options_for(seed % 2 == 0 ? std::optional(Sheet::a4) : std::nullopt, seed % 3 == 0);
    if (seed % 5 == 0) options.pocket_width_mm = 120, options.pocket_height_mm = 150;
    RecordingCanvas canvas;
    const PrintedRoomDirectory printed = draw_room_directory(directory, options, canvas);
    check_layout(canvas, printed.warnings);
    EXPECT_EQ(canvas.codes.size(), printed.code_texts.size());
  }
}

TEST(RoomDirectoryPage, holds_every_row_in_reading_order_and_large_print_is_large) {
  const RoomDirectory directory = room_directory(make_record(test::example_house().house));
  const std::string plain = test::text_of_pdf(print_room_directory(directory, options_for()).pdf);
  std::size_t at = 0;
  for (const RoomDirectoryPart& part : directory.parts) {
    at = plain.find(part.room, at);
    ASSERT_NE(at, std::string::npos) << part.room;
    for (const RoomDirectoryRow& row : part.rows) {
      const auto found = plain.find(row.breaker, at);
      ASSERT_NE(found, std::string::npos) << row.what;
      at = found;
    }
  }
  RecordingCanvas canvas;
  draw_room_directory(directory, options_for(std::nullopt, true), canvas);
  for (const RoomDirectoryPart& part : directory.parts)
    for (const RoomDirectoryRow& row : part.rows) {
      const auto text = std::ranges::find(canvas.texts, paper_text(row.what), &DrawnText::words);
      ASSERT_NE(text, canvas.texts.end()) << row.what;
      EXPECT_GE(text->style.points, 16);
    }
}

TEST(RoomDirectoryPage, every_page_names_its_columns_and_the_room_whose_rows_go_on) {
  RoomDirectory directory{{{"Cellar", "Lower", {}}}, {}, true, true};
  for (int i = 1; i <= 70; ++i) directory.parts[0].rows.push_back({"Light " + std::to_string(i), std::to_string(i), "Panel Main", "none"});
  RecordingCanvas canvas;
  const PrintedRoomDirectory printed = draw_room_directory(directory, options_for(std::nullopt), canvas);
  check_layout(canvas, printed.warnings);
  ASSERT_GE(canvas.pages.size(), 3u);
  const auto on_page = [&](int page, const std::string& words) { return std::ranges::count_if(canvas.texts, [&](const DrawnText& text) { return text.page == page && text.words == words; }); };
  for (int page = 0; page < static_cast<int>(canvas.pages.size()); ++page) {
    EXPECT_EQ(on_page(page, "Backup"), 1) << page;
    EXPECT_EQ(on_page(page, page == 0 ? "Cellar  \u00B7  Lower" : "Cellar, continued"), 1) << page;
  }
}

TEST(RoomDirectoryPage, the_same_input_and_date_give_the_same_bytes_and_bad_options_are_refused) {
  const RoomDirectory directory = room_directory(make_record(test::example_house().house));
  EXPECT_EQ(print_room_directory(directory, options_for()).pdf, print_room_directory(directory, options_for()).pdf);
  RoomDirectoryOptions options = options_for(std::nullopt);
  options.pocket_width_mm = 80;
  try {
    (void)print_room_directory(directory, options);
    ADD_FAILURE() << "too small a pocket was taken";
  } catch (const Error& error) {
    EXPECT_THAT(error.what(), HasSubstr("from 120 x 150"));
  }
  options = options_for();
  options.date = "today";
  EXPECT_THROW((void)print_room_directory(directory, options), Error);
  EXPECT_THROW((void)print_room_directory({}, options_for()), Error);
}

TEST(RoomDirectoryPage, every_code_is_read_back_from_the_page) {
  const RoomDirectory directory = room_directory(make_record(test::example_house().house));
  const PrintedRoomDirectory printed = print_room_directory(directory, options_for());
  RecordingCanvas canvas;
  draw_room_directory(directory, options_for(), canvas);
  ASSERT_FALSE(canvas.codes.empty());
  for (std::size_t i = 0; i < canvas.codes.size(); ++i) {
    const test::Picture page = test::rendered(printed.pdf, canvas.codes[i].page, 300);
    EXPECT_EQ(test::zxing_read(test::cropped(page, canvas.codes[i].area, 300, 0)), printed.code_texts[i]);
  }
}

}  // namespace
}  // namespace ohmstead
