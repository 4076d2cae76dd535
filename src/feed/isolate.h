#pragma once
// What must be opened so that no conductor in a box can be live, from any source, whatever else
// anyone switches: a least-cost cut between all sources and the box.

#include <vector>

#include "feed/graph.h"

namespace ohmstead {

/// The answer. Even a possible isolation is proved only by testing: the record may be wrong.
struct Isolation {
  bool possible = false;  ///< false: something in the box is joined to a source with nothing to open between
  std::vector<std::uint32_t> open;            ///< one handle for each group to open, in the order of Graph::handles
  std::vector<std::size_t> goes_off;          ///< points that stop working, outside the box too
  std::vector<std::size_t> not_established;   ///< points in the box whose feed does not rest on proof or declaration
  std::vector<Id<Breaker>> neutral_partners;  ///< circuits that share a neutral with one in the box; they are opened too
  int cost = 0;
};

/// What is in a box: its points, switches and passing conductors.
struct InBox {
  std::vector<std::size_t> points, handles, passings;  ///< places in the house's tables
};

[[nodiscard]] InBox in_box(const House& house, Id<Box> box);
/// A point on its own, when its box is not recorded.
[[nodiscard]] InBox only_point(std::size_t point);

/// Conductors in the box, and those of every circuit that shares a neutral with one of them.
/// Partners are appended to `partners`.
[[nodiscard]] std::vector<Node> conductors_in(const House& house, const Graph& graph, const Feeds& feeds,
                                              const InBox& box, std::vector<Id<Breaker>>& partners);

/// What it costs a household to open one group of handles: 10 for the hand, 1 for each point that
/// goes off on an ordinary day, 40 more where a load there is hurt by power loss. In the order of
/// Graph::handles; 0 for handles that are not their group's first or may not isolate.
[[nodiscard]] std::vector<int> opening_costs(const House& house, const Graph& graph);

/// Least-cost set of isolating handles that parts `conductors` from every terminal, all other
/// handles being free to stand in any throw. Among equal cuts, the one nearest to the box.
/// Handles of a group count once. Empty `possible` as above.
[[nodiscard]] Isolation cut_from_sources(const Graph& graph, const std::vector<Node>& conductors,
                                         const std::vector<int>& costs);

/// The whole question for one box.
[[nodiscard]] Isolation isolate(const House& house, const Graph& graph, const Feeds& feeds, const InBox& box);

}  // namespace ohmstead
