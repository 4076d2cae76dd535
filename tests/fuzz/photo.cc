// Any bytes as a photo, and as the JPEG of somebody else's file: a picture within the limits, or an Error of one line.

#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "db/plain_jpeg.h"
#include "house/error.h"
#include "print/photo_picture.h"
#include "print/picture_surface.h"

namespace {

using namespace ohmstead;

void require(bool holds) {
  if (!holds) std::abort();
}

/// Decoding many dots takes long with sanitizers, and shows nothing more.
bool is_small(std::string_view bytes) {
  constexpr std::int64_t kMost = 1'000'000;
  const DotSize jpeg = header_of_jpeg(bytes).size, png = size_of_png(bytes);
  return !jpeg.is_more_than(kMost) && (!bytes.starts_with("\x89PNG") || !png.is_more_than(kMost));
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  (void)size_of_plain_jpeg(bytes);
  if (!is_small(bytes)) return 0;
  try {
    const MadePhoto made = photo_of_picture(bytes, "the file");
    require(size_of_plain_jpeg(made.jpeg) == JpegSize{made.width, made.height} && made.jpeg.size() <= static_cast<std::size_t>(kMostPictureBytes));
    const auto small = size_of_plain_jpeg(made.small);
    require(small && small->width <= kLongestSmallEdge && small->height <= kLongestSmallEdge && made.small.size() <= static_cast<std::size_t>(kMostSmallBytes));
  } catch (const Error& error) {
    require(std::string_view(error.what()).find('\n') == std::string_view::npos);
  }
  return 0;
}
