#include "trace/belief.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <random>

#include "tests/trace/simulated_house.h"
#include "trace/prior.h"

namespace ohmstead::test {
namespace {

constexpr std::size_t kPoints = 3, kWays = 4;  // three breakers of one pole, one of two

/// A tiny house with random readings; a point is seen dead with at most one breaker, so that only
/// single breakers come into question.
HouseMaker tiny_house(unsigned seed) {
  std::mt19937 random(seed);
  HouseMaker made;
  std::vector<Id<Breaker>> breakers;
  for (int space = 1; space <= 3; ++space) breakers.push_back(made.add_breaker(space));
  breakers.push_back(made.add_breaker(4, 2, 20));
  for (std::size_t p = 0; p < kPoints; ++p) {
    made.add_point(made.add_room("Room " + std::to_string(p)), "receptacle", {});
    const std::size_t dead_with = random() % kWays;
    for (int look = 0; look < 4; ++look) {
      const std::size_t open = random() % kWays;
      made.see(p, open == dead_with && random() % 3 != 0 ? Seen::dead : Seen::live, {HouseMaker::off(breakers[open])});
    }
  }
  return made;
}

/// Probability of one reading of a point under explanation `cause` (0..3 a breaker, 4 elsewhere,
/// 5 dead anyway), written down once more without the code under test.
double reading_chance(const HouseMaker& made, std::size_t reading, std::size_t cause) {
  const Observation& seen = made.house.observations[reading];
  const HandleRef open = made.house.opened[reading].handle;  // one handle a round, one look a round
  const bool should_be_dead = cause == 5 || (cause < 4 && made.house.breakers[cause].id.value == open.id);
  return should_be_dead == (seen.seen == Seen::dead) ? 0.99 : 0.01;
}

/// Marginal belief of each point by going through all 6^3 joint explanations.
std::array<std::array<double, 6>, kPoints> enumerate(const HouseMaker& made) {
  constexpr double kWeight[4] = {1, 1, 1, 0.1};  // a single hot is seldom on a two-pole breaker
  std::array<std::array<double, 6>, kPoints> marginal{};
  double sum = 0;
  for (std::size_t joint = 0; joint < 6 * 6 * 6; ++joint) {
    const std::array<std::size_t, kPoints> cause{joint % 6, joint / 6 % 6, joint / 36};
    double chance = 1;
    for (const std::size_t c : cause) chance *= c == 4 ? 0.02 : c == 5 ? 0.01 : 0.97 * kWeight[c] / 3.1;
    for (std::size_t r = 0; r < made.house.observations.size(); ++r)
      chance *= reading_chance(made, r, cause[static_cast<std::size_t>(Index<Point>(made.house.points).at(made.house.observations[r].point))]);
    for (std::size_t p = 0; p < kPoints; ++p) marginal[p][cause[p]] += chance;
    sum += chance;
  }
  for (auto& point : marginal)
    for (double& belief : point) belief /= sum;
  return marginal;
}

TEST(Belief, agrees_with_going_through_every_explanation) {
  for (unsigned seed = 0; seed < 40; ++seed) {
    const HouseMaker made = tiny_house(seed);
    const auto exact = enumerate(made);
    const Readings readings = read_observations(made.house);
    const auto ways = ways_of(made.house);
    for (std::size_t u = 0; u < kPoints; ++u) {
      const auto weights = prior_weights(made.house, ways, readings.units[u]);
      for (const Candidate& candidate : believe(made.house, readings, ways, u, weights)) {
        const std::size_t cause = candidate.kind == CandidateKind::elsewhere     ? 4
                                  : candidate.kind == CandidateKind::dead_anyway ? 5
                                                                                 : candidate.first;
        ASSERT_EQ(candidate.kind == CandidateKind::together, false);
        EXPECT_NEAR(candidate.belief, exact[readings.units[u].points[0]][cause], 1e-12) << "seed " << seed;
      }
    }
  }
}

TEST(Belief, adds_up_to_one_with_pairs_and_declarations_too) {
  HouseMaker made;
  const auto a = made.add_breaker(1), b = made.add_breaker(2);
  const auto p = made.add_point(made.house.rooms[0].id, "receptacle", {});
  for (const auto breaker : {a, b}) made.see(p, Seen::dead, {HouseMaker::off(breaker)});
  made.house.declared_feeds.push_back({Id<DeclaredFeed>::fresh(), made.house.points[p].id, {}, 1, b, 1});
  const Readings readings = read_observations(made.house);
  const auto ways = ways_of(made.house);
  double sum = 0;
  for (const Candidate& candidate : believe(made.house, readings, ways, 0, prior_weights(made.house, ways, readings.units[0])))
    sum += candidate.belief;
  EXPECT_NEAR(sum, 1, 1e-12);
}

TEST(Prior, a_kind_that_a_breaker_cannot_feed_has_no_weight) {
  HouseMaker made;
  made.add_breaker(1), made.add_breaker(2, 2, 40);
  made.add_point(made.house.rooms[0].id, "range", {}, 2, PointKind::appliance);
  const auto weights = prior_weights(made.house, ways_of(made.house), read_observations(made.house).units[0]);
  EXPECT_EQ(weights[0], 0);
  EXPECT_GT(weights[1], 0);
}

TEST(Prior, words_of_the_old_directory_count) {
  HouseMaker made;
  const auto p = made.add_point(made.add_room("Kitchen"), "counter receptacle", {});
  const Unit unit = read_observations(made.house).units[0];
  ASSERT_EQ(unit.points, std::vector<std::size_t>{p});
  EXPECT_GT(label_fit(made.house, "KITCHEN plugs", unit), label_fit(made.house, "kitchen", unit));
  EXPECT_GT(label_fit(made.house, "kitchen", unit), label_fit(made.house, "kitchen lights", unit));
  EXPECT_EQ(label_fit(made.house, "", unit), 1);
  EXPECT_LT(label_fit(made.house, "upstairs bath", unit), 1);
  EXPECT_LT(label_fit(made.house, "SPARE", unit), label_fit(made.house, "upstairs bath", unit));
}

}  // namespace
}  // namespace ohmstead::test
