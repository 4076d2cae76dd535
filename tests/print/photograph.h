#pragma once
// What happens to a page on its way to a reader: stains, and a photograph by flashlight. Simulated; no camera was used.

#include "tests/print/decode.h"

namespace ohmstead::test {

/// A round stain, black or white, over this share of the code's own area (quiet zone not counted), somewhere off its three finder squares.
[[nodiscard]] Picture stained(const Picture& code, int modules, double share, unsigned seed);

/// One hand-held frame. Light falls off from the spot it is aimed at, to a tenth at the far corner of the page.
struct Frame {
  double tilt_degrees = 0, turn_degrees = 0;
  double light = 1;            ///< of white paper where the flashlight is aimed, 1: as white as the camera can tell
  double spot_x = 0, spot_y = 0;  ///< where that is, mm
  double glare_mm = 0;         ///< width of a strip of white glare from top to bottom, 1 mm right of the area
  double noise = 10;           ///< sigma, of 255
  double blur_mm = 0.12;
  double dpi = 200;            ///< of the camera in the middle of the area
  unsigned seed = 1;
};
/// The area of a page (in mm, drawn at `page_dpi`) as the frame shows it, with a little around it.
[[nodiscard]] Picture photographed(const Picture& page, double page_dpi, const Area& area, const Frame& frame);

}  // namespace ohmstead::test
