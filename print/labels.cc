#include "print/labels.h"

#include <algorithm>
#include <cmath>

#include "house/error.h"
#include "print/cairo_canvas.h"
#include "print/label_pages.h"
#include "print/text.h"

namespace ohmstead {

namespace {

constexpr double kLowMm = 14;  ///< labels lower than this have their head beside their words
constexpr double kCutLineMm = 0.15;
constexpr double kMostTapeMm = 1000;  ///< of one page of tape without cuts
constexpr double kTapeEndMm = 2;
constexpr double kHeadingMarginMm = 0.8;  ///< of a heading among dots: it is never cut out
constexpr double kTapeLengths[] = {20, 30, 40, 50, 60, 75, 90};

bool is_dot(const LabelItem& item) { return item.lines.size() == 1; }

LabelLook look_on_sheet(const LabelPageMaker& maker, const LabelItem& item) {
  const LabelStock& stock = maker.stock();
  LabelLook look;
  look.width_mm = stock.label_width_mm, look.height_mm = stock.label_height_mm;
  look.margin_mm = inner_margin_mm(stock);
  look.code = maker.options().codes, look.location = maker.options().location, look.dpi = stock.dpi;
  look.beside = stock.label_height_mm < kLowMm;
  if (is_dot(item)) {
    look.most_head_points = 40, look.align = Align::center;
    if (item.heading) look.margin_mm = std::min(look.margin_mm, kHeadingMarginMm);
    return look;
  }
  look.small = maker.small_print(), look.check = maker.check_of(item.key);
  return look;
}

/// Dashed lines around the labels in use of plain paper.
void add_cut_lines(PaperBlock& page, const LabelStock& stock, int first_row, int last_row) {
  const double left = stock.left_mm, right = left + stock.columns * stock.pitch_x_mm;
  const double top = stock.top_mm + first_row * stock.pitch_y_mm, bottom = stock.top_mm + (last_row + 1) * stock.pitch_y_mm;
  for (int column = 0; column <= stock.columns; ++column) page.lines.push_back({{left + column * stock.pitch_x_mm, top, left + column * stock.pitch_x_mm, bottom}, kCutLineMm, true});
  for (int row = first_row; row <= last_row + 1; ++row) page.lines.push_back({{left, stock.top_mm + row * stock.pitch_y_mm, right, stock.top_mm + row * stock.pitch_y_mm}, kCutLineMm, true});
}

void put_on_sheet(LabelPageMaker& maker, const std::vector<LabelItem>& items) {
  const LabelStock& stock = maker.stock();
  for (std::size_t i = 0; i < items.size(); ++i) {
    const LabelLook look = look_on_sheet(maker, items[i]);
    const LabelFace face = lay_out_label(items[i], look);
    if (!face.fits && items[i].heading) continue;  // its place stays empty
    if (!face.fits) refuse_size(items, look, is_dot(items[i]) ? "A dot" : "A label");
    const LabelPlace place = place_of_label(stock, static_cast<int>(i));
    maker.put(maker.page(place.page, stock.page_width_mm, stock.page_height_mm), {items[i], look, face}, place.area.x, place.area.y);
  }
  if (!stock.cut_lines) return;
  const int first = stock.start - 1, last = first + static_cast<int>(items.size()) - 1, on_page = labels_on_page(stock);
  for (int page = 0; page <= last / on_page; ++page) {
    const int from = page == 0 ? first : 0, to = std::min(last - page * on_page, on_page - 1);
    add_cut_lines(maker.pages.pages[static_cast<std::size_t>(page)].content, stock, from / stock.columns, to / stock.columns);
  }
}

/// On a tape the label is as short as its words allow.
LabelFace face_on_tape(const LabelItem& item, LabelLook& look) {
  LabelFace best;
  double best_width = 0;
  for (const double length : kTapeLengths) {
    look.width_mm = length;
    LabelFace face = lay_out_label(item, look);
    const bool better = face.fits && (!best.fits || face.left_out < best.left_out || (face.left_out == best.left_out && face.shortened < best.shortened));
    if (better) best = std::move(face), best_width = length;
    if (best.fits && best.left_out == 0 && best.shortened == 0) break;
  }
  if (best.fits) look.width_mm = best_width;
  return best;
}

/// Length of tape that a label takes: its words, and its code at the end.
double tape_length(LabelFace& face, const LabelLook& look) {
  if (!face.code) return face.right_mm + look.margin_mm;
  face.code->area.x = std::min(face.code->area.x, face.right_mm + 1);
  return face.code->area.right() + look.margin_mm / 2;
}

void put_on_tape(LabelPageMaker& maker, const std::vector<LabelItem>& items) {
  const LabelStock& stock = maker.stock();
  int number = -1;
  double x = kMostTapeMm;
  for (const LabelItem& item : items) {
    LabelLook look = look_on_sheet(maker, item);
    look.height_mm = stock.printable_mm, look.margin_mm = 0, look.beside = !is_dot(item) && stock.printable_mm < 3 * kLowMm, look.align = Align::left;
    LabelFace face = face_on_tape(item, look);
    if (!face.fits && item.heading) continue;
    if (!face.fits) refuse_size(items, look, "A tape label");
    const double length = tape_length(face, look) + 2 * kTapeEndMm;
    const bool fresh = stock.cut_between || x + length > kMostTapeMm;
    if (fresh) ++number, x = 0;
    PaperBlock& page = maker.page(number, length, stock.tape_mm);
    if (!fresh) page.lines.push_back({{x, 0, x, stock.tape_mm}, kCutLineMm, true});
    maker.put(page, {item, look, face}, x + kTapeEndMm, (stock.tape_mm - stock.printable_mm) / 2);
    x += length;
    maker.pages.pages[static_cast<std::size_t>(number)].width_mm = x;
  }
}

}  // namespace

LabelPages lay_out_labels(const std::vector<LabelItem>& items, const LabelOptions& options) {
  LabelPageMaker maker(options);
  const LabelStock& stock = options.stock;
  if (items.empty()) throw Error(ErrorKind::not_found, "There is nothing to label yet: no such points, breakers or panels are written down.");
  if (stock.form == StockForm::tape) {
    put_on_tape(maker, items);
    return maker.finish();
  }
  if (stock.start < 1 || stock.start > labels_on_page(stock))
    throw Error(ErrorKind::invalid_input, "The sheet has " + std::to_string(labels_on_page(stock)) + " labels; begin at one of them, from 1 to " + std::to_string(labels_on_page(stock)) + ".");
  put_on_sheet(maker, items);
  return maker.finish();
}

void draw_label_page(const LabelPage& page, Canvas& canvas) {
  canvas.begin_page(page.width_mm, page.height_mm);
  for (const PaperLine& line : page.content.lines) canvas.line(line.segment, line.width_mm, line.dashed);
  for (const CardSide::Frame& frame : page.content.frames) canvas.frame(frame.area, frame.width_mm);
  for (const PlacedText& text : page.content.texts) canvas.text(text.area, text.style, text.words);
  for (const PaperCode& code : page.content.codes) canvas.code(code.area, code.code);
}

std::string labels_pdf(const LabelPages& pages, const std::string& title, const std::string& date) {
  PdfCanvas canvas(title, date);
  for (const LabelPage& page : pages.pages) draw_label_page(page, canvas);
  return canvas.finish();
}

std::string label_page_svg(const LabelPage& page) {
  SvgCanvas canvas(0);
  draw_label_page(page, canvas);
  return canvas.finish();
}

std::string label_page_png(const LabelPage& page, double dpi) {
  PngCanvas canvas(0, dpi, Ink::black);
  draw_label_page(page, canvas);
  return canvas.finish();
}

}  // namespace ohmstead
