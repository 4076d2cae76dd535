#include "print/photo_picture.h"

#include <turbojpeg.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>

#include "house/error.h"
#include "print/exif_turn.h"
#include "print/picture_surface.h"

namespace ohmstead {

namespace {

using cairo_pen::Cairo, cairo_pen::Surface, cairo_pen::require_success;

[[noreturn]] void refuse(const std::string& shown, const std::string& what) { throw Error(ErrorKind::invalid_input, shown + " " + what); }

/// What kind of picture the bytes are that is not read here; empty: not known as one.
std::string other_kind(std::string_view bytes) {
  const auto has = [&](std::size_t at, std::string_view sign) { return bytes.size() >= at + sign.size() && bytes.substr(at, sign.size()) == sign; };
  if (has(4, "ftypavif")) return "an AVIF picture";
  for (const std::string_view brand : {"heic", "heix", "hevc", "heim", "heis", "mif1", "msf1"})
    if (has(4, "ftyp") && has(8, brand)) return "a HEIC picture, as some phones make them";
  if (has(4, "ftyp")) return "a film";
  if (has(0, "RIFF") && has(8, "WEBP")) return "a WebP picture";
  if (has(0, "GIF8")) return "a GIF picture";
  if (has(0, "BM")) return "a BMP picture";
  if (has(0, std::string_view("II*\0", 4)) || has(0, std::string_view("MM\0*", 4))) return "a TIFF or raw picture";
  if (has(0, "%PDF")) return "a PDF";
  return "";
}

void require_size(DotSize size, int megapixels, const std::string& shown) {
  if (size.width < 1 || size.height < 1) refuse(shown, "is a damaged picture; nothing was kept.");
  if (size.is_more_than(std::int64_t{megapixels} * 1'000'000))
    refuse(shown, "is a picture of more than " + std::to_string(megapixels) + " megapixels; save a smaller one and add that.");
}

Surface surface_of_jpeg(std::string_view bytes, bool progressive, const std::string& shown) {
  const JpegHeader header = header_of_jpeg(bytes);
  if (!header.readable) refuse(shown, "is a damaged picture; nothing was kept.");
  if (header.for_printing) refuse(shown, "is a JPEG in the colors of printing presses (CMYK); save it in RGB and add that.");
  require_size(header.size, progressive ? kMostMegapixelsWhole : kMostMegapixels, shown);
  return jpeg_surface(bytes, kLongestPictureEdge);
}

Surface surface_of_png(std::string_view bytes, const std::string& shown) {
  require_size(size_of_png(bytes), kMostMegapixelsWhole, shown);
  return png_surface(bytes);
}

/// From dots of the picture as it is stored to those of the picture as it was seen, by the eight turns of EXIF.
cairo_matrix_t turned(int turn, double from_width, double from_height, double width, double height) {
  const bool lies = turn >= 5;  // what was across is down
  const double x = lies ? height / from_width : width / from_width, y = lies ? width / from_height : height / from_height;
  cairo_matrix_t m;
  switch (turn) {
    case 2: cairo_matrix_init(&m, -x, 0, 0, y, width, 0); break;
    case 3: cairo_matrix_init(&m, -x, 0, 0, -y, width, height); break;
    case 4: cairo_matrix_init(&m, x, 0, 0, -y, 0, height); break;
    case 5: cairo_matrix_init(&m, 0, x, y, 0, 0, 0); break;
    case 6: cairo_matrix_init(&m, 0, x, -y, 0, width, 0); break;
    case 7: cairo_matrix_init(&m, 0, -x, -y, 0, width, height); break;
    case 8: cairo_matrix_init(&m, 0, -x, y, 0, 0, height); break;
    default: cairo_matrix_init(&m, x, 0, 0, y, 0, 0); break;
  }
  return m;
}

/// The picture as it was seen, on white, with a long edge of at most so many dots.
Surface seen(cairo_surface_t* from, int turn, int longest_edge) {
  const int from_width = cairo_image_surface_get_width(from), from_height = cairo_image_surface_get_height(from);
  const double scale = std::min(1.0, static_cast<double>(longest_edge) / std::max(from_width, from_height));
  const auto scaled = [&](int dots) { return std::max(1, static_cast<int>(std::lround(dots * scale))); };
  const int width = scaled(turn >= 5 ? from_height : from_width), height = scaled(turn >= 5 ? from_width : from_height);
  Surface surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24, width, height));
  const Cairo cairo(cairo_create(surface.get()));
  cairo_set_source_rgb(cairo.get(), 1, 1, 1);
  cairo_paint(cairo.get());
  const cairo_matrix_t matrix = turned(turn, from_width, from_height, width, height);
  cairo_transform(cairo.get(), &matrix);
  cairo_set_source_surface(cairo.get(), from, 0, 0);
  cairo_pattern_set_filter(cairo_get_source(cairo.get()), CAIRO_FILTER_BEST);
  cairo_pattern_set_extend(cairo_get_source(cairo.get()), CAIRO_EXTEND_PAD);
  cairo_paint(cairo.get());
  require_success(cairo_status(cairo.get()));
  cairo_surface_flush(surface.get());
  return surface;
}

std::string jpeg_of(cairo_surface_t* surface, int quality) {
  const std::unique_ptr<void, int (*)(tjhandle)> writer(tjInitCompress(), tjDestroy);
  unsigned char* bytes = nullptr;
  unsigned long length = 0;
  const int done = tjCompress2(writer.get(), cairo_image_surface_get_data(surface), cairo_image_surface_get_width(surface), cairo_image_surface_get_stride(surface),
                               cairo_image_surface_get_height(surface), cairo_dots(), &bytes, &length, TJSAMP_420, quality, TJFLAG_ACCURATEDCT);
  const std::unique_ptr<unsigned char, void (*)(unsigned char*)> owner(bytes, tjFree);
  if (done != 0) throw Error(ErrorKind::output, "The picture cannot be written as a JPEG; nothing was kept.");
  return {reinterpret_cast<const char*>(bytes), length};
}

struct Fitted {
  Surface surface;
  std::string jpeg;
};

/// The best JPEG that is not over the limits: worse first, then smaller.
Fitted fitted(cairo_surface_t* from, int turn, int longest_edge, int most_bytes) {
  constexpr std::array kQualities = {85, 75, 65, 55};
  for (int edge = longest_edge;; edge = edge * 4 / 5) {
    Surface surface = seen(from, turn, edge);
    for (const int quality : kQualities)
      if (std::string jpeg = jpeg_of(surface.get(), quality); jpeg.size() <= static_cast<std::size_t>(most_bytes)) return {std::move(surface), std::move(jpeg)};
  }
}

}  // namespace

MadePhoto photo_of_picture(std::string_view bytes, const std::string& shown) {
  if (bytes.size() > kLargestPhotoFile) refuse(shown, "is larger than the " + std::to_string(kLargestPhotoFile / 1'000'000) + " MB that a photo may have; save a smaller one and add that.");
  const bool png = bytes.starts_with("\x89PNG\r\n\x1a\n"), jpeg = bytes.starts_with("\xFF\xD8\xFF");
  if (!png && !jpeg) {
    const std::string kind = other_kind(bytes);
    refuse(shown, kind.empty() ? "is not a picture; a photo is a JPEG or PNG file." : "is " + kind + "; save it as JPEG and add that.");
  }
  const JpegSegments segments = segments_of_jpeg(bytes);
  const Surface surface = png ? surface_of_png(bytes, shown) : surface_of_jpeg(bytes, segments.progressive, shown);
  if (surface == nullptr) refuse(shown, "is a damaged picture, or was cut off on its way; nothing was kept.");
  const Fitted whole = fitted(surface.get(), segments.turn, kLongestPictureEdge, kMostPictureBytes);
  Fitted small = fitted(whole.surface.get(), 1, kLongestSmallEdge, kMostSmallBytes);
  return {whole.jpeg, std::move(small.jpeg), cairo_image_surface_get_width(whole.surface.get()), cairo_image_surface_get_height(whole.surface.get())};
}

}  // namespace ohmstead
