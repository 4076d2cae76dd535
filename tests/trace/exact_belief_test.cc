// What is concluded of a point, against going through every explanation that it may have: one breaker,
// two together, either of two, none that is listed, dead whatever is closed.

#include <gtest/gtest.h>

#include <map>
#include <random>
#include <tuple>

#include "tests/trace/simulated_house.h"
#include "trace/conclude.h"

namespace ohmstead::test {
namespace {

constexpr std::size_t kWays = 5;  ///< three breakers of one pole; two of two poles, 20 and 50 A
using Cause = std::tuple<CandidateKind, std::size_t, std::size_t>;

struct Look {
  std::vector<bool> open;  ///< of the breakers
  bool dead = false;
};

/// One house of one point, and what was seen of it.
struct OnePointHouse {
  HouseMaker made;
  std::vector<Look> looks;
  int hots = 1;
  int declared = -1;
  [[nodiscard]] double prior_of_breaker(std::size_t b) const {
    if (hots == 1) return std::vector<double>{1, 1, 1, 0.1, 0.01 * 0.1}[b];
    return std::vector<double>{0, 0, 0, 1, 3}[b];  // a range is mostly on 40 or 50 A
  }
};

/// Up to three breakers open at once. With nothing open a point is seen live: a dead look there is a
/// rule of its own (trace/readings.h).
OnePointHouse random_looks(unsigned seed) {
  std::mt19937 random(seed);
  OnePointHouse one;
  std::vector<Id<Breaker>> breakers;
  for (int space = 1; space <= 3; ++space) breakers.push_back(one.made.add_breaker(space));
  breakers.push_back(one.made.add_breaker(4, 2, 20)), breakers.push_back(one.made.add_breaker(8, 2, 50));
  one.hots = seed % 3 == 0 ? 2 : 1;
  one.made.add_point(one.made.house.rooms[0].id, one.hots == 2 ? "range" : "receptacle", {}, one.hots,
                     one.hots == 2 ? PointKind::appliance : PointKind::receptacle);
  for (auto n = random() % 7; n > 0; --n) {
    Look look{std::vector<bool>(kWays, false)};
    std::vector<HandleRef> handles;
    for (auto k = random() % 4; k > 0; --k)
      if (const std::size_t b = random() % kWays; !look.open[b]) look.open[b] = true, handles.push_back(HouseMaker::off(breakers[b]));
    look.dead = !handles.empty() && random() % 2 == 0;
    one.made.see(0, look.dead ? Seen::dead : Seen::live, handles);
    one.looks.push_back(look);
  }
  if (seed % 4 == 1) {
    one.declared = static_cast<int>(one.hots == 2 ? 4 : random() % kWays);
    one.made.house.declared_feeds.push_back({Id<DeclaredFeed>::fresh(), one.made.house.points[0].id, {}, 1, breakers[static_cast<std::size_t>(one.declared)], 1});
  }
  return one;
}

bool should_be_dead(const Cause& cause, const Look& look) {
  const auto& [kind, a, b] = cause;
  switch (kind) {
    case CandidateKind::one: return look.open[a];
    case CandidateKind::each: return look.open[a] || look.open[b];
    case CandidateKind::together: return look.open[a] && look.open[b];
    case CandidateKind::elsewhere: return false;
    case CandidateKind::dead_anyway: return true;
  }
  return false;
}

/// Chances before anything was seen, as docs/trace.md has them. Two breakers come into question only
/// where the point was seen dead with each of them open.
std::map<Cause, double> before(const OnePointHouse& one) {
  std::map<Cause, double> chance{{{CandidateKind::elsewhere, 0, 0}, 0.02}, {{CandidateKind::dead_anyway, 0, 0}, 0.01}};
  double sum = 0;
  for (std::size_t b = 0; b < kWays; ++b) sum += one.prior_of_breaker(b);
  std::vector<bool> named(kWays, false);
  for (const Look& look : one.looks)
    for (std::size_t b = 0; b < kWays; ++b) named[b] = named[b] || (look.dead && look.open[b]);
  for (std::size_t a = 0; a < kWays; ++a) {
    if (const double weight = one.prior_of_breaker(a); weight > 0) chance[{CandidateKind::one, a, 0}] = 0.97 * weight / sum;
    for (std::size_t b = a + 1; b < kWays; ++b) {
      if (!named[a] || !named[b]) continue;
      chance[{CandidateKind::together, a, b}] = 0.005 / 10;  // of ten pairs
      if (one.hots == 2) chance[{CandidateKind::each, a, b}] = 0.005 / 10;
    }
  }
  if (one.declared < 0) return chance;
  for (auto& [cause, some] : chance) some *= 0.05;
  chance[{CandidateKind::one, static_cast<std::size_t>(one.declared), 0}] = 0.95;
  return chance;
}

TEST(ExactBelief, of_a_point_by_itself_is_what_going_through_every_explanation_gives) {
  int pairs = 0;
  for (unsigned seed = 0; seed < 400; ++seed) {
    const OnePointHouse one = random_looks(seed);
    auto chance = before(one);
    double sum = 0;
    for (auto& [cause, some] : chance) {
      for (const Look& look : one.looks) some *= should_be_dead(cause, look) == look.dead ? 0.99 : 0.01;
      sum += some;
      pairs += std::get<0>(cause) == CandidateKind::together ? 1 : 0;
    }
    const auto all = conclude_units(one.made.house);
    ASSERT_EQ(all.units[0].candidates.size(), chance.size()) << "seed " << seed;
    for (std::size_t i = 0; i < chance.size(); ++i) {
      const Candidate& candidate = all.units[0].candidates[i];
      const auto exact = chance.find({candidate.kind, candidate.first, candidate.second});
      ASSERT_NE(exact, chance.end()) << "seed " << seed;
      EXPECT_NEAR(candidate.belief, exact->second / sum, 1e-12) << "seed " << seed;
      EXPECT_LE(candidate.belief, all.units[0].candidates[i == 0 ? 0 : i - 1].belief) << "most believed first, seed " << seed;
    }
  }
  EXPECT_GT(pairs, 200) << "explanations with two breakers came up";
}

}  // namespace
}  // namespace ohmstead::test
