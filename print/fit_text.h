#pragma once
// The fit ladder: how a text is made to fit its cell, from comfortable to just legible. What
// still does not fit is cut with an ellipsis, and the caller must report it.

#include <string>
#include <vector>

#include "print/canvas.h"

namespace ohmstead {

/// Least size of a description, and of anything on a card, in points (16 arcmin at 24 in is 11.7 pt).
inline constexpr double kLabelPoints = 12;
inline constexpr double kLeastPoints = 9;

struct FittedText {
  TextStyle style;
  int step = 0;            ///< place on the ladder: 0 is the first
  bool cut = false;        ///< ends in an ellipsis
  int unknown_glyphs = 0;  ///< drawn as U+FFFD
};

/// From `points` down: normal, narrow, narrow at 92 %, narrow at 85 %.
[[nodiscard]] std::vector<TextStyle> label_ladder(double points);

/// The first style of the ladder in which the words fit the size without breaking a word; else the
/// last one in which they fit at all; else the last one, cut.
[[nodiscard]] FittedText fit_text(const std::string& words, const std::vector<TextStyle>& ladder, double width_mm,
                                  double height_mm);

/// Height of `lines` lines in this style.
[[nodiscard]] double text_height_mm(const TextStyle& style, int lines);

}  // namespace ohmstead
