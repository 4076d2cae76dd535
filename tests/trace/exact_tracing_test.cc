// Sessions against the least that any way of working can cost, on houses small enough to know it.

#include "tests/trace/exact_tracing.h"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <cstdio>
#include <cstdlib>
#include <stdexcept>

#include "tests/trace/simulated_house.h"
#include "tests/trace/world_house.h"
#include "tests/trace/world_maker.h"
#include "trace/conclude.h"
#include "trace/session.h"

namespace ohmstead::test {
namespace {

/// What the program believes before anything was seen, for each point by itself, given that a listed breaker feeds it.
FeedPrior prior_of(const World& world) {
  const Conclusions all = conclude_units(house_of(world).house);
  FeedPrior prior(world.points.size(), std::vector<double>(world.breakers.size(), 0));
  for (std::size_t p = 0; p < prior.size(); ++p) {
    double sum = 0;
    for (const Candidate& candidate : all.units[all.readings.unit_of_point[p]].candidates)
      if (candidate.kind == CandidateKind::one) prior[p][all.ways[candidate.first].breakers[0]] += candidate.belief, sum += candidate.belief;
    for (double& chance : prior[p]) chance /= sum;
  }
  return prior;
}

/// Calls `with` for every way in which the points can hang on the breakers, and how likely it is.
void for_each_feed(const FeedPrior& prior, const std::function<void(std::span<const std::size_t>, double)>& with) {
  std::vector<std::size_t> feeds(prior.size(), 0);
  for (;;) {
    double chance = 1;
    for (std::size_t p = 0; p < feeds.size(); ++p) chance *= prior[p][feeds[p]];
    if (chance > 0) with(feeds, chance);
    std::size_t p = 0;
    while (p < feeds.size() && ++feeds[p] == prior[p].size()) feeds[p++] = 0;
    if (p == feeds.size()) return;
  }
}

/// Of one session without mistakes, or the mean of many.
struct Expected {
  double seconds = 0, not_proved = 0;
};

Expected one_session(const World& world) {
  const HouseMaker made = house_of(world);
  TraceSession session(made.house);
  Walker walker(made.truth, 0, world.seed);
  CostMeter meter(world, {}, made.house);
  Expected cost;
  Clock clock;
  int told = 0;
  for (int steps = 0; steps < 2000 && session.step().kind != StepKind::done; ++steps) {
    meter.take(session.step());
    Answer answer = walker.answer(session);
    const int now = static_cast<int>(std::lround(meter.tally.seconds));
    answer.at = clock.after(now - told);
    told = now;
    session.answer(answer);
  }
  for (const UnitConclusion& unit : session.conclusions().units) cost.not_proved += unit.feed.standing == Standing::proved ? 0 : 1;
  cost.seconds = meter.tally.seconds;
  return cost;
}

Expected sessions(World world, const FeedPrior& prior) {
  Expected mean;
  for_each_feed(prior, [&](std::span<const std::size_t> feeds, double chance) {
    for (std::size_t p = 0; p < feeds.size(); ++p) world.points[p].breaker = static_cast<int>(feeds[p]);
    const Expected one = one_session(world);
    mean.seconds += chance * one.seconds, mean.not_proved += chance * one.not_proved;
  });
  return mean;
}

/// Tiny houses of so many points.
std::vector<World> tiny_houses(std::size_t points, std::size_t most) {
  std::vector<World> worlds;
  for (unsigned seed = 0; seed < 200 && worlds.size() < most; ++seed)
    if (World world = make_world(WorldKind::tiny, seed); world.points.size() == points) worlds.push_back(std::move(world));
  return worlds;
}

/// One light in the hall, where the panel is.
World one_light() {
  World world;
  world.rooms = {{"Hall", "hall", 0}, {"Bath", "bath", 0}};
  world.walk_s = {{0, 4.5}, {4.5, 0}};
  world.breakers = {{1}, {2}, {3}, {4}};
  world.points = {{0, PointClass::light, "light", 120, 2, -1, 0}};
  return world;
}

TEST(ExactTracing, one_point_by_hand) {
  const World world = one_light();
  // Known breaker: off 24, into the hall 5, look 2, on 4, into the hall 5, look 2.
  EXPECT_NEAR(ExactTracing(world, {{1, 0, 0, 0}}).seconds(), 42, 1e-3);
  EXPECT_NEAR(ExactTracing(world, {{1, 0, 0, 0}}, 2).seconds(), 44, 1e-3);
  // Either of two: the likelier first; if it was live then, the other one (35) ends it without a look with nothing open.
  EXPECT_NEAR(ExactTracing(world, {{0.75, 0.25, 0, 0}}).seconds(), 0.75 * 42 + 0.25 * (35 + 35), 1e-3);
  // A point in the next room: 4.5 s more on each of four ways, less the last one back.
  World bath = world;
  bath.points[0].room = 1;
  EXPECT_NEAR(ExactTracing(bath, {{1, 0, 0, 0}}).seconds(), 42 + 3 * 4.5, 1e-3);
}

TEST(ExactTracing, two_points_confirm_each_other_by_hand) {
  World world = one_light();
  world.points.push_back(world.points[0]);
  // Two breakers, both points known: with each off look at both, no look with nothing open: 2 * (24 + 5 + 4 + 4).
  // Or look with nothing open at the end: 24 + 5 + 2 + 4 twice, then 5 + 4: dearer.
  EXPECT_NEAR(ExactTracing(world, {{1, 0, 0, 0}, {0, 1, 0, 0}}).seconds(), 74, 1e-3);
  // On one breaker: off, both dead, on, both live.
  EXPECT_NEAR(ExactTracing(world, {{1, 0, 0, 0}, {1, 0, 0, 0}}).seconds(), 24 + 5 + 4 + 4 + 5 + 4, 1e-3);
}

TEST(ExactTracing, its_way_of_working_costs_on_average_what_it_says) {
  for (const World& world : tiny_houses(4, 2)) {
    const FeedPrior prior = prior_of(world);
    for (const int dead_looks : {1, 2}) {
      ExactTracing exact(world, prior, dead_looks);
      double mean = 0, chances = 0;
      for_each_feed(prior, [&](std::span<const std::size_t> feeds, double chance) { mean += chance * exact.follow(feeds).seconds, chances += chance; });
      EXPECT_NEAR(chances, 1, 1e-9);
      EXPECT_NEAR(mean, exact.seconds(), 0.01) << "house " << world.seed;
    }
  }
}

TEST(ExactTracing, knows_nothing_of_a_house_that_is_too_big) {
  EXPECT_THROW(ExactTracing(make_world(WorldKind::few_circuits, 1), {}), std::logic_error);
}

/// A measurement of more or larger houses: OHMSTEAD_TINY_HOUSES=20, OHMSTEAD_TINY_POINTS=5.
std::size_t number_from(const char* name, std::size_t otherwise) {
  const char* text = std::getenv(name);
  return text == nullptr ? otherwise : static_cast<std::size_t>(std::max(1, std::atoi(text)));
}

// The aim is 1.08. Twenty houses of 4 points (seeds 2 to 62) come to 1.053 of the least together, three of 5 points
// (seeds 3 to 5) to 1.050; the three here to 1.036.
TEST(ExactTracing, sessions_cost_little_more_than_the_least_and_never_less) {
  constexpr double kMostOverLeast = 1.08;
  double cost = 0, least = 0;
  for (const World& world : tiny_houses(number_from("OHMSTEAD_TINY_POINTS", 4), number_from("OHMSTEAD_TINY_HOUSES", 3))) {
    const FeedPrior prior = prior_of(world);
    const double exact = ExactTracing(world, prior).seconds();
    const Expected mean = sessions(world, prior);
    EXPECT_EQ(mean.not_proved, 0) << "house " << world.seed;
    EXPECT_GE(mean.seconds, exact - 0.01) << "no way of working can be better; house " << world.seed;
    cost += mean.seconds, least += exact;
  }
  std::printf("sessions took %.3f of the least\n", cost / least);
  EXPECT_LE(cost / least, kMostOverLeast);
}

}  // namespace
}  // namespace ohmstead::test
