#include "print/cairo_pen.h"

#include <algorithm>
#include <bit>
#include <cstddef>
#include <memory>

#include "house/error.h"
#include "print/code.h"
#include "print/picture_surface.h"

namespace ohmstead::cairo_pen {

namespace {

constexpr int kPixelsPerModule = 6;

/// A code as a one-bit mask: small in the PDF, and no seams between its squares.
Surface code_mask(const QrCode& code) {
  const int side = code.modules * kPixelsPerModule;
  Surface mask(cairo_image_surface_create(CAIRO_FORMAT_A1, side, side));
  require_success(cairo_surface_status(mask.get()));
  cairo_surface_flush(mask.get());
  unsigned char* data = cairo_image_surface_get_data(mask.get());
  const std::ptrdiff_t stride = cairo_image_surface_get_stride(mask.get());
  for (int y = 0; y < code.modules; ++y) {
    unsigned char* first = data + std::ptrdiff_t{y} * kPixelsPerModule * stride;
    for (int x = 0; x < code.modules; ++x)
      for (int dot = 0; dot < kPixelsPerModule && code.is_dark(x, y); ++dot) set_bit(first, x * kPixelsPerModule + dot);
    for (int row = 1; row < kPixelsPerModule; ++row) std::copy_n(first, stride, first + row * stride);
  }
  cairo_surface_mark_dirty(mask.get());
  return mask;
}

}  // namespace

void set_bit(unsigned char* row, int x) {
  const int bit = std::endian::native == std::endian::little ? x % 8 : 7 - x % 8;
  row[x / 8] = static_cast<unsigned char>(row[x / 8] | 1 << bit);
}

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

void Pen::text(const Area& area, const TextStyle& style, const std::string& words) const {
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

void Pen::line(const Segment& segment, double width_mm, bool dashed) const {
  cairo_save(get());
  cairo_set_line_width(get(), width_mm);
  const double dashes[] = {1.5, 1.5};
  if (dashed) cairo_set_dash(get(), dashes, 2, 0);
  cairo_move_to(get(), segment.x1, segment.y1);
  cairo_line_to(get(), segment.x2, segment.y2);
  cairo_stroke(get());
  cairo_restore(get());
}

void Pen::frame(const Area& area, double width_mm) const {
  cairo_set_line_width(get(), width_mm);
  cairo_rectangle(get(), area.x, area.y, area.width, area.height);
  cairo_stroke(get());
}

void Pen::code(const Area& area, const QrCode& code) const {
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

void Pen::code_path(const Area& area, const QrCode& code) const {
  const double module_mm = area.width / (code.modules + 2 * kQuietModules);
  const double left = area.x + kQuietModules * module_mm, top = area.y + kQuietModules * module_mm;
  for (int y = 0; y < code.modules; ++y)
    for (int x = 0; x < code.modules; ++x) {
      int end = x;
      while (end < code.modules && code.is_dark(end, y)) ++end;
      if (end > x) cairo_rectangle(get(), left + x * module_mm, top + y * module_mm, (end - x) * module_mm, module_mm);
      x = end;
    }
  cairo_fill(get());
}

void Pen::tint(const Area& area, Tint tint) const {
  const Rgb rgb = rgb_of(tint);
  cairo_save(get());
  cairo_set_source_rgb(get(), rgb.red / 255.0, rgb.green / 255.0, rgb.blue / 255.0);
  cairo_rectangle(get(), area.x, area.y, area.width, area.height);
  cairo_fill(get());
  cairo_restore(get());
}

void Pen::picture(const Area& area, const std::string& jpeg) const {
  constexpr int kWhole = 1 << 20;
  const Surface surface = jpeg_surface(jpeg, kWhole);
  if (surface == nullptr) return;
  auto bytes = std::make_unique<std::string>(jpeg);
  const auto drop = [](void* kept) { delete static_cast<std::string*>(kept); };
  auto* data = reinterpret_cast<const unsigned char*>(bytes->data());
  if (cairo_surface_set_mime_data(surface.get(), CAIRO_MIME_TYPE_JPEG, data, static_cast<unsigned long>(bytes->size()), drop, bytes.get()) == CAIRO_STATUS_SUCCESS) (void)bytes.release();
  cairo_save(get());
  cairo_translate(get(), area.x, area.y);
  cairo_scale(get(), area.width / cairo_image_surface_get_width(surface.get()), area.height / cairo_image_surface_get_height(surface.get()));
  cairo_set_source_surface(get(), surface.get(), 0, 0);
  cairo_rectangle(get(), 0, 0, cairo_image_surface_get_width(surface.get()), cairo_image_surface_get_height(surface.get()));
  cairo_fill(get());
  cairo_restore(get());
}

}  // namespace ohmstead::cairo_pen
