#pragma once
// What no breaker takes down by itself may hang on two: fed from both at once, so that it is dead only
// while both are open; or with its two hots on two breakers that are not tied, so that each takes it
// down. Which breakers to open to find that out. Reasons: docs/trace.md.

#include <vector>

#include "trace/looks.h"

namespace ohmstead {

class TogetherFinder {
 public:
  TogetherFinder(const Board& board, const LookFinder& find);

  /// Looks of a round with these ways open, at units that nothing explains so far.
  [[nodiscard]] std::vector<Look> looks(const WaySet& open) const;
  /// The ways to open next for such a unit; empty when no set is worth it, or when so few may be
  /// open at once that it cannot be found out.
  [[nodiscard]] WaySet next() const;

 private:
  /// Two ways, and how likely it is that they are the ones, in the scale of Pairs.
  struct Pair {
    std::size_t a = 0, b = 0;
    double weight = 0;
  };
  /// What may be true of one unit: one of the pairs, or that nothing listed feeds it. Adds up to 1.
  struct Pairs {
    bool each_kills = false;  ///< two hots: dead with either of the two; else with both
    WaySet ways;              ///< that may be opened for it
    std::vector<Pair> all;
    double sum = 0;
    [[nodiscard]] bool dead(const WaySet& open, const Pair& pair) const;
    [[nodiscard]] double chance_dead(const WaySet& open) const;
  };
  struct Suspect {
    std::size_t unit = 0, point = 0;
  };
  [[nodiscard]] bool nothing_explains(std::size_t unit) const;
  [[nodiscard]] Pairs pairs_of(std::size_t unit) const;
  void weigh(Pairs& pairs, std::size_t unit) const;
  [[nodiscard]] WaySet set_for(std::size_t unit) const;
  [[nodiscard]] std::size_t most_open() const;

  const Board& board_;
  const Conclusions& all_;
  const LookFinder& find_;
  std::vector<Suspect> suspects_;
  std::vector<char> found_on_;  ///< of the ways: something is dead with it alone
};

}  // namespace ohmstead
