#pragma once
// Measuring text before it is drawn, with the fonts it will be drawn with.

#include <string>

#include "print/canvas.h"

namespace ohmstead {

/// How a text comes out in a given width.
struct TextExtent {
  double width_mm = 0, height_mm = 0;  ///< of the ink's line boxes
  int lines = 0;
  bool cut = false;        ///< it did not fit the style's lines and ends in an ellipsis
  bool split_word = false;  ///< a line breaks where no line may break: within a word
  int unknown_glyphs = 0;  ///< characters that no installed font can draw
};

/// Throws Error{output} if the fonts of the program are not installed (once a process).
[[nodiscard]] TextExtent measure_text(const std::string& words, const TextStyle& style, double width_mm);

/// "1 character that no installed font can draw; install a font for that script."
[[nodiscard]] std::string unknown_glyphs_text(int count);

/// A number stays on one line with its unit, with "more" and "appliances", and with one other number: "240 V" and "receptacles 1, 2" get a no-break space.
[[nodiscard]] std::string with_units_kept(const std::string& words);

}  // namespace ohmstead
