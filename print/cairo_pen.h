#pragma once
// Internal to the canvases: drawing in millimetres on some cairo context.

#include <cairo.h>

#include <memory>
#include <string>

#include "print/canvas.h"
#include "print/pango_layout.h"

namespace ohmstead::cairo_pen {

struct FreeSurface {
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
};
struct FreeCairo {
  void operator()(cairo_t* cairo) const { cairo_destroy(cairo); }
};
using Surface = std::unique_ptr<cairo_surface_t, FreeSurface>;
using Cairo = std::unique_ptr<cairo_t, FreeCairo>;

/// Sets one dot of a row as cairo packs FORMAT_A1.
void set_bit(unsigned char* row, int x);
/// Adds what cairo writes to the std::string at `closure`.
cairo_status_t append(void* closure, const unsigned char* data, unsigned int length);
/// Throws Error{output} with cairo's words unless it is a success.
void require_success(cairo_status_t status);

/// What the canvases share.
class Pen {
 public:
  void use(Cairo cairo) { cairo_ = std::move(cairo); }
  [[nodiscard]] cairo_t* get() const { return cairo_.get(); }
  void drop() { cairo_.reset(); }

  void text(const Area& area, const TextStyle& style, const std::string& words) const;
  void line(const Segment& segment, double width_mm, bool dashed) const;
  void frame(const Area& area, double width_mm) const;
  /// As a one-bit mask: small in a PDF, and no seams between its squares.
  void code(const Area& area, const QrCode& code) const;
  /// As one path, for what keeps pictures badly: a run of dark modules is a rectangle.
  void code_path(const Area& area, const QrCode& code) const;
  void tint(const Area& area, Tint tint) const;
  /// A PDF keeps its bytes as they are.
  void picture(const Area& area, const std::string& jpeg) const;

 private:
  ContextHandle context_ = make_text_context();
  Cairo cairo_;
};

}  // namespace ohmstead::cairo_pen
