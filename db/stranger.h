#pragma once
// A house file from somebody else. It is untrusted input: it never becomes the working file, and
// what is read from it is checked value by value.

#include <filesystem>
#include <string>
#include <vector>

#include "house/house.h"

namespace ohmstead {

/// Largest file that is read, in bytes.
inline constexpr std::uintmax_t kLargestStrangerFile = 256'000'000;

/// The house in the file at `path`. The file is copied alone (without anything lying beside it)
/// into a private folder, opened read-only with everything switched off that a hostile file could
/// use, compared with our schema, and read row by row. Throws Error{storage} for a file that is not
/// a house file, is damaged, newer, too large, takes too long, or holds anything we did not put
/// there; {invalid_input} if the house in it cannot be. Must not be a file that this process has open.
[[nodiscard]] House read_stranger_file(const std::filesystem::path& path);

/// Another copy of a house, and the marks of the changes that made it what it is, the last one first (db/history.h): enough to
/// know where two copies parted. What its changes did is not read.
struct OtherCopy {
  House house;
  std::vector<std::string> marks;
  Pictures pictures = {};  ///< that its photos name and that are in it, checked one by one (db/pictures.h)
};
/// The same with its marks. Throws as read_stranger_file.
[[nodiscard]] OtherCopy read_stranger_copy(const std::filesystem::path& path);

}  // namespace ohmstead
