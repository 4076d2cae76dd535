#pragma once
// Files that the program makes: whole, or not there at all. Bytes go to a file beside the target,
// reach the disk, and take the target's name last.

#include <filesystem>
#include <functional>
#include <string_view>

namespace ohmstead {

/// Writes `bytes` to `path`, replacing what is there. Throws Error{output} naming the path: no such
/// folder, a folder at the path, no right to write, disk full. Then the old file is as it was.
void write_output_file(const std::filesystem::path& path, std::string_view bytes);

enum class Replace { yes, no };

/// Lets `make` write a file at a fresh path beside `to`, brings it to disk and names it `to`. With
/// Replace::no an existing `to` is never touched: Error{output}. If anything throws, the fresh file
/// is removed.
void write_through_neighbour(const std::filesystem::path& to, Replace replace,
                             const std::function<void(const std::filesystem::path&)>& make);

}  // namespace ohmstead
