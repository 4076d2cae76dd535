#include <cmath>

#include "print/fit_text.h"
#include "print/labels.h"
#include "print/text.h"

namespace ohmstead {

namespace {

constexpr double kLineMm = 0.15, kCrossMm = 3;
constexpr double kInchMm = 25.4;

void add_cross(PaperBlock& page, double x, double y, double arm) {
  page.lines.push_back({{x - arm, y, x + arm, y}, kLineMm, false});
  page.lines.push_back({{x, y - arm, x, y + arm}, kLineMm, false});
}

void add_text(PaperBlock& page, double x, double y, const std::string& words) {
  const TextStyle style{Face::normal, kLeastPoints, Align::left, 1};
  const TextExtent extent = measure_text(words, style, 1000);
  page.texts.push_back({{x, y, extent.width_mm + 0.2, extent.height_mm}, style, words});
}

/// A scale from `x`, `y`, to the right or down, one tick a millimetre or eighth of an inch.
struct Ruler {
  double x = 0, y = 0, length = 100;
  bool inches = false, down = false;
};

void add_ruler(PaperBlock& page, const Ruler& ruler) {
  const auto line = [&](double along1, double off1, double along2, double off2) {
    if (ruler.down) page.lines.push_back({{ruler.x + off1, ruler.y + along1, ruler.x + off2, ruler.y + along2}, kLineMm, false});
    else page.lines.push_back({{ruler.x + along1, ruler.y + off1, ruler.x + along2, ruler.y + off2}, kLineMm, false});
  };
  const double step = ruler.inches ? kInchMm / 8 : 1;
  const int whole = ruler.inches ? 8 : 10, half = ruler.inches ? 4 : 5, ticks = static_cast<int>(std::floor(ruler.length / step + 1e-6));
  line(0, 0, ticks * step, 0);
  for (int i = 0; i <= ticks; ++i) {
    line(i * step, 0, i * step, i % whole == 0 ? 4 : i % half == 0 ? 3 : 1.8);
    if (i % whole != 0) continue;
    const std::string number = std::to_string(ruler.inches ? i / 8 : i) + (i == 0 ? (ruler.inches ? " in" : " mm") : "");
    add_text(page, ruler.x + (ruler.down ? 4.8 : i * step + 0.5), ruler.y + (ruler.down ? i * step - 0.2 : 3.9), number);
  }
}

/// To see whether the printer keeps to the size, in both directions.
void add_rulers(PaperBlock& page, double width, double height) {
  constexpr double kEdge = 15;
  const double across = std::min(150.0, width - 2 * kEdge - 25), down = std::min(150.0, height - kEdge - 60);
  add_text(page, kEdge, kEdge, "Print at 100 % and measure these. Hold the other page against a sheet of labels, to the light.");
  add_text(page, kEdge, kEdge + 5, "If the outlines are off, measure by how much and give it: --shift RIGHT,DOWN in mm.");
  add_ruler(page, {kEdge, kEdge + 14, across, false, false});
  add_ruler(page, {kEdge, kEdge + 26, across, true, false});
  if (down < 20) return;
  add_ruler(page, {kEdge, kEdge + 40, down, false, true});
  add_ruler(page, {kEdge + 25, kEdge + 40, down, true, true});
}

void add_outlines(PaperBlock& page, const LabelStock& stock) {
  LabelStock whole = stock;
  whole.start = 1;
  for (int n = 0; n < labels_on_page(stock); ++n) {
    const Area area = place_of_label(whole, n).area;
    page.frames.push_back({area, kLineMm});
    const double arm = std::min({kCrossMm, area.width / 4, area.height / 4});
    add_cross(page, area.x + area.width / 2, area.y + area.height / 2, arm);
    for (const double x : {area.x, area.right()})
      for (const double y : {area.y, area.bottom()}) add_cross(page, x, y, arm / 2);
    if (std::min(area.width, area.height) >= 12) add_text(page, area.x + 1.5, area.y + 1, std::to_string(n + 1));
  }
}

void add_tape(PaperBlock& page, const LabelStock& stock, double length) {
  const double top = (stock.tape_mm - stock.printable_mm) / 2;
  page.frames.push_back({{1, top + kLineMm / 2, length - 2, stock.printable_mm - kLineMm}, kLineMm});
  add_cross(page, length / 2, stock.tape_mm / 2, stock.printable_mm / 4);
  const double y = stock.tape_mm / 2;
  for (int mm = 0; mm <= static_cast<int>(length) - 10; ++mm)
    page.lines.push_back({{5.0 + mm, y, 5.0 + mm, y + (mm % 10 == 0 ? 2.0 : mm % 5 == 0 ? 1.4 : 0.8)}, kLineMm, false});
}

}  // namespace

LabelPages lay_out_test_page(const LabelStock& stock) {
  constexpr double kTapeMm = 90;
  LabelPages pages;
  const bool tape = stock.form == StockForm::tape;
  PaperBlock outlines;
  if (tape) add_tape(outlines, stock, kTapeMm);
  else add_outlines(outlines, stock);
  LabelPage& first = pages.pages.emplace_back(LabelPage{tape ? kTapeMm : stock.page_width_mm, tape ? stock.tape_mm : stock.page_height_mm, {}});
  put_into(first.content, outlines, stock.shift_x_mm, stock.shift_y_mm);
  if (tape || stock.page_width_mm < 80 || stock.page_height_mm < 60) return pages;
  add_rulers(pages.pages.emplace_back(LabelPage{stock.page_width_mm, stock.page_height_mm, {}}).content, stock.page_width_mm, stock.page_height_mm);
  return pages;
}

}  // namespace ohmstead
