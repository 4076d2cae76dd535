#pragma once
// What changes when handles move: what goes off, what comes on, and what stays live close by.

#include <vector>

#include "feed/liveness.h"

namespace ohmstead {

/// Why something that stays live deserves a warning beside something that goes off.
enum class Closeness {
  same_box,        ///< a point or switch in the same box
  passing,         ///< a conductor that only passes through the same box
  shared_neutral,  ///< another circuit of the same multiwire group: the neutral may carry current
};

/// `live` stays live close to `gone` (place in house.points).
struct StaysLive {
  std::size_t gone = 0;
  Closeness why = Closeness::same_box;
  ThingRef live;  ///< a point, a handle, or a breaker (passing, shared_neutral)
  bool operator==(const StaysLive&) const = default;
};

/// Places in house.points, ascending.
struct Change {
  std::vector<std::size_t> off;        ///< worked by the record, and will not
  std::vector<std::size_t> on;         ///< did not work, and will
  std::vector<std::size_t> part_live;  ///< do not work, and something in them stays live (those in `off`) or becomes live
  std::vector<std::size_t> unknown;    ///< feed not established: they may go off too
  std::vector<StaysLive> stays_live;
  std::vector<std::pair<int, int>> joined;  ///< places in Graph::terminals that would be joined: do not do it
};

/// Compares two states of one graph. A point in `off` rests on its feed's standing: below
/// 'declared' it only probably goes off.
[[nodiscard]] Change what_changes(const House& house, const Graph& graph, const Feeds& feeds, const State& before,
                                  const State& after);

/// Pairs of handles that an interlock forbids to be on together and that are both on.
[[nodiscard]] std::vector<InterlockedPair> broken_interlocks(const Graph& graph, const State& state);

/// Breakers that share a neutral with `breaker`, itself not included (places in house.breakers).
[[nodiscard]] std::vector<std::size_t> neutral_partners(const House& house, Id<Breaker> breaker);

}  // namespace ohmstead
