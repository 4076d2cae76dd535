// Strips: labels in one piece, as far apart as the breakers or positions that they stand beside.

#include <algorithm>
#include <cmath>

#include "house/error.h"
#include "print/fit_text.h"
#include "print/label_fit.h"
#include "print/label_pages.h"

namespace ohmstead {

namespace {

constexpr double kDownMm = 60, kAcrossMm = 38, kAcrossWithCodesMm = 65;  ///< across a strip of breakers, and of positions, where nothing is said
constexpr double kEdgeMm = 6, kGapMm = 4;       ///< of the page, and between strips
constexpr double kTabMm = 11, kLeastTabMm = 60; ///< the end of a strip that says what it is
constexpr double kCellLineMm = 0.2, kCutLineMm = 0.15;
constexpr double kHeadPoints = 17, kInsideMm = 1.2, kTightRightMm = 0.4;
constexpr double kBesideMm = 40;                ///< narrower strips have the number above the words

/// Some whole places of a strip.
struct Piece {
  const LabelStrip* strip = nullptr;
  int first = 0, last = 0;  ///< places, both included
};

bool is_crossed(const LabelStrip& strip, int place) {
  return std::ranges::any_of(strip.cells, [&](const LabelCell& cell) { return cell.first_half < 2 * place && cell.first_half + cell.halves > 2 * place; });
}

/// Pieces of at most `most` places, as even as can be, parted where no cell is.
std::vector<Piece> pieces_of(const LabelStrip& strip, int most) {
  std::vector<Piece> pieces;
  for (int first = 0; first < strip.places;) {
    const int left = strip.places - first, parts = (left + most - 1) / most;
    int end = first + (left + parts - 1) / parts;
    while (end > first + 1 && end < strip.places && is_crossed(strip, end)) --end;
    if (end < strip.places && is_crossed(strip, end))
      throw Error(ErrorKind::invalid_input, "A breaker of " + strip.head + " is longer than the page; give a smaller pitch or a longer page.");
    pieces.push_back({&strip, first, end - 1});
    first = end;
  }
  return pieces;
}

/// Lays pieces out; knows the measures of strips of one kind.
class StripMaker {
 public:
  StripMaker(LabelPageMaker& maker, double pitch_mm, double height_mm) : maker_(maker), pitch_(pitch_mm), given_height_(height_mm) {}

  [[nodiscard]] double across(const LabelStrip& strip) const { return given_height_ > 0 ? given_height_ : strip.down ? kDownMm : maker_.options().strip_codes ? kAcrossWithCodesMm : kAcrossMm; }
  void measure_heads(const LabelStrip& strip);
  /// The cells of a piece with their outlines, from `x`, `y`.
  void put_cells(PaperBlock& page, const Piece& piece, double x, double y);
  void put_tab(PaperBlock& page, const Piece& piece, const Area& area);

 private:
  [[nodiscard]] LabelLook look_of(const LabelStrip& strip, const LabelCell& cell) const;
  LabelPageMaker& maker_;
  double pitch_, given_height_, head_width_ = 0;
};

/// Numbers of a column stand one under the other.
void StripMaker::measure_heads(const LabelStrip& strip) {
  head_width_ = 0;
  if (!strip.down || across(strip) < kBesideMm) return;
  for (const LabelCell& cell : strip.cells) head_width_ = std::max(head_width_, label_fit::width_mm(cell.item.lines[0].ways[0], {Face::bold, kHeadPoints}) + 0.5);
  head_width_ = std::min(head_width_, across(strip) * 0.35);
}

LabelLook StripMaker::look_of(const LabelStrip& strip, const LabelCell& cell) const {
  LabelLook look;
  const double along = cell.halves * pitch_ / 2, across_mm = across(strip);
  look.width_mm = strip.down ? across_mm : along, look.height_mm = strip.down ? along : across_mm;
  look.margin_mm = std::min(kInsideMm, pitch_ / 8);
  look.most_head_points = kHeadPoints, look.in_middle = true;
  look.code = maker_.options().strip_codes, look.code_below = !strip.down, look.code_inset_mm = kCellLineMm + 0.1;
  if (strip.down) look.most_code_mm = std::max(pitch_, 25.4);
  look.location = maker_.options().location, look.dpi = maker_.stock().dpi;
  look.beside = head_width_ > 0, look.head_width_mm = head_width_;
  look.align = strip.down ? Align::left : Align::center;
  if (strip.down) look.tight_right_mm = kTightRightMm;
  return look;
}

void StripMaker::put_cells(PaperBlock& page, const Piece& piece, double x, double y) {
  for (const LabelCell& cell : piece.strip->cells) {
    if (cell.first_half < 2 * piece.first || cell.first_half >= 2 * piece.last + 2) continue;
    const LabelLook look = look_of(*piece.strip, cell);
    const LabelFace face = lay_out_label(cell.item, look);
    if (!face.fits) refuse_size({cell.item}, look, "A cell of the strip");
    const double from = (cell.first_half - 2 * piece.first) * pitch_ / 2;
    const Area area{piece.strip->down ? x : x + from, piece.strip->down ? y + from : y, look.width_mm, look.height_mm};
    maker_.put(page, {cell.item, look, face}, area.x, area.y);
    page.frames.push_back({area, kCellLineMm});
  }
}

void StripMaker::put_tab(PaperBlock& page, const Piece& piece, const Area& area) {
  const LabelStrip& strip = *piece.strip;
  std::string first, last;
  for (const LabelCell& cell : strip.cells) {
    if (cell.first_half < 2 * piece.first || cell.first_half >= 2 * piece.last + 2) continue;
    last = cell.item.lines[0].ways[0];
    if (first.empty()) first = last;
  }
  const std::string part = piece.first == 0 && piece.last + 1 == strip.places ? "" : ", " + first + " to " + last;
  LabelItem tab{strip.key, strip.name, {{{strip.head + part, strip.head}, true}}, {}};
  LabelLook look;
  look.width_mm = area.width, look.height_mm = area.height, look.margin_mm = maker_.stock().form == StockForm::tape ? 0.3 : 1, look.code = false, look.in_middle = true;
  look.small = maker_.small_print(), look.check = maker_.check_of(strip.key);
  look.most_head_points = kLeastHeadPoints;
  LabelFace face = lay_out_label(tab, look);
  for (const double points : {10.5, kLeastPoints}) {
    if (face.fits) break;
    if (points == kLeastPoints) tab.lines[0].ways.insert(tab.lines[0].ways.end(), strip.short_heads.begin(), strip.short_heads.end());
    look.most_head_points = points;
    face = lay_out_label(tab, look);
  }
  if (!face.fits && maker_.stock().form == StockForm::tape) return;  // a tape so low has room for its cells alone
  if (!face.fits) refuse_size({tab}, look, "The end of the strip");
  maker_.put(page, {tab, look, face}, area.x, area.y);
  --maker_.pages.labels;  // it is an end of the strip, no label
}

/// Where the next piece goes: side by side, or one under the other.
struct Cursor {
  int page = 0;
  double x = kEdgeMm, y = kEdgeMm, row_height = 0;
};

void put_on_pages(LabelPageMaker& maker, StripMaker& strips, const std::vector<LabelStrip>& all, double pitch) {
  const LabelStock& stock = maker.stock();
  const double right = stock.page_width_mm - kEdgeMm, bottom = stock.page_height_mm - kEdgeMm;
  Cursor at;
  for (const LabelStrip& strip : all) {
    strips.measure_heads(strip);
    const double room = strip.down ? bottom - kEdgeMm - kTabMm : right - kEdgeMm, across = strips.across(strip);
    const int most = static_cast<int>(std::floor(room / pitch + 1e-6));
    const bool too_wide = across > (strip.down ? right - kEdgeMm : bottom - kEdgeMm - kTabMm) + 1e-6;
    if (most < 1 || too_wide)
      throw Error(ErrorKind::invalid_input, "A strip of " + size_text(pitch, across) + " does not fit a page of " + size_text(stock.page_width_mm, stock.page_height_mm) + "; give a page of at least " +
                                                (strip.down ? size_text(across + 2 * kEdgeMm, pitch + kTabMm + 2 * kEdgeMm) : size_text(pitch + 2 * kEdgeMm, across + kTabMm + 2 * kEdgeMm)) + ".");
    for (const Piece& piece : pieces_of(strip, most)) {
      const double along = (piece.last - piece.first + 1) * pitch;
      const double cells = strip.down ? across : along, width = std::max(cells, kLeastTabMm), height = kTabMm + (strip.down ? along : across);
      if (at.x > kEdgeMm && at.x + width > right + 0.01) at.x = kEdgeMm, at.y += at.row_height + kGapMm, at.row_height = 0;
      if (at.y > kEdgeMm && at.y + height > bottom + 0.01) ++at.page, at.x = at.y = kEdgeMm, at.row_height = 0;
      PaperBlock& page = maker.page(at.page, stock.page_width_mm, stock.page_height_mm);
      strips.put_tab(page, piece, {at.x, at.y, width, kTabMm});
      strips.put_cells(page, piece, at.x, at.y + kTabMm);
      const Area whole{at.x, at.y, width, height};
      for (const double x : {whole.x, whole.right()}) page.lines.push_back({{x, whole.y, x, whole.y + kTabMm}, kCutLineMm, true});
      page.lines.push_back({{whole.x, whole.y, whole.right(), whole.y}, kCutLineMm, true});
      at.x += width + kGapMm, at.row_height = std::max(at.row_height, height);
    }
  }
}

/// On tape: cells along the tape, or, beside a column, one under the other on a tape that is held upright.
void put_on_tape(LabelPageMaker& maker, StripMaker& strips, const std::vector<LabelStrip>& all, double pitch) {
  constexpr double kEndMm = 2, kTabAlongMm = 32, kMostMm = 1000;
  const LabelStock& stock = maker.stock();
  const double free = (stock.tape_mm - stock.printable_mm) / 2;
  int number = 0;
  for (const LabelStrip& strip : all) {
    strips.measure_heads(strip);
    for (const Piece& piece : pieces_of(strip, static_cast<int>(std::floor((kMostMm - kTabAlongMm) / pitch)))) {
      const double along = kTabAlongMm + (piece.last - piece.first + 1) * pitch + 2 * kEndMm;
      PaperBlock& page = strip.down ? maker.page(number, stock.tape_mm, along) : maker.page(number, along, stock.tape_mm);
      ++number;
      if (strip.down) {
        strips.put_tab(page, piece, {free, kEndMm, stock.printable_mm, kTabAlongMm});
        strips.put_cells(page, piece, free, kEndMm + kTabAlongMm);
      } else {
        strips.put_tab(page, piece, {kEndMm, free, kTabAlongMm, stock.printable_mm});
        strips.put_cells(page, piece, kEndMm + kTabAlongMm, free);
      }
    }
  }
}

}  // namespace

LabelPages lay_out_strips(const std::vector<LabelStrip>& strips, const LabelOptions& options) {
  LabelPageMaker maker(options);
  if (strips.empty()) throw Error(ErrorKind::not_found, "There is nothing to make a strip for yet: no such panel or transfer device is written down.");
  if (!(options.strip_pitch_mm >= 5 && options.strip_pitch_mm <= 200)) throw Error(ErrorKind::invalid_input, "The pitch of a strip is from 5 to 200 mm; 25.4 mm is usual for breakers.");
  const bool tape = options.stock.form == StockForm::tape;
  StripMaker maker_of_strips(maker, options.strip_pitch_mm, tape ? options.stock.printable_mm : options.strip_height_mm);
  if (tape) put_on_tape(maker, maker_of_strips, strips, options.strip_pitch_mm);
  else put_on_pages(maker, maker_of_strips, strips, options.strip_pitch_mm);
  return maker.finish();
}

}  // namespace ohmstead
