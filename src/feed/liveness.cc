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

void note_joined(Liveness& into, int a, int b) {
  const std::pair pair = std::minmax(a, b);
  if (std::ranges::find(into.joined, std::pair<int, int>(pair)) == into.joined.end()) into.joined.emplace_back(pair);
}

/// Do the live hots of a point have a voltage between each two of them?
bool has_voltage(const Graph& graph, const Liveness& live, const Nodes& hots, int count) {
  for (int i = 0; i < count; ++i)
    for (int j = 0; j < i; ++j) {
      const Terminal& a = graph.terminals[live.label[hots[static_cast<std::size_t>(i)]] - 1U];
      const Terminal& b = graph.terminals[live.label[hots[static_cast<std::size_t>(j)]] - 1U];
      if (a.angle_deg == b.angle_deg || a.source != b.source) return false;
    }
  return true;
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
    into.label[terminal.node] = static_cast<std::uint16_t>(t + 1);
    queue.push_back(terminal.node);
  }
  spread(graph, state, queue, [&](Node to, Node from) {
    const std::uint16_t mine = into.label[from], theirs = into.label[to];
    if (theirs == Liveness::kDead) {
      into.label[to] = mine;
      return true;
    }
    if (theirs != mine) note_joined(into, mine - 1, theirs - 1);
    return false;
  });
  spread_unknown(graph, state, into);
}

Liveness liveness(const Graph& graph, const State& state) {
  Liveness into;
  liveness(graph, state, into);
  return into;
}

PointState state_by_record(const Graph& graph, const Liveness& live, std::size_t point) {
  const Nodes& hots = graph.point_hots[point];
  const int count = graph.point_hot_count[point];
  int alive = 0;
  for (int h = 0; h < count; ++h) {
    const Node node = hots[static_cast<std::size_t>(h)];
    if (live.live(node)) ++alive;
    else if (node == kNoNode || (!live.touches_unknown.empty() && live.touches_unknown[node])) return PointState::unknown;
  }
  if (alive == 0) return PointState::dead;
  return alive == count && has_voltage(graph, live, hots, count) ? PointState::working : PointState::part_live;
}

PointState point_state(const Graph& graph, const Liveness& live, std::size_t point) {
  const PointState state = state_by_record(graph, live, point);
  return state == PointState::dead && graph.point_relied_on[point] == 0 ? PointState::unknown : state;
}

std::vector<PointState> point_states(const Graph& graph, const Liveness& live) {
  std::vector<PointState> states(graph.point_hots.size());
  for (std::size_t i = 0; i < states.size(); ++i) states[i] = point_state(graph, live, i);
  return states;
}

}  // namespace ohmstead
