#include "print/plan_drawing.h"

#include <algorithm>
#include <cmath>

#include "ask/watts.h"
#include "print/fit_text.h"
#include "print/symbols.h"
#include "print/text.h"

namespace ohmstead {

namespace {

constexpr double kTitleMm = 6, kTopMm = 3;        ///< above the bars
constexpr double kStartMm = 5, kGapMm = 1.2, kBarMm = 20, kLeaderMm = 7, kBetweenMm = 5;
constexpr double kLeastBarsMm = 78, kUsualBarsMm = 92;
constexpr double kHatchMm = 1.7;
constexpr double kLabelGapMm = 0.5;
const TextStyle kLabel{Face::normal, 9.5, Align::left, 100};
const TextStyle kLimitLabel{Face::bold, 9.5, Align::left, 100};

/// A word beside the bar, and the height in the bar that it speaks of.
struct Label {
  std::string words;
  TextStyle style;
  double watts = 0;      ///< where it points to
  double height_mm = 0;
  double y = 0;          ///< of its middle
};

struct Drawing {
  PaperBlock block;
  double mm_per_watt = 0, foot_y = 0;
  [[nodiscard]] double y_of(double watts) const { return foot_y - watts * mm_per_watt; }
  void line(const Segment& segment, double width, bool dashed = false) { block.lines.push_back({segment, width, dashed}); }
  void dashed_frame(const Area& area) {
    line({area.x, area.y, area.right(), area.y}, 0.3, true), line({area.x, area.bottom(), area.right(), area.bottom()}, 0.3, true);
    line({area.x, area.y, area.x, area.bottom()}, 0.3, true), line({area.right(), area.y, area.right(), area.bottom()}, 0.3, true);
  }
};

int largest_on_demand(const PictureColumn& column) { return column.on_demand.empty() ? 0 : column.on_demand.front().watts; }

double top_watts(const PictureColumn& column) {
  return std::max({1, column.limit, column.starting_limit, column.running + column.start_extra, column.running + largest_on_demand(column)});
}

std::string block_words(const House& house, const PictureBlock& block) {
  return paper_text(load_text(house, house.loads[block.load]) + ", " + watts_text(block.watts) + (block.half ? " of it on this leg" : ""));
}

Label label(const std::string& words, const TextStyle& style, double watts, double width) {
  return {words, style, watts, measure_text(words, style, width).height_mm + kLabelGapMm, 0};
}

double sum_of_heights(const std::vector<Label>& labels) {
  double sum = 0;
  for (const Label& one : labels) sum += one.height_mm;
  return sum;
}

/// Words of the blocks from the bottom up; from `apart` on they are named together.
std::vector<Label> block_labels(const House& house, const PictureColumn& column, std::size_t apart, double width) {
  std::vector<Label> labels;
  double below = 0, rest = 0;
  for (std::size_t i = 0; i < column.together.size(); ++i) {
    const PictureBlock& block = column.together[i];
    if (i < apart) labels.push_back(label(block_words(house, block), kLabel, below + block.watts / 2.0, width));
    else rest += block.watts;
    below += block.watts;
  }
  const std::size_t left = column.together.size() - std::min(apart, column.together.size());
  if (left > 0)
    labels.push_back(label(paper_text("and " + std::to_string(left) + " smaller, together " + watts_text(std::llround(rest))), kLabel, below - rest / 2, width));
  return labels;
}

/// When wanted: the largest by its outline, the others with it.
std::string on_demand_words(const House& house, const PictureColumn& column, std::size_t apart) {
  std::string words = "when wanted: ";
  for (std::size_t i = 0; i < std::min(apart, column.on_demand.size()); ++i) words += (i == 0 ? "" : "; or ") + block_words(house, column.on_demand[i]);
  if (column.on_demand.size() > apart) words += "; or " + std::to_string(column.on_demand.size() - apart) + " smaller";
  return words;
}

std::vector<Label> all_labels(const House& house, const PictureColumn& column, std::size_t apart, double width) {
  std::vector<Label> labels = block_labels(house, column, apart, width);
  if (!column.on_demand.empty())
    labels.push_back(label(on_demand_words(house, column, apart), kLabel, column.running + largest_on_demand(column) * 0.75, width));
  labels.push_back(label(watts_text(column.limit) + ": what it gives", kLimitLabel, column.limit, width));
  if (column.starting_limit > column.limit)
    labels.push_back(label(watts_text(column.starting_limit) + ": for a start", kLimitLabel, column.starting_limit, width));
  return labels;
}

/// As many blocks by their own words as have room.
std::vector<Label> labels_for(const House& house, const PictureColumn& column, double width, double most_mm) {
  std::size_t apart = std::max(column.together.size(), column.on_demand.size());
  std::vector<Label> labels = all_labels(house, column, apart, width);
  while (apart > 1 && sum_of_heights(labels) > most_mm) labels = all_labels(house, column, --apart, width);
  return labels;
}

/// Gives each label a place as near as possible to what it points to, none over another, between `top` and `bottom`.
void spread(std::vector<Label>& labels, const Drawing& drawing, double top, double bottom) {
  std::ranges::stable_sort(labels, std::ranges::greater{}, &Label::watts);
  double edge = top;
  for (Label& one : labels) {
    one.y = std::max(edge + one.height_mm / 2, drawing.y_of(one.watts));
    edge = one.y + one.height_mm / 2;
  }
  edge = bottom;
  for (auto one = labels.rbegin(); one != labels.rend(); ++one) {
    one->y = std::min(one->y, edge - one->height_mm / 2);
    edge = one->y - one->height_mm / 2;
  }
}

void draw_blocks(Drawing& drawing, const PictureColumn& column, double bar_x) {
  double below = 0;
  bool up = true;
  for (const PictureBlock& block : column.together) {
    const Area area{bar_x, drawing.y_of(below + block.watts), kBarMm, block.watts * drawing.mm_per_watt};
    drawing.block.frames.push_back({area, 0.3});
    if (area.height >= 0.8) draw_hatching(drawing.block, area, up ? Hatching::up : Hatching::down, kHatchMm);
    up = !up, below += block.watts;
  }
  if (const int most = largest_on_demand(column); most > 0)
    drawing.dashed_frame({bar_x + 0.8, drawing.y_of(column.running + most), kBarMm - 1.6, most * drawing.mm_per_watt});
  if (column.start_extra > 0) {
    const double start_x = bar_x - kGapMm - kStartMm;
    drawing.block.frames.push_back({{start_x, drawing.y_of(column.running + column.start_extra), kStartMm, column.start_extra * drawing.mm_per_watt}, 0.3});
  }
}

void draw_column(Drawing& drawing, const PictureColumn& column, std::vector<Label> labels, const Area& area, bool only) {
  const double bar_x = area.x + kStartMm + kGapMm, bar_right = bar_x + kBarMm, words_x = bar_right + kLeaderMm;
  const std::string title = (only ? "The whole source: " : "Leg " + std::to_string(column.leg) + ": ") + watts_text(column.running) + " of " + watts_text(column.limit);
  drawing.block.texts.push_back({{area.x, 0, area.width, kTitleMm - 0.8}, {Face::bold, 10.5, Align::left, 1}, paper_text(title)});
  draw_blocks(drawing, column, bar_x);
  drawing.line({area.x, drawing.foot_y, bar_right + 1, drawing.foot_y}, 0.5);
  drawing.line({area.x, drawing.y_of(column.limit), bar_right + 1.5, drawing.y_of(column.limit)}, 0.8);
  if (column.starting_limit > column.limit)
    drawing.line({area.x, drawing.y_of(column.starting_limit), bar_right + 1.5, drawing.y_of(column.starting_limit)}, 0.4, true);
  spread(labels, drawing, kTitleMm, drawing.block.height_mm);
  for (const Label& one : labels) {
    const Area words{words_x, one.y - one.height_mm / 2, area.right() - words_x, one.height_mm};
    drawing.line({bar_right + 1.5, drawing.y_of(one.watts), words_x - 1, one.y}, 0.15);
    drawing.block.texts.push_back({words, one.style, one.words});
  }
}

}  // namespace

PaperBlock plan_drawing(const House& house, const PlanPicture& picture, double width_mm, double most_mm) {
  Drawing drawing;
  if (picture.columns.empty()) return drawing.block;
  const auto count = static_cast<double>(picture.columns.size());
  const double each = (width_mm - (count - 1) * kBetweenMm) / count;
  const double words = each - kStartMm - kGapMm - kBarMm - kLeaderMm;
  double most_watts = 1, needed = 0;
  std::vector<std::vector<Label>> labels;
  for (const PictureColumn& column : picture.columns) {
    most_watts = std::max(most_watts, top_watts(column));
    labels.push_back(labels_for(house, column, words, most_mm - kTitleMm));
    needed = std::max(needed, sum_of_heights(labels.back()));
  }
  const double bars = std::clamp(std::max(needed, kUsualBarsMm), kLeastBarsMm, std::max(kLeastBarsMm, most_mm - kTitleMm));
  drawing.block.height_mm = kTitleMm + bars;
  drawing.foot_y = drawing.block.height_mm - 0.5;
  drawing.mm_per_watt = (bars - kTopMm) / most_watts;
  for (std::size_t i = 0; i < labels.size(); ++i)
    draw_column(drawing, picture.columns[i], labels[i], {static_cast<double>(i) * (each + kBetweenMm), 0, each, drawing.block.height_mm}, labels.size() == 1);
  return drawing.block;
}

}  // namespace ohmstead
