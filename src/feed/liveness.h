#pragma once
// What is live under a state of handles and sources.

#include <span>
#include <utility>
#include <vector>

#include "feed/graph.h"

namespace ohmstead {

/// State of a point. Never 'dead' for anything unknown or part live.
enum class PointState : std::uint8_t {
  working,    ///< all its hots are live, at angles that give it its voltage
  dead,       ///< no conductor of it is live, and its feed is relied on
  part_live,  ///< it cannot work, and something in it can still kill
  unknown,    ///< its feed is not established
};
OHMSTEAD_WORDS(PointState, "working", "dead", "part_live", "unknown")

/// What each conductor carries, and whether two sources (or two legs) are joined.
struct Liveness {
  static constexpr std::uint16_t kDead = 0;
  static constexpr std::uint16_t kNotEstablished = 0xFFFF;  ///< only in state_of_hots, never in `label`
  /// For each conductor: 0, or 1 + the place in Graph::terminals of the terminal that energises it; the first of several.
  std::vector<std::uint16_t> label;
  /// For each conductor: a conductor of unknown supply is joined to it. Empty if the graph has none.
  std::vector<bool> touches_unknown;
  /// Live terminals joined by closed contacts, each with the first of those it is joined to: a short between legs, or two
  /// sources in parallel.
  std::vector<std::pair<int, int>> joined;

  [[nodiscard]] bool live(Node node) const { return node != kNoNode && label[node] != kDead; }
};

/// One pass over the conductors reached from live terminals: O(conductors + contacts).
[[nodiscard]] Liveness liveness(const Graph& graph, const State& state);
/// The same, into storage that is kept between calls.
void liveness(const Graph& graph, const State& state, Liveness& into);

/// State of a point by what its hots carry: each as in Liveness::label, or kNotEstablished where no conductor is recorded, or a
/// dead one is joined to a supply that is not known.
[[nodiscard]] PointState state_of_hots(const Graph& graph, std::span<const std::uint16_t> carried);
/// The state as it may be told to people: what is not relied on is never dead; it is unknown.
[[nodiscard]] constexpr PointState as_told(PointState state, bool is_relied_on) {
  return state == PointState::dead && !is_relied_on ? PointState::unknown : state;
}

/// State of one point if its recorded feed is right, whatever that rests on.
[[nodiscard]] PointState state_by_record(const Graph& graph, const Liveness& live, std::size_t point);

/// State of one point as it may be told to people.
[[nodiscard]] PointState point_state(const Graph& graph, const Liveness& live, std::size_t point);

/// The same for all points, in the order of house.points.
[[nodiscard]] std::vector<PointState> point_states(const Graph& graph, const Liveness& live);

}  // namespace ohmstead
