#pragma once
// Internal to label_layout.cc: how high a text comes out in a width, found with as little measuring as possible:
// without hinting a text that is set in one line is exactly in proportion to its size.

#include <optional>
#include <string>

#include "print/canvas.h"

namespace ohmstead::label_fit {

/// A text in a style, with as many lines as it needs.
struct Set {
  std::string words;
  TextStyle style;
  double width_mm = 0, height_mm = 0;
  int lines = 1, unknown_glyphs = 0;
};

/// Nothing where it would be higher than `most_mm`, or a word would have to be split, unless that is allowed.
struct Room {
  double width_mm = 0, most_mm = 0;
  bool may_split = false;
};
[[nodiscard]] std::optional<Set> set_text(const std::string& words, const TextStyle& style, const Room& room);

/// It is at least so high, found without laying it out.
[[nodiscard]] double least_height_mm(const std::string& words, const TextStyle& style, double width_mm);

/// Width of a text in one line.
[[nodiscard]] double width_mm(const std::string& words, const TextStyle& style);
/// Height of one line.
[[nodiscard]] double line_mm(const TextStyle& style);

}  // namespace ohmstead::label_fit
