#include "print/label_stock.h"

#include <algorithm>
#include <cmath>

#include "house/error.h"
#include "print/fit_text.h"

namespace ohmstead {

namespace {

/// No printer reaches the edge of its paper; plain paper leaves this free.
constexpr double kLeastEdgeMm = 5;
constexpr double kEps = 1e-6;
constexpr double kLargestPageMm = 1200;

[[noreturn]] void refuse(const std::string& sentence) { throw Error(ErrorKind::invalid_input, sentence); }

void require_label(const StockMeasures& m, double page_width, double page_height) {
  if (!(page_width >= 20 && page_width <= kLargestPageMm && page_height >= 20 && page_height <= kLargestPageMm))
    refuse("The page must be from 20 x 20 to 1200 x 1200 mm, not " + size_text(page_width, page_height) + ".");
  if (!(m.label_width_mm > 0 && m.label_height_mm > 0)) refuse("A label must be larger than 0 x 0 mm.");
  if (m.label_width_mm > page_width + kEps || m.label_height_mm > page_height + kEps)
    refuse("A label of " + size_text(m.label_width_mm, m.label_height_mm) + " is larger than the page of " + size_text(page_width, page_height) +
           "; give a page of at least " + size_text(std::max(page_width, m.label_width_mm), std::max(page_height, m.label_height_mm)) + ".");
  if (m.corner_mm < 0 || m.corner_mm > std::min(m.label_width_mm, m.label_height_mm) / 2 + kEps)
    refuse("The corners of a label of " + size_text(m.label_width_mm, m.label_height_mm) + " are round by at most " +
           mm_text(std::min(m.label_width_mm, m.label_height_mm) / 2) + " mm.");
}

/// Plain paper: as many as fit, in its middle.
void fill_paper(LabelStock& stock) {
  const auto most = [](double page, double label) { return static_cast<int>(std::floor((page - 2 * kLeastEdgeMm) / label + kEps)); };
  stock.columns = most(stock.page_width_mm, stock.label_width_mm), stock.rows = most(stock.page_height_mm, stock.label_height_mm);
  if (stock.columns < 1 || stock.rows < 1)
    refuse("A label of " + size_text(stock.label_width_mm, stock.label_height_mm) + " leaves no room to cut on a page of " + size_text(stock.page_width_mm, stock.page_height_mm) +
           "; the page must be at least " + size_text(stock.label_width_mm + 2 * kLeastEdgeMm, stock.label_height_mm + 2 * kLeastEdgeMm) + ".");
  stock.pitch_x_mm = stock.label_width_mm, stock.pitch_y_mm = stock.label_height_mm;
  stock.left_mm = (stock.page_width_mm - stock.columns * stock.pitch_x_mm) / 2, stock.top_mm = (stock.page_height_mm - stock.rows * stock.pitch_y_mm) / 2;
  stock.cut_lines = true;
}

struct Along {
  const char* what;
  double page, label, pitch, first;
  int count;
};

void require_fit(const Along& a) {
  if (a.pitch < a.label - kEps)
    refuse(std::string("From one label to the next there are ") + mm_text(a.pitch) + " mm " + a.what + ", less than the label itself; the pitch must be at least " + mm_text(a.label) + " mm.");
  const double needed = a.first + (a.count - 1) * a.pitch + a.label;
  if (needed > a.page + 0.05)
    refuse(std::to_string(a.count) + " labels " + a.what + " need " + mm_text(needed) + " mm, and the page has " + mm_text(a.page) +
           "; give fewer of them, a smaller margin, or a page of at least " + mm_text(needed) + " mm.");
}

void grid_of(const StockMeasures& m, LabelStock& stock) {
  stock.columns = m.columns, stock.rows = m.rows;
  if (m.columns < 1 || m.rows < 1 || m.columns > 100 || m.rows > 100) refuse("A sheet has from 1 x 1 to 100 x 100 labels, in whole numbers.");
  const auto centred = [](double page, int count, double pitch, double label) { return (page - (count - 1) * pitch - label) / 2; };
  stock.pitch_x_mm = m.pitch_x_mm > 0 ? m.pitch_x_mm : m.label_width_mm, stock.pitch_y_mm = m.pitch_y_mm > 0 ? m.pitch_y_mm : m.label_height_mm;
  stock.left_mm = m.left_mm >= 0 ? m.left_mm : std::max(0.0, centred(stock.page_width_mm, m.columns, stock.pitch_x_mm, m.label_width_mm));
  stock.top_mm = m.top_mm >= 0 ? m.top_mm : std::max(0.0, centred(stock.page_height_mm, m.rows, stock.pitch_y_mm, m.label_height_mm));
  require_fit({"across", stock.page_width_mm, m.label_width_mm, stock.pitch_x_mm, stock.left_mm, m.columns});
  require_fit({"down", stock.page_height_mm, m.label_height_mm, stock.pitch_y_mm, stock.top_mm, m.rows});
}

}  // namespace

std::string mm_text(double mm) {
  const long tenths = std::lround(std::ceil(mm * 10 - 1e-4));
  return std::to_string(tenths / 10) + (tenths % 10 == 0 ? "" : "." + std::to_string(tenths % 10));
}

std::string size_text(double width_mm, double height_mm) { return mm_text(width_mm) + " x " + mm_text(height_mm) + " mm"; }

LabelStock sheet_stock(const StockMeasures& m) {
  LabelStock stock;
  if (m.page_width_mm > 0) stock.page_width_mm = m.page_width_mm, stock.page_height_mm = m.page_height_mm;
  require_label(m, stock.page_width_mm, stock.page_height_mm);
  stock.label_width_mm = m.label_width_mm, stock.label_height_mm = m.label_height_mm, stock.corner_mm = m.corner_mm;
  if (m.columns == 0 && m.rows == 0) fill_paper(stock);
  else grid_of(m, stock);
  return stock;
}

LabelStock tape_stock(double tape_mm, double printable_mm, double dpi) {
  constexpr double kTapeEdgeMm = 1;
  LabelStock stock;
  stock.form = StockForm::tape;
  stock.tape_mm = tape_mm, stock.dpi = dpi;
  stock.printable_mm = printable_mm > 0 ? printable_mm : tape_mm - 2 * kTapeEdgeMm;
  if (stock.printable_mm > tape_mm + kEps) refuse("A printer cannot reach " + mm_text(stock.printable_mm) + " mm of a tape of " + mm_text(tape_mm) + " mm.");
  const double least = text_height_mm({Face::narrow, kLeastPoints, Align::left, 1}, 1);
  if (stock.printable_mm < least)
    refuse("A tape of " + mm_text(tape_mm) + " mm with " + mm_text(std::max(0.0, stock.printable_mm)) + " mm to print on is too low for letters of 9 pt; " + mm_text(least) +
           " mm must be printable, as on a tape of " + mm_text(least + 2 * kTapeEdgeMm) + " mm or more.");
  return stock;
}

LabelPlace place_of_label(const LabelStock& stock, int n) {
  const int at = n + stock.start - 1, on_page = at % labels_on_page(stock);
  const double x = stock.left_mm + on_page % stock.columns * stock.pitch_x_mm, y = stock.top_mm + on_page / stock.columns * stock.pitch_y_mm;
  return {at / labels_on_page(stock), {x, y, stock.label_width_mm, stock.label_height_mm}};
}

double inner_margin_mm(const LabelStock& stock) {
  constexpr double kInnerMm = 1.5;
  const double of_corner = stock.corner_mm * (1 - std::sqrt(0.5));  // a square within round corners
  return stock.form == StockForm::tape ? 0 : std::max(kInnerMm, of_corner + 0.5);
}

}  // namespace ohmstead
