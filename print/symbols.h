#pragma once
// The trade's symbols, drawn with straight lines by ourselves: for one-line diagrams, floor plans and signs. All are told by
// their shape; nothing is told by colour. Places are relative to the block.

#include "ask/one_line.h"
#include "print/paper.h"

namespace ohmstead {

/// A place on the block.
struct Spot {
  double x = 0, y = 0;
};

void draw_line(PaperBlock& block, Spot from, Spot to, double width_mm = 0.3, bool dashed = false);
void draw_path(PaperBlock& block, const std::vector<Spot>& spots, double width_mm = 0.3);
/// Part of a circle from one angle to another, in degrees, 0 to the right, clockwise.
struct Turn {
  double from_deg = 0, to_deg = 360;
};
void draw_arc(PaperBlock& block, Spot middle, double radius, Turn turn, double width_mm = 0.3);

/// Slanting, lying or upright lines within an area.
enum class Hatching { up, down, level, upright };
void draw_hatching(PaperBlock& block, const Area& area, Hatching hatching, double apart_mm, double width_mm = 0.12);

/// Most patterns that can be told apart; a pattern is 0 .. kPatterns - 1.
inline constexpr int kPatterns = 12;
/// A framed swatch with pattern number `pattern`.
void draw_swatch(PaperBlock& block, const Area& area, int pattern);

/// Height of a device on its line, from where the line comes in to where it goes on.
inline constexpr double kDeviceMm = 9;
/// The symbol of a device whose line comes from above at `top` and goes on below, kDeviceMm high. A source has its line below only.
void draw_device(PaperBlock& block, OneLineSymbol symbol, Spot top);
/// Where the line from the backup side of a transfer device drawn at `top` begins, to the right of it.
[[nodiscard]] Spot backup_side(Spot top);
/// An arrow that points down, its tip at `tip`.
void draw_arrow_down(PaperBlock& block, Spot tip);

/// The symbol of a point on a floor plan, `side` mm wide and high, its corner at `corner`.
void draw_point_symbol(PaperBlock& block, PointKind kind, Spot corner, double side);

/// The safety alert symbol: a triangle with an exclamation mark in it, `side` mm high.
void draw_alert(PaperBlock& block, Spot corner, double side);

}  // namespace ohmstead
