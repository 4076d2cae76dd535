#include "plan_exhaustive.h"

namespace ohmstead {
namespace {

struct Trying {
  const PlanProblem& problem;
  const std::function<void(const std::vector<Placed>&, const Judged&)>& see;
  std::vector<Placed> placed;
  std::vector<bool> used;

  void circuit(int c) {
    if (c == static_cast<int>(problem.circuits.size())) {
      if (const Judged judged = judge(problem, placed); judged.broken.empty()) see(placed, judged);
      return;
    }
    circuit(c + 1);
    placed.push_back({c, {-1, -1, -1}, {}});
    pole(c, 0);
    placed.pop_back();
  }
  void pole(int c, std::size_t k) {
    const PlanCircuit& of = problem.circuits[static_cast<std::size_t>(c)];
    if (k == static_cast<std::size_t>(of.poles)) return circuit(c + 1);
    if (of.own_leg[k] > 0) return pole(c, k + 1);
    for (std::size_t p = 0; p < problem.positions.size(); ++p) {
      if (used[p]) continue;
      const Placed before = placed.back();
      used[p] = true;
      placed.back().position[k] = static_cast<int>(p);
      pole(c, k + 1);
      placed.back() = before;
      used[p] = false;
    }
  }
};

}  // namespace

void for_each_plan(const PlanProblem& problem, const std::function<void(const std::vector<Placed>&, const Judged&)>& see) {
  Trying{problem, see, {}, std::vector<bool>(problem.positions.size(), false)}.circuit(0);
}

std::optional<PlanScore> best_by_trying(const PlanProblem& problem) {
  std::optional<PlanScore> best;
  for_each_plan(problem, [&](const std::vector<Placed>&, const Judged& judged) {
    if (!best || better(judged.score, *best)) best = judged.score;
  });
  return best;
}

}  // namespace ohmstead
