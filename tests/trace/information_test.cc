// What one look tells: against entropies computed by hand, against the joint distribution gone
// through case by case, and against what the belief really loses by a reading.

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <numeric>
#include <random>

#include "tests/trace/simulated_house.h"
#include "trace/worth.h"

namespace ohmstead::test {
namespace {

// T. M. Cover and J. A. Thomas, Elements of Information Theory, 2nd ed. (2006): entropy 2.1, mutual
// information 2.3, the binary symmetric channel 7.1.4, whose capacity is 1 - H(error) (cited from memory).
// The numbers are computed by hand with log2 3 = 1.5849625, log2 5 = 2.3219281, log2 7 = 2.8073549.

struct EntropyCase {
  double p, bits;
};

TEST(Information, entropy_by_hand) {
  for (const auto& [p, bits] : {
           EntropyCase{0.5, 1},            // a coin
           EntropyCase{0.25, 0.8112781},   // 0.25 * 2 + 0.75 * (2 - log2 3) = 2 - 0.75 * 1.5849625
           EntropyCase{0.125, 0.5435644},  // 0.125 * 3 + 0.875 * (3 - log2 7) = 3 - 0.875 * 2.8073549
           EntropyCase{0.1, 0.4689956},    // log2 10 - 0.9 * log2 9 = 3.3219281 - 0.9 * 3.1699250
           EntropyCase{0.01, 0.0807931},   // log2 100 - 0.99 * log2 99 = 6.6438562 - 0.99 * 6.6293566
           EntropyCase{0, 0}, EntropyCase{1, 0}}) {
    EXPECT_NEAR(entropy(p), bits, 2e-7) << p;
    EXPECT_NEAR(entropy(1 - p), bits, 2e-7) << "the other way round: " << p;
  }
}

struct ReadingCase {
  double belief, error, bits;
};

TEST(Information, of_one_reading_by_hand) {
  for (const auto& [belief, error, bits] : {
           // An even chance is dead in half of the readings: 1 - H(0.01) = 1 - 0.0807931, the capacity of
           // the channel.
           ReadingCase{0.5, 0.01, 0.9192069},
           // Dead in 0.1 * 0.99 + 0.9 * 0.01 = 0.108 of the readings. H(0.108) = 0.108 * 3.2108968 +
           // 0.892 * 0.1648844 = 0.3467769 + 0.1470769 = 0.4938538; less 0.0807931.
           ReadingCase{0.1, 0.01, 0.4130607},
           // Dead in 0.25 * 0.75 + 0.75 * 0.25 = 0.375. H(3/8) = 3 - 0.375 * log2 3 - 0.625 * log2 5
           // = 3 - 0.5943609 - 1.4512051 = 0.9544340; less H(0.25) = 0.8112781.
           ReadingCase{0.25, 0.25, 0.1431559},
           ReadingCase{0.25, 0, 0.8112781},  // without errors all that is not known
           ReadingCase{0.3, 0.5, 0},         // a coin tossed instead of a look
           ReadingCase{0, 0.01, 0}, ReadingCase{1, 0.01, 0}}) {
    EXPECT_NEAR(reading_bits(belief, error), bits, 2e-7) << belief << ", error " << error;
    EXPECT_NEAR(reading_bits(1 - belief, error), bits, 2e-7) << "live is as good as dead: " << belief;
  }
  EXPECT_EQ(reading_bits(0.3), reading_bits(0.3, 0.01)) << "one reading in a hundred is wrong";
}

/// Mutual information of cause and reading, summed over all pairs of them: each cause says dead or live.
double by_enumeration(const std::vector<double>& belief, const std::vector<bool>& dead, double error) {
  double bits = 0;
  std::array<double, 2> reading{};  // chance of live, of dead
  const auto joint = [&](std::size_t cause, std::size_t seen) { return belief[cause] * ((seen == 1) == dead[cause] ? 1 - error : error); };
  for (std::size_t cause = 0; cause < belief.size(); ++cause)
    for (const std::size_t seen : {0U, 1U}) reading[seen] += joint(cause, seen);
  for (std::size_t cause = 0; cause < belief.size(); ++cause)
    for (const std::size_t seen : {0U, 1U})
      if (const double both = joint(cause, seen); both > 0) bits += both * std::log2(both / (belief[cause] * reading[seen]));
  return bits;
}

TEST(Information, agrees_with_the_joint_distribution_of_causes_and_readings) {
  std::mt19937 random(1);
  std::uniform_real_distribution<> share(0, 1);
  for (int i = 0; i < 300; ++i) {
    std::vector<double> belief(2 + random() % 7);
    for (double& one : belief) one = std::pow(share(random), 4);  // some of them hardly believed
    const double sum = std::accumulate(belief.begin(), belief.end(), 0.0);
    std::vector<bool> dead;
    double of_dead = 0;
    for (double& one : belief) {
      one /= sum;
      dead.push_back(random() % 2 == 0);
      of_dead += dead.back() ? one : 0;
    }
    const double error = i % 3 == 0 ? 0.01 : share(random) / 2;
    EXPECT_NEAR(reading_bits(of_dead, error), by_enumeration(belief, dead, error), 1e-12) << i;
  }
}

/// Bits not known of what feeds the point.
double unknown_bits(const std::vector<Candidate>& candidates) {
  double bits = 0;
  for (const Candidate& candidate : candidates) bits -= candidate.belief > 0 ? candidate.belief * std::log2(candidate.belief) : 0;
  return bits;
}

std::vector<Candidate> believed(const House& house) {
  const std::vector<Way> ways = ways_of(house);
  const std::vector<double> weights{5, 3, 1, 1};
  return believe(house, read_observations(house), ways, 0, weights);
}

/// A point, four breakers, some looks with one of them open; dead with one breaker at most, so that
/// no pair of breakers comes into question by a reading to come.
HouseMaker looked_at(unsigned seed, std::vector<Id<Breaker>>& breakers) {
  HouseMaker made;
  for (int space = 1; space <= 4; ++space) breakers.push_back(made.add_breaker(space));
  made.add_point(made.house.rooms[0].id, "receptacle", {});
  std::mt19937 random(seed);
  for (auto look = random() % 4; look > 0; --look) {
    const std::size_t open = random() % 4;
    made.see(0, open == 0 && random() % 2 == 0 ? Seen::dead : Seen::live, {HouseMaker::off(breakers[open])});
  }
  return made;
}

TEST(Information, is_what_the_belief_loses_on_average) {
  for (unsigned seed = 0; seed < 60; ++seed) {
    std::vector<Id<Breaker>> breakers;
    const HouseMaker made = looked_at(seed, breakers);
    const auto before = believed(made.house);
    double of_dead = 0;  // with the first breaker open
    for (const Candidate& candidate : before)
      if (candidate.kind == CandidateKind::dead_anyway || (candidate.kind == CandidateKind::one && candidate.first == 0)) of_dead += candidate.belief;
    double after = 0;
    for (const Seen seen : {Seen::live, Seen::dead}) {
      HouseMaker then = made;
      then.see(0, seen, {HouseMaker::off(breakers[0])});
      const double said_dead = of_dead * (1 - kReadingError) + (1 - of_dead) * kReadingError;
      after += (seen == Seen::dead ? said_dead : 1 - said_dead) * unknown_bits(believed(then.house));
    }
    EXPECT_NEAR(unknown_bits(before) - after, reading_bits(of_dead), 1e-9) << "seed " << seed;
  }
}

}  // namespace
}  // namespace ohmstead::test
