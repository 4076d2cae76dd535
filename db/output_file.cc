#include "db/output_file.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>

#include "db/storage_error.h"
#include "house/id.h"

namespace ohmstead {

namespace fs = std::filesystem;

namespace {

[[noreturn]] void refuse(const fs::path& path, int code) {
  std::string reason = std::strerror(code);
  if (code == ENOSPC || code == EDQUOT) reason = "the disk is full";
  if (code == ENOENT) reason = "there is no such folder";
  if (code == EACCES || code == EPERM || code == EROFS) reason = "no right to write there";
  if (code == EEXIST) reason = "it is already there";
  if (code == EISDIR || code == ENOTEMPTY) reason = "a folder is in its place";
  throw Error(ErrorKind::output, quoted(path) + " was not written: " + reason + ".");
}

/// A file descriptor that closes itself.
class Descriptor {
 public:
  Descriptor(const fs::path& path, int flags) : fd_(::open(path.c_str(), flags | O_CLOEXEC, 0666)) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() {
    if (fd_ >= 0) ::close(fd_);
  }
  [[nodiscard]] bool is_open() const { return fd_ >= 0; }
  [[nodiscard]] bool sync() const { return fd_ >= 0 && ::fsync(fd_) == 0; }
  [[nodiscard]] bool write(std::string_view bytes) const {
    while (!bytes.empty()) {
      const ssize_t written = ::write(fd_, bytes.data(), bytes.size());
      if (written < 0 && errno == EINTR) continue;
      if (written <= 0) return false;
      bytes.remove_prefix(static_cast<std::size_t>(written));
    }
    return true;
  }

 private:
  int fd_;
};

/// Removes a file when it goes out of scope.
struct Removed {
  const fs::path& path;
  ~Removed() {
    std::error_code ignored;
    fs::remove(path, ignored);
  }
};

bool rename_to(const fs::path& from, const fs::path& to, Replace replace) {
  if (replace == Replace::yes) return ::rename(from.c_str(), to.c_str()) == 0;
  if (::renameat2(AT_FDCWD, from.c_str(), AT_FDCWD, to.c_str(), RENAME_NOREPLACE) == 0) return true;
  if (errno != EINVAL && errno != ENOSYS) return false;
  struct stat there = {};  // a file system that cannot do it in one step
  if (::lstat(to.c_str(), &there) == 0) return errno = EEXIST, false;
  return ::rename(from.c_str(), to.c_str()) == 0;
}

}  // namespace

void write_through_neighbour(const fs::path& to, Replace replace, const std::function<void(const fs::path&)>& make) {
  std::error_code failed;
  if (!to.has_filename()) refuse(to, EISDIR);
  const fs::path folder = fs::canonical(to.has_parent_path() ? to.parent_path() : fs::path("."), failed);
  if (failed || !fs::is_directory(folder)) refuse(to, failed ? failed.value() : ENOENT);
  const fs::path neighbour = folder / ("." + to.filename().string().substr(0, 200) + "." + id_text(new_id_value()));
  const Removed removed{neighbour};
  make(neighbour);
  if (!Descriptor(neighbour, O_RDONLY).sync()) refuse(to, errno);
  if (!rename_to(neighbour, to, replace)) refuse(to, errno);
  if (!Descriptor(folder, O_RDONLY | O_DIRECTORY).sync() && errno != EINVAL && errno != EACCES) refuse(to, errno);
}

void write_output_file(const fs::path& path, std::string_view bytes) {
  std::error_code failed;
  const fs::file_status status = fs::status(path, failed);
  if (fs::is_directory(status)) refuse(path, EISDIR);
  if (fs::exists(status) && !fs::is_regular_file(status)) {  // a pipe or a terminal: no file to replace
    const Descriptor out(path, O_WRONLY);
    if (!out.is_open() || !out.write(bytes)) refuse(path, errno);
    return;
  }
  // Behind a link the file itself is replaced, and the link stays.
  const fs::path target = fs::exists(status) ? fs::canonical(path) : path;
  write_through_neighbour(target, Replace::yes, [&](const fs::path& neighbour) {
    const Descriptor out(neighbour, O_WRONLY | O_CREAT | O_EXCL);
    if (!out.is_open() || !out.write(bytes)) refuse(path, errno);
  });
}

}  // namespace ohmstead
