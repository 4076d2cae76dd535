#include "backup/plan_choices.h"

#include <gmock/gmock.h>

#include <random>

#include "plan_checker.h"
#include "plan_exhaustive.h"
#include "plan_maker.h"

namespace ohmstead {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

/// Few enough circuits and positions to try every plan.
PlanProblem tiny_plan_problem(std::uint64_t seed) {
  return random_plan_problem(seed, {.least_circuits = 2, .most_circuits = 4, .least_positions = 1, .most_positions = 4});
}

/// A circuit of one pole with one load.
PlanCircuit one_load(int amps, int running, int starting, int weight) {
  PlanLoad load{.weight = weight, .running = {running, 0, 0}, .starting = {starting, 0, 0}, .breaker_ma = {running * 1000 / 120, 0, 0}};
  return {.poles = 1, .amps = amps, .loads = {load}};
}

PlanCircuit two_pole(int amps, int running, int starting, int weight) {
  PlanLoad load{.weight = weight, .running = {running / 2, running / 2, 0}, .starting = {starting / 2, starting / 2, 0}};
  return {.poles = 2, .amps = amps, .between_legs = true, .loads = {load}};
}

PlanSource source_of(int running, int starting) {
  return {.running = running, .starting = starting, .leg_running = {running / 2, running / 2, 0}, .leg_starting = {starting / 2, starting / 2, 0}};
}

PlanSource one_leg_of(int running, int starting) {
  return {.legs = 1, .running = running, .starting = starting, .leg_running = {running, 0, 0}, .leg_starting = {starting, 0, 0}};
}

WhyNotAnswer why(const PlanProblem& problem, int circuit, int load = -1) { return why_not(problem, best_plan(problem), circuit, load); }

TEST(WhyNotTest, names_what_no_other_circuit_has_to_do_with) {
  PlanProblem problem{.circuits = {one_load(15, 100, 400, 10), one_load(15, 1500, 1500, 5), two_pole(20, 1000, 2000, 5)},
                      .positions = {{1, 20, -1}, {2, 15, -1}}, .source = source_of(3600, 4500)};
  problem.pins = {{PinKind::never, 0, -1}};
  EXPECT_EQ(why(problem, 0).why, WhyNot::pinned_out);
  EXPECT_EQ(why(problem, 2).why, WhyNot::no_tied_pair);
  EXPECT_EQ(why(problem, 1).why, WhyNot::served);
  problem.pins.clear();
  problem.positions = {{1, 20, -1}, {2, 20, -1}};
  const WhyNotAnswer large = why(problem, 0);
  EXPECT_EQ(large.why, WhyNot::positions_too_large);
  EXPECT_EQ(large.needed, 15);
  EXPECT_EQ(large.there, 20);
  problem.positions = {{1, 10, -1}, {2, 10, -1}};
  const WhyNotAnswer small = why(problem, 1);  // 12.5 A on a 10 A breaker
  EXPECT_EQ(small.why, WhyNot::breaker_too_small);
  EXPECT_EQ(small.needed, 13);
  EXPECT_EQ(small.there, 10);
}

TEST(WhyNotTest, a_source_with_one_voltage_carries_nothing_between_legs_and_no_shared_neutral) {
  PlanProblem problem{.circuits = {two_pole(20, 1000, 2000, 5), one_load(20, 100, 100, 1), one_load(20, 100, 100, 1)},
                      .positions = {{1, 20, 0}, {2, 20, 0}}, .source = source_of(3600, 4500)};
  problem.circuits[1].multiwire = problem.circuits[2].multiwire = 0;
  problem.source.in_phase = true;
  problem.source.leg_running = {3600, 3600, 0}, problem.source.leg_starting = {4500, 4500, 0};
  EXPECT_EQ(why(problem, 0).why, WhyNot::no_two_legs);
  EXPECT_EQ(why(problem, 1).why, WhyNot::shared_neutral);
}

TEST(WhyNotTest, alone_too_much_for_the_source_has_its_numbers) {
  PlanProblem problem{.circuits = {one_load(40, 2500, 2500, 5), one_load(40, 1000, 3000, 5)}, .positions = {{1, 40, -1}, {2, 40, -1}}, .source = source_of(3600, 4500)};
  const WhyNotAnswer runs = why(problem, 0);
  EXPECT_EQ(runs.why, WhyNot::running_alone);
  EXPECT_EQ(runs.needed, 2500);
  EXPECT_EQ(runs.there, 1800);
  const WhyNotAnswer starts = why(problem, 1);
  EXPECT_EQ(starts.why, WhyNot::starting_alone);
  EXPECT_EQ(starts.needed, 3000);
  EXPECT_EQ(starts.there, 2250);
}

TEST(WhyNotTest, in_competition_it_names_the_bottleneck_and_the_losers) {
  PlanProblem problem{.circuits = {one_load(15, 100, 100, 10), one_load(15, 100, 100, 5), one_load(15, 100, 100, 1)}, .positions = {{1, 15, -1}, {2, 15, -1}},
                      .source = source_of(3600, 4500)};
  const WhyNotAnswer place = why(problem, 2);
  EXPECT_EQ(place.why, WhyNot::no_position_left);
  EXPECT_THAT(place.circuits_lost, ElementsAre(1));
  problem.circuits[2] = one_load(15, 1750, 1750, 1);
  problem.positions = {{1, 15, -1}, {1, 15, -1}, {1, 15, -1}};
  problem.source = one_leg_of(1800, 2250);
  const WhyNotAnswer watts = why(problem, 2);
  EXPECT_EQ(watts.why, WhyNot::running);
  EXPECT_EQ(watts.circuits_lost.size(), 2U);
  ASSERT_TRUE(watts.instead);
  EXPECT_EQ(watts.instead->score.importance, 1);
  problem.circuits[2] = one_load(15, 200, 2150, 1);  // 400 + 1950 is more than 2250 to start
  EXPECT_EQ(why(problem, 2).why, WhyNot::starting);
}

TEST(WhyNotTest, a_load_on_demand_that_is_too_much_on_top) {
  PlanProblem problem{.circuits = {one_load(20, 1000, 1000, 10), one_load(20, 0, 0, 10)}, .positions = {{1, 20, -1}, {1, 20, -1}}, .source = one_leg_of(1800, 2250)};
  PlanLoad microwave{.on_demand = true, .weight = 3, .running = {1100, 0, 0}, .starting = {1100, 0, 0}, .breaker_ma = {9167, 0, 0}};
  problem.circuits[1].loads.push_back(microwave);
  const WhyNotAnswer answer = why(problem, 1, 1);
  EXPECT_EQ(answer.why, WhyNot::running);
  EXPECT_THAT(answer.circuits_lost, ElementsAre(0));
}

/// Everything that is asked of plans is the same when plans are found by trying them all.
TEST(PlanChoices, agree_with_trying_all_plans_of_tiny_problems) {
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    const PlanProblem problem = tiny_plan_problem(seed);
    const Plan plan = best_plan(problem);
    if (plan.end == PlanEnd::impossible) continue;
    for (int c = 0; c < static_cast<int>(problem.circuits.size()); ++c) {
      const WhyNotAnswer answer = why_not(problem, plan, c);
      const bool carried = std::ranges::find(plan.placed, c, &Placed::circuit) != plan.placed.end();
      EXPECT_EQ(answer.why == WhyNot::served, carried) << seed;
      PlanProblem pinned = problem;
      const bool pinned_already = std::ranges::find(problem.pins, c, &PlanPin::circuit) != problem.pins.end();
      if (carried || pinned_already) continue;
      pinned.pins.push_back({PinKind::must, c, -1});
      const auto tried = best_by_trying(pinned);
      EXPECT_EQ(answer.instead.has_value(), tried.has_value()) << "seed " << seed << " circuit " << c << " why " << static_cast<int>(answer.why);
      if (answer.instead && tried) {
        EXPECT_EQ(answer.instead->score, *tried) << seed;
      }
    }
  }
}

TEST(PlanChoices, alternatives_serve_something_else_and_come_best_first) {
  int seen = 0;
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    const PlanProblem problem = tiny_plan_problem(seed);
    const Plan plan = best_plan(problem);
    if (plan.end == PlanEnd::impossible) continue;
    const std::vector<Plan> others = alternatives(problem, plan, 3);
    EXPECT_LE(others.size(), 3U);
    for (std::size_t i = 0; i < others.size(); ++i) {
      ++seen;
      EXPECT_FALSE(better(others[i].score, plan.score));
      EXPECT_THAT(faults_of(problem, others[i]), IsEmpty());
      if (i > 0) {
        EXPECT_FALSE(better(others[i].score, others[i - 1].score));
      }
    }
  }
  EXPECT_GT(seen, 20);
}

TEST(SmallestSourceTest, serves_everything_and_one_watt_less_does_not) {
  int possible = 0;
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    PlanProblem problem = tiny_plan_problem(seed);
    problem.pins.clear();
    for (PlanCircuit& circuit : problem.circuits)
      for (PlanLoad& load : circuit.loads)
        if (!load.life_safety) load.weight = std::max(load.weight, 1);
    const SmallestSource smallest = smallest_source(problem, true);
    if (!smallest.possible) {
      EXPECT_FALSE(smallest.blocked.empty());
      continue;
    }
    ++possible;
    int life = 0;
    std::int64_t all = 0;
    for (const PlanCircuit& circuit : problem.circuits)
      for (const PlanLoad& load : circuit.loads) life += load.life_safety, all += load.life_safety ? 0 : load.weight;
    const int legs = problem.source.in_phase ? 1 : problem.source.legs;
    const auto served = [&](int running, int starting) {
      PlanProblem tried = problem;
      tried.source.running = running, tried.source.starting = starting;
      tried.source.leg_running.fill((running + legs - 1) / legs);
      tried.source.leg_starting.fill(std::max((starting + legs - 1) / legs, (running + legs - 1) / legs));
      const auto best = best_by_trying(tried);
      return best && best->life_safety == life && best->importance == all;
    };
    EXPECT_TRUE(served(smallest.running, smallest.starting)) << seed;
    if (smallest.running > 1) {
      EXPECT_FALSE(served(smallest.running - 1, 1'000'000)) << seed;
    }
    if (smallest.starting > smallest.running) {
      EXPECT_FALSE(served(smallest.running, smallest.starting - 1)) << seed;
    }
    EXPECT_GE(smallest_source(problem, false).running, smallest.running) << seed;
  }
  EXPECT_GT(possible, 10);
}

TEST(SourceOfSize, keeps_the_shares_of_the_legs_and_of_the_start) {
  PlanProblem problem{.source = source_of(3600, 4500)};
  const PlanSource larger = with_source_of(problem, 7200).source;
  EXPECT_EQ(larger.starting, 9000);
  EXPECT_EQ(larger.leg_running[0], 3600);
  EXPECT_EQ(larger.leg_starting[1], 4500);
}

}  // namespace
}  // namespace ohmstead
