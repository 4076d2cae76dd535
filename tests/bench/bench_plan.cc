// The best plan for 50 random houses of 40 circuits and 16 positions, beside CBC (COIN-OR) on the same problem in the
// same run: processor time of each, and the median of the ratio. CBC gets its options as in tests/backup/plan_milp.cc.
// bench_plan [HOW-MANY [SECONDS]]: begins no further problem after so many seconds, and says how many were measured.

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <optional>
#include <stdexcept>
#include <vector>

#include "tests/backup/plan_maker.h"
#include "tests/backup/plan_milp.h"

namespace {

double milliseconds_since(std::clock_t start) { return 1000.0 * static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC; }

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  return values[values.size() / 2];
}

}  // namespace

int main(int count, char** arguments) {
  const int problems = count > 1 ? std::atoi(arguments[1]) : 50;
  const double seconds = count > 2 ? std::atof(arguments[2]) : 1e9;
  const std::clock_t begin = std::clock();
  std::vector<double> ours, theirs, ratios;
  int differences = 0, unproven = 0, reference_unproven = 0;
  for (std::uint64_t seed = 0; static_cast<int>(ours.size()) < problems && milliseconds_since(begin) < 1000 * seconds; ++seed) {
    ohmstead::PlanMaking making;
    making.least_circuits = making.most_circuits = 40;
    making.least_positions = making.most_positions = 16;
    const auto problem = ohmstead::random_plan_problem(seed, making);
    std::clock_t start = std::clock();
    const ohmstead::Plan plan = ohmstead::best_plan(problem);
    const double mine = milliseconds_since(start);
    if (plan.end == ohmstead::PlanEnd::impossible) continue;  // pins that exclude each other: no work for either
    start = std::clock();
    std::optional<ohmstead::MilpAnswer> reference;
    bool proven = true;
    try {
      reference = ohmstead::best_by_milp(problem);
    } catch (const std::runtime_error&) {
      proven = false;
      ++reference_unproven;  // its time counts as it is, although it would need more
    }
    const double other = milliseconds_since(start);
    ours.push_back(mine), theirs.push_back(other), ratios.push_back(mine / other);
    if (plan.end == ohmstead::PlanEnd::stopped) ++unproven;
    else if (proven && (!reference || !(reference->score == plan.score))) ++differences;
    std::printf("%3d: %9.2f ms, CBC %9.1f ms%s\n", static_cast<int>(seed), mine, other,
                plan.end == ohmstead::PlanEnd::stopped ? ", not proven" : "");
    std::fflush(stdout);
  }
  if (ours.empty()) return 1;
  std::printf("%zu problems: median %.2f ms, CBC %.1f ms; median of the ratio %.4f (to reach: 0.1); %d not proven, CBC %d not in 10 s for a goal, %d differ\n",
              ours.size(), median(ours), median(theirs), median(ratios), unproven, reference_unproven, differences);
}
