#pragma once
// Runs another program with words of ours and waits for its end: what needs large libraries, or libraries that only one thread may use,
// is done in a process of its own. No shell, no search along a path, nothing inherited but the environment and this process's folder.

#include <atomic>
#include <chrono>
#include <filesystem>
#include <string>
#include <vector>

namespace ohmstead::web {

struct ChildLimits {
  std::chrono::milliseconds time{20'000};       ///< from its start to its end; then it is ended
  std::size_t most_bytes = 4U * 1024 * 1024;    ///< of standard output; a program that says more is ended
};

enum class ChildEnd {
  done,       ///< exit code 0
  failed,     ///< another exit code, or a signal that was not ours
  too_late,   ///< ended by us: its time was over
  too_much,   ///< ended by us: it said too much
  stopped,    ///< ended by us: `stop` was set
  not_started
};

struct ChildResult {
  ChildEnd end = ChildEnd::not_started;
  int code = -1;    ///< exit code; -1: none
  std::string out;  ///< standard output, all of it if it is done
};

/// `words[0]` is the program's path; there must be one. Its standard input is empty, what it says on standard error is dropped. It is a process group of
/// its own, and nothing of it runs any more when this returns. From any thread. `stop`: end it soon.
[[nodiscard]] ChildResult run_child(const std::vector<std::string>& words, const ChildLimits& limits, const std::atomic<bool>& stop);

/// A folder that nobody else may look into, removed with all that is in it at the end.
class PrivateFolder {
 public:
  /// Throws Error{output}.
  PrivateFolder();
  ~PrivateFolder();
  PrivateFolder(const PrivateFolder&) = delete;
  PrivateFolder& operator=(const PrivateFolder&) = delete;
  [[nodiscard]] const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

}  // namespace ohmstead::web
