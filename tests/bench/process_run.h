#pragma once
// One run of a program, measured from outside.

#include <fcntl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <string>
#include <vector>

namespace ohmstead {

struct ProcessRun {
  double wall_ms = 0, processor_ms = 0;  ///< by the clock; user and system
  long most_kib = 0;
  bool failed = false;  ///< another exit code than 0, a signal, or no such program
};

/// Runs `words`, looked for in PATH, with its output thrown away, and waits for its end.
inline ProcessRun run_process(std::vector<std::string> words) {
  std::vector<char*> pointers;
  for (std::string& word : words) pointers.push_back(word.data());
  pointers.push_back(nullptr);
  const auto start = std::chrono::steady_clock::now();
  const pid_t child = vfork();
  if (child == 0) {
    const int null = open("/dev/null", O_WRONLY);
    dup2(null, STDOUT_FILENO);
    execvp(pointers[0], pointers.data());
    _exit(127);
  }
  int status = 0;
  rusage used{};
  wait4(child, &status, 0, &used);
  const auto ms = [](const timeval& time) { return static_cast<double>(time.tv_sec) * 1000 + static_cast<double>(time.tv_usec) / 1000; };
  return {std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count(), ms(used.ru_utime) + ms(used.ru_stime),
          used.ru_maxrss, !WIFEXITED(status) || WEXITSTATUS(status) != 0};
}

/// Of one figure of several runs; at least one.
inline double median(std::vector<ProcessRun> runs, double ProcessRun::*which) {
  std::ranges::sort(runs, {}, which);
  return runs[runs.size() / 2].*which;
}

/// The largest memory of any of them.
inline double most_mib(const std::vector<ProcessRun>& runs) {
  return static_cast<double>(std::ranges::max(runs, {}, &ProcessRun::most_kib).most_kib) / 1024;
}

inline long failed(const std::vector<ProcessRun>& runs) { return std::ranges::count(runs, true, &ProcessRun::failed); }

}  // namespace ohmstead
