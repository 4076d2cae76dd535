// One question answered by the whole process, beside the sqlite3 shell opening the same file and
// running one query; alternating, in one run. Medians, their ratio, and the largest memory.
//   bench_process OHMSTEAD HOUSE_FILE HANDLE [runs]

#include <cstdio>
#include <cstdlib>
#include <vector>

#include "process_run.h"

using namespace ohmstead;

int main(int argc, char** argv) {
  if (argc < 4) {
    std::fputs("usage: bench_process OHMSTEAD HOUSE_FILE HANDLE [runs]\n", stderr);
    return 2;
  }
  const int runs = argc > 4 ? std::atoi(argv[4]) : 300;
  std::vector<ProcessRun> shell, ours;
  for (int i = 0; i < runs; ++i) {
    shell.push_back(run_process({"sqlite3", "-readonly", argv[2], "SELECT count(*) FROM point"}));
    ours.push_back(run_process({argv[1], "--house", argv[2], "off", argv[3]}));
  }
  const double bare = median(shell, &ProcessRun::wall_ms), whole = median(ours, &ProcessRun::wall_ms);
  const long bad = failed(shell) + failed(ours);
  std::printf("sqlite3 shell, one query: %.2f ms, %.1f MiB\n", bare, most_mib(shell));
  std::printf("ohmstead off %s:          %.2f ms, %.1f MiB\n", argv[3], whole, most_mib(ours));
  std::printf("ratio %.2f (to reach: at most 3); memory to reach: under 20 MiB; %d runs each, %ld failed\n", whole / bare, runs, bad);
  return bad == 0 ? 0 : 1;
}
