#pragma once
// What a page is drawn on. Everything is in millimetres from the top left corner of the page;
// only the cairo canvas knows of points and pixels.

#include <string>

namespace ohmstead {

struct QrCode;

/// A place on the page, in millimetres.
struct Area {
  double x = 0, y = 0, width = 0, height = 0;
  [[nodiscard]] double right() const { return x + width; }
  [[nodiscard]] double bottom() const { return y + height; }
};

/// A straight piece from one place to another.
struct Segment {
  double x1 = 0, y1 = 0, x2 = 0, y2 = 0;
};

inline constexpr double kMmPerPoint = 25.4 / 72;

enum class Face { normal, bold, narrow };
enum class Align { left, center, right };

/// How a text is set. Sizes are in points, as typographers count.
struct TextStyle {
  Face face = Face::normal;
  double points = 12;
  Align align = Align::left;
  int lines = 1;  ///< at most; what does not fit ends in an ellipsis, which the layout must report
};

/// Colours that are added to what black on white says already: the safety colours of ANSI Z535.1 (numbers from memory).
enum class Tint { red, orange, yellow, blue };
struct Rgb {
  int red = 255, green = 255, blue = 255;
};
[[nodiscard]] inline constexpr Rgb rgb_of(Tint tint) {
  switch (tint) {
    case Tint::red: return {0xC8, 0x10, 0x2E};
    case Tint::orange: return {0xFF, 0x79, 0x00};
    case Tint::yellow: return {0xFF, 0xD1, 0x00};
    case Tint::blue: break;
  }
  return {0x00, 0x3D, 0xA5};
}

class Canvas {
 public:
  Canvas() = default;
  Canvas(const Canvas&) = delete;
  Canvas& operator=(const Canvas&) = delete;
  virtual ~Canvas() = default;

  /// Ends the page before it, if any.
  virtual void begin_page(double width_mm, double height_mm) = 0;
  /// Text inside `area`, wrapped at its width, centred in its height.
  virtual void text(const Area& area, const TextStyle& style, const std::string& words) = 0;
  /// A straight black line. `dashed` for what is to be cut.
  virtual void line(const Segment& segment, double width_mm, bool dashed = false) = 0;
  /// The outline of an area, drawn on its edges.
  virtual void frame(const Area& area, double width_mm) = 0;
  /// A code that fills `area` exactly, quiet zone included.
  virtual void code(const Area& area, const QrCode& code) = 0;
  /// A photo (house/photo.h) that fills `area`; what cannot be decoded leaves it white.
  virtual void picture(const Area& /*area*/, const std::string& /*jpeg*/) {}
  /// An area filled with a colour, before anything is drawn on it. A canvas of black and white leaves it white.
  virtual void tint(const Area& /*area*/, Tint /*tint*/) {}
};

}  // namespace ohmstead
