#include "tests/print/paper_checks.h"

#include <gmock/gmock.h>

#include <algorithm>
#include <cmath>

#include "print/fit_text.h"
#include "print/paper.h"
#include "tests/print/geometry.h"

namespace ohmstead::test {

namespace {

using testing::HasSubstr;

constexpr double kLeastMarginMm = 12;
Area edge(double x1, double y1, double x2, double y2, double width) {
  return {std::min(x1, x2) - width / 2, std::min(y1, y2) - width / 2, std::abs(x1 - x2) + width, std::abs(y1 - y2) + width};
}

/// Lines that stand upright or lie; slanting ones are hatching and pointers, which stay in places of their own.
std::vector<std::pair<int, Area>> edges_of(const RecordingCanvas& canvas) {
  std::vector<std::pair<int, Area>> edges;
  for (const DrawnLine& line : canvas.lines)
    if (line.x1 == line.x2 || line.y1 == line.y2) edges.emplace_back(line.page, edge(line.x1, line.y1, line.x2, line.y2, line.width_mm));
  for (const DrawnFrame& frame : canvas.frames) {
    const Area& a = frame.area;
    for (const Area& one : {edge(a.x, a.y, a.right(), a.y, frame.width_mm), edge(a.x, a.bottom(), a.right(), a.bottom(), frame.width_mm),
                            edge(a.x, a.y, a.x, a.bottom(), frame.width_mm), edge(a.right(), a.y, a.right(), a.bottom(), frame.width_mm)})
      edges.emplace_back(frame.page, one);
  }
  return edges;
}

void check_margins(const Area& page, const Area& area, const std::string& what) {
  EXPECT_TRUE(area.x >= kLeastMarginMm - 0.5 && area.y >= kLeastMarginMm - 0.5 && area.right() <= page.width - kLeastMarginMm + 0.5 &&
              area.bottom() <= page.height - kLeastMarginMm + 0.5)
      << what;
}

}  // namespace

void draw(const Record& record, const PaperOptions& options, Drawn& drawn) {
  const Names names(record.house);
  drawn.paper = draw_paper(record, names, options, drawn.canvas);
}

void check_layout(const Drawn& drawn) {
  const RecordingCanvas& canvas = drawn.canvas;
  std::vector<std::vector<Area>> edges(canvas.pages.size());  // by page
  for (const auto& [page, one] : edges_of(canvas)) edges[static_cast<std::size_t>(page)].push_back(one);
  std::vector<Area> boxes;
  for (const DrawnText& text : canvas.texts) boxes.push_back(ink(text));
  bool cut = false;
  for (std::size_t i = 0; i < canvas.texts.size(); ++i) {
    const DrawnText& text = canvas.texts[i];
    const Area& box = boxes[i];
    check_margins(canvas.pages[static_cast<std::size_t>(text.page)], box, text.words);
    EXPECT_GE(text.style.points, kLeastPoints) << text.words;
    EXPECT_LE(text.extent.width_mm, text.area.width + 0.05) << text.words;
    EXPECT_LE(text.extent.height_mm, text.area.height + 0.65) << text.words;
    cut = cut || text.extent.cut;
    for (std::size_t k = i + 1; k < canvas.texts.size() && canvas.texts[k].page == text.page; ++k)  // pages are drawn one after another
      if (overlap(box, boxes[k], kSlack)) { ADD_FAILURE() << text.words << " / " << canvas.texts[k].words; }
    for (const Area& one : edges[static_cast<std::size_t>(text.page)])
      if (overlap(box, one, kSlack)) { ADD_FAILURE() << text.words << " on a line"; }
    for (const DrawnCode& code : canvas.codes)
      if (code.page == text.page) { EXPECT_FALSE(overlap(box, code.area, 0.01)) << text.words; }
  }
  for (const DrawnFrame& frame : canvas.frames) check_margins(canvas.pages[static_cast<std::size_t>(frame.page)], frame.area, "frame");
  for (const DrawnLine& line : canvas.lines)
    check_margins(canvas.pages[static_cast<std::size_t>(line.page)], edge(line.x1, line.y1, line.x2, line.y2, line.width_mm), "line");
  for (std::size_t i = 0; i < canvas.codes.size(); ++i) {
    const DrawnCode& code = canvas.codes[i];
    check_margins(canvas.pages[static_cast<std::size_t>(code.page)], code.area, "code");
    EXPECT_GE(code.area.width, 25 - 1e-9);
    EXPECT_GE(code.area.width / (code.code.modules + 2 * kQuietModules), 0.40 - 1e-9);
    for (std::size_t k = i + 1; k < canvas.codes.size(); ++k) EXPECT_FALSE(overlap(code.area, canvas.codes[k].area, 0.01) && code.page == canvas.codes[k].page);
  }
  EXPECT_EQ(cut, std::ranges::any_of(drawn.paper.warnings, [](const std::string& warning) { return warning.find("is cut") != std::string::npos; }));
}

std::string words_of(const RecordingCanvas& canvas, int page) {
  std::string all;
  for (const DrawnText& text : canvas.texts)
    if (page < 0 || text.page == page) all += text.words + " ";
  for (std::size_t at = 0; (at = all.find("\u00A0", at)) != std::string::npos;) all.replace(at, 2, " ");
  return all;
}

std::string plain(const std::string& words) {
  std::string text = paper_text(words);
  for (std::size_t at = 0; (at = text.find("\u00A0", at)) != std::string::npos;) text.replace(at, 2, " ");
  return text;
}

void check_every_page(const Drawn& drawn) {
  EXPECT_EQ(static_cast<int>(drawn.canvas.pages.size()), drawn.paper.pages);
  for (int page = 0; page < drawn.paper.pages; ++page) {
    const std::string words = words_of(drawn.canvas, page);
    EXPECT_THAT(words, HasSubstr("2026-11-27  rev 12"));
    EXPECT_THAT(words, HasSubstr("page " + std::to_string(page + 1) + " of " + std::to_string(drawn.paper.pages)));
    EXPECT_THAT(words, HasSubstr("icensed electrician decide"));
  }
}

}  // namespace ohmstead::test
