// What must hold of a session in every house.

#include <gtest/gtest.h>

#include <algorithm>
#include <random>

#include "house/invariants.h"
#include "tests/support/random_house.h"
#include "tests/trace/session_answers.h"
#include "tests/trace/simulated_house.h"
#include "trace/session.h"

namespace ohmstead::test {
namespace {

/// A random house without evidence, and a truth for it: every unit hangs on some breaker.
struct RandomTruth {
  House house;
  Truth truth;
  explicit RandomTruth(std::uint64_t seed) : house(random_house(seed + 40, 3)) {
    house.rounds.clear(), house.opened.clear(), house.observations.clear(), house.declared_feeds.clear(), house.trips.clear();
    house.settings.clear(), house.notes.clear();
    for (Breaker& breaker : house.breakers)
      if (breaker.open_rule == OpenRule::never) breaker.open_rule = OpenRule::free;
    const Readings readings = read_observations(house);
    const auto ways = ways_of(house);
    truth.feed.resize(house.points.size());
    std::mt19937_64 random(seed);
    for (const Unit& unit : readings.units) {
      std::vector<std::size_t> possible;
      for (std::size_t w = 0; w < ways.size(); ++w)
        if (ways[w].feeds_points && ways[w].poles >= unit.hots && usually_live(ways[w])) possible.push_back(w);
      if (possible.empty()) continue;
      const Candidate chosen{CandidateKind::one, possible[random() % possible.size()], 0, 1, false, 0};
      for (const std::size_t p : unit.points) truth.feed[p] = taps_of(house, ways, chosen, unit.hots);
    }
  }
  /// Behind a handle that an interlock keeps off on an ordinary day nothing can be traced.
  [[nodiscard]] bool usually_live(const Way& way) const {
    const Effect usual = effect_of(house, {});
    return std::ranges::all_of(way.breakers, [&](std::size_t b) { return usual.dead_poles[b] == 0; });
  }
};

TEST(TraceSession, in_any_house_truthful_answers_prove_what_hangs_on_a_breaker) {
  for (std::uint64_t seed = 0; seed < 25; ++seed) {
    const RandomTruth random(seed);
    TraceSession session(random.house);
    Walker walker(random.truth, 0, 1);
    ASSERT_TRUE(run_to_the_end(session, walker)) << "seed " << seed;
    EXPECT_EQ(proved(session), right(random.truth)) << "seed " << seed;
    EXPECT_TRUE(problems_of(session.house()).empty()) << "seed " << seed;
  }
}

TEST(TraceSession, a_session_ends_whatever_is_answered) {
  for (unsigned seed = 0; seed < 6; ++seed) {
    std::mt19937 random(seed);
    TraceSession session(random_house(seed, 1));
    int answers = 0;
    for (; session.step().kind != StepKind::done && answers < 20'000; ++answers) {
      AnswerKind kind;
      do kind = static_cast<AnswerKind>(random() % 5);
      while (!fits(session.step().kind, kind));
      session.answer(say(kind));
    }
    EXPECT_EQ(session.step().kind, StepKind::done) << "seed " << seed;
  }
}

}  // namespace
}  // namespace ohmstead::test
