#pragma once
// Floors on paper: rooms as boxes, to scale or not, with their points in them; each point with its symbol, the pattern of its
// circuit and the circuit's number. Nothing is told by colour.

#include "ask/floor_plan.h"
#include "print/house_papers.h"

namespace ohmstead {

/// The rooms that were measured, to scale, with a bar to measure by. A room too small for its points says so, and is put on
/// `details`. At most `most_mm` high without the bar; 0: as high as the page allows. Nothing if no room was measured.
[[nodiscard]] PaperBlocks scaled_floor(const Paper& paper, const PlanFloor& floor, const FloorPlan& plan, std::vector<const PlanRoom*>& details, double most_mm = 0);

/// How high each floor may be drawn, so that two that follow each other share a page where every point still has its place in its
/// room on both; 0: as high as the page allows.
[[nodiscard]] std::vector<double> floor_heights(const Paper& paper, const FloorPlan& plan);

/// Rooms as boxes beside each other, as large as their points need.
[[nodiscard]] PaperBlocks room_boxes(const Paper& paper, const std::vector<const PlanRoom*>& rooms, const FloorPlan& plan);

/// A point: symbol, swatch, number; from `x` and `y`, as high as kMarkMm. Returns its width.
inline constexpr double kMarkMm = 5;
double draw_point_mark(PaperBlock& block, const PlanPoint& point, const FloorPlan& plan, double x, double y);

}  // namespace ohmstead
