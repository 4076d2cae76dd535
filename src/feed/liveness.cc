#include "feed/liveness.h"

#include <algorithm>

namespace ohmstead {

namespace {

/// Visits everything joined to `queue` by closed contacts; `enter(node, from)` says whether to go on.
template <class Enter>
void spread(const Graph& graph, const State& state, std::vector<Node>& queue, Enter&& enter) {
  for (std::size_t at = 0; at < queue.size(); ++at) {
    const Node from = queue[at];
    for (const Arc& arc : graph.arcs_of(from))
      if ((arc.closed_in >> state.throws[arc.handle] & 1U) != 0 && enter(arc.to, from)) queue.push_back(arc.to);
  }
}

void spread_unknown(const Graph& graph, const State& state, Liveness& into) {
  into.touches_unknown.assign(graph.unknown.empty() ? 0 : graph.node_count(), false);
  std::vector<Node> queue = graph.unknown;
  for (const Node node : queue) into.touches_unknown[node] = true;
  spread(graph, state, queue, [&](Node to, Node) {
    if (into.touches_unknown[to]) return false;
    into.touches_unknown[to] = true;
    return true;
  });
}

/// Do the live hots of a point have a voltage between each two of them?
bool has_voltage(const Graph& graph, std::span<const std::uint16_t> carried) {
  for (std::size_t i = 0; i < carried.size(); ++i)
    for (std::size_t j = 0; j < i; ++j) {
      const Terminal& a = graph.terminals[carried[i] - 1U];
      const Terminal& b = graph.terminals[carried[j] - 1U];
      if (a.angle_deg == b.angle_deg || a.source != b.source) return false;
    }
  return true;
}

/// What one hot carries, for state_of_hots.
std::uint16_t carried_by(const Liveness& live, Node node) {
  if (node == kNoNode) return Liveness::kNotEstablished;
  const bool not_known = !live.live(node) && !live.touches_unknown.empty() && live.touches_unknown[node];
  return not_known ? Liveness::kNotEstablished : live.label[node];
}

}  // namespace

void liveness(const Graph& graph, const State& state, Liveness& into) {
  into.label.assign(graph.node_count(), Liveness::kDead);
  into.joined.clear();
  std::vector<Node> queue;
  queue.reserve(graph.node_count());
  for (std::size_t t = 0; t < graph.terminals.size(); ++t) {
    const Terminal& terminal = graph.terminals[t];
    if ((state.live_legs[static_cast<std::size_t>(terminal.source)] >> (terminal.leg - 1) & 1) == 0) continue;
    std::uint16_t& here = into.label[terminal.node];
    if (here != Liveness::kDead) {
      into.joined.emplace_back(here - 1, static_cast<int>(t));
      continue;
    }
    here = static_cast<std::uint16_t>(t + 1);
    queue.assign(1, terminal.node);
    spread(graph, state, queue, [&](Node to, Node from) {
      if (into.label[to] != Liveness::kDead) return false;
      into.label[to] = into.label[from];
      return true;
    });
  }
  spread_unknown(graph, state, into);
}

Liveness liveness(const Graph& graph, const State& state) {
  Liveness into;
  liveness(graph, state, into);
  return into;
}

PointState state_of_hots(const Graph& graph, std::span<const std::uint16_t> carried) {
  if (std::ranges::find(carried, Liveness::kNotEstablished) != carried.end()) return PointState::unknown;
  const auto dead = std::ranges::count(carried, Liveness::kDead);
  if (dead == std::ssize(carried)) return PointState::dead;
  return dead == 0 && has_voltage(graph, carried) ? PointState::working : PointState::part_live;
}

PointState state_by_record(const Graph& graph, const Liveness& live, std::size_t point) {
  std::array<std::uint16_t, kMostPoles> carried{};
  const std::size_t count = graph.point_hot_count[point];
  for (std::size_t h = 0; h < count; ++h) carried[h] = carried_by(live, graph.point_hots[point][h]);
  return state_of_hots(graph, std::span(carried).first(count));
}

PointState point_state(const Graph& graph, const Liveness& live, std::size_t point) {
  return as_told(state_by_record(graph, live, point), graph.point_relied_on[point] != 0);
}

std::vector<PointState> point_states(const Graph& graph, const Liveness& live) {
  std::vector<PointState> states(graph.point_hots.size());
  for (std::size_t i = 0; i < states.size(); ++i) states[i] = point_state(graph, live, i);
  return states;
}

}  // namespace ohmstead
