#pragma once
// The directory of one panel: a card for the pocket of its door, in the panel's physical order,
// with codes that hold the same directory as plain text. Everything is made in memory.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "ask/location.h"
#include "feed/feeds.h"
#include "house/house.h"
#include "print/check_code.h"
#include "print/page_picture.h"

namespace ohmstead {

class Canvas;

enum class Sheet { letter, a4 };

struct DirectoryOptions {
  Id<Panel> panel;
  double pocket_width_mm = 152, pocket_height_mm = 254;  ///< the card is exactly this large; 40 .. 1000
  std::string date;           ///< YYYY-MM-DD, printed and in every code
  std::int64_t revision = 0;  ///< of the record, 0 or more
  std::optional<Sheet> sheet;  ///< print the card in the middle of this paper, with lines to cut along
  std::string check;   ///< the code of directory_item, printed under the title; empty: none
  std::optional<Location> location;  ///< where the panel is, for the codes; none: as the name of its room tells
  bool large = false;  ///< label text of at least 16 pt; needs a larger pocket
};

struct PrintedDirectory {
  std::string pdf;                      ///< same house, feeds and options: the same bytes
  std::vector<std::string> code_texts;  ///< exactly what each code holds, in order
  std::vector<std::string> warnings;    ///< full sentences: a label that was shortened on the card, a missing font
  bool codes_on_back = false;           ///< the codes did not fit under the table and are on a second page
};

/// The front, and a second page of the same size where the codes do not fit below the table.
/// Throws Error{not_found} for a panel that is not in the house, Error{invalid_input} for options
/// that cannot be (with the smallest pocket that would do, if it is too small), Error{output} if
/// the fonts are missing.
[[nodiscard]] PrintedDirectory print_directory(const House& house, const Feeds& feeds, const DirectoryOptions& options);

/// How the record knows the directory of this panel, and its check code now.
[[nodiscard]] PrintedItem directory_item(const House& house, const Feeds& feeds, const DirectoryOptions& options);

/// A picture of page `page` (0: the front) in `dpi` dots per inch, 50 .. 1200.
[[nodiscard]] std::string directory_picture(const House& house, const Feeds& feeds, const DirectoryOptions& options, const PictureForm& form, int page = 0);

/// Draws the same pages on any canvas; `pdf` of the result is empty.
PrintedDirectory draw_directory(const House& house, const Feeds& feeds, const DirectoryOptions& options, Canvas& canvas);

}  // namespace ohmstead
