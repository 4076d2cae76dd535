#pragma once
// How likely it is that a unit hangs on this breaker or that: a distribution over everything that
// could feed it, from a prior and the readings. Formulas and reasons: docs/trace.md.

#include <span>
#include <vector>

#include "feed/feeds.h"
#include "trace/readings.h"

namespace ohmstead {

/// Chance that one reading is wrong (experience with people and testers, no source).
inline constexpr double kReadingError = 0.01;
/// Chance, before anything was seen, that no listed breaker feeds a unit; that it is dead for
/// another reason; and that it takes two breakers to make it dead, or that either of two does.
inline constexpr double kPriorElsewhere = 0.02, kPriorDeadAnyway = 0.01, kPriorTwoWays = 0.005;
/// Chance that a declaration nobody has checked is right.
inline constexpr double kDeclaredTrust = 0.95;

/// One way of supply that a hand can open: a breaker, or breakers joined by a handle tie, which
/// no reading can tell apart.
struct Way {
  std::vector<std::size_t> breakers;  ///< places in house.breakers, in the order of the house
  int poles = 0;                      ///< of all of them together
  bool feeds_points = true;           ///< false: the feeder of a panel, or backfed from a source
};
[[nodiscard]] std::vector<Way> ways_of(const House& house);

enum class CandidateKind {
  one,          ///< one way feeds it
  each,         ///< two hots from two ways: dead as soon as either is open
  together,     ///< fed from two ways at once: dead only when both are open
  elsewhere,    ///< nothing that is listed feeds it: live whatever is opened
  dead_anyway,  ///< dead whatever is closed
};

/// One explanation and how far it is believed.
struct Candidate {
  CandidateKind kind = CandidateKind::one;
  std::size_t first = 0, second = 0;  ///< places in the ways; second with each and together only
  double belief = 0;                  ///< 0..1
  bool declared = false;              ///< somebody said so
  int declared_pole = 0;              ///< pole they named, counted over the way (single-hot units); 0: none
};

/// Does it say that something listed feeds the unit?
[[nodiscard]] inline bool is_a_feed(const Candidate& candidate) {
  return candidate.kind != CandidateKind::elsewhere && candidate.kind != CandidateKind::dead_anyway;
}

/// What a reading should be if the candidate is right.
enum class Expect { live, dead, either };
[[nodiscard]] inline bool speaks_against(Expect expect, bool dead) {
  return expect != Expect::either && (expect == Expect::dead) != dead;
}
[[nodiscard]] Expect expected(const House& house, std::span<const Way> ways, const Candidate& candidate, int hots,
                              const Effect& effect);

/// The distribution of one unit. `weight_of_way` is the prior, in any scale; it is shared out so
/// that all candidates add up to 1. Candidates come with the most believed first.
[[nodiscard]] std::vector<Candidate> believe(const House& house, const Readings& readings, std::span<const Way> ways,
                                             std::size_t unit, std::span<const double> weight_of_way);

/// What the readings of one unit say under each way by itself, as logarithms of their likelihood.
/// It does not change with the weights, and is worked out once for several calls of believe.
[[nodiscard]] std::vector<double> log_likelihoods(const House& house, const Readings& readings,
                                                  std::span<const Way> ways, std::size_t unit);
/// A weight and the logarithm above for each way.
struct WeighedWays {
  std::span<const double> weights, logs;
};
[[nodiscard]] std::vector<Candidate> believe(const House& house, const Readings& readings, std::span<const Way> ways,
                                             std::size_t unit, const WeighedWays& weighed);
/// The first one of that distribution.
[[nodiscard]] Candidate likeliest(const House& house, const Readings& readings, std::span<const Way> ways,
                                  std::size_t unit, const WeighedWays& weighed);

/// The taps that a candidate stands for. Which pole of a breaker feeds a unit with one hot cannot
/// be seen by opening it: the pole is the declared one, else pole 1 of the (first) breaker.
[[nodiscard]] std::vector<Tap> taps_of(const House& house, std::span<const Way> ways, const Candidate& candidate,
                                       int hots);

}  // namespace ohmstead
