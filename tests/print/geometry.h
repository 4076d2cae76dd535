#pragma once
// Where what was drawn really is, and whether two of it are over each other.

#include <algorithm>

#include "print/recording_canvas.h"

namespace ohmstead::test {

/// Line boxes stand over their ink by this much: the room for accents and descenders.
inline constexpr double kSlack = 0.75;

/// Where the ink of a text is.
inline Area ink(const DrawnText& text) {
  const double width = std::min(text.extent.width_mm, text.area.width), space = text.area.width - width;
  const double left = text.style.align == Align::left ? 0 : text.style.align == Align::right ? space : space / 2;
  return {text.area.x + left, text.area.y + (text.area.height - text.extent.height_mm) / 2, width, text.extent.height_mm};
}

inline bool overlap(const Area& a, const Area& b, double slack) {
  return a.x + slack < b.right() && b.x + slack < a.right() && a.y + slack < b.bottom() && b.y + slack < a.bottom();
}

}  // namespace ohmstead::test
