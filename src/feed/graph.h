#pragma once
// The feed graph: hot conductors joined by contacts. A contact belongs to a handle and is closed
// in some of its throws; sources energise conductors. Everything a house has is said in these
// terms (docs/feed.md draws each case); nothing is a special case further up.

#include <array>
#include <cstdint>
#include <span>
#include <vector>

#include "feed/feeds.h"
#include "house/house.h"

namespace ohmstead {

using Node = std::uint32_t;  ///< a hot conductor
inline constexpr Node kNoNode = ~Node{0};
inline constexpr int kMostPoles = 3;
using Nodes = std::array<Node, kMostPoles>;  ///< one for each pole, leg or hot; kNoNode where there is none
inline constexpr Nodes kNoNodes{kNoNode, kNoNode, kNoNode};

/// Throws of a handle. A transfer position has all three; a handle of a 3-way or 4-way group has
/// 0 and 1, neither of which is 'off'; every other handle is kOff or kOn.
using Throw = std::uint8_t;
inline constexpr Throw kOff = 0, kOn = 1;
inline constexpr Throw kUtilitySide = 1, kBackupSide = 2;

/// A handle as the graph sees it.
struct GraphHandle {
  HandleRef ref;             ///< none for the permanent joint, handle 0
  Throw throws = 2;          ///< number of throws, 0..throws-1
  Throw usual = kOn;         ///< where it stands on an ordinary day
  bool may_isolate = false;  ///< breaker, main, position breaker, disconnect; never a wall switch or GFCI
  std::uint32_t group = 0;   ///< handles of one group move together (handle tie, tied positions)
};

/// One direction of a contact, stored with the node it leaves.
struct Arc {
  Node to = 0;
  std::uint32_t handle = 0;
  std::uint32_t closed_in = 0;  ///< bit t: closed in throw t
};

/// Where a source energises the graph.
struct Terminal {
  Node node = 0;
  int source = 0;     ///< 0 the utility, 1.. place in house.sources plus one
  int leg = 1;        ///< 1-based
  int angle_deg = 0;  ///< phase angle; two conductors at one angle have no voltage between them
};

/// Two handles that may never both be on.
struct InterlockedPair {
  std::uint32_t first = 0, second = 0;
};

/// Built once from a house and its feeds, then asked under many states. Order of points, devices,
/// breakers, positions, panels as in the house.
struct Graph {
  std::vector<GraphHandle> handles;
  std::vector<std::uint32_t> first_arc;  ///< arcs of node n: first_arc[n] .. first_arc[n + 1]
  std::vector<Arc> arcs;
  std::vector<Terminal> terminals;
  std::vector<Node> unknown;  ///< conductors whose supply is not known (an unexplored panel, an untraced device)
  std::vector<InterlockedPair> interlocks;
  std::vector<Nodes> point_hots;     ///< kNoNode on a hot whose feed is not established
  std::vector<std::uint8_t> point_hot_count;
  std::vector<std::uint8_t> point_relied_on;  ///< 1: 'dead' may be said of it (feeds.h)
  std::vector<Nodes> device_line, device_load;
  std::vector<Nodes> breaker_load;   ///< at the breaker's own load terminals
  std::vector<Nodes> circuit;        ///< behind a transfer position, if one carries the pole; else breaker_load
  std::vector<Nodes> panel_bus;
  std::vector<std::vector<Node>> handle_nodes;  ///< conductors at each device handle, in the order of house.handles
  int source_count = 1;  ///< the utility and house.sources

  [[nodiscard]] std::size_t node_count() const { return first_arc.empty() ? 0 : first_arc.size() - 1; }
  [[nodiscard]] std::span<const Arc> arcs_of(Node node) const {
    return {arcs.data() + first_arc[node], arcs.data() + first_arc[node + 1]};
  }
  /// Handle with this reference. Throws Error{not_found}.
  [[nodiscard]] std::uint32_t handle_of(const HandleRef& ref) const;
};

/// Builds the graph. Feeds that are open or disputed join nothing: their points are unknown.
/// Precondition: the house is sound (house/invariants.h); feeds fit it.
[[nodiscard]] Graph build_graph(const House& house, const Feeds& feeds);

/// Where every handle stands, and which legs of each source are live.
struct State {
  std::vector<Throw> throws;                  ///< in the order of Graph::handles
  std::vector<std::uint8_t> live_legs;        ///< for each source: bit l-1 set when leg l is live
  bool operator==(const State&) const = default;
};

/// An ordinary day: utility live, other sources off, every handle in its usual throw.
[[nodiscard]] State usual_state(const Graph& graph);

/// An outage carried by `source` (place in house.sources): utility dead, its transfer positions on
/// backup, panel mains that are interlocked with its backfed breakers off and those breakers on.
[[nodiscard]] State backup_state(const House& house, const Graph& graph, std::size_t source);

/// Moves a handle, and with it every handle of its group.
void move_handle(const Graph& graph, State& state, std::uint32_t handle, Throw to);

}  // namespace ohmstead
