#pragma once
// Points that stayed live whatever was off: nothing listed explains them. Several that are close
// together are told as one, for one hidden panel or one unlisted breaker is likely behind them.

#include <string>
#include <vector>

#include "trace/conclude.h"

namespace ohmstead {

/// Rooms within so many seconds of each other count as close together.
inline constexpr int kCloseSeconds = 8;

/// Places in house.points of what nothing listed explains, those that are close together as one
/// group, in the order of the house.
[[nodiscard]] std::vector<std::vector<std::size_t>> unexplained_groups(const House& house, const Conclusions& conclusions);

/// One line for each group, with what it may be and what to do.
[[nodiscard]] std::vector<std::string> unexplained_lines(const House& house, const Conclusions& conclusions);

}  // namespace ohmstead
