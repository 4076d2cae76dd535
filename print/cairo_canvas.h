#pragma once
// Drawing into the bytes of a PDF, a PNG or an SVG. Nothing is written to disk here.

#include <memory>
#include <string>

#include "print/canvas.h"

namespace ohmstead {

/// A PDF in memory. The same drawing with the same title and date gives the same bytes.
class PdfCanvas final : public Canvas {
 public:
  /// `date` is YYYY-MM-DD: the creation date in the PDF.
  PdfCanvas(const std::string& title, const std::string& date);
  ~PdfCanvas() override;
  void begin_page(double width_mm, double height_mm) override;
  void text(const Area& area, const TextStyle& style, const std::string& words) override;
  void line(const Segment& segment, double width_mm, bool dashed) override;
  void frame(const Area& area, double width_mm) override;
  void code(const Area& area, const QrCode& code) override;
  void tint(const Area& area, Tint tint) override;
  void picture(const Area& area, const std::string& jpeg) override;
  /// Ends the document. Throws Error{output} if cairo reports a failure. Call once.
  [[nodiscard]] std::string finish();

 private:
  struct Drawing;
  std::unique_ptr<Drawing> drawing_;
};

/// Dots of a picture: shades of grey, as a screen shows them, or black alone, as a label printer burns them.
enum class Ink { grey, black };

/// One page as a PNG in memory, black on white, with its resolution recorded.
class PngCanvas final : public Canvas {
 public:
  /// Draws page `page` (0 is the first) only. `dpi` is 50 .. 1200; else throws Error{invalid_input}.
  PngCanvas(int page, double dpi, Ink ink = Ink::grey);
  ~PngCanvas() override;
  void begin_page(double width_mm, double height_mm) override;
  void text(const Area& area, const TextStyle& style, const std::string& words) override;
  void line(const Segment& segment, double width_mm, bool dashed) override;
  void frame(const Area& area, double width_mm) override;
  void code(const Area& area, const QrCode& code) override;
  void tint(const Area& area, Tint tint) override;
  void picture(const Area& area, const std::string& jpeg) override;
  /// Throws Error{output} if there was no such page.
  [[nodiscard]] std::string finish();

 private:
  struct Drawing;
  std::unique_ptr<Drawing> drawing_;
};

/// One page as an SVG in memory. Text is outlines, so it looks the same everywhere and needs no fonts.
class SvgCanvas final : public Canvas {
 public:
  /// Draws page `page` (0 is the first) only.
  explicit SvgCanvas(int page);
  ~SvgCanvas() override;
  void begin_page(double width_mm, double height_mm) override;
  void text(const Area& area, const TextStyle& style, const std::string& words) override;
  void line(const Segment& segment, double width_mm, bool dashed) override;
  void frame(const Area& area, double width_mm) override;
  void code(const Area& area, const QrCode& code) override;
  void tint(const Area& area, Tint tint) override;
  void picture(const Area& area, const std::string& jpeg) override;
  /// Throws Error{output} if there was no such page.
  [[nodiscard]] std::string finish();

 private:
  struct Drawing;
  std::unique_ptr<Drawing> drawing_;
};

}  // namespace ohmstead
