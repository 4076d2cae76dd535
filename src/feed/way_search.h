#pragma once
// Internal to restore: the search for throws that join a point to a source.

#include <optional>

#include "feed/graph.h"

namespace ohmstead {

struct FoundWay {
  std::optional<State> goal;  ///< lawful, with the fewest handle groups moved; none: there is none
  bool any_way = false;       ///< some throws join them, lawful or not
};

/// Uniform-cost search over partial ways (conductor, throws decided so far). A way never needs one
/// handle in two throws; where the result breaks an interlock or joins two terminals, further
/// handles are opened. A partial way is dropped only if another reached the same conductor with no
/// more moves and no more decisions, so the fewest moves are found. Proof and bounds: docs/feed.md.
[[nodiscard]] FoundWay fewest_moves(const Graph& graph, const State& state, std::size_t point, int source);

}  // namespace ohmstead
