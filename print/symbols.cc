#include "print/symbols.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace ohmstead {

namespace {

constexpr double kSymbolLine = 0.35;

void draw_circle(PaperBlock& block, Spot middle, double radius, double width_mm = kSymbolLine) { draw_arc(block, middle, radius, {}, width_mm); }

/// One period of a sine.
void draw_wave(PaperBlock& block, Spot middle, double wide, double high) {
  std::vector<Spot> spots;
  for (int i = 0; i <= 16; ++i)
    spots.push_back({middle.x - wide / 2 + wide * i / 16, middle.y - high * std::sin(2 * std::numbers::pi * i / 16)});
  draw_path(block, spots, kSymbolLine);
}

/// A gap in the line with a dot at each end and an arc over it.
void draw_breaker(PaperBlock& block, Spot top) {
  const double upper = top.y + 2, lower = top.y + kDeviceMm - 2;
  draw_line(block, top, {top.x, upper}), draw_line(block, {top.x, lower}, {top.x, top.y + kDeviceMm});
  const double half = (lower - upper) / 2;
  draw_arc(block, {top.x - half * 0.6, upper + half}, half * 1.166, {-59, 59}, 0.45);
  for (const double y : {upper, lower}) draw_circle(block, {top.x, y}, 0.35, 0.5);
}

/// Double throw: the blade stands on the utility side, which comes from above.
void draw_transfer(PaperBlock& block, Spot top) {
  const Spot hinge{top.x, top.y + kDeviceMm - 2.2}, utility{top.x, top.y + 2}, backup{top.x + 3.2, top.y + 2};
  draw_line(block, top, utility), draw_line(block, hinge, {top.x, top.y + kDeviceMm});
  draw_line(block, hinge, {utility.x + 0.9, utility.y + 0.6}, 0.5);
  for (const Spot& dot : {hinge, utility, backup}) draw_circle(block, dot, 0.4, 0.45);
  draw_line(block, {backup.x, backup.y - 0.4}, {backup.x, top.y}), draw_line(block, {backup.x, top.y}, backup_side(top));
}

void draw_battery(PaperBlock& block, Spot middle, double half) {
  block.frames.push_back({{middle.x - half, middle.y - half, 2 * half, 2 * half}, kSymbolLine});
  draw_line(block, {middle.x - half, middle.y + half}, {middle.x + half, middle.y - half}, 0.25);
  for (const double y : {-1.7, -1.0}) draw_line(block, {middle.x - 1.9, middle.y + y}, {middle.x - 0.4, middle.y + y}, 0.3);
  draw_wave(block, {middle.x + 1.1, middle.y + 1.3}, 1.8, 0.5);
}

void draw_inlet(PaperBlock& block, Spot top) {
  for (const double y : {2.4, 4.4}) draw_path(block, {{top.x - 1.7, top.y + y}, {top.x, top.y + y + 1.7}, {top.x + 1.7, top.y + y}}, 0.45);
  draw_line(block, top, {top.x, top.y + 4.1}), draw_line(block, {top.x, top.y + 6.1}, {top.x, top.y + kDeviceMm});
}

void draw_source(PaperBlock& block, OneLineSymbol symbol, Spot top) {
  const Spot middle{top.x, top.y + 3.2};
  constexpr double kRadius = 2.9;
  draw_line(block, {top.x, middle.y + kRadius}, {top.x, top.y + kDeviceMm});
  if (symbol == OneLineSymbol::battery) return draw_battery(block, middle, kRadius);
  draw_circle(block, middle, kRadius);
  if (symbol == OneLineSymbol::utility) return draw_wave(block, middle, 3.4, 1.1);
  block.texts.push_back({{middle.x - 2.2, middle.y - 2.4, 4.4, 4.8}, {Face::bold, 10, Align::center, 1}, symbol == OneLineSymbol::generator ? "G" : "?"});
}

}  // namespace

void draw_line(PaperBlock& block, Spot from, Spot to, double width_mm, bool dashed) { block.lines.push_back({{from.x, from.y, to.x, to.y}, width_mm, dashed}); }

void draw_path(PaperBlock& block, const std::vector<Spot>& spots, double width_mm) {
  for (std::size_t i = 1; i < spots.size(); ++i) draw_line(block, spots[i - 1], spots[i], width_mm);
}

void draw_arc(PaperBlock& block, Spot middle, double radius, Turn turn, double width_mm) {
  const int pieces = std::clamp(static_cast<int>(std::ceil((turn.to_deg - turn.from_deg) / 15)), 4, 24);
  std::vector<Spot> spots;
  for (int i = 0; i <= pieces; ++i) {
    const double angle = (turn.from_deg + (turn.to_deg - turn.from_deg) * i / pieces) * std::numbers::pi / 180;
    spots.push_back({middle.x + radius * std::cos(angle), middle.y + radius * std::sin(angle)});
  }
  draw_path(block, spots, width_mm);
}

void draw_hatching(PaperBlock& block, const Area& area, Hatching hatching, double apart_mm, double width_mm) {
  if (hatching == Hatching::level || hatching == Hatching::upright) {
    const bool level = hatching == Hatching::level;
    for (double at = apart_mm / 2; at < (level ? area.height : area.width) - 0.05; at += apart_mm) {
      if (level) draw_line(block, {area.x, area.y + at}, {area.right(), area.y + at}, width_mm);
      else draw_line(block, {area.x + at, area.y}, {area.x + at, area.bottom()}, width_mm);
    }
    return;
  }
  for (double at = apart_mm / 2; at < area.width + area.height; at += apart_mm) {
    // the line x + y = at within the area, y counted from its top (up to the right) or from its bottom
    const double x1 = std::max(0.0, at - area.height), x2 = std::min(at, area.width);
    const auto y = [&](double from_edge) { return hatching == Hatching::up ? area.y + from_edge : area.bottom() - from_edge; };
    draw_line(block, {area.x + x1, y(at - x1)}, {area.x + x2, y(at - x2)}, width_mm);
  }
}

void draw_swatch(PaperBlock& block, const Area& area, int pattern) {
  using enum Hatching;
  static const std::array<std::vector<Hatching>, 6> kWays{{{up}, {down}, {level}, {upright}, {up, down}, {level, upright}}};
  const int at = ((pattern % kPatterns) + kPatterns) % kPatterns;
  const bool wide = at >= kPatterns / 2;
  for (const Hatching way : kWays[static_cast<std::size_t>(at % (kPatterns / 2))]) draw_hatching(block, area, way, wide ? 1.2 : 0.6, wide ? 0.28 : 0.12);
  block.frames.push_back({area, 0.25});
}

void draw_device(PaperBlock& block, OneLineSymbol symbol, Spot top) {
  switch (symbol) {
    case OneLineSymbol::breaker: return draw_breaker(block, top);
    case OneLineSymbol::transfer: return draw_transfer(block, top);
    case OneLineSymbol::inlet: return draw_inlet(block, top);
    case OneLineSymbol::utility:
    case OneLineSymbol::not_known:
    case OneLineSymbol::generator:
    case OneLineSymbol::battery: break;
  }
  draw_source(block, symbol, top);
}

Spot backup_side(Spot top) { return {top.x + 4.5, top.y}; }

void draw_arrow_down(PaperBlock& block, Spot tip) {
  for (const double x : {-1.0, 1.0}) draw_line(block, {tip.x + x, tip.y - 2}, tip, 0.4);
}

void draw_point_symbol(PaperBlock& block, PointKind kind, Spot corner, double side) {
  const Spot middle{corner.x + side / 2, corner.y + side / 2};
  const double radius = side / 2 - 0.2;
  switch (kind) {
    case PointKind::receptacle:  // circle with two bars that run out of it
      draw_circle(block, middle, radius * 0.8);
      for (const double y : {-0.12, 0.12}) draw_line(block, {middle.x - radius, middle.y + y * side}, {middle.x + radius, middle.y + y * side}, 0.3);
      return;
    case PointKind::light:  // circle with a cross
      draw_circle(block, middle, radius);
      for (const double y : {-0.7, 0.7}) draw_line(block, {middle.x - radius * 0.7, middle.y + y * radius}, {middle.x + radius * 0.7, middle.y - y * radius}, 0.3);
      return;
    case PointKind::appliance:  // box with a triangle
      block.frames.push_back({{middle.x - radius, middle.y - radius, 2 * radius, 2 * radius}, kSymbolLine});
      draw_path(block, {{middle.x - radius * 0.55, middle.y + radius * 0.5}, {middle.x, middle.y - radius * 0.55}, {middle.x + radius * 0.55, middle.y + radius * 0.5}, {middle.x - radius * 0.55, middle.y + radius * 0.5}}, 0.3);
      return;
    case PointKind::alarm:  // circle in a circle
      draw_arc(block, middle, radius, {}, 0.2);
      draw_arc(block, middle, radius * 0.5, {}, 0.5);
      return;
    case PointKind::fan:  // circle with blades
      draw_circle(block, middle, radius);
      for (const double turn : {30.0, 150.0, 270.0}) draw_arc(block, {middle.x + radius * 0.45 * std::cos(turn * std::numbers::pi / 180), middle.y + radius * 0.45 * std::sin(turn * std::numbers::pi / 180)}, radius * 0.4, {turn, turn + 200}, 0.3);
      return;
    case PointKind::other: break;
  }
  block.frames.push_back({{middle.x - radius * 0.8, middle.y - radius * 0.8, radius * 1.6, radius * 1.6}, kSymbolLine});
}

void draw_alert(PaperBlock& block, Spot corner, double side) {
  const double wide = side * 1.1547, stroke = std::max(0.5, side * 0.07);
  const Spot top{corner.x + wide / 2, corner.y + stroke}, left{corner.x + stroke, corner.y + side - stroke / 2}, right{corner.x + wide - stroke, corner.y + side - stroke / 2};
  draw_path(block, {left, top, right, left, top}, stroke);
  const double bar = std::max(0.5, side * 0.11);
  draw_line(block, {top.x, corner.y + side * 0.36}, {top.x + 0.001, corner.y + side * 0.66}, bar);
  draw_line(block, {top.x - bar / 2, corner.y + side * 0.80}, {top.x + bar / 2, corner.y + side * 0.80}, bar);
}

}  // namespace ohmstead
