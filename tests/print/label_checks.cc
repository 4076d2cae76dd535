#include "tests/print/label_checks.h"

#include <gmock/gmock.h>

#include "print/fit_text.h"
#include "print/label_layout.h"
#include "tests/print/decode.h"
#include "tests/print/example_house.h"
#include "tests/print/geometry.h"

namespace ohmstead::test {

using testing::Contains;

LabelOptions options_on(const LabelStock& stock) {
  LabelOptions options;
  options.stock = stock, options.date = "2026-11-25", options.revision = 12;
  return options;
}

LabelStock plain_labels(double width, double height) {
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
  static const Record kRecord = make_record(example_house().house);
  return kRecord;
}

RecordingCanvas& draw(const LabelPages& pages, RecordingCanvas& canvas) {
  for (const LabelPage& page : pages.pages) draw_label_page(page, canvas);
  return canvas;
}

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

void expect_codes_read(const LabelPages& pages, const std::string& pdf, int dpi) {
  RecordingCanvas canvas;
  draw(pages, canvas);
  ASSERT_EQ(canvas.codes.size(), pages.code_texts.size());
  ASSERT_GT(canvas.codes.size(), 0u);
  for (std::size_t page = 0; page < pages.pages.size(); ++page) {
    const Picture picture = rendered(pdf, static_cast<int>(page), dpi);
    for (std::size_t i = 0; i < canvas.codes.size(); ++i) {
      if (canvas.codes[i].page != static_cast<int>(page)) continue;
      const Picture code = cropped(picture, canvas.codes[i].area, dpi, 0);
      EXPECT_THAT(zbar_read(code), Contains(pages.code_texts[i])) << dpi << " dpi, code " << i;
      EXPECT_EQ(zxing_read(code), pages.code_texts[i]) << dpi << " dpi, code " << i;
    }
  }
}

}  // namespace ohmstead::test
