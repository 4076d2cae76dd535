#pragma once
// The one place where a text style becomes a pango layout; for text.cc and cairo_canvas.cc only.

#include <pango/pangocairo.h>

#include <memory>

#include "print/canvas.h"

namespace ohmstead {

struct ReleaseGObject {
  void operator()(void* object) const { g_object_unref(object); }
};
using LayoutHandle = std::unique_ptr<PangoLayout, ReleaseGObject>;
using ContextHandle = std::unique_ptr<PangoContext, ReleaseGObject>;

/// Hinting off everywhere, so that the PDF, a PNG and the measuring agree on every line break.
[[nodiscard]] ContextHandle make_text_context();
/// `width_mm` is the width to wrap at. The layout's unit is points.
[[nodiscard]] LayoutHandle make_layout(PangoContext* context, const std::string& words, const TextStyle& style,
                                       double width_mm);
/// Throws Error{output} if a needed family is not installed; checks once a process.
void require_fonts(PangoContext* context);

}  // namespace ohmstead
