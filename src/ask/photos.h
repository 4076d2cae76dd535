#pragma once
// Photos in words: what they are of, and what is said where their pictures are not.

#include <string>
#include <vector>

#include "ask/answer_words.h"
#include "ask/names.h"

namespace ohmstead {

struct PhotoWords {
  std::string id;       ///< of the row, as commands take it
  std::string about;    ///< "Main panel", "the house"
  std::string caption;  ///< may be empty
  std::string date;     ///< YYYY-MM-DD, of the day it was put in
  std::string who;      ///< may be empty
  std::string dots;     ///< "1600 x 1200, 250 kB"
  bool is_private = false;
};
[[nodiscard]] PhotoWords words_of_photo(const Names& names, const Photo& photo);

/// Under a picture: "Main panel: before it was opened (2026-11-27)".
[[nodiscard]] std::string title_of_photo(const PhotoWords& photo);

/// One line for each: "Main panel: before it was opened (2026-11-27, Ana; 1600 x 1200, 250 kB; photo 0123456789ab)". `here` says of each whether its
/// picture is.
[[nodiscard]] Lines words_of_photos(const Names& names, const std::vector<Photo>& photos, const std::vector<bool>& here);

/// "2 of 5 photos are here without the picture: ..."; "" for none.
[[nodiscard]] std::string words_of_missing_pictures(std::size_t missing, std::size_t all);

/// Place in house.photos of the photo whose id ends so; the last four signs are mostly enough. Throws Error{not_found}, or {ambiguous}.
[[nodiscard]] std::size_t photo_called(const House& house, const std::string& id);
/// Throws Error{invalid_input} with one sentence where another photo of so many bytes would be too much.
void require_room_for_photo(const House& house, int bytes);

}  // namespace ohmstead
