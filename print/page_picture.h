#pragma once
// One page as a picture: dots for a screen or a printer, or lines that fit any size.

#include <functional>
#include <string>

#include "print/canvas.h"

namespace ohmstead {

struct PictureForm {
  bool svg = false;   ///< lines, else dots (PNG)
  double dpi = 150;   ///< of dots: 50 .. 1200
};

/// Page `page` (0 is the first) of what `draw` draws. Throws Error{invalid_input} for other dpi, Error{output} if there is no such page.
[[nodiscard]] std::string page_picture(const PictureForm& form, int page, const std::function<void(Canvas&)>& draw);

}  // namespace ohmstead
