#include "print/floor_plan_drawing.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "print/fit_text.h"
#include "print/symbols.h"
#include "print/text.h"

namespace ohmstead {

namespace {

constexpr double kSymbolMm = 4.2, kSwatchMm = 3.6, kGapMm = 0.7, kBetweenMm = 2;
constexpr double kInsideMm = 1.4;       ///< between a wall and what is in the room
constexpr double kWallMm = 0.5;
constexpr double kScaleBarMm = 7, kFloorHeadMm = 19;  ///< under a floor, and above it with its name
constexpr double kMostMmPerM = 16;     ///< larger rooms would only be emptier
constexpr std::size_t kMostInBox = 60;  ///< points; a room with more of them goes on in a further box
const TextStyle kLabel{Face::bold, 9, Align::left, 1};
const TextStyle kRoom{Face::bold, 9.5, Align::left, 3}, kRoomNarrow{Face::narrow, 9, Align::left, 3};

double mark_width(const PlanPoint& point) {
  return kSymbolMm + kGapMm + kSwatchMm + kGapMm + measure_text(paper_text(point.label), kLabel, 100).width_mm + 0.3;
}

/// A room's name and marks in a box of this width; too narrow: no height.
struct RoomContent {
  PaperBlock block;
  bool fits = true;
};

TextStyle room_style(const std::string& name, double width) {
  const TextExtent extent = measure_text(name, kRoom, width);
  return extent.split_word || extent.cut || extent.lines > 2 ? kRoomNarrow : kRoom;
}

RoomContent room_content(const std::string& room, const std::vector<const PlanPoint*>& points, const FloorPlan& plan, double width) {
  RoomContent content;
  const std::string name = paper_text(room);
  const TextStyle style = room_style(name, width);
  const TextExtent extent = measure_text(name, style, width);
  content.fits = !extent.cut && !extent.split_word && extent.width_mm <= width + 0.01;
  const double high = extent.height_mm + 0.3;
  content.block.texts.push_back({{0, 0, width, high}, style, name});
  double x = 0, y = high + 0.6;
  for (const PlanPoint* point : points) {
    const double wide = mark_width(*point);
    if (wide > width) content.fits = false;
    if (x > 0 && x + wide > width) x = 0, y += kMarkMm;
    draw_point_mark(content.block, *point, plan, x, y);
    x += wide + kBetweenMm;
  }
  content.block.height_mm = points.empty() ? high : y + kMarkMm;
  return content;
}

std::vector<const PlanPoint*> pointers(const std::vector<PlanPoint>& points, std::size_t from = 0, std::size_t most = 100000) {
  std::vector<const PlanPoint*> some;
  for (std::size_t i = from; i < points.size() && some.size() < most; ++i) some.push_back(&points[i]);
  return some;
}

/// The name alone, or nothing where even that has no room.
PaperBlock named_room(const PlanRoom& room, double width, double height, bool detail) {
  const std::vector<TextStyle> ladder{{Face::bold, 9.5, Align::left, 6}, {Face::narrow, 9, Align::left, 8}};
  const std::string words = paper_text(room.name + (detail ? " (see below)" : ""));
  PaperBlock block;
  if (width < 5) return block;
  const FittedText fitted = fit_text(words, ladder, width, height);
  if (fitted.cut || measure_text(words, fitted.style, width).height_mm > height + 0.05) return block;
  block.texts.push_back({{0, 0, width, measure_text(words, fitted.style, width).height_mm}, fitted.style, words});
  return block;
}

/// Which way is north, and a bar of whole meters.
void draw_scale(PaperBlock& block, double y, double mm_per_m) {
  const double meters = mm_per_m * 5 > 90 ? 2 : mm_per_m * 5 < 12 ? 10 : 5, long_mm = meters * mm_per_m;
  for (int i = 0; i < 2; ++i) block.frames.push_back({{i * long_mm / 2, y + 1.5, long_mm / 2, 1.6}, 0.3});
  draw_hatching(block, {0, y + 1.5, long_mm / 2, 1.6}, Hatching::upright, 0.5, 0.3);
  char words[64];
  std::snprintf(words, sizeof words, "%.0f m (%.1f ft); about 1:%.0f", meters, meters / 0.3048, std::round(1000 / mm_per_m));
  block.texts.push_back({{long_mm + 2, y, 60, 4.6}, {Face::normal, 9, Align::left, 1}, words});
  draw_line(block, {long_mm + 70, y + 4.4}, {long_mm + 70, y}), draw_path(block, {{long_mm + 69, y + 1.6}, {long_mm + 70, y}, {long_mm + 71, y + 1.6}}, 0.3);
  block.texts.push_back({{long_mm + 72, y, 20, 4.6}, {Face::normal, 9, Align::left, 1}, "north"});
}

}  // namespace

double draw_point_mark(PaperBlock& block, const PlanPoint& point, const FloorPlan& plan, double x, double y) {
  const double middle = (kMarkMm - kSymbolMm) / 2;
  draw_point_symbol(block, point.kind, {x, y + middle}, kSymbolMm);
  const Area swatch{x + kSymbolMm + kGapMm, y + (kMarkMm - kSwatchMm) / 2, kSwatchMm, kSwatchMm};
  if (point.circuit >= 0) draw_swatch(block, swatch, plan.circuits[static_cast<std::size_t>(point.circuit)].pattern);
  else block.frames.push_back({swatch, 0.25});
  const double label_x = swatch.right() + kGapMm, wide = mark_width(point);
  block.texts.push_back({{label_x, y, x + wide - label_x, kMarkMm}, kLabel, paper_text(point.label)});
  return wide;
}

PaperBlocks scaled_floor(const Paper& paper, const PlanFloor& floor, const FloorPlan& plan, std::vector<const PlanRoom*>& details, double most_mm) {
  if (floor.width_m <= 0 || floor.depth_m <= 0) return {};
  const double most_high = most_mm > 0 ? most_mm : paper.room_mm() - 30, wide = paper.width_mm() - 1;
  const double mm_per_m = std::min({wide / floor.width_m, most_high / floor.depth_m, kMostMmPerM});
  PaperBlock block;
  for (const PlanRoom& room : floor.rooms) {
    if (!room.measured) continue;
    const Area area{0.5 + room.left_m * mm_per_m, room.top_m * mm_per_m, room.width_m * mm_per_m, room.depth_m * mm_per_m};
    block.frames.push_back({area, kWallMm});
    const double inner_wide = area.width - 2 * kInsideMm, inner_high = area.height - 2 * kInsideMm;
    const RoomContent content = inner_wide > 12 ? room_content(room.name, pointers(room.points), plan, inner_wide) : RoomContent{{}, false};
    if (content.fits && content.block.height_mm <= inner_high) {
      put_into(block, content.block, area.x + kInsideMm, area.y + kInsideMm);
      continue;
    }
    put_into(block, named_room(room, inner_wide, inner_high, true), area.x + kInsideMm, area.y + kInsideMm);
    details.push_back(&room);
  }
  block.height_mm = floor.depth_m * mm_per_m + 1;
  draw_scale(block, block.height_mm + 1.5, mm_per_m);
  block.height_mm += kScaleBarMm;
  return {std::move(block)};
}

std::vector<double> floor_heights(const Paper& paper, const FloorPlan& plan) {
  /// How high it is drawn with all its points in their rooms; nothing if they are not.
  const auto drawn_whole = [&](const PlanFloor& floor, double most_mm) -> std::optional<double> {
    std::vector<const PlanRoom*> details;
    const PaperBlocks drawn = scaled_floor(paper, floor, plan, details, most_mm);
    const bool all_measured = std::ranges::all_of(floor.rooms, &PlanRoom::measured);
    if (drawn.empty() || !details.empty() || !all_measured) return std::nullopt;
    return drawn.front().height_mm - kScaleBarMm;
  };
  std::vector<double> heights(plan.floors.size(), 0);
  for (std::size_t i = 0; i + 1 < plan.floors.size(); ++i) {
    const auto first = drawn_whole(plan.floors[i], 0), second = drawn_whole(plan.floors[i + 1], 0);
    if (!first || !second) continue;
    const double share = std::min(1.0, (paper.room_mm() - 2 * (kFloorHeadMm + kScaleBarMm)) / (*first + *second));
    if (!drawn_whole(plan.floors[i], *first * share) || !drawn_whole(plan.floors[i + 1], *second * share)) continue;
    heights[i] = *first * share, heights[i + 1] = *second * share;
    ++i;
  }
  return heights;
}

PaperBlocks room_boxes(const Paper& paper, const std::vector<const PlanRoom*>& rooms, const FloorPlan& plan) {
  constexpr int kInRow = 3;
  constexpr double kApartMm = 3;
  const double wide = (paper.width_mm() - (kInRow - 1) * kApartMm) / kInRow;
  std::vector<RoomContent> contents;
  for (const PlanRoom* room : rooms)
    for (std::size_t from = 0; from == 0 || from < room->points.size(); from += kMostInBox)
      contents.push_back(room_content(room->name + (from > 0 ? ", continued" : ""), pointers(room->points, from, kMostInBox), plan, wide - 2 * kInsideMm));
  PaperBlocks rows;
  for (std::size_t first = 0; first < contents.size(); first += kInRow) {
    PaperBlock row;
    double high = 12;
    const std::size_t end = std::min(first + kInRow, contents.size());
    for (std::size_t i = first; i < end; ++i) high = std::max(high, contents[i].block.height_mm + 2 * kInsideMm);
    for (std::size_t i = first; i < end; ++i) {
      const double x = static_cast<double>(i - first) * (wide + kApartMm);
      row.frames.push_back({{x, 0, wide, high}, kWallMm});
      put_into(row, contents[i].block, x + kInsideMm, kInsideMm);
    }
    row.height_mm = high, row.above_mm = first == 0 ? 2 : kApartMm;
    rows.push_back(std::move(row));
  }
  return rows;
}

}  // namespace ohmstead
