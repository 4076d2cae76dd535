#include "print/exif_turn.h"

#include <cstdint>
#include <optional>

namespace ohmstead {

namespace {

/// Numbers in either order of bytes; nothing behind the end.
class Numbers {
 public:
  Numbers(std::string_view bytes, bool little) : bytes_(bytes), little_(little) {}
  [[nodiscard]] std::optional<std::uint32_t> at(std::size_t at, std::size_t count) const {
    if (at > bytes_.size() || bytes_.size() - at < count) return std::nullopt;
    std::uint32_t value = 0;
    for (std::size_t i = 0; i < count; ++i) value = value << 8 | static_cast<unsigned char>(bytes_[little_ ? at + count - 1 - i : at + i]);
    return value;
  }

 private:
  std::string_view bytes_;
  bool little_;
};

/// In a TIFF header and its first directory: entries of 12 bytes, of which the short value stands at the ninth (TIFF 6.0, part 1).
int turn_of_tiff(std::string_view tiff) {
  constexpr std::uint32_t kOrientation = 0x0112, kShort = 3;
  if (!tiff.starts_with("II") && !tiff.starts_with("MM")) return 1;
  const Numbers numbers(tiff, tiff[0] == 'I');
  const auto first = numbers.at(4, 4);
  const auto entries = first ? numbers.at(*first, 2) : std::nullopt;
  for (std::size_t i = 0; i < entries.value_or(0); ++i) {
    const std::size_t at = std::size_t{*first} + 2 + 12 * i;
    if (numbers.at(at, 2) != kOrientation) continue;
    const std::uint32_t turn = numbers.at(at + 2, 2) == kShort ? numbers.at(at + 8, 2).value_or(1) : 1;
    return turn >= 1 && turn <= 8 ? static_cast<int>(turn) : 1;
  }
  return 1;
}

}  // namespace

JpegSegments segments_of_jpeg(std::string_view bytes) {
  constexpr std::uint32_t kScan = 0xDA, kExif = 0xE1;
  constexpr std::string_view kExifName("Exif\0\0", 6);
  JpegSegments found;
  if (!bytes.starts_with("\xFF\xD8")) return found;
  const Numbers numbers(bytes, false);
  bool turned = false;
  for (std::size_t at = 2; numbers.at(at, 1) == 0xFFU;) {
    const std::uint32_t marker = numbers.at(at + 1, 1).value_or(kScan);
    if (marker == 0xFF) { ++at; continue; }  // filling
    const std::uint32_t length = numbers.at(at + 2, 2).value_or(0);
    if (marker == kScan || length < 2 || bytes.size() - at - 2 < length) break;
    const std::string_view body = bytes.substr(at + 4, length - 2);
    if (marker == kExif && !turned && body.starts_with(kExifName)) found.turn = turn_of_tiff(body.substr(kExifName.size())), turned = true;
    const bool is_frame = marker >= 0xC0 && marker <= 0xCF && marker != 0xC4 && marker != 0xC8 && marker != 0xCC;
    if (is_frame && marker % 4 == 2) found.progressive = true;  // ITU T.81, table B.1
    at += 2 + length;
  }
  return found;
}

}  // namespace ohmstead
