#include "db/plain_jpeg.h"

#include <cstdint>

namespace ohmstead {

namespace {

// Markers and segments: ITU T.81, table B.1 and figures B.3 and B.4.
constexpr unsigned kStart = 0xD8, kEnd = 0xD9, kScan = 0xDA, kFrame = 0xC0, kHuffman = 0xC4, kQuantizers = 0xDB, kRestarts = 0xDD, kJfif = 0xE0;
constexpr std::size_t kJfifLength = 16;  ///< without a thumbnail

unsigned byte_at(std::string_view bytes, std::size_t at) { return static_cast<unsigned char>(bytes[at]); }
unsigned word_at(std::string_view bytes, std::size_t at) { return byte_at(bytes, at) << 8 | byte_at(bytes, at + 1); }

/// Coded data to the end of the picture: after 0xFF stands 0 or a restart, and the end is the end of all.
bool is_only_scan(std::string_view data) {
  for (std::size_t at = data.find('\xFF'); at != std::string_view::npos; at = data.find('\xFF', at + 2)) {
    if (at + 1 >= data.size()) return false;
    const unsigned next = byte_at(data, at + 1);
    if (next == kEnd) return at + 2 == data.size();
    if (next != 0 && (next < 0xD0 || next > 0xD7)) return false;
  }
  return false;
}

/// Size in a frame header with 8 bits and one or three colours.
std::optional<JpegSize> size_of_frame(std::string_view segment) {
  if (segment.size() < 8 || byte_at(segment, 2) != 8) return std::nullopt;
  const unsigned colours = byte_at(segment, 7);
  const JpegSize size{static_cast<int>(word_at(segment, 5)), static_cast<int>(word_at(segment, 3))};
  if ((colours != 1 && colours != 3) || segment.size() != 8 + 3 * colours || size.width < 1 || size.height < 1) return std::nullopt;
  return size;
}

}  // namespace

std::optional<JpegSize> size_of_plain_jpeg(std::string_view bytes) {
  if (bytes.size() < 4 || word_at(bytes, 0) != (0xFF00U | kStart)) return std::nullopt;
  std::optional<JpegSize> size;
  for (std::size_t at = 2; at + 4 <= bytes.size();) {
    const unsigned marker = byte_at(bytes, at + 1);
    const std::size_t length = word_at(bytes, at + 2);
    if (byte_at(bytes, at) != 0xFF || length < 2 || at + 2 + length > bytes.size()) return std::nullopt;
    const std::string_view segment = bytes.substr(at + 2, length);
    if (marker == kScan) return size && is_only_scan(bytes.substr(at + 2 + length)) ? size : std::nullopt;
    if (marker == kJfif) {
      if (at != 2 || length != kJfifLength || segment.substr(2, 5) != std::string_view("JFIF\0", 5)) return std::nullopt;
    } else if (marker == kFrame) {
      if (size || !(size = size_of_frame(segment))) return std::nullopt;
    } else if (marker != kHuffman && marker != kQuantizers && marker != kRestarts) {
      return std::nullopt;
    }
    at += 2 + length;
  }
  return std::nullopt;
}

}  // namespace ohmstead
