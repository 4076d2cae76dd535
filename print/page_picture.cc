#include "print/page_picture.h"

#include "print/cairo_canvas.h"

namespace ohmstead {

std::string page_picture(const PictureForm& form, int page, const std::function<void(Canvas&)>& draw) {
  const auto drawn = [&](auto&& canvas) {
    draw(canvas);
    return canvas.finish();
  };
  return form.svg ? drawn(SvgCanvas(page)) : drawn(PngCanvas(page, form.dpi));
}

}  // namespace ohmstead
