#pragma once
// How the codes of a directory are laid out in a rectangle: how many, how strong, how large.

#include <optional>
#include <vector>

#include "print/canvas.h"
#include "print/code_class.h"
#include "print/directory_text.h"

namespace ohmstead {

struct PlacedCode {
  Area area;     ///< quiet zone included, relative to the rectangle's corner
  Area caption;  ///< "Spaces 1-20"
  CodeText text;
  QrCode code;
};

struct CodeSheet {
  std::vector<PlacedCode> codes;
  Correction correction = Correction::quartile;
  double module_mm = 0;
  double height_mm = 0;  ///< used, captions included
};

/// What is printed under a code: "Spaces 1-20" with an en dash.
[[nodiscard]] std::string range_text(const CodeText& text);

/// The strongest codes that fit the rectangle: correction Q before M, then large modules, then
/// few codes. Nothing if they do not fit even with the least module and correction of where the card hangs.
[[nodiscard]] std::optional<CodeSheet> plan_codes(const DirectoryText& directory, double width_mm, double height_mm,
                                                  double largest_module_mm, Location location);

}  // namespace ohmstead
