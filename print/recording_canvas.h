#pragma once
// A canvas that only remembers what was drawn on it, for tests and for checks before printing.

#include <vector>

#include "print/canvas.h"
#include "print/code.h"
#include "print/text.h"

namespace ohmstead {

struct DrawnText {
  int page = 0;
  Area area;
  TextStyle style;
  std::string words;
  TextExtent extent;  ///< as it comes out in that area
};
struct DrawnFrame {
  int page = 0;
  Area area;
  double width_mm = 0;
};
struct DrawnLine {
  int page = 0;
  double x1 = 0, y1 = 0, x2 = 0, y2 = 0, width_mm = 0;
  bool dashed = false;
};
struct DrawnCode {
  int page = 0;
  Area area;
  QrCode code;
};

struct DrawnTint {
  int page = 0;
  Area area;
  Tint tint = Tint::red;
};

struct DrawnPicture {
  int page = 0;
  Area area;
  std::string jpeg;
};

class RecordingCanvas final : public Canvas {
 public:
  void begin_page(double width_mm, double height_mm) override;
  void text(const Area& area, const TextStyle& style, const std::string& words) override;
  void line(const Segment& segment, double width_mm, bool dashed) override;
  void frame(const Area& area, double width_mm) override;
  void code(const Area& area, const QrCode& code) override;
  void tint(const Area& area, Tint tint) override;
  void picture(const Area& area, const std::string& jpeg) override;

  std::vector<Area> pages;  ///< x and y are 0
  std::vector<DrawnText> texts;
  std::vector<DrawnFrame> frames;
  std::vector<DrawnLine> lines;
  std::vector<DrawnCode> codes;
  std::vector<DrawnTint> tints;
  std::vector<DrawnPicture> pictures;

 private:
  [[nodiscard]] int page() const { return static_cast<int>(pages.size()) - 1; }
};

}  // namespace ohmstead
