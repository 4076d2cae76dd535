#include "print/picture_surface.h"

#include <turbojpeg.h>

#include <algorithm>
#include <bit>
#include <cstring>
#include <memory>
#include <string>

namespace ohmstead {

namespace {

using cairo_pen::Surface;
using Reader = std::unique_ptr<void, int (*)(tjhandle)>;

std::uint32_t big_endian(std::string_view bytes) {
  std::uint32_t value = 0;
  for (const char byte : bytes.substr(0, 4)) value = value << 8 | static_cast<unsigned char>(byte);
  return value;
}

cairo_status_t take_bytes(void* closure, unsigned char* to, unsigned int length) {
  auto& rest = *static_cast<std::string_view*>(closure);
  if (rest.size() < length) return CAIRO_STATUS_READ_ERROR;
  std::memcpy(to, rest.data(), length);
  rest.remove_prefix(length);
  return CAIRO_STATUS_SUCCESS;
}

const unsigned char* data_of(std::string_view bytes) { return reinterpret_cast<const unsigned char*>(bytes.data()); }

/// The smallest scale of the decoder at which the long edge keeps so many dots.
tjscalingfactor scale_for(int long_edge, int least_edge) {
  int count = 0;
  const tjscalingfactor* scales = tjGetScalingFactors(&count);
  tjscalingfactor best{1, 1};
  for (int i = 0; i < count; ++i) {
    const tjscalingfactor scale = scales[i];
    if (scale.num * best.denom < best.num * scale.denom && TJSCALED(long_edge, scale) >= least_edge) best = scale;
  }
  return best;
}

/// Some cameras leave bytes between segments, and nothing is missing then; every other warning says that something is.
bool is_harmless(tjhandle reader) {
  return tjGetErrorCode(reader) == TJERR_WARNING && std::string_view(tjGetErrorStr2(reader)).find("extraneous") != std::string_view::npos;
}

}  // namespace

int cairo_dots() { return std::endian::native == std::endian::little ? TJPF_BGRX : TJPF_XRGB; }

DotSize size_of_png(std::string_view bytes) {
  constexpr std::size_t kWidthAt = 16, kHeightAt = 20;
  if (bytes.size() < kHeightAt + 4) return {};
  return {big_endian(bytes.substr(kWidthAt)), big_endian(bytes.substr(kHeightAt))};
}

Surface png_surface(std::string_view bytes) {
  Surface surface(cairo_image_surface_create_from_png_stream(take_bytes, &bytes));
  if (cairo_surface_status(surface.get()) != CAIRO_STATUS_SUCCESS) surface.reset();
  return surface;
}

JpegHeader header_of_jpeg(std::string_view bytes) {
  const Reader reader(tjInitDecompress(), tjDestroy);
  int width = 0, height = 0, sampling = 0, colours = 0;
  if (tjDecompressHeader3(reader.get(), data_of(bytes), static_cast<unsigned long>(bytes.size()), &width, &height, &sampling, &colours) != 0) return {};
  return {{width, height}, true, colours == TJCS_CMYK || colours == TJCS_YCCK};
}

Surface jpeg_surface(std::string_view bytes, int least_edge) {
  const JpegHeader header = header_of_jpeg(bytes);
  if (!header.readable) return nullptr;
  const int wide = static_cast<int>(header.size.width), high = static_cast<int>(header.size.height);
  const tjscalingfactor scale = scale_for(std::max(wide, high), least_edge);
  const int width = TJSCALED(wide, scale), height = TJSCALED(high, scale);
  Surface surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24, width, height));
  if (cairo_surface_status(surface.get()) != CAIRO_STATUS_SUCCESS) return nullptr;
  const Reader reader(tjInitDecompress(), tjDestroy);
  const int done = tjDecompress2(reader.get(), data_of(bytes), static_cast<unsigned long>(bytes.size()), cairo_image_surface_get_data(surface.get()), width,
                                 cairo_image_surface_get_stride(surface.get()), height, cairo_dots(), TJFLAG_ACCURATEDCT | TJFLAG_LIMITSCANS);
  if (done != 0 && !is_harmless(reader.get())) return nullptr;
  cairo_surface_mark_dirty(surface.get());
  return surface;
}

}  // namespace ohmstead
