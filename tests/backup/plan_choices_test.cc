#include "backup/plan_choices.h"

#include <gmock/gmock.h>

#include <algorithm>

#include "plan_exhaustive.h"
#include "plan_maker.h"

namespace ohmstead {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

const PlanMaking kTiny{.least_circuits = 2, .most_circuits = 4, .least_positions = 2, .most_positions = 4};

PlanCircuit circuit(int amps, int watts, int starting = 0) {
  PlanLoad load{.weight = 10};
  load.running[0] = watts;
  load.starting[0] = std::max(watts, starting);
  load.breaker_ma[0] = watts * 1000 / 120;
  return {.amps = amps, .loads = {load}};
}
PlanProblem house(std::vector<PlanCircuit> circuits, std::vector<PlanPosition> positions) {
  PlanSource source{.running = 3000, .starting = 4000, .leg_running = {1500, 1500}, .leg_starting = {2000, 2000}};
  return {std::move(circuits), std::move(positions), source, {}};
}
WhyNot why(const PlanProblem& problem, int c) { return why_not(problem, best_plan(problem), c); }

TEST(WhyNot, names_the_first_thing_that_keeps_a_circuit_out) {
  PlanProblem problem = house({circuit(20, 100)}, {{1, 15, -1}});
  EXPECT_EQ(why(problem, 0).obstacle, Obstacle::none);
  problem.pins = {{PinKind::never, 0, -1}};
  EXPECT_EQ(why(problem, 0).obstacle, Obstacle::pinned_out);
  EXPECT_EQ(why(problem, 0).instead.placed.size(), 1u) << "without the pin it is carried";

  const WhyNot large = why(house({circuit(15, 100)}, {{1, 20, -1}, {1, 30, -1}}), 0);
  EXPECT_EQ(large.obstacle, Obstacle::positions_too_large);
  EXPECT_EQ(large.needs, 15);
  EXPECT_EQ(large.gives, 20);

  const WhyNot small = why(house({circuit(20, 1900)}, {{1, 15, -1}, {1, 30, -1}}), 0);
  EXPECT_EQ(small.obstacle, Obstacle::positions_too_small);
  EXPECT_EQ(small.needs, 15833);
  EXPECT_EQ(small.gives, 15000);

  const WhyNot alone = why(house({circuit(20, 1501)}, {{1, 20, -1}}), 0);
  EXPECT_EQ(alone.obstacle, Obstacle::running_alone);
  EXPECT_EQ(alone.needs, 1501);
  EXPECT_EQ(alone.gives, 1500);
  EXPECT_EQ(alone.leg, 1);
  EXPECT_EQ(alone.instead.end, PlanEnd::impossible);
  EXPECT_EQ(why(house({circuit(20, 1500, 2001)}, {{1, 20, -1}}), 0).obstacle, Obstacle::starting_alone);
  EXPECT_EQ(why(house({circuit(20, 1500, 2000)}, {{1, 20, -1}}), 0).obstacle, Obstacle::none);
}

TEST(WhyNot, tells_several_poles_and_partners_apart) {
  PlanCircuit pump = circuit(20, 300);
  pump.poles = 2;
  pump.loads[0].running[1] = pump.loads[0].starting[1] = 300;
  PlanProblem problem = house({pump}, {{1, 20, 0}, {2, 20, 1}});
  EXPECT_EQ(why(problem, 0).obstacle, Obstacle::no_tied_positions);
  problem.positions[1].tie = 0;
  EXPECT_EQ(why(problem, 0).obstacle, Obstacle::none);
  problem.source.in_phase = true;
  EXPECT_EQ(why(problem, 0).obstacle, Obstacle::source_in_phase);
  problem.source.in_phase = false, problem.source.legs = 1;
  EXPECT_EQ(why(problem, 0).obstacle, Obstacle::too_few_legs);

  problem = house({circuit(20, 100), circuit(15, 100)}, {{1, 20, 0}, {2, 20, 0}});
  problem.circuits[0].multiwire = problem.circuits[1].multiwire = 1;
  const WhyNot partner = why(problem, 0);
  EXPECT_EQ(partner.obstacle, Obstacle::partner);
  EXPECT_EQ(partner.partner, 1);
}

TEST(WhyNot, tells_what_the_others_leave_and_who_would_lose) {
  PlanProblem problem = house({circuit(20, 100), circuit(20, 200)}, {{1, 20, -1}});
  problem.circuits[0].loads[0].weight = 50;
  const WhyNot position = why(problem, 1);
  EXPECT_EQ(position.obstacle, Obstacle::no_position_left);
  EXPECT_THAT(position.circuits_lost, ElementsAre(0));
  EXPECT_THAT(position.loads_lost, ElementsAre(LoadPlace{0, 0}));
  problem.positions.push_back({1, 20, -1});
  problem.circuits[1] = circuit(20, 1401);
  EXPECT_EQ(why(problem, 1).obstacle, Obstacle::running);
  problem.circuits[1] = circuit(20, 1400, 2000);
  EXPECT_EQ(why(problem, 1).obstacle, Obstacle::starting);
  problem.circuits[1] = circuit(20, 1400, 1900);
  EXPECT_EQ(why(problem, 1).obstacle, Obstacle::none);
}

TEST(WhyNot, a_load_on_demand_that_is_not_served_has_a_limit_that_it_passes) {
  PlanProblem problem = house({circuit(20, 100), circuit(20, 700)}, {{1, 20, -1}, {1, 20, -1}});
  problem.circuits[0].loads.push_back({.on_demand = true, .weight = 5, .running = {701}, .starting = {701}, .breaker_ma = {5000}});
  const Plan plan = best_plan(problem);
  const WhyNot found = why_not_served(problem, plan, {0, 1});
  EXPECT_EQ(found.obstacle, Obstacle::running);
  EXPECT_EQ(found.needs, 1501);
  EXPECT_EQ(found.gives, 1500);
  EXPECT_EQ(found.leg, 1);
  EXPECT_THAT(found.circuits_lost, ElementsAre(1));
  problem.circuits[0].loads[1].running[0] = problem.circuits[0].loads[1].starting[0] = 700;
  EXPECT_EQ(why_not_served(problem, best_plan(problem), {0, 1}).obstacle, Obstacle::none);
}

bool carries(const std::vector<Placed>& placed, int c) {
  return std::any_of(placed.begin(), placed.end(), [c](const Placed& at) { return at.circuit == c; });
}

TEST(Choices, instead_is_the_best_of_all_plans_with_it_and_alternatives_are_what_they_say) {
  int tried = 0, others = 0;
  for (std::uint64_t seed = 0; seed < 60; ++seed) {
    PlanMaking making = kTiny;
    making.pins = false;
    const PlanProblem problem = random_plan_problem(seed + 500, making);
    const Plan plan = best_plan(problem);
    for (int c = 0; c < static_cast<int>(problem.circuits.size()); ++c) {
      if (carries(plan.placed, c)) continue;
      std::optional<PlanScore> best;
      for_each_plan(problem, [&](const std::vector<Placed>& placed, const Judged& judged) {
        if (carries(placed, c) && (!best || better(judged.score, *best))) best = judged.score;
      });
      const WhyNot found = why_not(problem, plan, c);
      ASSERT_EQ(found.instead.end == PlanEnd::optimal, best.has_value()) << "seed " << seed;
      if (best) {
        EXPECT_EQ(found.instead.score.importance, best->importance) << "seed " << seed;
        EXPECT_FALSE(better(*best, found.instead.score) || better(found.instead.score, *best)) << "seed " << seed;
      }
      ++tried;
    }
    for (const Plan& other : alternatives(problem, plan, 3)) {
      ++others;
      EXPECT_THAT(faults_of(problem, other), IsEmpty());
      EXPECT_FALSE(better(other.score, plan.score));
    }
  }
  EXPECT_GT(tried, 20);
  EXPECT_GT(others, 50);
}

TEST(Choices, the_best_plan_that_serves_a_load_is_the_best_of_all_that_do) {
  int tried = 0;
  for (std::uint64_t seed = 0; seed < 150; ++seed) {
    const PlanProblem problem = random_plan_problem(seed + 900, kTiny);
    const Plan plan = best_plan(problem);
    for (const Placed& at : plan.placed)
      for (std::size_t k = 0; k < at.served.size(); ++k) {
        if (at.served[k]) continue;
        std::optional<PlanScore> best;
        for_each_plan(problem, [&](const std::vector<Placed>& placed, const Judged& judged) {
          for (std::size_t p = 0; p < placed.size(); ++p)
            if (placed[p].circuit == at.circuit && judged.served[p][k] && (!best || better(judged.score, *best))) best = judged.score;
        });
        const WhyNot found = why_not_served(problem, plan, {at.circuit, static_cast<int>(k)});
        EXPECT_NE(found.obstacle, Obstacle::none) << "seed " << seed;
        ASSERT_EQ(found.instead.end == PlanEnd::optimal, best.has_value()) << "seed " << seed;
        if (best) { EXPECT_TRUE(found.instead.score == *best) << "seed " << seed; }
        ++tried;
      }
  }
  EXPECT_GT(tried, 10);
}

TEST(Choices, a_larger_source_in_the_same_ratio_serves_no_less) {
  const PlanProblem problem = random_plan_problem(77, {.most_circuits = 12, .pins = false});
  const auto curve = served_by_size(problem, {500, 1000, 2000, 4000, 8000});
  ASSERT_EQ(curve.size(), 5u);
  for (std::size_t k = 1; k < curve.size(); ++k) EXPECT_GE(curve[k].second.score.importance + 1000 * curve[k].second.score.life_safety,
                                                           curve[k - 1].second.score.importance);
}

/// The smallest of all plans that serve all, by trying: in all, then the heavier leg.
SmallestSource smallest_by_trying(PlanProblem problem, bool plain) {
  problem.pins.clear();
  problem.source.running = problem.source.starting = 1'000'000;
  problem.source.leg_running.fill(1'000'000), problem.source.leg_starting.fill(1'000'000);
  for (PlanCircuit& each : problem.circuits)
    for (PlanLoad& load : each.loads) load.on_demand = load.on_demand && !plain;
  SmallestSource out;
  for_each_plan(problem, [&](const std::vector<Placed>& placed, const Judged& judged) {
    if (placed.size() != problem.circuits.size()) return;
    for (const auto& loads : judged.served)
      if (std::find(loads.begin(), loads.end(), false) != loads.end()) return;
    std::array<int, 4> running = {judged.sums.total_running, judged.sums.running[0], judged.sums.running[1], judged.sums.running[2]};
    std::array<int, 4> starting = {running[0] + judged.sums.total_extra, running[1] + judged.sums.extra[0],
                                   running[2] + judged.sums.extra[1], running[3] + judged.sums.extra[2]};
    const auto base = running;
    for (const Placed& at : placed)
      for (const PlanLoad& load : problem.circuits[static_cast<std::size_t>(at.circuit)].loads) {
        std::array<int, 4> more{}, starts{};
        for (std::size_t pole = 0; pole < 3; ++pole) {
          const int p = at.position[pole], own = problem.circuits[static_cast<std::size_t>(at.circuit)].own_leg[pole];
          const auto leg = static_cast<std::size_t>(p >= 0 ? problem.positions[static_cast<std::size_t>(p)].leg : own);
          for (const std::size_t limit : {std::size_t{0}, leg})
            if (leg > 0) more[limit] += load.running[pole], starts[limit] += load.starting[pole];
        }
        for (std::size_t limit = 0; limit < 4 && load.on_demand; ++limit) {
          const int extra = limit == 0 ? judged.sums.total_extra : judged.sums.extra[limit - 1];
          running[limit] = std::max(running[limit], base[limit] + more[limit]);
          starting[limit] = std::max(starting[limit], base[limit] + std::max(starts[limit], more[limit] + extra));
        }
      }
    const SmallestSource here{true, {}, running[0], starting[0], *std::max_element(running.begin() + 1, running.end()),
                              *std::max_element(starting.begin() + 1, starting.end())};
    if (!out.possible || std::pair(here.leg_running, here.leg_starting) < std::pair(out.leg_running, out.leg_starting)) out = here;
  });
  return out;
}

TEST(SmallestSource, is_the_smallest_of_all_plans_that_serve_everything) {
  int possible = 0;
  for (std::uint64_t seed = 0; seed < 400; ++seed) {
    PlanProblem problem = random_plan_problem(seed + 3000, {.least_circuits = 1, .most_circuits = 3, .least_positions = 3, .most_positions = 5});
    const SmallestSources found = smallest_source(problem);
    for (const bool plain : {true, false}) {
      SmallestSource mine = plain ? found.plain : found.managed;
      const SmallestSource tried = smallest_by_trying(problem, plain);
      ASSERT_EQ(mine.possible, tried.possible) << "seed " << seed << " plain " << plain;
      if (!mine.possible) continue;
      ++possible;
      EXPECT_EQ(mine.running, tried.running) << "seed " << seed << " plain " << plain;
      EXPECT_EQ(mine.starting, tried.starting) << "seed " << seed << " plain " << plain;
      EXPECT_EQ(mine.leg_running, tried.leg_running) << "seed " << seed << " plain " << plain;
      EXPECT_EQ(mine.leg_starting, tried.leg_starting) << "seed " << seed << " plain " << plain;
    }
  }
  EXPECT_GT(possible, 50);
}

}  // namespace
}  // namespace ohmstead
