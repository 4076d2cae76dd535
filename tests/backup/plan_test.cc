#include "backup/plan.h"

#include <gmock/gmock.h>

#include <cstdlib>
#include <iostream>

#include "plan_exhaustive.h"
#include "plan_maker.h"
#include "plan_milp.h"

namespace ohmstead {

std::ostream& operator<<(std::ostream& out, const PlanScore& score) {
  return out << "life safety " << score.life_safety << ", importance " << score.importance << ", imbalance " << score.imbalance
             << ", moves " << score.moves;
}

namespace {

using testing::IsEmpty;

/// How many random problems: OHMSTEAD_PLANS, or a number that fits a test run.
int plans_to_try(int usual) {
  const char* asked = std::getenv("OHMSTEAD_PLANS");
  return asked ? std::atoi(asked) : usual;
}

TEST(BestPlan, is_the_best_of_all_that_can_be_tried_on_tiny_problems) {
  const PlanMaking tiny{.least_circuits = 2, .most_circuits = 5, .least_positions = 2, .most_positions = 5};
  int with_plan = 0;
  for (std::uint64_t seed = 0; seed < 400; ++seed) {
    const PlanProblem problem = random_plan_problem(seed, tiny);
    const Plan plan = best_plan(problem);
    const auto best = best_by_trying(problem);
    ASSERT_EQ(plan.end, best ? PlanEnd::optimal : PlanEnd::impossible) << "seed " << seed;
    if (!best) continue;
    ++with_plan;
    EXPECT_THAT(faults_of(problem, plan), IsEmpty()) << "seed " << seed;
    EXPECT_EQ(plan.score, *best) << "seed " << seed;
  }
  EXPECT_GT(with_plan, 200);
}

TEST(BestPlanMilp, is_what_an_independent_solver_proves_on_random_problems) {
  int with_plan = 0;
  const int plans = plans_to_try(8);
  for (int k = 0; k < plans; ++k) {
    const auto seed = static_cast<std::uint64_t>(k) + 1'000'000;
    const PlanProblem problem = random_plan_problem(seed);
    const Plan plan = best_plan(problem, 4'000'000'000);
    const auto reference = best_by_milp(problem);
    EXPECT_EQ(plan.end, reference ? PlanEnd::optimal : PlanEnd::impossible) << "seed " << seed;
    if (std::getenv("OHMSTEAD_PLANS") && k % 50 == 49) std::cerr << k + 1 << " plans compared\n";
    if (!reference) continue;
    ++with_plan;
    const Judged judged = judge(problem, reference->placed);
    EXPECT_THAT(judged.broken, IsEmpty()) << "seed " << seed;
    EXPECT_EQ(judged.score, reference->score) << "seed " << seed;
    EXPECT_THAT(faults_of(problem, plan), IsEmpty()) << "seed " << seed;
    EXPECT_EQ(plan.score, reference->score) << "seed " << seed;
  }
  EXPECT_GT(with_plan, plans / 2);
}

}  // namespace
}  // namespace ohmstead
