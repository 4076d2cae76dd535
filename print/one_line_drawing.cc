#include "print/one_line_drawing.h"

#include <algorithm>
#include <deque>

#include "print/fit_text.h"
#include "print/symbols.h"
#include "print/text.h"

namespace ohmstead {

namespace {

constexpr double kLineX = 4.5, kWordsX = 9.5;     ///< in a column: the line, and the words beside it
constexpr double kBusMm = 1.1, kAfterBusMm = 3;
constexpr double kTitleMm = 7;
constexpr double kWidestColumnMm = 62;
constexpr int kFewColumns = 4;                    ///< up to so many have room for larger words
constexpr double kNamePoints = 9, kLargerPoints = 10, kPanelPoints = 11;

int side_columns(const std::vector<OneLineDevice>& chain) {
  return std::ranges::any_of(chain, [](const OneLineDevice& d) { return !d.other_side.empty(); }) ? 1 : 0;
}

/// One diagram: a panel, those of its branches that are drawn here, and the panels under them.
class Diagram {
 public:
  Diagram(const OneLine& line, double width_mm, int deepest) : line_(line), width_(width_mm), deepest_(deepest) {}

  /// Branches `from` to `to` of the panel. Panels that have no room are put on `later`.
  PaperBlock draw(std::size_t panel, std::size_t from, std::size_t to, std::deque<std::size_t>& later) {
    root_ = panel, from_ = from, to_ = to, later_ = &later;
    const int columns = std::max(1, columns_of(panel, 0));
    column_ = std::min(kWidestColumnMm, width_ / columns);
    points_ = columns <= kFewColumns ? kLargerPoints : kNamePoints;
    double y = 0;
    if (const std::string words = title(); !words.empty()) {
      block_.texts.push_back({{0, 0, width_, kTitleMm - 1}, {Face::bold, 12, Align::left, 1}, paper_text(words)});
      block_.height_mm = y = kTitleMm;
    }
    if (from > 0) {
      y += 1;
    } else {
      y = draw_supplies(panel, 0, y);
    }
    draw_panel(panel, 0, y, 0);
    if (to < line_.panels[panel].branches.size()) say_continued(panel);
    return std::move(block_);
  }

  /// Columns a panel needs, with the panels under it that are drawn here.
  [[nodiscard]] int columns_of(std::size_t panel, int depth) const {
    const OneLinePanel& p = line_.panels[panel];
    const bool continued = is_continued(panel);
    int below = p.circuits.empty() || continued ? 0 : 1;
    const int above = continued ? 1 : 1 + static_cast<int>(p.backfed.size()) + side_columns(p.supply);
    for (std::size_t b = first(panel); b < last(panel); ++b) below += columns_of_branch(p.branches[b], depth);
    return std::max({1, above, below});
  }

 private:
  /// Its supplies and its own circuits were drawn before.
  [[nodiscard]] bool is_continued(std::size_t panel) const { return panel == root_ && from_ > 0; }
  void say_continued(std::size_t panel) {
    const double high = text_height_mm({Face::normal, kNamePoints}, 1) + 0.4;
    block_.texts.push_back({{0, block_.height_mm + 2, width_, high}, {Face::normal, kNamePoints, Align::left, 1}, paper_text("Further branches of " + line_.panels[panel].name + " are in the next diagram.")});
    block_.height_mm += 2 + high;
  }
  [[nodiscard]] std::string title() const {
    const OneLinePanel& p = line_.panels[root_];
    if (from_ > 0) return p.name + ", continued";
    return p.supply.empty() || line_.roots.size() > 1 ? p.name : "";
  }
  [[nodiscard]] std::size_t first(std::size_t panel) const { return panel == root_ ? from_ : 0; }
  [[nodiscard]] std::size_t last(std::size_t panel) const { return panel == root_ ? to_ : line_.panels[panel].branches.size(); }
  [[nodiscard]] bool drawn_later(const OneLineBranch& branch, int depth) const {
    if (branch.panel < 0) return false;
    const OneLinePanel& p = line_.panels[static_cast<std::size_t>(branch.panel)];
    return depth >= deepest_ && (!p.branches.empty() || !p.backfed.empty());
  }
  [[nodiscard]] int columns_of_branch(const OneLineBranch& branch, int depth) const {
    const int side = 1 + side_columns(branch.chain);
    return branch.panel < 0 || drawn_later(branch, depth) ? side : std::max(side, columns_of(static_cast<std::size_t>(branch.panel), depth + 1));
  }

  /// A name in bold with words under it; returns where they end.
  double words_at(Spot at, const std::string& name, const std::vector<std::string>& words, double name_points = 0) {
    const double wide = column_ - kWordsX - 1.5;
    double y = at.y;
    const auto add = [&](const std::string& text, Face face, double points) {
      const TextStyle style{face, points, Align::left, 100};
      const std::string printed = paper_text(text);
      const TextStyle fitted = fit_text(printed, {style, {style.face == Face::bold ? Face::bold : Face::narrow, style.points, style.align, style.lines}}, wide, 100).style;
      const double high = measure_text(printed, fitted, wide).height_mm + 0.2;
      block_.texts.push_back({{at.x + kWordsX, y, wide, high}, fitted, printed});
      y += high;
    };
    if (!name.empty()) add(name, Face::bold, name_points > 0 ? name_points : points_);
    for (const std::string& text : words) add(text, Face::normal, points_);
    block_.height_mm = std::max(block_.height_mm, y);
    return y;
  }

  /// A chain downwards from `top` in the column that begins at `x`; returns where its line ends.
  double draw_chain(const std::vector<OneLineDevice>& chain, double x, double top, bool from_bus) {
    double y = top;
    if (from_bus) draw_line(block_, {x + kLineX, y}, {x + kLineX, y + kAfterBusMm}), y += kAfterBusMm;
    for (const OneLineDevice& device : chain) {
      const double above = device.other_side.empty() ? y : draw_other_side(device, x, y);
      const Spot spot{x + kLineX, above};
      draw_device(block_, device.symbol, spot);
      const double end = std::max(above + kDeviceMm, words_at({x, above + 0.3}, device.name, device.words) + 1.2);
      draw_line(block_, {spot.x, above + kDeviceMm}, {spot.x, end});
      y = end;
    }
    return y;
  }

  /// The backup side of a transfer device, in the column to its right; the device is drawn beside its end. Returns the device's top.
  double draw_other_side(const OneLineDevice& device, double x, double y) {
    const double side_x = x + column_, end = draw_chain(device.other_side, side_x, y, false), top = end + 1;
    draw_line(block_, {x + kLineX, y}, {x + kLineX, top});
    const Spot from = backup_side({x + kLineX, top});
    draw_line(block_, {side_x + kLineX, end}, {side_x + kLineX, from.y}), draw_line(block_, {side_x + kLineX, from.y}, from);
    return top;
  }

  /// What stands above the bus of a panel that begins a diagram, or that a source is fed into.
  double draw_supplies(std::size_t panel, double x, double y) {
    const OneLinePanel& p = line_.panels[panel];
    std::vector<double> ends{p.supply.empty() ? reference(panel, x, y) : draw_chain(p.supply, x, y, false)};
    return draw_backfed(panel, x, y, ends.front());
  }

  double reference(std::size_t panel, double x, double y) {
    draw_line(block_, {x + kLineX, y}, {x + kLineX, y + kDeviceMm});
    draw_arrow_down(block_, {x + kLineX, y + kDeviceMm});
    return std::max(y + kDeviceMm, words_at({x, y}, "From another diagram", {"feeds " + line_.panels[panel].name}) + 1);
  }

  /// Sources that are fed into the bus; all lines are brought down to the same height, which is returned.
  double draw_backfed(std::size_t panel, double x, double y, double end) {
    const OneLinePanel& p = line_.panels[panel];
    std::vector<std::pair<double, double>> lines{{x, end}};
    double bottom = end;
    for (std::size_t i = 0; i < p.backfed.size(); ++i) {
      const double at = x + column_ * (1 + side_columns(p.supply) + static_cast<double>(i));
      const double own = draw_chain(p.backfed[i], at, y, false);
      const double words = words_at({at, own}, "", {p.interlocks[i]}) + 1;
      lines.emplace_back(at, own);
      bottom = std::max({bottom, own, words});
    }
    for (const auto& [at, from] : lines) draw_line(block_, {at + kLineX, from}, {at + kLineX, bottom});
    if (std::ranges::find(p.interlocked, true) != p.interlocked.end()) bottom = draw_interlocks(panel, x, bottom);
    return bottom;
  }

  /// Under the devices: a dashed line from the main's line to each interlocked one.
  double draw_interlocks(std::size_t panel, double x, double y) {
    const OneLinePanel& p = line_.panels[panel];
    double end = y + 2.5;
    for (std::size_t i = 0; i < p.backfed.size(); ++i) {
      const double at = x + column_ * (1 + side_columns(p.supply) + static_cast<double>(i));
      if (p.interlocked[i]) draw_line(block_, {x + kLineX, y + 1.2}, {at + kLineX, y + 1.2}, 0.45, true);
      draw_line(block_, {at + kLineX, y}, {at + kLineX, end});
    }
    draw_line(block_, {x + kLineX, y}, {x + kLineX, end});
    return end;
  }

  /// The bus at `y`, and what leaves it.
  void draw_panel(std::size_t panel, double x, double y, int depth) {
    const OneLinePanel& p = line_.panels[panel];
    const double bus = words_at({x, y + 0.5}, p.name, p.words, kPanelPoints) + 1.2;
    const bool continued = is_continued(panel);
    if (!continued) draw_line(block_, {x + kLineX, y}, {x + kLineX, bus});
    for (std::size_t i = 0; i < p.backfed.size() && !continued; ++i) {
      const double at = x + column_ * (1 + side_columns(p.supply) + static_cast<double>(i)) + kLineX;
      draw_line(block_, {at, y}, {at, bus});
    }
    double at = x, farthest = x + column_ * (continued || p.backfed.empty() ? 0 : side_columns(p.supply) + static_cast<double>(p.backfed.size()));
    if (!p.circuits.empty() && !continued) draw_circuits(p.circuits, at, bus), at += column_;
    for (std::size_t b = first(panel); b < last(panel); ++b) {
      farthest = std::max(farthest, at);
      draw_branch(p.branches[b], at, bus, depth);
      at += column_ * columns_of_branch(p.branches[b], depth);
    }
    draw_line(block_, {x + 1, bus}, {std::max(farthest + kLineX + 3.5, x + kLineX + 12), bus}, kBusMm);
  }

  void draw_circuits(const std::string& words, double x, double y) {
    draw_line(block_, {x + kLineX, y}, {x + kLineX, y + 8});
    draw_arrow_down(block_, {x + kLineX, y + 8});
    words_at({x, y + 1.8}, words, {});
    block_.height_mm = std::max(block_.height_mm, y + 9);
  }

  void draw_branch(const OneLineBranch& branch, double x, double bus, int depth) {
    double y = draw_chain(branch.chain, x, bus, true);
    if (branch.panel >= 0 && !drawn_later(branch, depth)) {
      const auto panel = static_cast<std::size_t>(branch.panel);
      return draw_panel(panel, x, draw_backfed(panel, x, y, y), depth + 1);
    }
    draw_line(block_, {x + kLineX, y}, {x + kLineX, y + 5});
    draw_arrow_down(block_, {x + kLineX, y + 5});
    const std::string ends = branch.panel < 0 ? branch.ends : line_.panels[static_cast<std::size_t>(branch.panel)].name + ": in a diagram of its own";
    words_at({x, y + 0.5}, ends, {});
    block_.height_mm = std::max(block_.height_mm, y + 6);
    if (branch.panel >= 0 && std::ranges::find(*later_, static_cast<std::size_t>(branch.panel)) == later_->end()) later_->push_back(static_cast<std::size_t>(branch.panel));
  }

  const OneLine& line_;
  double width_, column_ = kWidestColumnMm, points_ = kNamePoints;
  int deepest_;
  std::size_t root_ = 0, from_ = 0, to_ = 0;
  std::deque<std::size_t>* later_ = nullptr;
  PaperBlock block_;
};

constexpr int kDeepest = 6;

/// Diagram after diagram, until every panel is drawn.
class Drawings {
 public:
  Drawings(const Paper& paper, const OneLine& line) : paper_(paper), line_(line), open_(line.roots.begin(), line.roots.end()) {}

  PaperBlocks draw() {
    std::vector<bool> done(line_.panels.size(), false);
    while (!open_.empty()) {
      const std::size_t panel = open_.front();
      open_.pop_front();
      if (done[panel]) continue;
      done[panel] = true;
      std::size_t from = 0;
      do from = draw_some(panel, from);
      while (from < line_.panels[panel].branches.size());
    }
    return std::move(blocks_);
  }

 private:
  /// Branches from `from` on that have room beside each other, with as many levels of panels as have room; at least one. Returns the next.
  std::size_t draw_some(std::size_t panel, std::size_t from) {
    const std::size_t all = line_.panels[panel].branches.size();
    for (std::size_t to = all;; --to)
      for (int deepest = kDeepest; deepest >= 0; --deepest) {
        std::deque<std::size_t> later = open_;
        Diagram diagram(line_, paper_.width_mm(), deepest);
        PaperBlock block = diagram.draw(panel, from, to, later);
        const bool least = deepest == 0 && to <= from + 1;
        if (!least && (diagram.columns_of(panel, 0) > kMostOneLineColumns || block.height_mm > paper_.room_mm() - 2)) continue;
        open_ = std::move(later);
        block.above_mm = 5;
        blocks_.push_back(std::move(block));
        return std::max(to, std::min(from + 1, all));
      }
  }

  const Paper& paper_;
  const OneLine& line_;
  std::deque<std::size_t> open_;  ///< panels that begin a diagram
  PaperBlocks blocks_;
};

}  // namespace

PaperBlocks one_line_drawings(const Paper& paper, const OneLine& line) { return Drawings(paper, line).draw(); }

}  // namespace ohmstead
