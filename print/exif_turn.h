#pragma once
// How a camera was held, and how a JPEG is built: read from its segments without decoding it. Nothing here trusts a number.

#include <string_view>

namespace ohmstead {

struct JpegSegments {
  int turn = 1;              ///< orientation 1 .. 8 as EXIF has it (tag 0x0112; EXIF 2.3, 4.6.4): 1 as it stands, 6 to be turned clockwise
  bool progressive = false;  ///< in several scans, which are held in memory whole while it is decoded
};

/// Of the segments before the first scan. Bytes that are no JPEG, and EXIF that is damaged, have turn 1.
[[nodiscard]] JpegSegments segments_of_jpeg(std::string_view bytes);

}  // namespace ohmstead
