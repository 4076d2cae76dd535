#include <cairo-svg.h>

#include "house/error.h"
#include "print/cairo_canvas.h"
#include "print/cairo_pen.h"

namespace ohmstead {

using namespace cairo_pen;

namespace {

/// Cairo numbers the surfaces of a process; the same page is to be the same bytes.
void drop_numbers(std::string& svg) {
  const std::string_view name = "\"surface";
  for (std::size_t at = 0; (at = svg.find(name, at)) != std::string::npos; ++at) {
    const std::size_t from = at + name.size(), end = svg.find_first_not_of("0123456789", from);
    svg.erase(from, end - from);
  }
}

}  // namespace

struct SvgCanvas::Drawing {
  int page = 0, at = -1;
  std::string bytes;
  Surface surface;
  Pen pen;
  [[nodiscard]] bool here() const { return at == page; }
};

SvgCanvas::SvgCanvas(int page) : drawing_(std::make_unique<Drawing>()) { drawing_->page = page; }

SvgCanvas::~SvgCanvas() {
  drawing_->pen.drop();
  drawing_->surface.reset();  // what cairo writes at its end goes into `bytes`
}

void SvgCanvas::begin_page(double width_mm, double height_mm) {
  Drawing& d = *drawing_;
  if (++d.at != d.page) return;
  d.surface.reset(cairo_svg_surface_create_for_stream(append, &d.bytes, width_mm / kMmPerPoint, height_mm / kMmPerPoint));
  require_success(cairo_surface_status(d.surface.get()));
  d.pen.use(Cairo(cairo_create(d.surface.get())));
  cairo_scale(d.pen.get(), 1 / kMmPerPoint, 1 / kMmPerPoint);
  cairo_set_source_rgb(d.pen.get(), 0, 0, 0);
}

void SvgCanvas::text(const Area& area, const TextStyle& style, const std::string& words) {
  if (drawing_->here()) drawing_->pen.text(area, style, words);
}
void SvgCanvas::line(const Segment& segment, double width_mm, bool dashed) {
  if (drawing_->here()) drawing_->pen.line(segment, width_mm, dashed);
}
void SvgCanvas::frame(const Area& area, double width_mm) {
  if (drawing_->here()) drawing_->pen.frame(area, width_mm);
}
void SvgCanvas::code(const Area& area, const QrCode& code) {
  if (drawing_->here()) drawing_->pen.code_path(area, code);
}
void SvgCanvas::tint(const Area& area, Tint tint) {
  if (drawing_->here()) drawing_->pen.tint(area, tint);
}
void SvgCanvas::picture(const Area& area, const std::string& jpeg) {
  if (drawing_->here()) drawing_->pen.picture(area, jpeg);
}

std::string SvgCanvas::finish() {
  Drawing& d = *drawing_;
  if (!d.surface) throw Error(ErrorKind::output, "There is no page " + std::to_string(d.page + 1) + " to draw; the last one is page " + std::to_string(d.at + 1) + ".");
  require_success(cairo_status(d.pen.get()));
  d.pen.drop();
  cairo_surface_finish(d.surface.get());
  require_success(cairo_surface_status(d.surface.get()));
  drop_numbers(d.bytes);
  return std::move(d.bytes);
}

}  // namespace ohmstead
