#include "feed/isolate.h"

#include <algorithm>
#include <limits>
#include <set>

#include "feed/what_if.h"
#include "house/index.h"

namespace ohmstead {

namespace {

constexpr int kHandCost = 10, kPointCost = 1, kHurtCost = 40;
constexpr int kUnlimited = std::numeric_limits<int>::max() / 4;

/// Smallest vertex cut by augmenting paths. Vertices: conductors, then two (in, out) for each
/// handle group; only the step from in to out has a limited capacity.
class FlowNetwork {
 public:
  explicit FlowNetwork(std::size_t vertices) : out_(vertices) {}

  void add(std::uint32_t from, std::uint32_t to, int capacity, int back = 0) {
    out_[from].push_back(static_cast<std::uint32_t>(edges_.size()));
    edges_.push_back({to, capacity});
    out_[to].push_back(static_cast<std::uint32_t>(edges_.size()));
    edges_.push_back({from, back});
  }
  /// Greatest flow, or kUnlimited if some path has no limit.
  int max_flow(std::uint32_t source, std::uint32_t sink) {
    int total = 0;
    while (const int pushed = augment(source, sink)) {
      if (pushed >= kUnlimited) return kUnlimited;
      total += pushed;
    }
    return total;
  }
  /// Vertices from which `sink` can still be reached in what is left of the capacities.
  [[nodiscard]] std::vector<bool> reaching(std::uint32_t sink) const {
    std::vector<bool> seen(out_.size(), false);
    std::vector<std::uint32_t> queue{sink};
    seen[sink] = true;
    for (std::size_t at = 0; at < queue.size(); ++at)
      for (const std::uint32_t e : out_[queue[at]]) {
        const std::uint32_t from = edges_[e].to;  // the reverse of e runs from there to here
        if (seen[from] || edges_[e ^ 1U].capacity == 0) continue;
        seen[from] = true;
        queue.push_back(from);
      }
    return seen;
  }

 private:
  struct Edge {
    std::uint32_t to;
    int capacity;
  };
  static constexpr std::uint32_t kNoEdge = ~0U;

  int augment(std::uint32_t source, std::uint32_t sink) {
    std::vector<std::uint32_t> by(out_.size(), kNoEdge), queue{source};
    std::vector<bool> seen(out_.size(), false);
    seen[source] = true;
    for (std::size_t at = 0; at < queue.size() && !seen[sink]; ++at)
      for (const std::uint32_t e : out_[queue[at]]) {
        if (edges_[e].capacity == 0 || seen[edges_[e].to]) continue;
        seen[edges_[e].to] = true;
        by[edges_[e].to] = e;
        queue.push_back(edges_[e].to);
      }
    if (!seen[sink]) return 0;
    int least = kUnlimited;
    for (std::uint32_t v = sink; v != source; v = edges_[by[v] ^ 1U].to) least = std::min(least, edges_[by[v]].capacity);
    if (least >= kUnlimited) return kUnlimited;
    for (std::uint32_t v = sink; v != source; v = edges_[by[v] ^ 1U].to) {
      if (edges_[by[v]].capacity < kUnlimited) edges_[by[v]].capacity -= least;
      if (edges_[by[v] ^ 1U].capacity < kUnlimited) edges_[by[v] ^ 1U].capacity += least;
    }
    return least;
  }

  std::vector<Edge> edges_;
  std::vector<std::vector<std::uint32_t>> out_;
};

void add_unique(std::vector<Node>& nodes, Node node) {
  if (node != kNoNode && std::ranges::find(nodes, node) == nodes.end()) nodes.push_back(node);
}

/// Breakers whose conductors are in the box by the record.
std::set<Id<Breaker>> breakers_in(const House& house, const Feeds& feeds, const InBox& box) {
  std::set<Id<Breaker>> breakers;
  const auto take = [&](const Feed& feed) {
    for (const Tap& tap : feed.taps) breakers.insert(tap.breaker);
  };
  for (const std::size_t p : box.points) take(feeds.of_point[p]);
  const Index<Device> device_at(house.devices);
  for (const std::size_t h : box.handles)
    if (const long d = device_at.at(house.handles[h].device); d >= 0) take(feeds.of_device[static_cast<std::size_t>(d)]);
  for (const std::size_t p : box.passings) breakers.insert(house.passings[p].breaker);
  return breakers;
}

}  // namespace

InBox in_box(const House& house, Id<Box> box) {
  InBox found;
  for (std::size_t i = 0; i < house.points.size(); ++i)
    if (house.points[i].box == box) found.points.push_back(i);
  for (std::size_t i = 0; i < house.handles.size(); ++i)
    if (house.handles[i].box == box) found.handles.push_back(i);
  for (std::size_t i = 0; i < house.passings.size(); ++i)
    if (house.passings[i].box == box) found.passings.push_back(i);
  return found;
}

InBox only_point(std::size_t point) { return {{point}, {}, {}}; }

std::vector<Node> conductors_in(const House& house, const Graph& graph, const Feeds& feeds, const InBox& box,
                                std::vector<Id<Breaker>>& partners) {
  std::vector<Node> nodes;
  for (const std::size_t p : box.points)
    for (const Node node : graph.point_hots[p]) add_unique(nodes, node);
  for (const std::size_t h : box.handles)
    for (const Node node : graph.handle_nodes[h]) add_unique(nodes, node);
  const Index<Breaker> breaker_at(house.breakers);
  for (const std::size_t p : box.passings)
    if (const long b = breaker_at.at(house.passings[p].breaker); b >= 0)
      add_unique(nodes, graph.circuit[static_cast<std::size_t>(b)][static_cast<std::size_t>(house.passings[p].pole - 1)]);
  for (const Id<Breaker> breaker : breakers_in(house, feeds, box)) {
    const auto own = std::ranges::find(house.circuits, breaker, &Circuit::breaker);
    if (const long b = breaker_at.at(breaker); b >= 0 && own != house.circuits.end() && own->multiwire)
      for (const Node node : graph.circuit[static_cast<std::size_t>(b)]) add_unique(nodes, node);
    for (const std::size_t b : neutral_partners(house, breaker)) {
      partners.push_back(house.breakers[b].id);
      for (const Node node : graph.circuit[b]) add_unique(nodes, node);
    }
  }
  std::ranges::sort(partners);
  partners.erase(std::ranges::unique(partners).begin(), partners.end());
  return nodes;
}

std::vector<int> opening_costs(const House& house, const Graph& graph) {
  std::vector<int> costs(graph.handles.size(), 0);
  const State usual = usual_state(graph);
  const Liveness before = liveness(graph, usual);
  std::vector<bool> hurt(house.points.size(), false);
  const Index<Point> point_at(house.points);
  for (const Load& load : house.loads)
    if (const long p = point_at.at(load.point); p >= 0 && load.hurt_by_power_loss) hurt[static_cast<std::size_t>(p)] = true;
  Liveness after;
  for (std::uint32_t h = 1; h < graph.handles.size(); ++h) {
    if (!graph.handles[h].may_isolate || graph.handles[h].group != h) continue;
    costs[h] = kHandCost;
    State opened = usual;
    move_handle(graph, opened, h, kOff);
    liveness(graph, opened, after);
    for (std::size_t p = 0; p < house.points.size(); ++p)
      if (state_by_record(graph, before, p) == PointState::working &&
          state_by_record(graph, after, p) != PointState::working)
        costs[h] += kPointCost + (hurt[p] ? kHurtCost : 0);
  }
  return costs;
}

Isolation cut_from_sources(const Graph& graph, const std::vector<Node>& conductors, const std::vector<int>& costs) {
  const auto nodes = static_cast<std::uint32_t>(graph.node_count());
  const auto handles = static_cast<std::uint32_t>(graph.handles.size());
  const std::uint32_t source = nodes + 2 * handles, sink = source + 1;
  FlowNetwork network(sink + 1);
  const auto in = [&](std::uint32_t h) { return nodes + 2 * h; };
  const auto out = [&](std::uint32_t h) { return nodes + 2 * h + 1; };
  for (std::uint32_t h = 1; h < handles; ++h)
    if (graph.handles[h].may_isolate && graph.handles[h].group == h) network.add(in(h), out(h), costs[h]);
  for (Node node = 0; node < nodes; ++node)
    for (const Arc& arc : graph.arcs_of(node)) {
      const GraphHandle& handle = graph.handles[arc.handle];
      if (handle.may_isolate) {
        network.add(node, in(handle.group), kUnlimited);
        network.add(out(handle.group), node, kUnlimited);
      } else if (node < arc.to) {
        network.add(node, arc.to, kUnlimited, kUnlimited);
      }
    }
  for (const Terminal& terminal : graph.terminals) network.add(source, terminal.node, kUnlimited);
  for (const Node node : conductors) network.add(node, sink, kUnlimited);
  Isolation answer;
  answer.cost = network.max_flow(source, sink);
  answer.possible = answer.cost < kUnlimited;
  if (!answer.possible) return answer;
  const auto near_box = network.reaching(sink);
  for (std::uint32_t h = 1; h < handles; ++h)
    if (costs[h] > 0 && near_box[out(h)] && !near_box[in(h)]) answer.open.push_back(h);
  return answer;
}

Isolation isolate(const House& house, const Graph& graph, const Feeds& feeds, const InBox& box) {
  std::vector<Id<Breaker>> partners;
  const auto conductors = conductors_in(house, graph, feeds, box, partners);
  Isolation answer = cut_from_sources(graph, conductors, opening_costs(house, graph));
  answer.neutral_partners = std::move(partners);
  for (const std::size_t p : box.points)
    if (!relied_on(feeds.of_point[p].standing)) answer.not_established.push_back(p);
  const State usual = usual_state(graph);
  State opened = usual;
  for (const std::uint32_t h : answer.open) move_handle(graph, opened, h, kOff);
  answer.goes_off = what_changes(house, graph, feeds, usual, opened).off;
  return answer;
}

}  // namespace ohmstead
