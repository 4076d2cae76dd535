#include "web/serve_lock.h"

#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/un.h>
#include <unistd.h>

#include <cerrno>
#include <cstddef>
#include <cstring>
#include <string>

#include "db/storage_error.h"
#include "house/error.h"

namespace ohmstead::web {

namespace {

/// A name that two paths to one file share.
std::string name_of(const std::filesystem::path& file) {
  struct stat about{};
  if (stat(file.c_str(), &about) != 0) throw Error(ErrorKind::storage, "There is no file " + quoted(file) + ".");
  return "ohmstead-serve-" + std::to_string(about.st_dev) + "-" + std::to_string(about.st_ino);
}

}  // namespace

ServeLock::ServeLock(const std::filesystem::path& house_file) {
  // A name in the kernel's own list (unix(7), "abstract"): a lock on the file itself would disturb those of the database.
  const std::string name = name_of(house_file);
  sockaddr_un address{};
  address.sun_family = AF_UNIX;
  std::memcpy(address.sun_path + 1, name.data(), name.size());
  const auto length = static_cast<socklen_t>(offsetof(sockaddr_un, sun_path) + 1 + name.size());
  socket_ = socket(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0);
  if (socket_ >= 0 && bind(socket_, reinterpret_cast<const sockaddr*>(&address), length) == 0) return;
  const bool taken = errno == EADDRINUSE;
  if (socket_ >= 0) close(socket_);
  if (taken) throw Error(ErrorKind::conflict, "Another `ohmstead serve` has the house file " + quoted(house_file) + "; use that one, or stop it first.");
  throw Error(ErrorKind::output, std::string("The server could not be started: ") + std::strerror(errno) + ".");
}

ServeLock::~ServeLock() { close(socket_); }

}  // namespace ohmstead::web
