#pragma once
// The planning policy: what to ask next. Everything it may look at is in the Board; another policy
// replaces this file and nothing else.
//
// This one opens one breaker at a time, the one from which most is expected for the time it takes,
// walks through the rooms in a short order, asks in each room only about points that this breaker
// may well feed, and looks again where one reading could be wrong (docs/trace.md).

#include "trace/board.h"
#include "trace/step.h"

namespace ohmstead {

[[nodiscard]] Step next_step(const Board& board);

/// How far a session has come, in points.
struct Progress {
  int settled = 0;       ///< proved
  int likely = 0;        ///< likely or declared, not proved
  int dead_anyway = 0;   ///< dead for another reason than a breaker
  int unexplained = 0;   ///< nothing listed explains them
  int total = 0;
  int minutes_left = 0;  ///< an estimate; 0 when there is nothing left to ask
  bool operator==(const Progress&) const = default;
};
[[nodiscard]] Progress progress_of(const Board& board);

}  // namespace ohmstead
