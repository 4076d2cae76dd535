#include "print/cairo_canvas.h"

#include <cairo-pdf.h>

#include <cmath>
#include <cstdint>

#include "house/error.h"
#include "print/code.h"
#include "print/pango_layout.h"

namespace ohmstead {

namespace {

struct FreeSurface {
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
};
struct FreeCairo {
  void operator()(cairo_t* cairo) const { cairo_destroy(cairo); }
};
using Surface = std::unique_ptr<cairo_surface_t, FreeSurface>;
using Cairo = std::unique_ptr<cairo_t, FreeCairo>;

cairo_status_t append(void* closure, const unsigned char* data, unsigned int length) {
  try {
    static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
    return CAIRO_STATUS_SUCCESS;
  } catch (...) {  // cairo is C: an exception may not pass through it
    return CAIRO_STATUS_WRITE_ERROR;
  }
}

void require_success(cairo_status_t status) {
  if (status != CAIRO_STATUS_SUCCESS)
    throw Error(ErrorKind::output, std::string("The page could not be drawn: ") + cairo_status_to_string(status) + ".");
}

constexpr int kPixelsPerModule = 6;

/// A code as a one-bit mask: small in the PDF, and no seams between its squares.
Surface code_mask(const QrCode& code) {
  const int side = code.modules * kPixelsPerModule;
  Surface mask(cairo_image_surface_create(CAIRO_FORMAT_A1, side, side));
  require_success(cairo_surface_status(mask.get()));
  const Cairo pen(cairo_create(mask.get()));
  cairo_set_antialias(pen.get(), CAIRO_ANTIALIAS_NONE);
  for (int y = 0; y < code.modules; ++y)
    for (int x = 0; x < code.modules; ++x)
      if (code.is_dark(x, y))
        cairo_rectangle(pen.get(), x * kPixelsPerModule, y * kPixelsPerModule, kPixelsPerModule, kPixelsPerModule);
  cairo_fill(pen.get());
  return mask;
}

/// What the two canvases share: drawing in millimetres on some cairo context.
class Pen {
 public:
  void use(Cairo cairo) { cairo_ = std::move(cairo); }
  [[nodiscard]] cairo_t* get() const { return cairo_.get(); }
  void drop() { cairo_.reset(); }

  void text(const Area& area, const TextStyle& style, const std::string& words) const {
    require_fonts(context_.get());
    const LayoutHandle layout = make_layout(context_.get(), words, style, area.width);
    PangoRectangle logical;
    pango_layout_get_extents(layout.get(), nullptr, &logical);
    const double height_mm = logical.height / double(PANGO_SCALE) * kMmPerPoint;
    cairo_save(get());
    cairo_translate(get(), area.x, area.y + (area.height - height_mm) / 2);
    cairo_scale(get(), kMmPerPoint, kMmPerPoint);
    cairo_move_to(get(), 0, 0);
    pango_cairo_show_layout(get(), layout.get());
    cairo_restore(get());
  }
  void line(const Segment& segment, double width_mm, bool dashed) const {
    cairo_save(get());
    cairo_set_line_width(get(), width_mm);
    const double dashes[] = {1.5, 1.5};
    if (dashed) cairo_set_dash(get(), dashes, 2, 0);
    cairo_move_to(get(), segment.x1, segment.y1);
    cairo_line_to(get(), segment.x2, segment.y2);
    cairo_stroke(get());
    cairo_restore(get());
  }
  void frame(const Area& area, double width_mm) const {
    cairo_set_line_width(get(), width_mm);
    cairo_rectangle(get(), area.x, area.y, area.width, area.height);
    cairo_stroke(get());
  }
  void code(const Area& area, const QrCode& code) const {
    const Surface mask = code_mask(code);
    const double module_mm = area.width / (code.modules + 2 * kQuietModules);
    cairo_save(get());
    cairo_translate(get(), area.x + kQuietModules * module_mm, area.y + kQuietModules * module_mm);
    cairo_scale(get(), module_mm / kPixelsPerModule, module_mm / kPixelsPerModule);
    cairo_pattern_t* pattern = cairo_pattern_create_for_surface(mask.get());
    cairo_pattern_set_filter(pattern, CAIRO_FILTER_NEAREST);
    cairo_mask(get(), pattern);
    cairo_pattern_destroy(pattern);
    cairo_restore(get());
  }

 private:
  ContextHandle context_ = make_text_context();
  Cairo cairo_;
};

}  // namespace

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
  Surface surface;
  Pen pen;
  [[nodiscard]] bool here() const { return at == page; }
};

PngCanvas::PngCanvas(int page, double dpi) : drawing_(std::make_unique<Drawing>()) {
  if (!(dpi >= 50 && dpi <= 1200)) throw Error(ErrorKind::invalid_input, "A picture needs from 50 to 1200 dots per inch.");
  drawing_->page = page;
  drawing_->dpi = dpi;
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

}  // namespace

std::string PngCanvas::finish() {
  Drawing& d = *drawing_;
  if (!d.surface)
    throw Error(ErrorKind::output, "There is no page " + std::to_string(d.page + 1) + " to make a picture of; the last one is page " +
                                       std::to_string(d.at + 1) + ".");
  require_success(cairo_status(d.pen.get()));
  d.pen.drop();
  std::string bytes;
  require_success(cairo_surface_write_to_png_stream(d.surface.get(), append, &bytes));
  return with_resolution(bytes, d.dpi);
}

}  // namespace ohmstead
