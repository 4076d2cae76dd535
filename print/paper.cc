#include "print/paper.h"

#include <algorithm>
#include <chrono>
#include <cmath>

#include "ask/printable.h"
#include "house/error.h"
#include "print/check_code.h"
#include "print/fit_text.h"
#include "print/text.h"

namespace ohmstead {

namespace {

constexpr double kMarginMm = 14;     ///< no printer reaches the edge; room for a pin or a sheet protector
constexpr double kFootMm = 9, kHeadGapMm = 4.5;
constexpr double kTitleMm = 9, kLaterHeadMm = 7;
constexpr double kFrameInsideMm = 1.8;
constexpr int kAnyLines = 1000;
const TextStyle kUnder{Face::normal, 10.5, Align::left, kAnyLines};
const TextStyle kFoot{Face::normal, kLeastPoints, Align::left, 1};

TextStyle with_lines(TextStyle style) {
  style.lines = kAnyLines;
  return style;
}

/// Length in bytes of the most words from `from` on that are at most `most_mm` high; at least one character.
std::size_t fitting(const std::string& words, std::size_t from, const TextStyle& style, double width, double most_mm) {
  std::size_t low = 0, high = words.size() - from;
  const auto whole_characters = [&](std::size_t length) {
    while (from + length < words.size() && (static_cast<unsigned char>(words[from + length]) & 0xC0U) == 0x80U) ++length;
    return length;
  };
  const auto fits = [&](std::size_t length) { return measure_text(words.substr(from, whole_characters(length)), style, width).height_mm <= most_mm; };
  if (fits(high)) return high;
  while (high - low > 1) {
    const std::size_t middle = (low + high) / 2;
    (fits(middle) ? low : high) = middle;
  }
  const std::size_t space = words.rfind(' ', from + low);
  return whole_characters(space == std::string::npos || space <= from ? std::max<std::size_t>(low, 1) : space - from);
}

std::string date_and_revision(const PaperHead& head) { return head.date + (head.revision == kNoRevision ? "" : "  rev " + std::to_string(head.revision)); }

}  // namespace

std::string paper_text(const std::string& words) { return with_units_kept(terminal::printable(words)); }

void require_date(const std::string& date, const char* what) {
  bool good = date.size() == 10;
  for (std::size_t i = 0; good && i < date.size(); ++i) good = i == 4 || i == 7 ? date[i] == '-' : date[i] >= '0' && date[i] <= '9';
  if (!good) throw Error(ErrorKind::invalid_input, std::string("The date of ") + what + " must be written as in 2026-11-25.");
  const std::chrono::year_month_day day{std::chrono::year{std::stoi(date.substr(0, 4))}, std::chrono::month{static_cast<unsigned>(std::stoi(date.substr(5, 2)))},
                                        std::chrono::day{static_cast<unsigned>(std::stoi(date.substr(8, 2)))}};
  if (!day.ok()) throw Error(ErrorKind::invalid_input, "No month has a day " + date + "; the date of " + what + " must be one of the calendar, written as in 2026-11-25.");
}

void put_into(PaperBlock& whole, const PaperBlock& part, double x, double y) {
  const auto moved = [&](Area area) { return Area{area.x + x, area.y + y, area.width, area.height}; };
  for (PlacedText text : part.texts) text.area = moved(text.area), whole.texts.push_back(std::move(text));
  for (const PaperLine& line : part.lines)
    whole.lines.push_back({{line.segment.x1 + x, line.segment.y1 + y, line.segment.x2 + x, line.segment.y2 + y}, line.width_mm, line.dashed});
  for (const CardSide::Frame& frame : part.frames) whole.frames.push_back({moved(frame.area), frame.width_mm});
  for (const PaperCode& code : part.codes) whole.codes.push_back({moved(code.area), code.code});
  for (const PaperTint& tint : part.tints) whole.tints.push_back({moved(tint.area), tint.tint});
  for (const PaperPicture& picture : part.pictures) whole.pictures.push_back({moved(picture.area), picture.jpeg});
  whole.height_mm = std::max(whole.height_mm, y + part.height_mm);
}

Paper::Paper(Sheet sheet, PaperHead head)
    : Paper(sheet == Sheet::letter ? 215.9 : 210, sheet == Sheet::letter ? 279.4 : 297, kMarginMm, std::move(head)) {}

Paper::Paper(double page_width_mm, double page_height_mm, double margin_mm, PaperHead head)
    : page_width_mm_(page_width_mm), page_height_mm_(page_height_mm), margin_mm_(margin_mm), head_(std::move(head)) {
  head_.title = paper_text(head_.title), head_.under = paper_text(head_.under), head_.foot = paper_text(head_.foot);
}

double Paper::width_mm() const { return page_width_mm_ - 2 * margin_mm_; }
double Paper::room_mm() const { return page_height_mm_ - 2 * margin_mm_ - kFootMm - std::max(head_mm(0), head_mm(1)); }

double Paper::head_mm(int page) const {
  if (page > 0) return kLaterHeadMm + kHeadGapMm;
  return kTitleMm + (head_.under.empty() ? 0 : measure_text(head_.under, kUnder, width_mm()).height_mm) + kHeadGapMm;
}

PaperBlocks Paper::paragraph(const std::string& words, const TextStyle& style, double left_mm, double width) const {
  const std::string text = paper_text(words);
  const TextStyle open = with_lines(style);
  const double wide = width > 0 ? width : width_mm() - left_mm;
  PaperBlocks blocks;
  for (std::size_t from = 0; from < text.size();) {
    const std::size_t length = fitting(text, from, open, wide, room_mm() - 20);
    const std::string piece = text.substr(from, length);
    PaperBlock block;
    block.height_mm = measure_text(piece, open, wide).height_mm + 0.4;
    block.texts.push_back({{left_mm, 0, wide, block.height_mm}, open, piece});
    blocks.push_back(std::move(block));
    from += length;
    while (from < text.size() && text[from] == ' ') ++from;
  }
  return blocks;
}

PaperBlocks Paper::framed(const std::vector<std::string>& words, double points, double left_mm) const {
  const double inside = width_mm() - left_mm - 2 * kFrameInsideMm;
  PaperBlocks frames(1);
  double y = kFrameInsideMm;
  const auto close = [&] {
    frames.back().height_mm = y - 0.4 + kFrameInsideMm;
    frames.back().frames.push_back({{left_mm, 0, width_mm() - left_mm, frames.back().height_mm}, 0.6});
    y = kFrameInsideMm;
  };
  for (std::size_t i = 0; i < words.size(); ++i) {
    const TextStyle style{i == 0 ? Face::bold : Face::normal, points, Align::left, kAnyLines};
    for (const PaperBlock& part : paragraph(words[i], style, left_mm + kFrameInsideMm, inside)) {
      if (y > kFrameInsideMm && y + part.height_mm > room_mm() - 10) {
        close();
        frames.emplace_back().above_mm = 1;
      }
      put_into(frames.back(), part, 0, y);
      y += part.height_mm + 0.4;
    }
  }
  close();
  return frames;
}

void Paper::add(PaperBlock block) {
  if (block.height_mm > room_mm() + 0.01)
    throw Error(ErrorKind::output, "A part of this sheet is higher than a page and cannot be printed; shorten the names in the record.");
  blocks_.push_back(std::move(block));
}

void Paper::add_whole(const PaperBlocks& parts, double above_mm) {
  double height = 0;
  for (const PaperBlock& part : parts) height += part.height_mm + (&part == &parts.front() ? 0 : part.above_mm);
  if (height > room_mm()) {
    for (PaperBlock part : parts) {
      if (&part != &parts.front() && part.height_mm <= 0) continue;
      add(std::move(part));
    }
    return;
  }
  PaperBlock whole;
  double y = 0;
  for (const PaperBlock& part : parts) {
    if (&part != &parts.front()) y += part.above_mm;
    put_into(whole, part, 0, y);
    y += part.height_mm;
  }
  whole.above_mm = above_mm;
  whole.with_next = !parts.empty() && parts.back().with_next;
  add(std::move(whole));
}

void Paper::heading(const std::string& words, double points) {
  for (PaperBlock& block : paragraph(words, {Face::bold, points, Align::left, kAnyLines})) {
    block.above_mm = points * 0.35, block.with_next = true;
    block.height_mm += 0.6;
    add(std::move(block));
  }
}

void Paper::new_page() { breaks_.push_back(blocks_.size()); }

int Paper::pages() const { return pages_; }

void Paper::warn(const std::string& sentence) {
  if (std::ranges::find(warnings_, sentence) == warnings_.end()) warnings_.push_back(sentence);
}

/// Height of block `at` and of all that must stay on its page with it.
static double held_height(const PaperBlocks& blocks, std::size_t at) {
  double height = blocks[at].height_mm;
  for (; blocks[at].with_next && at + 1 < blocks.size(); ++at) height += blocks[at + 1].above_mm + blocks[at + 1].height_mm;
  return height;
}

std::vector<Paper::Placing> Paper::place() const {
  std::vector<Placing> placings;
  int page = 0;
  double y = head_mm(0), top = y;
  const double bottom = page_height_mm_ - 2 * margin_mm_ - kFootMm;
  for (std::size_t i = 0; i < blocks_.size(); ++i) {
    const bool first = y <= top;
    const double above = first ? 0 : blocks_[i].above_mm;
    const double needed = std::min(held_height(blocks_, i), bottom - head_mm(1));  // what cannot be held is not held
    const bool forced = std::ranges::find(breaks_, i) != breaks_.end() && !first;
    const bool held = i > 0 && blocks_[i - 1].with_next;
    const bool full = y + above + (held ? blocks_[i].height_mm : needed) > bottom + 0.01;
    if ((forced || full) && !first) {
      ++page;
      y = top = head_mm(page);
      if (const PaperBlock* again = blocks_[i].again.get(); again != nullptr) {
        placings.push_back({again, page, y});
        y += again->height_mm;
      }
      placings.push_back({&blocks_[i], page, y});
    } else {
      placings.push_back({&blocks_[i], page, y + above});
    }
    y = placings.back().y + blocks_[i].height_mm;
  }
  return placings;
}

void Paper::text(Canvas& canvas, const PlacedText& text) {
  if (text.words.empty()) return;
  const TextExtent extent = measure_text(text.words, text.style, text.area.width);
  const std::string which = "'" + text.words.substr(0, fitting(text.words, 0, {Face::normal, 9, Align::left, 1}, 100, 5)) + "'";
  if (extent.cut) warn("The text " + which + " does not fit its place and is cut; shorten the name in the record.");
  if (extent.unknown_glyphs > 0) warn("The text " + which + " has " + unknown_glyphs_text(extent.unknown_glyphs));
  canvas.text(text.area, text.style, text.words);
}

void Paper::draw_page(Canvas& canvas, int page, const std::vector<Placing>& placings) {
  canvas.begin_page(page_width_mm_, page_height_mm_);
  const double left = margin_mm_, top = margin_mm_, wide = width_mm();
  const double date_wide = 48;
  const std::vector<TextStyle> sizes = page == 0 ? std::vector<TextStyle>{{Face::bold, 20}, {Face::bold, 17}, {Face::bold, 14}, {Face::bold, 11}, {Face::narrow, 9}}
                                                 : std::vector<TextStyle>{{Face::bold, 12}, {Face::bold, 10}, {Face::narrow, 9}};
  const double title_high = page == 0 ? kTitleMm : kLaterHeadMm - 1;
  const FittedText title = fit_text(head_.title, sizes, wide - date_wide, title_high);
  text(canvas, {{left, top, wide - date_wide, title_high}, title.style, head_.title});
  text(canvas, {{left + wide - date_wide, top, date_wide, title_high}, {Face::bold, page == 0 ? 12.0 : 10.0, Align::right, 1}, date_and_revision(head_)});
  if (page == 0 && !head_.under.empty())
    text(canvas, {{left, top + kTitleMm, wide, head_mm(0) - kTitleMm - kHeadGapMm}, kUnder, head_.under});
  canvas.line({left, top + head_mm(page) - 3.2, left + wide, top + head_mm(page) - 3.2}, 0.4);
  for (const Placing& placing : placings) {
    if (placing.page != page) continue;
    PaperBlock block;
    put_into(block, *placing.block, left, top + placing.y);
    for (const PaperTint& tint : block.tints) canvas.tint(tint.area, tint.tint);
    for (const PaperPicture& picture : block.pictures) canvas.picture(picture.area, *picture.jpeg);
    for (const PaperLine& line : block.lines) canvas.line(line.segment, line.width_mm, line.dashed);
    for (const CardSide::Frame& frame : block.frames) canvas.frame(frame.area, frame.width_mm);
    for (const PlacedText& placed : block.texts) text(canvas, placed);
    for (const PaperCode& code : block.codes) canvas.code(code.area, code.code);
  }
  const double foot_y = page_height_mm_ - margin_mm_ - 5;
  canvas.line({left, foot_y - 0.6, left + wide, foot_y - 0.6}, 0.2);
  const TextStyle of_page{Face::bold, kLeastPoints + 1, Align::right, 1};
  const std::string check = head_.check.empty() ? "" : "check " + printed_check_code(head_.check) + "   ";
  const std::string right = check + "page " + std::to_string(page + 1) + " of " + std::to_string(pages_);
  const double right_wide = std::max(30.0, measure_text(right, of_page, 1000).width_mm + 2);
  const FittedText foot = fit_text(head_.foot, {kFoot, {Face::narrow, kLeastPoints, Align::left, 1}}, wide - right_wide, 5);
  text(canvas, {{left, foot_y, wide - right_wide, 5}, foot.style, head_.foot});
  text(canvas, {{left + wide - right_wide, foot_y, right_wide, 5}, of_page, right});
}

void Paper::draw(Canvas& canvas) {
  const std::vector<Placing> placings = place();
  pages_ = placings.empty() ? 1 : placings.back().page + 1;
  for (int page = 0; page < pages_; ++page) draw_page(canvas, page, placings);
}

}  // namespace ohmstead
