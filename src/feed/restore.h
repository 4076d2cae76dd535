#pragma once
// What must be moved to bring a point back: the shortest lawful sequence of handle moves.

#include <vector>

#include "feed/liveness.h"

namespace ohmstead {

/// One move of a hand. A tied handle takes its group with it.
struct Move {
  std::uint32_t handle = 0;
  Throw to = kOn;
  bool operator==(const Move&) const = default;
};

/// Why a point cannot be brought back from a source.
enum class CannotRestore {
  none,
  feed_not_established,  ///< the record does not know what feeds it
  source_dead,           ///< the source itself is not running (start it, or wait for the utility)
  no_way,                ///< no throws of any handles join it to this source with the right voltage
  not_lawful,            ///< every way breaks an interlock or joins two sources
  over_capacity,         ///< the source cannot carry it, even with everything else on it switched off
};

struct Restoration {
  CannotRestore cannot = CannotRestore::none;
  std::vector<Move> moves;             ///< in order; each step keeps every interlock and joins no two sources
  std::vector<std::size_t> goes_off;   ///< points that work now and will not afterwards
  std::size_t shed_moves = 0;          ///< how many moves at the front only make room on the source
  int running_watts = 0;               ///< known watts on the source afterwards
};

/// Known running watts on each terminal of the graph under `live`; loads between legs count half on
/// each.
[[nodiscard]] std::vector<int> watts_on_terminals(const House& house, const Graph& graph, const Liveness& live);

/// Fewest moves from `state` after which `point` works from `source` (0 the utility, else place in
/// house.sources plus one). The source must be live in `state`. Handles that already stand right
/// are not moved. Where the source's running watts would be passed, the least important loads are
/// switched off first. Feeds that are only likely are used: the caller says so.
[[nodiscard]] Restoration restore(const House& house, const Graph& graph, const State& state, std::size_t point,
                                  int source);

}  // namespace ohmstead
