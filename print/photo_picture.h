#pragma once
// A photo from a camera or a phone as the house file keeps it: turned as it was held, made smaller, in color, as a JPEG without anything but
// the picture: no place, no time, no camera.

#include <string>
#include <string_view>

#include "house/photo.h"

namespace ohmstead {

struct MadePhoto {
  std::string jpeg, small;      ///< as db/pictures.h takes them, within the limits of house/photo.h
  int width = 0, height = 0;    ///< of `jpeg`, in dots
};

/// Largest file that is looked at, and most megapixels of a picture; less where the whole picture must be held in memory to decode it.
inline constexpr std::size_t kLargestPhotoFile = 40'000'000;
inline constexpr int kMostMegapixels = 100, kMostMegapixelsWhole = 40;

/// From the bytes of a JPEG or PNG. What is clear is put on white; other profiles of color are dropped. Throws Error{invalid_input} with one
/// sentence that begins with `shown`, the name of the file, before memory is spent: too large, no picture, of another kind (and which it is to be
/// saved as), damaged, cut off.
[[nodiscard]] MadePhoto photo_of_picture(std::string_view bytes, const std::string& shown);

}  // namespace ohmstead
