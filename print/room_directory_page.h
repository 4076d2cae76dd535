#pragma once
// The directory by room as pages: of paper, or as large as a door pocket.

#include <optional>
#include <string>
#include <vector>

#include "ask/room_directory.h"
#include "print/directory.h"
#include "print/page_picture.h"

namespace ohmstead {

struct RoomDirectoryOptions {
  std::optional<Sheet> sheet;  ///< none: pages as large as the pocket
  double pocket_width_mm = 152, pocket_height_mm = 254;
  std::string date;           ///< YYYY-MM-DD, on every page and in every code
  std::int64_t revision = 0;  ///< of the record, 0 or more
  std::string check;          ///< check code, at the foot of every page; empty: none
  Location location = Location::dry;  ///< where it will hang, for the codes
  bool large = false;  ///< words of 16 pt, for weak eyes and weak light; else 12 pt
};

struct PrintedRoomDirectory {
  std::string pdf;  ///< same contents and options: the same bytes
  int pages = 0;
  std::vector<std::string> code_texts;  ///< exactly what each code holds; none where there would be too many
  std::vector<std::string> warnings;
};

/// Throws Error{invalid_input} for a date or revision that cannot be, or a pocket that is too small, with the smallest that works.
[[nodiscard]] PrintedRoomDirectory print_room_directory(const RoomDirectory& directory, const RoomDirectoryOptions& options);
[[nodiscard]] std::string room_directory_picture(const RoomDirectory& directory, const RoomDirectoryOptions& options, const PictureForm& form, int page = 0);
/// Draws the same pages on any canvas; `pdf` of the result is empty.
PrintedRoomDirectory draw_room_directory(const RoomDirectory& directory, const RoomDirectoryOptions& options, Canvas& canvas);

}  // namespace ohmstead
