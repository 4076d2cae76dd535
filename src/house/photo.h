#pragma once
// Photos of anything in the house: a panel before it was opened, a nameplate, a page of a manual.

#include <cstddef>
#include <map>
#include <string>

#include "house/id.h"
#include "house/refs.h"

namespace ohmstead {

/// One photo. The bytes of its two pictures are no part of the house: the house file keeps them beside it (db/pictures.h), by their
/// sums, and a photo may be there without them.
struct Photo {
  static constexpr const char* kTable = "photo";
  Id<Photo> id;
  ThingRef about;
  std::string caption;
  std::string picture;  ///< SHA-256 of the JPEG, 64 hexadecimal digits in small letters
  std::string small;    ///< the same of a smaller one, for lists and for the file that is handed over
  int width = 0, height = 0;  ///< of the picture, in dots
  int bytes = 0;              ///< of the picture
  bool is_private = false;    ///< left out of hand-overs
  std::string who, at;
  bool operator==(const Photo&) const = default;
  template <class Self, class F>
  static void fields(Self& s, F&& f) {
    f("id", s.id), f("about", s.about), f("caption", s.caption), f("picture", s.picture), f("small", s.small), f("width", s.width),
        f("height", s.height), f("bytes", s.bytes), f("is_private", s.is_private), f("who", s.who), f("at", s.at);
  }
};

/// Bytes of pictures by their SHA-256 in hexadecimal.
using Pictures = std::map<std::string, std::string>;

/// Of one house.
inline constexpr std::size_t kMostPhotos = 200;
inline constexpr int kMostPhotoBytes = 40'000'000;
/// Of one picture and of its smaller one; edges in dots.
inline constexpr int kMostPictureBytes = 300'000, kLongestPictureEdge = 1600;
inline constexpr int kMostSmallBytes = 30'000, kLongestSmallEdge = 480;

}  // namespace ohmstead
