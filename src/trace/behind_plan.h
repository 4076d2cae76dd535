#pragma once
// What a session asks next when it looks for the points behind one handle (trace/behind.h): open it,
// look at the points that are worth their time in walking order, close it, and see those that were
// dead live again. The rule and its numbers are in docs/trace.md.

#include "trace/behind.h"
#include "trace/board.h"
#include "trace/plan.h"

namespace ohmstead {

/// Everything a step needs, worked out once after each answer.
struct BehindBoard {
  const Board& board;
  HandleRef handle;
  std::vector<BehindPoint> points;
};
[[nodiscard]] BehindBoard read_behind_board(const Board& board, const HandleRef& handle);

[[nodiscard]] Step next_behind_step(const BehindBoard& behind);

/// Points that are settled (behind it or not) of those settled, or worth a look.
[[nodiscard]] Progress behind_progress(const BehindBoard& behind);

}  // namespace ohmstead
