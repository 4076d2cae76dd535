#pragma once
// The least that tracing a tiny house can cost, one breaker open at a time, by dynamic programming.
//
// Exact under these assumptions, and no others:
// - each point hangs on one listed breaker; which one is drawn for each point by itself from a given
//   prior. Nothing is dead at the start, no reading is ever wrong, a look tells of its point alone.
// - a point is proved when it was seen dead with only its breaker open (`dead_looks` times), and seen
//   live with it closed. The work ends when all are proved and everything is closed again.
// - seconds are those of CostMeter (tests/trace/cost_meter.h), for one person without lamps.
// What was seen so far is all that matters of a point: the breakers it can still be on, and whether it
// was seen dead, and live. A look that tells nothing is never worth its time and is left out; so is
// turning a breaker off and on without a look. Further dead looks at a point come right after the
// first: their answers are certain, and nowhere do they cost less.

#include <array>
#include <cstdint>
#include <span>
#include <vector>

#include "tests/trace/cost_meter.h"

namespace ohmstead::test {

/// [point][breaker]: chances that add up to 1 for each point.
using FeedPrior = std::vector<std::vector<double>>;

class ExactTracing {
 public:
  static constexpr std::size_t kMostBreakers = 4, kMostPoints = 5;

  /// Throws std::logic_error for a house that is too big. `world` must outlive it; its truth is not looked at.
  ExactTracing(const World& world, FeedPrior prior, int dead_looks = 1);

  /// Least expected seconds of any way of working.
  [[nodiscard]] double seconds();
  /// The best way of working on a house in which point i is on breaker feeds[i], as CostMeter charges it.
  [[nodiscard]] Tally follow(std::span<const std::size_t> feeds);

 private:
  /// What was seen of a point: 0 proved; 1 to 15 the breakers it may be on, one bit each (15: never looked at, less
  /// than 15: seen live with the others open); 16 seen live with nothing open; 17 + b seen dead with b open, never live.
  using Seen = std::uint8_t;
  static constexpr std::size_t kSeens = 21;
  static constexpr Seen kProved = 0, kNeverSeen = 15, kSeenLive = 16, kSeenDead = 17;
  static constexpr int kNothing = -1;           ///< no breaker is open
  static constexpr std::size_t kAtPanel = 0;    ///< place of the person; 1 + r: in room r

  struct Where {
    std::size_t place = kAtPanel;
    int open = kNothing;
  };
  struct Move {
    enum Kind { look, open, close, none } kind = none;
    std::size_t which = 0;  ///< point or breaker
    double seconds = 0;     ///< expected, to the end
  };

  [[nodiscard]] double value(Where at);
  [[nodiscard]] Move best_move(Where at);
  [[nodiscard]] double value_of_look(Where at, std::size_t point);
  [[nodiscard]] double chance_of_dead(std::size_t point, int open) const;
  [[nodiscard]] bool tells(std::size_t point, int open) const;
  [[nodiscard]] static Seen after(Seen seen, int open, bool dead);
  [[nodiscard]] bool all_proved() const;
  [[nodiscard]] double way_to_panel(std::size_t place) const;
  [[nodiscard]] double way_into(std::size_t place, std::size_t room) const;
  void start();

  const World& world_;
  FeedPrior prior_;
  int dead_looks_;
  std::size_t panel_;
  std::array<Seen, kMostPoints> seen_{};
  std::vector<float> least_;  ///< by what was seen of all points and where the person is; below 0: not known yet
};

}  // namespace ohmstead::test
