#pragma once
// SQLite's result codes in words that a householder can act on.

#include <filesystem>

#include "house/error.h"

namespace SQLite {
class Exception;
}

namespace ohmstead {

/// The Error for a failed call on the file at `path`: conflict if another program holds it, storage
/// for a full disk, a read-only file or folder, damage, or a device that does not answer.
[[nodiscard]] Error storage_error(const SQLite::Exception& failure, const std::filesystem::path& path);

/// `'/a/b.house'`, with control characters shown as '?'.
[[nodiscard]] std::string quoted(const std::filesystem::path& path);

}  // namespace ohmstead
