#pragma once
// One label: which of its words go on it, how large, and where. Words are shortened by meaning and left out by
// importance (ask/label_items.h); nothing is ever cut, and nothing is set smaller than promised.

#include <optional>
#include <string>
#include <vector>

#include "ask/label_items.h"
#include "print/directory_page.h"
#include "print/paper.h"

namespace ohmstead {

/// Least sizes: words of a label 9 pt (kLeastPoints), its head 12 pt where it has other words too, date and revision 6 pt.
inline constexpr double kLeastHeadPoints = 12, kSmallPoints = 6;
/// Beside a code there are at least this many millimetres for words.
inline constexpr double kLeastWordsMm = 28;

struct LabelLook {
  double width_mm = 0, height_mm = 0;
  double margin_mm = 1.5;          ///< free of words on every side; a code brings its own quiet zone
  double tight_right_mm = 1000;    ///< before a word is split, words may come so near to the right edge, if that is nearer than the margin
  double most_head_points = 20;
  std::vector<std::string> small;  ///< date and revision; none: no room is kept for them
  std::string check;               ///< check code of this label; room for six characters is kept beside the date in any case
  bool code = true;                ///< a code, where there is room for one
  std::optional<Location> location;  ///< for its code; none: that of the item
  double dpi = 300;                ///< of the printer: modules are whole dots where they can be
  bool code_below = false;         ///< the code stands under the words, in the middle; else beside them
  double code_inset_mm = 0;        ///< free of the code on every side
  double most_code_mm = 1000;      ///< its side, so that the words beside it stay large
  bool beside = false;             ///< head on the left, the other words as a paragraph on its right: for low labels
  double head_width_mm = 0;        ///< of the head's column then; 0: as wide as it is
  Align align = Align::left;
  bool in_middle = false;          ///< words stand in the middle of the height; else at the top
};

struct LabelCode {
  Area area;  ///< quiet zone included
  QrCode code;
  std::string text;
};

struct LabelFace {
  bool fits = false;        ///< false: not even what is required fits, and the rest is empty
  std::vector<PlacedText> texts;  ///< in reading order, relative to the label's corner
  std::optional<LabelCode> code;
  int shortened = 0;        ///< steps by which lines are said in shorter ways
  int left_out = 0;         ///< lines that are not there
  int unknown_glyphs = 0;
  double right_mm = 0;      ///< right edge of the words
};

[[nodiscard]] LabelFace lay_out_label(const LabelItem& item, const LabelLook& look);

/// Its words alone, with `code_mm` left free on the right.
[[nodiscard]] LabelFace fit_words(const LabelItem& item, const LabelLook& look, double code_mm);

/// The smallest label from this one up, in whole millimetres, on which all that is required fits.
[[nodiscard]] Area least_label_size(const LabelItem& item, LabelLook look);

/// The same for its code, too. The item has codes.
[[nodiscard]] Area least_size_with_code(const LabelItem& item, LabelLook look);

}  // namespace ohmstead
