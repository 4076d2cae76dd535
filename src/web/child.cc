#include "web/child.h"

#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <spawn.h>
#include <stdlib.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <optional>

#include "house/error.h"

namespace ohmstead::web {

namespace {

using Moment = std::chrono::steady_clock::time_point;

constexpr int kLookEachMs = 20;

/// What posix_spawn is told; freed at the end.
struct SpawnPlan {
  posix_spawn_file_actions_t files{};
  posix_spawnattr_t manner{};

  explicit SpawnPlan(int to) {
    posix_spawn_file_actions_init(&files);
    posix_spawn_file_actions_addopen(&files, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
    posix_spawn_file_actions_adddup2(&files, to, STDOUT_FILENO);
    posix_spawn_file_actions_addopen(&files, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
    posix_spawn_file_actions_addclosefrom_np(&files, STDERR_FILENO + 1);
    posix_spawnattr_init(&manner);
    sigset_t none, all;
    sigemptyset(&none), sigfillset(&all);
    posix_spawnattr_setsigmask(&manner, &none), posix_spawnattr_setsigdefault(&manner, &all);
    posix_spawnattr_setpgroup(&manner, 0);
    posix_spawnattr_setflags(&manner, POSIX_SPAWN_SETSIGMASK | POSIX_SPAWN_SETSIGDEF | POSIX_SPAWN_SETPGROUP);
  }
  ~SpawnPlan() {
    posix_spawn_file_actions_destroy(&files);
    posix_spawnattr_destroy(&manner);
  }
  SpawnPlan(const SpawnPlan&) = delete;
  SpawnPlan& operator=(const SpawnPlan&) = delete;
};

/// Process number; nothing if it could not be started.
std::optional<pid_t> started(const std::vector<std::string>& words, int to) {
  const SpawnPlan plan(to);
  std::vector<std::string> copies = words;
  std::vector<char*> pointers;
  for (std::string& word : copies) pointers.push_back(word.data());
  pointers.push_back(nullptr);
  pid_t child = 0;
  if (posix_spawn(&child, pointers[0], &plan.files, &plan.manner, pointers.data(), environ) != 0) return std::nullopt;
  return child;
}

/// Reads what is there without waiting longer than a moment. False: the other end is closed.
bool read_some(int from, std::string& out) {
  pollfd wait{from, POLLIN, 0};
  if (poll(&wait, 1, kLookEachMs) <= 0) return true;
  char bytes[16 * 1024];
  const ssize_t got = read(from, bytes, sizeof bytes);
  if (got > 0) out.append(bytes, static_cast<std::size_t>(got));
  return got > 0 || (got < 0 && (errno == EINTR || errno == EAGAIN));
}

/// Its end as wait tells it; nothing: it still runs. It is not reaped, so that its number stays its own.
bool has_ended(pid_t child) {
  siginfo_t about{};
  return waitid(P_PID, static_cast<id_t>(child), &about, WEXITED | WNOHANG | WNOWAIT) != 0 || about.si_pid == child;
}

ChildResult watched(pid_t child, int from, const ChildLimits& limits, const std::atomic<bool>& stop) {
  const Moment until = std::chrono::steady_clock::now() + limits.time;
  ChildResult result{ChildEnd::done, -1, ""};
  for (bool open = true; open || !has_ended(child);) {
    if (open) open = read_some(from, result.out);
    else poll(nullptr, 0, kLookEachMs);
    if (stop) result.end = ChildEnd::stopped;
    else if (result.out.size() > limits.most_bytes) result.end = ChildEnd::too_much;
    else if (std::chrono::steady_clock::now() >= until) result.end = ChildEnd::too_late;
    if (result.end != ChildEnd::done) break;
  }
  kill(-child, SIGKILL);  // it, and whatever it may have started
  int status = 0;
  while (waitpid(child, &status, 0) < 0 && errno == EINTR) {}
  if (result.end != ChildEnd::done) return result;
  if (WIFEXITED(status)) result.code = WEXITSTATUS(status);
  if (result.code != 0) result.end = ChildEnd::failed;
  return result;
}

}  // namespace

ChildResult run_child(const std::vector<std::string>& words, const ChildLimits& limits, const std::atomic<bool>& stop) {
  int ends[2];
  if (pipe2(ends, O_CLOEXEC) != 0) return {};
  const auto child = started(words, ends[1]);
  close(ends[1]);
  ChildResult result;
  if (child) result = watched(*child, ends[0], limits, stop);
  close(ends[0]);
  return result;
}

PrivateFolder::PrivateFolder() {
  std::error_code fault;
  std::string name = (std::filesystem::temp_directory_path(fault) / "ohmstead-look-XXXXXX").string();
  if (fault || mkdtemp(name.data()) == nullptr)
    throw Error(ErrorKind::output, std::string("No folder for a moment could be made (") + std::strerror(errno) + "); is the disk of the house computer full?");
  path_ = name;
}

PrivateFolder::~PrivateFolder() {
  std::error_code ignored;
  std::filesystem::remove_all(path_, ignored);
}

}  // namespace ohmstead::web
