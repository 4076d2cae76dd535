#pragma once
// JPEG as this program keeps it: one scan, and nothing in it but what is needed to draw it.

#include <optional>
#include <string_view>

namespace ohmstead {

struct JpegSize {
  int width = 0, height = 0;
  bool operator==(const JpegSize&) const = default;
};

/// Size of a baseline JPEG of 8 bits in one scan, grey or in colour, whose only segments are those that it is decoded by: no EXIF, no place,
/// no comment, nothing behind its end. Nothing for any other bytes. Looks at its frame, decodes nothing (ITU T.81, annex B).
[[nodiscard]] std::optional<JpegSize> size_of_plain_jpeg(std::string_view bytes);

}  // namespace ohmstead
