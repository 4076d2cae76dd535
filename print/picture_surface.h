#pragma once
// Internal to what reads and draws pictures: bytes as cairo surfaces.

#include <cstdint>
#include <string_view>

#include "print/cairo_pen.h"

namespace ohmstead {

struct DotSize {
  std::int64_t width = 0, height = 0;

  /// Is it more than `dots` dots in all? Edges may be as large as a header can tell: no product is taken of them.
  [[nodiscard]] constexpr bool is_more_than(std::int64_t dots) const { return height > 0 && width > dots / height; }
};

/// How the dots of a cairo surface lie in memory, in TurboJPEG's words (TJPF).
[[nodiscard]] int cairo_dots();

/// Size in the header of a PNG; 0 x 0 for bytes that are too short.
[[nodiscard]] DotSize size_of_png(std::string_view bytes);
/// The whole picture, of any of cairo's formats; null for one that is damaged or cut off. Takes 4 bytes a dot: look at its size first.
[[nodiscard]] cairo_pen::Surface png_surface(std::string_view bytes);

/// A JPEG's size, and what was found about it in its header.
struct JpegHeader {
  DotSize size;
  bool readable = false;     ///< a JPEG whose header is whole
  bool for_printing = false; ///< in the four colours of printing presses, which are not converted here
};
[[nodiscard]] JpegHeader header_of_jpeg(std::string_view bytes);
/// The whole picture as CAIRO_FORMAT_RGB24, made smaller while it is decoded as long as its long edge keeps `least_edge` dots; null for one that
/// is damaged or cut off.
[[nodiscard]] cairo_pen::Surface jpeg_surface(std::string_view bytes, int least_edge);

}  // namespace ohmstead
