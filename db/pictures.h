#pragma once
// The pictures of photos (house/photo.h): JPEG bytes that a row names by their SHA-256. They are no part of the House value, so that
// reading a house stays cheap; the house file keeps them in a table of their own.

#include <optional>
#include <string>
#include <string_view>

#include "house/house.h"

namespace SQLite {
class Database;
}

namespace ohmstead {

/// Whatever photos of the house name and `pictures` has must be what the rows say: the sum, a JPEG as this program writes them
/// (db/plain_jpeg.h), its size in dots and bytes, the limits of house/photo.h; and each of `pictures` must be named. Throws
/// Error{invalid_input} with the place: "photo[3].picture". A picture that is not there is no fault.
void require_pictures(const House& house, const Pictures& pictures);

/// How many photos of the house are without their picture.
[[nodiscard]] std::size_t photos_without_picture(const House& house, const Pictures& pictures);

/// Is a picture of that name really the one? For bytes out of a file.
[[nodiscard]] bool is_picture_of(const std::string& sha256, std::string_view bytes);

/// What was dropped.
struct DroppedPictures {
  int count = 0;
  long bytes = 0;
};

// In an open house file; those that write must be inside a transaction. They throw SQLite::Exception.
void write_pictures(SQLite::Database& db, const Pictures& pictures);  ///< what is there already stays
[[nodiscard]] std::optional<std::string> read_picture(SQLite::Database& db, const std::string& sha256);
[[nodiscard]] Pictures read_pictures(SQLite::Database& db, const House& house);  ///< those that its photos name
DroppedPictures drop_pictures_without_photo(SQLite::Database& db);  ///< their bytes are overwritten

}  // namespace ohmstead
