#pragma once
// Each point's state under every stand of the handles and sources, as decision diagrams: what the saved page computes with, so that
// the logic of the graph is not written a second time in another language. Exact: a diagram gives what liveness.h gives, where
// sources or legs are joined too.

#include <array>
#include <cstdint>
#include <span>
#include <vector>

#include "feed/liveness.h"

namespace ohmstead {

/// What a diagram decides by: handles that move together, or a source that is live on all its legs or on none.
struct DiagramVariable {
  std::vector<std::uint32_t> handles;  ///< of Graph::handles, ascending; empty for a source
  int source = -1;                     ///< 0 the utility, else place in house.sources plus one; -1 for handles
  Throw throws = 2;                    ///< its values are 0 .. throws - 1; of a source: 0 dead, 1 live
  Throw usual = 0;                     ///< its value on an ordinary day
};

/// A number below kLeaves is an answer (of a point: its PointState), the others are Diagrams::nodes[number - kLeaves].
using Diagram = std::uint32_t;
inline constexpr Diagram kLeaves = 4;

/// One decision: the diagram to go on with, by the variable's value. Every path meets a variable at most once, in ascending order.
struct DiagramNode {
  std::uint32_t variable = 0;
  std::array<Diagram, 3> next{};
  bool operator==(const DiagramNode&) const = default;
};

/// Reduced and shared: no node has the same `next` for all its values, and no two nodes are equal.
struct Diagrams {
  std::vector<DiagramVariable> variables;  ///< the permanent joint is none
  std::vector<DiagramNode> nodes;          ///< children before parents
  std::vector<Diagram> of_point;           ///< in the order of house.points; leaves are PointState
  Diagram joined = 0;  ///< 1 where two sources or two legs would be joined, else 0; each source taken as live, for a dead line can come back
};

/// Throws Error{invalid_input} if it needs more than `most_nodes` (a wiring no house has).
[[nodiscard]] Diagrams diagrams(const Graph& graph, std::size_t most_nodes = 1'000'000);

/// The answer of a diagram, where variable v has the value `values[v]`.
[[nodiscard]] Diagram evaluate(const Diagrams& diagrams, Diagram diagram, std::span<const Throw> values);

/// The values of the variables in a state of the graph. Precondition: handles of a group stand alike; a source's legs are all live or all dead.
[[nodiscard]] std::vector<Throw> values_of(const Diagrams& diagrams, const State& state);

}  // namespace ohmstead
