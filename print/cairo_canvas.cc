#include "print/cairo_canvas.h"

#include <cairo-pdf.h>

#include <cmath>
#include <cstdint>

#include "house/error.h"
#include "print/cairo_pen.h"

namespace ohmstead {

using namespace cairo_pen;

struct PdfCanvas::Drawing {
  std::string bytes;
  Surface surface;
  Pen pen;
};

PdfCanvas::PdfCanvas(const std::string& title, const std::string& date) : drawing_(std::make_unique<Drawing>()) {
  drawing_->surface.reset(cairo_pdf_surface_create_for_stream(append, &drawing_->bytes, 100, 100));
  cairo_surface_t* surface = drawing_->surface.get();
  require_success(cairo_surface_status(surface));
  const std::string when = date + "T00:00:00Z";
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, title.c_str());
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE, when.c_str());
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_MOD_DATE, when.c_str());
}

PdfCanvas::~PdfCanvas() = default;

void PdfCanvas::begin_page(double width_mm, double height_mm) {
  Drawing& d = *drawing_;
  if (d.pen.get() != nullptr) cairo_show_page(d.pen.get());
  d.pen.drop();
  cairo_pdf_surface_set_size(d.surface.get(), width_mm / kMmPerPoint, height_mm / kMmPerPoint);
  d.pen.use(Cairo(cairo_create(d.surface.get())));
  cairo_scale(d.pen.get(), 1 / kMmPerPoint, 1 / kMmPerPoint);
}

void PdfCanvas::text(const Area& area, const TextStyle& style, const std::string& words) {
  drawing_->pen.text(area, style, words);
}
void PdfCanvas::line(const Segment& segment, double width_mm, bool dashed) {
  drawing_->pen.line(segment, width_mm, dashed);
}
void PdfCanvas::frame(const Area& area, double width_mm) { drawing_->pen.frame(area, width_mm); }
void PdfCanvas::code(const Area& area, const QrCode& code) { drawing_->pen.code(area, code); }
void PdfCanvas::tint(const Area& area, Tint tint) { drawing_->pen.tint(area, tint); }
void PdfCanvas::picture(const Area& area, const std::string& jpeg) { drawing_->pen.picture(area, jpeg); }

std::string PdfCanvas::finish() {
  Drawing& d = *drawing_;
  if (d.pen.get() != nullptr) {
    cairo_show_page(d.pen.get());
    require_success(cairo_status(d.pen.get()));
  }
  d.pen.drop();
  cairo_surface_finish(d.surface.get());
  require_success(cairo_surface_status(d.surface.get()));
  return std::move(d.bytes);
}

struct PngCanvas::Drawing {
  int page = 0, at = -1;
  double dpi = 300;
  Ink ink = Ink::grey;
  Surface surface;
  Pen pen;
  [[nodiscard]] bool here() const { return at == page; }
};

PngCanvas::PngCanvas(int page, double dpi, Ink ink) : drawing_(std::make_unique<Drawing>()) {
  if (!(dpi >= 50 && dpi <= 1200)) throw Error(ErrorKind::invalid_input, "A picture needs from 50 to 1200 dots per inch.");
  drawing_->page = page;
  drawing_->dpi = dpi;
  drawing_->ink = ink;
}

PngCanvas::~PngCanvas() = default;

void PngCanvas::begin_page(double width_mm, double height_mm) {
  Drawing& d = *drawing_;
  if (++d.at != d.page) return;
  const double pixels_per_mm = d.dpi / 25.4;
  const auto pixels = [&](double mm) { return static_cast<int>(std::lround(mm * pixels_per_mm)); };
  d.surface.reset(cairo_image_surface_create(CAIRO_FORMAT_RGB24, pixels(width_mm), pixels(height_mm)));
  require_success(cairo_surface_status(d.surface.get()));
  d.pen.use(Cairo(cairo_create(d.surface.get())));
  cairo_set_source_rgb(d.pen.get(), 1, 1, 1);
  cairo_paint(d.pen.get());
  cairo_set_source_rgb(d.pen.get(), 0, 0, 0);
  cairo_scale(d.pen.get(), pixels_per_mm, pixels_per_mm);
}

void PngCanvas::text(const Area& area, const TextStyle& style, const std::string& words) {
  if (drawing_->here()) drawing_->pen.text(area, style, words);
}
void PngCanvas::line(const Segment& segment, double width_mm, bool dashed) {
  if (drawing_->here()) drawing_->pen.line(segment, width_mm, dashed);
}
void PngCanvas::frame(const Area& area, double width_mm) {
  if (drawing_->here()) drawing_->pen.frame(area, width_mm);
}
void PngCanvas::code(const Area& area, const QrCode& code) {
  if (drawing_->here()) drawing_->pen.code(area, code);
}
void PngCanvas::picture(const Area& area, const std::string& jpeg) {
  if (drawing_->here()) drawing_->pen.picture(area, jpeg);
}
void PngCanvas::tint(const Area& area, Tint tint) {
  if (drawing_->here()) drawing_->pen.tint(area, tint);
}

namespace {

std::uint32_t crc32_of(const std::string& bytes) {
  std::uint32_t crc = 0xFFFFFFFFu;
  for (const char byte : bytes) {
    crc ^= static_cast<unsigned char>(byte);
    for (int bit = 0; bit < 8; ++bit) crc = (crc >> 1) ^ ((crc & 1) != 0 ? 0xEDB88320u : 0);
  }
  return ~crc;
}

std::string big_endian(std::uint32_t value) {
  std::string bytes;
  for (const int shift : {24, 16, 8, 0}) bytes += static_cast<char>(value >> shift & 0xFF);
  return bytes;
}

/// Puts a pHYs chunk after the header: without it the picture prints at the wrong size.
std::string with_resolution(const std::string& png, double dpi) {
  constexpr std::size_t kAfterHeader = 8 + 25;
  const auto per_metre = static_cast<std::uint32_t>(std::lround(dpi / 0.0254));
  const std::string body = "pHYs" + big_endian(per_metre) + big_endian(per_metre) + '\1';
  return png.substr(0, kAfterHeader) + big_endian(9) + body + big_endian(crc32_of(body)) + png.substr(kAfterHeader);
}

/// The picture in black and white alone: a dot is black where at least half of it was inked.
Surface black_only(cairo_surface_t* grey) {
  const int width = cairo_image_surface_get_width(grey), height = cairo_image_surface_get_height(grey);
  Surface bits(cairo_image_surface_create(CAIRO_FORMAT_A1, width, height));
  require_success(cairo_surface_status(bits.get()));
  cairo_surface_flush(grey);
  const unsigned char* from = cairo_image_surface_get_data(grey);
  unsigned char* to = cairo_image_surface_get_data(bits.get());
  for (int y = 0; y < height; ++y, from += cairo_image_surface_get_stride(grey), to += cairo_image_surface_get_stride(bits.get()))
    for (int x = 0; x < width; ++x)
      if (from[4 * x + 1] >= 128) set_bit(to, x);  // a bit that is set is white in the PNG
  cairo_surface_mark_dirty(bits.get());
  return bits;
}

}  // namespace

std::string PngCanvas::finish() {
  Drawing& d = *drawing_;
  if (!d.surface)
    throw Error(ErrorKind::output, "There is no page " + std::to_string(d.page + 1) + " to make a picture of; the last one is page " +
                                       std::to_string(d.at + 1) + ".");
  require_success(cairo_status(d.pen.get()));
  d.pen.drop();
  std::string bytes;
  if (d.ink == Ink::black) d.surface = black_only(d.surface.get());
  require_success(cairo_surface_write_to_png_stream(d.surface.get(), append, &bytes));
  return with_resolution(bytes, d.dpi);
}

}  // namespace ohmstead
