#pragma once
// Is a house file whole? The long look, for `check`, before a copy and after one is put back.

#include <filesystem>
#include <string>
#include <vector>

namespace ohmstead {

/// Everything found wrong, one sentence each; empty: the file is whole and the house in it sound.
/// SQLite's integrity check, its references, and every rule of the house. Throws Error{storage} if
/// the file cannot be opened at all.
[[nodiscard]] std::vector<std::string> check_house_file(const std::filesystem::path& path);

}  // namespace ohmstead
