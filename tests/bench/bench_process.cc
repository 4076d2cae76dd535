// One question answered by the whole process, beside the sqlite3 shell opening the same file and
// running one query; alternating, in one run. Medians, their ratio, and the largest memory.
//   bench_process OHMSTEAD HOUSE_FILE HANDLE [runs]

#include <fcntl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

namespace {

struct Measured {
  std::vector<double> ms;
  long most_kib = 0;
  int failed = 0;
  [[nodiscard]] double median() {
    std::ranges::sort(ms);
    return ms[ms.size() / 2];
  }
};

void run_once(std::vector<std::string> words, Measured& into) {
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
  into.ms.push_back(std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count());
  into.most_kib = std::max(into.most_kib, used.ru_maxrss);
  into.failed += !WIFEXITED(status) || WEXITSTATUS(status) != 0;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 4) {
    std::fputs("usage: bench_process OHMSTEAD HOUSE_FILE HANDLE [runs]\n", stderr);
    return 2;
  }
  const int runs = argc > 4 ? std::atoi(argv[4]) : 300;
  Measured shell, ours;
  for (int i = 0; i < runs; ++i) {
    run_once({"sqlite3", "-readonly", argv[2], "SELECT count(*) FROM point"}, shell);
    run_once({argv[1], "--house", argv[2], "off", argv[3]}, ours);
  }
  std::printf("sqlite3 shell, one query: %.2f ms, %.1f MiB\n", shell.median(), static_cast<double>(shell.most_kib) / 1024);
  std::printf("ohmstead off %s:          %.2f ms, %.1f MiB\n", argv[3], ours.median(), static_cast<double>(ours.most_kib) / 1024);
  std::printf("ratio %.2f (to reach: at most 3); memory to reach: under 20 MiB; %d runs each, %d failed\n",
              ours.median() / shell.median(), runs, shell.failed + ours.failed);
  return shell.failed + ours.failed == 0 ? 0 : 1;
}
