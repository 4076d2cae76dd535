#include "print/card_table.h"

#include <algorithm>
#include <numeric>

#include "print/fit_text.h"
#include "print/text.h"

namespace ohmstead {

namespace {

constexpr double kHeavyMm = 0.9, kMiddleMm = 0.7, kThinMm = 0.2;
constexpr double kPadMm = 1.2;          ///< between a cell's edge and its text
constexpr double kRowPadMm = 0.2;      ///< above and below the lines of a description
constexpr double kBracketMm = 2;        ///< width of a handle tie's bracket
constexpr double kAmpsWidthMm = 10;     ///< "200 A" at 10 pt
constexpr double kLeastTextMm = 40;     ///< 50 characters on two lines of narrow type
constexpr const char* kEmptyText = "empty space";

double number_width_mm(bool large) { return large ? 20 : 15.5; }
double least_label_points(bool large) { return large ? 16 : kLabelPoints; }

double mark_width_mm(const std::string& mark) {
  if (mark.empty()) return 0;
  return measure_text(mark, {Face::bold, kLabelPoints, Align::center, 1}, 1000).width_mm + 2.4;
}

std::string number_text(const PanelCell& cell) {
  std::string text;
  for (const std::string& number : cell.numbers) text += (text.empty() ? "" : "\u00B7") + number;
  return text;
}

/// What a cell is called in a warning.
std::string cell_name(const PanelCell& cell) { return "breaker " + number_text(cell); }

class TableLayout {
 public:
  TableLayout(const PanelCells& table, const Area& area, bool large, Card& card)
      : table_(table), area_(area), large_(large), card_(card) {
    const double unit = area.height / rows_of(table);
    double y = area.y;
    for (const double weight : table.row_weights) {
      tops_.push_back(y);
      y += weight * unit;
    }
    tops_.push_back(area.bottom());
  }

  void run() {
    choose_size();
    rules();
    for (const PanelCell& cell : table_.cells) cell.breaker ? filled(cell) : empty(cell);
    for (const TieBracket& tie : table_.ties) bracket(tie);
  }

 private:
  [[nodiscard]] double y_of_half(int half) const {
    const auto row = static_cast<std::size_t>(half / 2);
    return half % 2 == 0 ? tops_[row] : (tops_[row] + tops_[row + 1]) / 2;
  }
  [[nodiscard]] Area area_of(const PanelCell& cell) const {
    const double width = area_.width / table_.columns, top = y_of_half(cell.first_half);
    return {area_.x + cell.column * width, top, width, y_of_half(cell.first_half + cell.halves) - top};
  }
  [[nodiscard]] Area text_area(const PanelCell& cell) const {
    const Area area = area_of(cell);
    const double mark = cell.mark.empty() ? 0 : mark_width_mm(cell.mark) + kPadMm;
    const double left = area.x + number_width_mm(large_) + kPadMm;
    const double right = area.right() - kPadMm - mark - (amps_ ? kAmpsWidthMm : 0);
    return {left, area.y + kRowPadMm, right - left, area.height - 2 * kRowPadMm};
  }

  /// Do all descriptions fit in normal type of this size?
  [[nodiscard]] bool all_fit(double points) const {
    const std::vector<TextStyle> ladder{label_ladder(points).front()};
    return std::ranges::all_of(table_.cells, [&](const PanelCell& cell) {
      if (!cell.breaker) return true;
      const Area area = text_area(cell);
      const std::string words = with_units_kept(cell.text);
      const FittedText fitted = fit_text(words, ladder, area.width, area.height);
      return !fitted.cut && !measure_text(words, fitted.style, area.width).split_word;
    });
  }

  /// One size for the whole card: the largest at which everything is in normal type. Ratings are
  /// shown where that does not press the words together.
  void choose_size() {
    const double least = least_label_points(large_), largest = least + 4;
    points_ = least;
    amps_ = true;
    amps_ = all_fit(least);
    while (points_ < largest && all_fit(points_ + 1)) points_ += 1;
  }

  void rules() {
    CardSide& front = card_.front;
    for (const PanelCell& cell : table_.cells) {
      const Area area = area_of(cell);
      const double x = area.x + number_width_mm(large_);
      front.lines.push_back({x, area.y, x, area.bottom(), kThinMm});
      if (area.bottom() < area_.bottom() - 0.01) front.lines.push_back({area.x, area.bottom(), area.right(), area.bottom(), kThinMm});
    }
    if (table_.columns == 2) {
      const double middle = area_.x + area_.width / 2;
      front.lines.push_back({middle, area_.y, middle, area_.bottom(), kMiddleMm});
    }
    front.frames.push_back({area_, kHeavyMm});
  }

  void number(const PanelCell& cell, double largest) {
    const Area area = area_of(cell);
    const bool tied = std::ranges::any_of(table_.ties, [&](const TieBracket& tie) {
      return tie.column == cell.column && tie.first_half < cell.first_half + cell.halves && cell.first_half <= tie.last_half;
    });
    const double width = number_width_mm(large_) - 1.7 * kPadMm - (tied ? kBracketMm : 0);
    const Area inside{area.x + kPadMm, area.y, width, area.height};
    const double least = cell.breaker ? 14 : 10;
    for (double points = largest; points >= least; points -= 1) {
      const TextStyle style{cell.breaker ? Face::bold : Face::normal, points, Align::left, 1};
      const TextExtent extent = measure_text(number_text(cell), style, 1000);
      if (extent.width_mm > inside.width || extent.height_mm > inside.height + 0.6) continue;
      card_.front.texts.push_back({inside, style, number_text(cell)});
      return;
    }
    stacked_number(cell, inside);
  }

  /// "13b" above "15a", where they do not fit beside each other.
  void stacked_number(const PanelCell& cell, const Area& inside) {
    const auto count = static_cast<double>(cell.numbers.size());
    for (std::size_t i = 0; i < cell.numbers.size(); ++i) {
      const double height = std::min(inside.height / count, 8.0);
      const double top = inside.y + (inside.height - count * height) / 2 + static_cast<double>(i) * height;
      card_.front.texts.push_back({{inside.x, top, inside.width, height}, {Face::bold, 14, Align::left, 1}, cell.numbers[i]});
    }
  }

  void filled(const PanelCell& cell) {
    number(cell, cell.halves > 1 ? (large_ ? 24 : 18) : 14);
    const Area area = text_area(cell);
    const std::string words = with_units_kept(cell.text);
    const FittedText fitted = fit_text(words, label_ladder(points_), area.width, area.height);
    card_.front.texts.push_back({area, fitted.style, words});
    if (fitted.cut)
      card_.warnings.push_back("The description of " + cell_name(cell) + " does not fit its cell and is cut on the card: '" +
                               cell.text + "'. Use a larger pocket or shorter names.");
    if (fitted.unknown_glyphs > 0)
      card_.warnings.push_back("The description of " + cell_name(cell) + " has " + unknown_glyphs_text(fitted.unknown_glyphs));
    extras(cell, area);
  }

  /// Rating and backup mark, right of the description.
  void extras(const PanelCell& cell, const Area& words) {
    if (amps_ && cell.amps > 0)
      card_.front.texts.push_back({{words.right(), words.y, kAmpsWidthMm, words.height},
                                   {Face::normal, 10, Align::right, 1},
                                   std::to_string(cell.amps) + "\u00A0A"});
    if (cell.mark.empty()) return;
    const double width = mark_width_mm(cell.mark), height = 6;
    const Area cell_area = area_of(cell);
    const Area box{cell_area.right() - kPadMm - width, cell_area.y + (cell_area.height - height) / 2, width, height};
    card_.front.frames.push_back({box, 0.4});
    card_.front.texts.push_back({box, {Face::bold, kLabelPoints, Align::center, 1}, cell.mark});
  }

  void empty(const PanelCell& cell) {
    number(cell, large_ ? 14 : 12);
    const Area area = text_area(cell);
    card_.front.texts.push_back({area, {Face::normal, large_ ? 12.0 : 10.0, Align::left, 1}, kEmptyText});
  }

  /// A heavy bracket at the left edge of the numbers, from the middle of the first tied handle to
  /// the middle of the last.
  void bracket(const TieBracket& tie) {
    const double x = area_.x + tie.column * area_.width / table_.columns + number_width_mm(large_) - 1.2;
    const auto middle = [&](int half) {
      const PanelCell* found = nullptr;
      for (const PanelCell& cell : table_.cells)
        if (cell.column == tie.column && cell.first_half <= half && half < cell.first_half + cell.halves) found = &cell;
      const Area area = found == nullptr ? Area{} : area_of(*found);
      return area.y + area.height / 2;
    };
    const double top = middle(tie.first_half), bottom = middle(tie.last_half);
    card_.front.lines.push_back({x, top, x, bottom, 0.8});
    for (const double y : {top, bottom}) card_.front.lines.push_back({x - kBracketMm + 0.6, y, x + 0.4, y, 0.8});
  }

  const PanelCells& table_;
  Area area_;
  bool large_;
  Card& card_;
  std::vector<double> tops_;
  double points_ = kLabelPoints;
  bool amps_ = false;
};

}  // namespace

double least_row_mm(bool large) {
  return text_height_mm({Face::normal, least_label_points(large), Align::left, 1}, 2) + 2 * kRowPadMm;
}

double least_table_width_mm(const PanelCells& table, bool large) {
  double mark = 0;
  for (const PanelCell& cell : table.cells) mark = std::max(mark, cell.mark.empty() ? 0 : mark_width_mm(cell.mark) + kPadMm);
  return table.columns * (number_width_mm(large) + 2 * kPadMm + mark + kLeastTextMm * least_label_points(large) / kLabelPoints);
}

double rows_of(const PanelCells& table) { return std::accumulate(table.row_weights.begin(), table.row_weights.end(), 0.0); }

void lay_out_table(const PanelCells& table, const Area& area, bool large, Card& card) { TableLayout(table, area, large, card).run(); }

}  // namespace ohmstead
