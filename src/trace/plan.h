#pragma once
// The planning policy: what to ask next. Everything it may look at is in the Board.
//
// This one opens the breaker whose best walk is worth most for the time it takes (trace/choice.h); where the manner
// allows several, the set of the walk is searched as a whole, and near the end the likeliest one is taken with more of
// them. It asks in each room only about points that are worth their time, plans the rest of the walk again after every
// answer, and looks again where one reading could be wrong (docs/trace.md).

#include "trace/board.h"
#include "trace/step.h"

namespace ohmstead {

[[nodiscard]] Step next_step(const Board& board);

/// How far a session has come, in points that the person wants to know about.
struct Progress {
  int settled = 0;       ///< proved, and not to be traced again
  int likely = 0;        ///< likely or declared, not proved
  int dead_anyway = 0;   ///< dead for another reason than a breaker
  int unexplained = 0;   ///< nothing listed explains them
  int total = 0;
  int minutes_left = 0;  ///< an estimate; 0 when there is nothing left to ask
  bool operator==(const Progress&) const = default;
};
[[nodiscard]] Progress progress_of(const Board& board);

}  // namespace ohmstead
