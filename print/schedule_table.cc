#include "print/schedule_table.h"

#include <algorithm>
#include <map>

#include "ask/watts.h"
#include "house/index.h"
#include "print/fit_text.h"
#include "print/text.h"
#include "rules/panel_cells.h"

namespace ohmstead {

namespace {

constexpr double kNumberMm = 11.5, kAmpsMm = 8.5, kPolesMm = 5, kVaMm = 11.5;
constexpr double kWidestSideMm = 125;
constexpr double kLeastHalfMm = 2.35, kLeastSplitHalfMm = 4.3;
constexpr double kPadMm = 0.9;
constexpr std::size_t kMostRunRows = 14;   ///< rows that cannot be parted; they have room on a page even with words of four lines
const TextStyle kNumber{Face::bold, 9.5, Align::center, 1}, kFigure{Face::normal, 9, Align::center, 1}, kVa{Face::normal, 9, Align::right, 1}, kHead{Face::bold, 9, Align::center, 1};

/// Where the columns of one side are.
struct Side {
  double x = 0, width = 0;
  int legs = 2;
  [[nodiscard]] double words_x() const { return x + kNumberMm; }
  [[nodiscard]] double words_mm() const { return width - kNumberMm - kAmpsMm - kPolesMm - legs * kVaMm; }
  [[nodiscard]] double amps_x() const { return words_x() + words_mm(); }
  [[nodiscard]] double poles_x() const { return amps_x() + kAmpsMm; }
  [[nodiscard]] double va_x(int leg) const { return poles_x() + kPolesMm + (leg - 1) * kVaMm; }
};

/// What stands in a cell.
struct Cell {
  PanelCell place;
  const ScheduleEntry* entry = nullptr;       ///< none: an empty space
  std::size_t first_pole = 0;                 ///< of the entry, that the first number of this cell is
  TextStyle style;
  std::string words;
};

std::string words_of(const PanelCell& cell, const ScheduleEntry* entry) {
  if (entry == nullptr) return "SPACE";
  std::string kind = cell.text.starts_with("Tied to") || cell.text.starts_with("other pole") ? "" : entry->kind;
  if (entry->words.use == CircuitUse::feeder || entry->words.use == CircuitUse::inlet)
    for (const char* said : {"feeder, ", "feeder", "backfed, ", "backfed"})
      if (const auto at = kind.find(said); at != std::string::npos) kind.erase(at, std::string(said).size());
  return cell.text + (kind.empty() ? "" : " (" + kind + ")") + (entry->words.mark.empty() ? "" : " [" + entry->words.mark + "]");
}

TextStyle style_for(const std::string& words, double width) {
  const TextStyle normal{Face::normal, 9, Align::left, 100}, narrow{Face::narrow, 9, Align::left, 100};
  const TextExtent extent = measure_text(words, normal, width);
  return extent.lines <= 2 && !extent.split_word ? normal : narrow;
}

class Table {
 public:
  Table(const House& house, const PanelSchedule& schedule, double width_mm) : house_(house), schedule_(schedule) {
    std::vector<CircuitWords> words;
    for (const ScheduleEntry& entry : schedule.entries) words.push_back(entry.words);
    const PanelCells cells = panel_cells(house, row(house, schedule.panel), words);
    const double wide = std::min(kWidestSideMm, width_mm / cells.columns);
    for (int c = 0; c < cells.columns; ++c) sides_.push_back({c * wide, wide, schedule.legs});
    halves_ = 2 * cells.row_weights.size();
    take(cells);
    part_long_runs();
    set_heights();
  }

  ScheduleTable lay_out() {
    ScheduleTable table;
    table.head = head();
    for (std::size_t from = 0; from < halves_;) {
      std::size_t to = from + 2;
      while (to < halves_ && crossed(to)) to += 2;
      table.rows.push_back(rows(from, std::min(to, halves_)));
      from = to;
    }
    return table;
  }

 private:
  void take(const PanelCells& cells) {
    std::map<std::uint64_t, std::size_t> used;  // poles of a breaker that stand in cells before
    for (const PanelCell& place : cells.cells) {
      const auto entry = std::ranges::find_if(schedule_.entries, [&](const ScheduleEntry& e) { return place.breaker && e.words.breaker == place.breaker; });
      Cell cell{place, entry == schedule_.entries.end() ? nullptr : &*entry, place.breaker ? used[place.breaker.value] : 0, {}, ""};
      if (place.breaker) used[place.breaker.value] += place.numbers.size();
      cell.words = paper_text(words_of(place, cell.entry));
      cell.style = style_for(cell.words, side(cell).words_mm() - 2 * kPadMm);
      cells_.push_back(std::move(cell));
    }
  }
  [[nodiscard]] const Side& side(const Cell& cell) const { return sides_[static_cast<std::size_t>(cell.place.column)]; }
  [[nodiscard]] std::size_t first(const Cell& cell) const { return static_cast<std::size_t>(cell.place.first_half); }
  [[nodiscard]] std::size_t end(const Cell& cell) const { return std::min(halves_, first(cell) + static_cast<std::size_t>(cell.place.halves)); }
  [[nodiscard]] bool crossed(std::size_t half) const {
    return std::ranges::any_of(cells_, [&](const Cell& cell) { return first(cell) < half && end(cell) > half; });
  }
  [[nodiscard]] double height(std::size_t from, std::size_t to) const {
    double sum = 0;
    for (std::size_t half = from; half < to; ++half) sum += height_[half];
    return sum;
  }

  /// Where breakers of several poles leave no row that ends them all on both sides, cells are parted, so that a page can end there.
  void part_long_runs() {
    for (std::size_t from = 0, half = 2; half < halves_; half += 2) {
      if (!crossed(half)) from = half;
      if (half - from < 2 * kMostRunRows) continue;
      const std::size_t count = cells_.size();
      for (std::size_t c = 0; c < count; ++c)
        if (first(cells_[c]) < half && end(cells_[c]) > half) cells_.push_back(parted(cells_[c], static_cast<int>(half)));
      from = half;
    }
  }
  /// Cuts a cell at this half; what is below it comes back.
  [[nodiscard]] Cell parted(Cell& cell, int half) const {
    Cell below = cell;
    std::size_t above = 0;
    for (int at = cell.place.first_half; at < half && above < cell.place.numbers.size(); ++above) at += place_halves(cell, above);
    below.place.first_half = half, below.place.halves = cell.place.first_half + cell.place.halves - half;
    below.place.numbers.assign(cell.place.numbers.begin() + static_cast<long>(above), cell.place.numbers.end());
    below.first_pole += above, below.words = paper_text("continued from " + cell.place.numbers.front());
    cell.place.halves = half - cell.place.first_half;
    cell.place.numbers.resize(above);
    return below;
  }
  /// Half rows of place `i` of a cell.
  [[nodiscard]] static int place_halves(const Cell& cell, std::size_t i) {
    if (cell.entry == nullptr || cell.entry->poles.empty()) return cell.place.halves;
    return cell.entry->poles[std::min(cell.first_pole + i, cell.entry->poles.size() - 1)].place.half == Half::whole ? 2 : 1;
  }

  void set_heights() {
    height_.assign(halves_, kLeastHalfMm);
    for (const Cell& cell : cells_)
      if (cell.place.halves == 1 || first(cell) % 2 == 1 || end(cell) % 2 == 1)
        for (std::size_t half = first(cell) / 2 * 2; half < std::min(halves_, (end(cell) + 1) / 2 * 2); ++half) height_[half] = kLeastSplitHalfMm;
    std::vector<const Cell*> smallest_first;
    for (const Cell& cell : cells_) smallest_first.push_back(&cell);
    std::ranges::stable_sort(smallest_first, {}, [](const Cell* cell) { return cell->place.halves; });
    for (const Cell* cell : smallest_first) {
      const double needed = measure_text(cell->words, cell->style, side(*cell).words_mm() - 2 * kPadMm).height_mm + 0.9, given = height(first(*cell), end(*cell));
      for (std::size_t half = first(*cell); half < end(*cell) && needed > given; ++half) height_[half] += (needed - given) / cell->place.halves;
    }
  }

  [[nodiscard]] PaperBlock head() const {
    PaperBlock block;
    block.height_mm = 5;
    for (const Side& side : sides_) {
      const auto say = [&](double x, double wide, const std::string& words, Align align) { block.texts.push_back({{x, 0, wide, 5}, {Face::bold, 9, align, 1}, words}); };
      say(side.x, kNumberMm, "No.", Align::center);
      say(side.words_x() + kPadMm, side.words_mm() - kPadMm, "Description", Align::left);
      say(side.amps_x(), kAmpsMm, "A", Align::center), say(side.poles_x(), kPolesMm, "P", Align::center);
      for (int leg = 1; leg <= side.legs; ++leg) say(side.va_x(leg), kVaMm - 0.8, "VA L" + std::to_string(leg), Align::right);
      block.frames.push_back({{side.x, 0, side.width, 5}, 0.45});
    }
    return block;
  }

  /// Rows from one half to another, with everything that stands in them.
  [[nodiscard]] PaperBlock rows(std::size_t from, std::size_t to) const {
    PaperBlock block;
    block.height_mm = height(from, to);
    block.lines.push_back({{0, block.height_mm, sides_.back().x + sides_.back().width, block.height_mm}, to == halves_ ? 0.45 : 0.2});
    for (const Side& side : sides_) {
      for (const double x : {side.x, side.x + side.width}) block.lines.push_back({{x, 0, x, block.height_mm}, 0.45});
      std::vector<double> rules{side.words_x(), side.amps_x(), side.poles_x()};
      for (int leg = 1; leg <= side.legs; ++leg) rules.push_back(side.va_x(leg));
      for (const double x : rules) block.lines.push_back({{x, 0, x, block.height_mm}, 0.12});
    }
    for (const Cell& cell : cells_)
      if (first(cell) >= from && first(cell) < to) draw(block, cell, height(from, first(cell)));
    return block;
  }

  void draw(PaperBlock& block, const Cell& cell, double y) const {
    const Side& s = side(cell);
    const double high = height(first(cell), end(cell));
    if (y > 0.01) block.lines.push_back({{s.x, y, s.x + s.width, y}, 0.2});
    draw_places(block, cell, y);
    block.texts.push_back({{s.words_x() + kPadMm, y, s.words_mm() - 2 * kPadMm, high}, cell.style, cell.words});
    if (cell.entry == nullptr || cell.first_pole > 0) return;
    block.texts.push_back({{s.amps_x(), y, kAmpsMm, high}, kFigure, cell.entry->amps});
    block.texts.push_back({{s.poles_x(), y, kPolesMm, high}, kFigure, std::to_string(cell.entry->pole_count)});
  }

  /// Number and volt-amperes of each place of a cell.
  void draw_places(PaperBlock& block, const Cell& cell, double y) const {
    const Side& s = side(cell);
    std::size_t half = first(cell);
    for (std::size_t i = 0; i < cell.place.numbers.size(); ++i) {
      const std::size_t next = std::min(half + static_cast<std::size_t>(place_halves(cell, i)), end(cell));
      const double high = height(half, next);
      block.texts.push_back({{s.x, y, kNumberMm, high}, kNumber, cell.place.numbers[i]});
      if (i > 0) block.lines.push_back({{s.x, y, s.words_x(), y}, 0.12});
      if (cell.entry != nullptr && cell.first_pole + i < cell.entry->poles.size()) {
        const SchedulePole& pole = cell.entry->poles[cell.first_pole + i];
        if (pole.va > 0) block.texts.push_back({{s.va_x(std::min(pole.leg, s.legs)), y, kVaMm - 0.8, high}, kVa, thousands(pole.va)});
      }
      y += high, half = next;
    }
  }

  const House& house_;
  const PanelSchedule& schedule_;
  std::vector<Side> sides_;
  std::size_t halves_ = 0;
  std::vector<Cell> cells_;
  std::vector<double> height_;  ///< of each half row
};

}  // namespace

ScheduleTable schedule_table(const House& house, const PanelSchedule& schedule, double width_mm) { return Table(house, schedule, width_mm).lay_out(); }

void add_schedule(Paper& paper, const House& house, const PanelSchedule& schedule) {
  const ScheduleTable table = schedule_table(house, schedule, paper.width_mm());
  PaperBlocks all = paper.paragraph("Panel " + schedule.name, {Face::bold, 14, Align::left, 100});
  for (const std::string& fact : schedule.facts)
    for (const PaperBlock& part : paper.paragraph(fact, {Face::normal, 10})) all.push_back(part);
  PaperBlocks sums = paper.paragraph("Connected load. " + [&] {
    std::string words;
    for (const std::string& sum : schedule.sums) words += (words.empty() ? "" : ";  ") + sum;
    return words;
  }() + ".", {Face::bold, 10});
  if (!sums.empty()) sums.front().above_mm = 1;
  double high = stacked(all).height_mm + table.head.height_mm + stacked(sums).height_mm + 3;
  for (const PaperBlock& block : table.rows) high += block.height_mm;
  if (high <= paper.room_mm()) {  // on one page
    PaperBlock head = table.head;
    head.above_mm = 1;
    all.push_back(std::move(head));
    std::ranges::copy(table.rows, std::back_inserter(all));
    std::ranges::copy(sums, std::back_inserter(all));
    return paper.add_whole(all, 6);
  }
  PaperBlock title = stacked(all);
  title.above_mm = 6, title.with_next = true;
  paper.add(std::move(title));
  add_with_head(paper, table.head, table.rows);
  for (PaperBlock& sum : sums) paper.add(std::move(sum));
}

}  // namespace ohmstead
