#pragma once
// Internal to scan.h: a picture in memory as grey dots.

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace ohmstead {

struct GreyPicture {
  int width = 0, height = 0;
  std::vector<std::uint8_t> grey;  ///< 0 is black; row by row
};

/// PNG, JPEG or PGM. Throws Error{invalid_input}, see read_codes_of_picture.
[[nodiscard]] GreyPicture grey_picture(std::string_view bytes, const std::string& shown);
/// The same picture at another size: the mean of the dots that fall on one, or between them.
[[nodiscard]] GreyPicture resized(const GreyPicture& picture, double factor);

}  // namespace ohmstead
