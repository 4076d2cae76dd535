// The papers as they are drawn: nothing over anything else, nothing cut in silence, everything there, in any house.
#include "print/papers.h"

#include <gmock/gmock.h>

#include <cmath>
#include <set>

#include "ask/plan_sheet.h"
#include "ask/wall_sheet.h"
#include "ask/worksheet_words.h"
#include "backup/outage_script.h"
#include "house/error.h"
#include "print/fit_text.h"
#include "print/paper.h"
#include "print/plan_drawing.h"
#include "print/recording_canvas.h"
#include "tests/print/decode.h"
#include "tests/print/paper_checks.h"
#include "tests/print/paper_houses.h"

namespace ohmstead {
namespace {

using test::check_every_page, test::check_layout, test::draw, test::Drawn, test::plain, test::words_of;
using testing::HasSubstr;

PaperOptions options_for(PaperKind kind, Sheet sheet = Sheet::letter) {
  PaperOptions options;
  options.kind = kind, options.sheet = sheet, options.date = "2026-11-27", options.revision = 12;
  return options;
}

/// The same without heads and feet: what runs from page to page is in one piece.
std::string body_of(const RecordingCanvas& canvas) {
  RecordingCanvas body;
  for (const DrawnText& text : canvas.texts)
    if (text.area.y > 22 && text.area.y < canvas.pages[static_cast<std::size_t>(text.page)].height - 20) body.texts.push_back(text);
  return words_of(body);
}

class Papers : public testing::TestWithParam<std::size_t> {
 protected:
  [[nodiscard]] const Record& record() const { return test::planned_houses().at(GetParam()).record; }
};
INSTANTIATE_TEST_SUITE_P(Houses, Papers, testing::Range<std::size_t>(0, 9));

TEST_P(Papers, nothing_overlaps_and_nothing_is_cut_in_silence) {
  SCOPED_TRACE(test::planned_houses().at(GetParam()).name);
  for (const PaperKind kind : {PaperKind::plan, PaperKind::worksheet, PaperKind::wall})
    for (const Sheet sheet : {Sheet::letter, Sheet::a4}) {
      SCOPED_TRACE(std::to_string(static_cast<int>(kind)) + (sheet == Sheet::letter ? " letter" : " A4"));
      Drawn drawn;
      draw(record(), options_for(kind, sheet), drawn);
      check_layout(drawn);
      check_every_page(drawn);
    }
}

TEST_P(Papers, the_plan_says_every_doubt_row_number_and_what_has_no_place) {
  Drawn drawn;
  draw(record(), options_for(PaperKind::plan), drawn);
  const std::string words = body_of(drawn.canvas);
  const Names names(record().house);
  const PlanSheet sheet = plan_sheet(record(), names, kept_plan_for(record(), 0));
  ASSERT_FALSE(sheet.rows.empty());
  for (const Lines* lines : {&sheet.doubts, &sheet.sums, &sheet.flags, &sheet.not_served})
    for (const Line& line : *lines) {
      EXPECT_THAT(words, HasSubstr(plain(line.text)));
      for (const std::string& item : line.items) EXPECT_THAT(words, HasSubstr(plain(item)));
    }
  for (const PlanSheetRow& row : sheet.rows) {
    EXPECT_THAT(words, HasSubstr(plain(row.place)));
    EXPECT_THAT(words, HasSubstr(plain(row.breaker)));
    for (const PlanSheetLoad& load : row.loads) EXPECT_THAT(words, HasSubstr(plain(load.words) + " " + plain(load.running)));
  }
}

TEST_P(Papers, every_step_of_the_worksheet_is_there_with_its_box_on_one_page_and_its_caution_before_it) {
  Drawn drawn;
  draw(record(), options_for(PaperKind::worksheet), drawn);
  const Names names(record().house);
  const Worksheet sheet = worksheet(record().house);
  ASSERT_FALSE(sheet.steps.empty());
  for (std::size_t i = 0; i < sheet.steps.size(); ++i) {
    const std::string number = std::to_string(i + 1) + ".";
    const auto at = std::ranges::find_if(drawn.canvas.texts, [&](const DrawnText& text) { return text.words == number && text.area.x < 25; });
    ASSERT_NE(at, drawn.canvas.texts.end()) << number;
    const auto box = std::ranges::find_if(drawn.canvas.frames, [&](const DrawnFrame& frame) {
      return frame.page == at->page && std::abs(frame.area.y - at->area.y) < 1 && frame.area.width < 6;
    });
    EXPECT_NE(box, drawn.canvas.frames.end()) << "a box beside " << number;
    const WorkStepWords words = words_of_step(record(), names, sheet, sheet.steps[i]);
    std::size_t bytes = words.text.size();
    for (const std::string& detail : words.details) bytes += detail.size();
    const std::string page = bytes > 3500 ? body_of(drawn.canvas) : words_of(drawn.canvas, at->page);  // more than a page holds
    EXPECT_THAT(page, HasSubstr(plain(words.text)));
    const auto place = page.find(plain(words.text));
    for (const std::string& caution : words.cautions) EXPECT_LT(page.find(plain(caution)), place) << caution;
    for (const std::string& detail : words.details) EXPECT_THAT(page, HasSubstr(plain(detail)));
  }
  const std::string all = words_of(drawn.canvas);
  for (const char* who : {"Connected by", "Checked by", "signature"}) EXPECT_THAT(all, HasSubstr(who));
}

TEST_P(Papers, the_wall_sheet_is_large_and_names_every_handle_in_the_order_of_the_outage_board) {
  Drawn drawn;
  draw(record(), options_for(PaperKind::wall), drawn);
  const WallSheet sheet = wall_sheet(record(), kept_plan_for(record(), 0));
  std::vector<std::string> handles, drawn_handles;
  const std::string words = body_of(drawn.canvas);
  for (const WallPart& part : sheet.parts) {
    EXPECT_THAT(words, HasSubstr(plain(part.title)));
    for (const WallItem& item : part.items) {
      EXPECT_THAT(words, HasSubstr(plain(item.text)));
      if (!item.handle.empty()) handles.push_back(plain(item.handle));
      for (const WallRow& row : item.rows) {
        EXPECT_THAT(words, HasSubstr(plain(row.text)));
        handles.push_back(plain(row.handle));
      }
    }
  }
  for (const DrawnText& text : drawn.canvas.texts)
    if (text.style.points >= 22) drawn_handles.push_back(text.words);
  EXPECT_EQ(handles, drawn_handles);
  for (const DrawnText& text : drawn.canvas.texts) {
    const bool small_print = text.words.starts_with("Who says so") || text.area.y < 40 || text.area.y > drawn.canvas.pages[0].height - 25 || text.words.find(" of ") != std::string::npos ||
                             text.words.starts_with("The same as plain");
    if (!small_print) { EXPECT_GE(text.style.points, 14) << text.words; }
  }
}

TEST_P(Papers, rows_of_handles_that_go_on_on_a_page_say_there_which_way_they_go) {
  Drawn drawn;
  draw(record(), options_for(PaperKind::wall), drawn);
  for (const DrawnText& row : drawn.canvas.texts) {
    if (row.style.points != 24) continue;  // the handles of a list
    const bool told = std::ranges::any_of(drawn.canvas.texts, [&](const DrawnText& text) {
      return text.page == row.page && text.area.y < row.area.y && text.style.face == Face::bold && text.words.find("in this order") != std::string::npos;
    });
    EXPECT_TRUE(told) << row.words << " on page " << row.page;
  }
}

TEST(PapersText, bytes_that_are_no_text_are_shown_and_not_obeyed) {
  House house = test::house_with_positions().house;
  house.rooms[0].name = "Cel\xff" "lar\x1b[2J";
  for (const PaperKind kind : {PaperKind::plan, PaperKind::worksheet}) {
    Drawn drawn;
    draw(make_record(house), options_for(kind), drawn);
    EXPECT_THAT(words_of(drawn.canvas), HasSubstr("Cel<byte FF>lar<U+001B>[2J"));
  }
}

TEST(PapersText, ticked_steps_say_when_and_who) {
  House house = test::house_with_positions().house;
  tick_step(house, worksheet(house).steps[1].key, "2026-11-20T10:00:00Z", "Ana");
  Drawn drawn;
  draw(make_record(house), options_for(PaperKind::worksheet), drawn);
  EXPECT_THAT(words_of(drawn.canvas), HasSubstr("2026-11-20 by Ana"));
  std::size_t strokes = 0;
  for (const DrawnLine& line : drawn.canvas.lines) strokes += line.x1 != line.x2 && line.y1 != line.y2 ? 1 : 0;
  EXPECT_EQ(strokes, 2U) << "one box is crossed";
}

TEST(PapersText, blocks_of_the_picture_are_as_high_as_their_watts) {
  const Record record = test::house_with_positions();
  const PlanAnswer answer = kept_plan_for(record, 0);
  const PlanPicture picture = plan_picture(answer.backup, answer.plan);
  const PaperBlock drawing = plan_drawing(record.house, picture, 186, 150);
  std::multiset<long> heights, watts;
  double scale = 0;
  for (const auto& frame : drawing.frames)
    if (frame.area.width > 10) scale = std::max(scale, frame.area.height);
  int most = 0;
  for (const PictureColumn& column : picture.columns)
    for (const PictureBlock& block : column.together) most = std::max(most, block.watts), watts.insert(block.watts);
  ASSERT_GT(most, 0);
  for (const auto& frame : drawing.frames)
    if (frame.area.width > 10) heights.insert(std::lround(frame.area.height / scale * most));
  EXPECT_EQ(heights, watts);
  const auto dashed = std::ranges::count_if(drawing.lines, [](const PaperLine& line) { return line.dashed; });
  EXPECT_GE(dashed, 2) << "the limit for a start, on each leg";
}

TEST(PapersText, what_cannot_be_printed_is_refused_in_a_sentence) {
  const Record record = test::house_with_positions();
  const Names names(record.house);
  RecordingCanvas canvas;
  PaperOptions options = options_for(PaperKind::plan);
  options.date = "27.11.2026";
  EXPECT_THROW(draw_paper(record, names, options, canvas), Error);
  options = options_for(PaperKind::plan), options.revision = -1;
  EXPECT_THROW(draw_paper(record, names, options, canvas), Error);
  options = options_for(PaperKind::plan), options.source = 7;
  EXPECT_THROW(draw_paper(record, names, options, canvas), Error);
  House bare = record.house;
  bare.planned.clear();
  const Record unplanned = make_record(bare);
  for (const PaperKind kind : {PaperKind::plan, PaperKind::worksheet, PaperKind::wall}) EXPECT_THROW(draw_paper(unplanned, names, options_for(kind), canvas), Error);
  EXPECT_TRUE(canvas.pages.empty());
}

TEST(PapersPdf, the_same_record_gives_the_same_bytes_and_other_programs_read_text_and_codes) {
  const Record record = test::house_with_positions();
  const Names names(record.house);
  for (const PaperKind kind : {PaperKind::plan, PaperKind::worksheet, PaperKind::wall}) {
    const PrintedPaper printed = print_paper(record, names, options_for(kind));
    EXPECT_EQ(printed.pdf, print_paper(record, names, options_for(kind)).pdf);
    EXPECT_LT(printed.pdf.size(), 150'000U);
    EXPECT_THAT(printed.warnings, testing::IsEmpty());
    const std::string text = test::text_of_pdf(printed.pdf);
    EXPECT_THAT(text, HasSubstr("2026-11-27"));
    EXPECT_THAT(text, HasSubstr(kind == PaperKind::plan ? "What rides where" : kind == PaperKind::worksheet ? "Position by position" : "When the power fails"));
    ASSERT_FALSE(printed.code_texts.empty());
    Drawn drawn;
    draw(record, options_for(kind), drawn);
    std::set<std::string> read;
    test::Picture page;
    for (std::size_t i = 0; i < drawn.canvas.codes.size(); ++i) {
      const DrawnCode& code = drawn.canvas.codes[i];
      if (i == 0 || code.page != drawn.canvas.codes[i - 1].page) page = test::rendered(printed.pdf, code.page, 200);
      read.merge(test::zbar_read(test::cropped(page, code.area, 200, 1)));
    }
    EXPECT_EQ(read, std::set<std::string>(printed.code_texts.begin(), printed.code_texts.end()));
  }
}

TEST(PapersPdf, a_picture_of_each_page_and_none_behind_the_last) {
  const Record record = test::house_with_positions();
  const Names names(record.house);
  const PaperOptions options = options_for(PaperKind::wall);
  const int pages = print_paper(record, names, options).pages;
  EXPECT_EQ(paper_picture(record, names, options, {.dpi = 72}, pages - 1).substr(1, 3), "PNG");
  EXPECT_THROW((void)paper_picture(record, names, options, {.dpi = 72}, pages), Error);
}

}  // namespace
}  // namespace ohmstead
