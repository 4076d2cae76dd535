#include "print/directory_page.h"

#include <algorithm>
#include <cmath>

#include "house/error.h"
#include "print/card_table.h"
#include "print/fit_text.h"
#include "print/text.h"

namespace ohmstead {

namespace {

constexpr double kMarginMm = 3.5;      ///< between the card's edge and anything on it
constexpr double kGapMm = 1.5;       ///< between parts of the card
constexpr double kFrontModuleMm = 0.508, kBackModuleMm = 0.6773;  ///< largest modules of codes
constexpr double kTitleMm = 7.8;
constexpr double kMainBandMm = 9.5;
constexpr double kTallestRowMm = 17; ///< beyond this more white does not read better
constexpr const char* kCodesTitle = "The same directory as plain text: scan with any phone, no network needed.";

constexpr const char* kOnTheBack = " Codes on the back.";

const TextStyle kSmall{Face::normal, kLeastPoints, Align::left, 12};

/// Height of a small paragraph at this width; 0 if it is empty.
double paragraph_mm(const std::string& words, double width) {
  return words.empty() ? 0 : measure_text(words, kSmall, width).height_mm + 0.6;
}

/// Caution and key are paragraphs of their own; in one, where the card is full.
struct Notes {
  std::string first, second;
};
Notes notes_apart(const CardContent& content) { return {content.caution, content.key}; }
Notes notes_together(const CardContent& content) {
  return {content.caution + (content.key.empty() ? "" : " " + content.key), ""};
}

/// Heights of everything around the table.
struct Heights {
  double head = 0, main = 0, first_note = 0, second_note = 0;
  [[nodiscard]] double sum() const { return 2 * kMarginMm + head + main + kGapMm + first_note + second_note; }
};

Heights heights_of(const CardContent& content, const Notes& notes, double inner_width) {
  return {kTitleMm + paragraph_mm(content.supply + kOnTheBack, inner_width) + kGapMm / 2, content.main_text.empty() ? 0 : kMainBandMm,
          paragraph_mm(notes.first, inner_width), paragraph_mm(notes.second, inner_width)};
}

std::string mm(double value) { return std::to_string(static_cast<long>(std::ceil(value - 1e-6))); }

void require_size(const CardContent& content, double width, double height, bool large) {
  const double least_width = std::ceil(least_table_width_mm(content.table, large) + 2 * kMarginMm - 1e-6);
  const double at_width = std::max(width, least_width);
  const double least_height = heights_of(content, notes_together(content), at_width - 2 * kMarginMm).sum() + rows_of(content.table) * least_row_mm(large);
  if (width >= least_width && height >= least_height) return;
  throw Error(ErrorKind::invalid_input, "A card of " + mm(width) + " x " + mm(height) + " mm is too small for " + content.title +
                                            " in letters that can be read at arm's length; give at least " +
                                            mm(std::max(width, least_width)) + " x " + mm(std::max(height, least_height)) + " mm.");
}

using Warnings = std::vector<std::string>;

/// Places a text that is not a description; what cannot be read whole is reported.
void place(CardSide& side, Warnings& warnings, const PlacedText& text) {
  if (text.words.empty()) return;
  side.texts.push_back(text);
  const TextExtent extent = measure_text(text.words, text.style, text.area.width);
  const std::string which = "'" + text.words.substr(0, text.words.find('.')) + "'";
  if (extent.cut) warnings.push_back("The line " + which + " does not fit the card and is cut; use a wider pocket.");
  if (extent.unknown_glyphs > 0)
    warnings.push_back("The line " + which + " has " + unknown_glyphs_text(extent.unknown_glyphs));
}

void lay_out_head(const CardContent& content, const std::string& under, const Area& area, CardSide& side, Warnings& warnings) {
  const TextStyle date_style{Face::bold, 12, Align::right, 1};
  const std::string date = content.date + "  " + content.revision;
  const double date_width = measure_text(date, date_style, 1000).width_mm + kGapMm;  // a narrow card needs the rest for its title
  const auto title = fit_text(content.title, {{Face::bold, 20, Align::left, 1}, {Face::bold, 17, Align::left, 1}, {Face::bold, 14, Align::left, 1},
                              {Face::narrow, 12, Align::left, 1}}, area.width - date_width, kTitleMm);
  place(side, warnings, {{area.x, area.y, area.width - date_width, kTitleMm}, title.style, content.title});
  place(side, warnings, {{area.right() - date_width, area.y, date_width, kTitleMm}, date_style, date});
  place(side, warnings, {{area.x, area.y + kTitleMm, area.width, area.height - kTitleMm - kGapMm / 2}, kSmall, under});
}

void lay_out_main(const CardContent& content, const Area& area, Card& card) {
  const double name_width = 19;
  card.front.frames.push_back({area, 0.9});
  card.front.texts.push_back({{area.x + 1.5, area.y, name_width - 1.5, area.height}, {Face::bold, 17, Align::left, 1}, "MAIN"});
  const Area words{area.x + name_width, area.y + 0.4, area.width - name_width - 1.5, area.height - 0.8};
  auto ladder = label_ladder(kLabelPoints);
  ladder.push_back({Face::narrow, kLeastPoints, Align::left, 1});
  const FittedText fitted = fit_text(content.main_text, ladder, words.width, words.height);
  place(card.front, card.warnings, {words, fitted.style, content.main_text});
}

void place_codes(const CodeSheet& sheet, double x, double y, CardSide& side) {
  for (PlacedCode code : sheet.codes) {
    code.area.x += x, code.area.y += y, code.caption.x += x, code.caption.y += y;
    side.texts.push_back({code.caption, {Face::normal, kLeastPoints, Align::center, 1}, range_text(code.text)});
    side.codes.push_back(std::move(code));
  }
}

CardSide lay_out_back(const CardContent& content, double width, double height, Warnings& warnings) {
  CardSide back;
  const Area inner{kMarginMm, kMarginMm, width - 2 * kMarginMm, height - 2 * kMarginMm};
  const double intro = paragraph_mm(kCodesTitle, inner.width);
  lay_out_head(content, kCodesTitle, {inner.x, inner.y, inner.width, kTitleMm + intro + kGapMm / 2}, back, warnings);
  const double top = inner.y + kTitleMm + intro + kGapMm;
  if (const auto sheet = plan_codes(content.codes, inner.width, inner.bottom() - top, kBackModuleMm, content.location)) place_codes(*sheet, inner.x, top, back);
  else warnings.push_back("The codes do not fit on the back of this card and were left out; use a larger pocket.");
  return back;
}

}  // namespace

Card lay_out_card(const CardContent& content, double width_mm, double height_mm, bool large) {
  require_size(content, width_mm, height_mm, large);
  const Area inner{kMarginMm, kMarginMm, width_mm - 2 * kMarginMm, height_mm - 2 * kMarginMm};
  const double rows = rows_of(content.table), room = height_mm - rows * least_row_mm(large);
  const bool apart = heights_of(content, notes_apart(content), inner.width).sum() <= room;
  const Notes notes = apart ? notes_apart(content) : notes_together(content);
  const Heights heights = heights_of(content, notes, inner.width);
  double free = room - heights.sum();
  const double intro = paragraph_mm(kCodesTitle, inner.width);
  const auto sheet = plan_codes(content.codes, inner.width, free - intro - kGapMm, kFrontModuleMm, content.location);
  if (sheet) free -= sheet->height_mm + intro + kGapMm;
  const double row = std::clamp(least_row_mm(large) + free / rows, least_row_mm(large), std::max(kTallestRowMm, least_row_mm(large)));

  Card card;
  double y = inner.y;
  lay_out_head(content, content.supply + (sheet ? "" : kOnTheBack), {inner.x, y, inner.width, heights.head}, card.front, card.warnings);
  y += heights.head;
  if (heights.main > 0) lay_out_main(content, {inner.x, y, inner.width, heights.main}, card);
  y += heights.main;
  lay_out_table(content.table, {inner.x, y, inner.width, row * rows}, large, card);
  y += row * rows + kGapMm;
  place(card.front, card.warnings, {{inner.x, y, inner.width, heights.first_note}, kSmall, notes.first});
  y += heights.first_note;
  place(card.front, card.warnings, {{inner.x, y, inner.width, heights.second_note}, kSmall, notes.second});
  y += heights.second_note;
  if (!sheet) {
    card.back = lay_out_back(content, width_mm, height_mm, card.warnings);
    return card;
  }
  place(card.front, card.warnings, {{inner.x, y + kGapMm / 2, inner.width, intro}, kSmall, kCodesTitle});
  place_codes(*sheet, inner.x, y + kGapMm + intro, card.front);
  return card;
}

}  // namespace ohmstead
