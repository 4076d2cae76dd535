#pragma once
// One server for one house file. The file itself bears several writers; but two servers would show two rounds of tracing of one house,
// each unaware of who stands at the panel for the other.

#include <filesystem>

namespace ohmstead::web {

/// Held as long as it lives, and let go by the kernel however the program ends; leaves nothing on disk and does not touch the file.
class ServeLock {
 public:
  /// Throws Error{conflict} if another server on this computer has the file, Error{storage} if there is no such file.
  explicit ServeLock(const std::filesystem::path& house_file);
  ~ServeLock();
  ServeLock(const ServeLock&) = delete;
  ServeLock& operator=(const ServeLock&) = delete;

 private:
  int socket_ = -1;
};

}  // namespace ohmstead::web
