#include "feed/way_search.h"

#include <algorithm>
#include <deque>
#include <map>
#include <queue>

#include "feed/liveness.h"
#include "feed/what_if.h"

namespace ohmstead {

namespace {

constexpr std::size_t kMostWays = 200'000;  ///< partial ways looked at before giving up
constexpr int kMostExtra = 4;               ///< handles opened to part two sources

/// Throws decided so far, by handle group, ascending.
using Throws = std::vector<std::pair<std::uint32_t, Throw>>;

std::optional<Throw> decided(const Throws& throws, std::uint32_t group) {
  const auto at = std::ranges::lower_bound(throws, group, {}, &std::pair<std::uint32_t, Throw>::first);
  return at != throws.end() && at->first == group ? std::optional(at->second) : std::nullopt;
}

Throws with(Throws throws, std::uint32_t group, Throw to) {
  const auto at = std::ranges::lower_bound(throws, group, {}, &std::pair<std::uint32_t, Throw>::first);
  if (at == throws.end() || at->first != group) throws.insert(at, {group, to});
  return throws;
}

/// A way from the source to some of the point's hots.
struct Way {
  int moves = 0;
  std::size_t hot = 0;  ///< hots reached so far
  Node node = kNoNode;
  int first_angles = 0;  ///< angles used so far, as bits of the terminal's leg
  Throws throws;
};

struct Dearer {
  bool operator()(const Way& a, const Way& b) const { return a.moves > b.moves; }
};

bool is_part_of(const Throws& small, const Throws& large) {
  return std::ranges::includes(large, small);
}

/// Searches throws that join a point to a source, fewest moves first.
class Search {
 public:
  Search(const Graph& graph, const State& state, std::size_t point, int source)
      : graph_(graph), state_(state), hots_(graph.point_hots[point]),
        count_(graph.point_hot_count[point]), source_(source) {}

  /// Best lawful state, or why there is none.
  std::optional<State> best() {
    start_hot({});
    std::optional<State> found;
    int fewest = 1 << 20;
    for (std::size_t looked = 0; !queue_.empty() && looked < kMostWays; ++looked) {
      Way way = queue_.top();
      queue_.pop();
      if (way.moves >= fewest) break;
      if (way.hot == count_) {
        any_way_ = true;
        if (const auto lawful = make_lawful(applied(way.throws), way.throws, kMostExtra)) {
          const int moves = moved_groups(*lawful);
          if (moves < fewest) fewest = moves, found = lawful;
        }
        continue;
      }
      if (!dominated(way)) step_on(way);
    }
    return found;
  }
  [[nodiscard]] bool any_way() const { return any_way_; }

 private:
  void start_hot(const Way& way) {
    for (std::size_t t = 0; t < graph_.terminals.size(); ++t) {
      const Terminal& terminal = graph_.terminals[t];
      const bool live = (state_.live_legs[static_cast<std::size_t>(terminal.source)] >> (terminal.leg - 1) & 1) != 0;
      const int leg_bit = 1 << terminal.leg;
      if (terminal.source != source_ || !live || (way.first_angles & leg_bit) != 0) continue;
      Way next = way;
      next.node = terminal.node;
      next.first_angles |= leg_bit;
      arrive(std::move(next));
    }
  }
  /// Puts a way into the queue; at a hot it goes on to the next one.
  void arrive(Way way) {
    if (way.hot < count_ && way.node == hots_[way.hot]) {
      ++way.hot;
      if (way.hot < count_) return start_hot(way);
    }
    queue_.push(std::move(way));
  }
  void step_on(const Way& way) {
    for (const Arc& arc : graph_.arcs_of(way.node)) {
      const std::uint32_t group = graph_.handles[arc.handle].group;
      const auto fixed = decided(way.throws, group);
      const Throw now = state_.throws[arc.handle];
      for (Throw t = 0; t < graph_.handles[arc.handle].throws; ++t) {
        if ((arc.closed_in >> t & 1U) == 0 || (fixed && *fixed != t)) continue;
        Way next = way;
        next.node = arc.to;
        if (!fixed && arc.handle != 0) {
          next.throws = with(std::move(next.throws), group, t);
          if (t != now) ++next.moves;
        }
        arrive(std::move(next));
      }
    }
  }
  bool dominated(const Way& way) {
    auto& seen = seen_[{way.hot, way.first_angles, way.node}];
    for (const Way& other : seen)
      if (other.moves <= way.moves && is_part_of(other.throws, way.throws)) return true;
    seen.push_back(way);
    return false;
  }
  [[nodiscard]] State applied(const Throws& throws) const {
    State state = state_;
    for (const auto& [group, to] : throws) move_handle(graph_, state, group, to);
    return state;
  }
  [[nodiscard]] int moved_groups(const State& state) const {
    int moved = 0;
    for (std::uint32_t h = 1; h < graph_.handles.size(); ++h)
      if (graph_.handles[h].group == h && state.throws[h] != state_.throws[h]) ++moved;
    return moved;
  }
  /// Opens handles not in `fixed` until no interlock is broken and no two terminals are joined.
  std::optional<State> make_lawful(const State& state, const Throws& fixed, int most) {
    std::vector<std::uint32_t> suspects;
    const auto broken = broken_interlocks(graph_, state);
    if (!broken.empty()) {
      suspects = {broken.front().first, broken.front().second};
    } else {
      const Liveness live = liveness(graph_, state);
      if (live.joined.empty()) return state;
      suspects = between(state, live.joined.front());
    }
    if (most == 0) return std::nullopt;
    std::optional<State> best;
    for (const std::uint32_t handle : suspects) {
      const std::uint32_t group = graph_.handles[handle].group;
      if (decided(fixed, group)) continue;
      for (Throw t = 0; t < graph_.handles[handle].throws; ++t) {
        if (t == state.throws[handle]) continue;
        State next = state;
        move_handle(graph_, next, handle, t);
        const auto lawful = make_lawful(next, with(fixed, group, t), most - 1);
        if (lawful && (!best || moved_groups(*lawful) < moved_groups(*best))) best = lawful;
      }
    }
    return best;
  }
  /// Handles on one way of closed contacts between two joined terminals.
  [[nodiscard]] std::vector<std::uint32_t> between(const State& state, std::pair<int, int> joined) const {
    const Node from = graph_.terminals[static_cast<std::size_t>(joined.first)].node;
    const Node to = graph_.terminals[static_cast<std::size_t>(joined.second)].node;
    std::map<Node, std::pair<Node, std::uint32_t>> by;
    std::deque<Node> queue{from};
    by[from] = {from, 0};
    while (!queue.empty() && !by.contains(to)) {
      const Node node = queue.front();
      queue.pop_front();
      for (const Arc& arc : graph_.arcs_of(node))
        if ((arc.closed_in >> state.throws[arc.handle] & 1U) != 0 && by.emplace(arc.to, std::pair{node, arc.handle}).second)
          queue.push_back(arc.to);
    }
    std::vector<std::uint32_t> handles;
    for (Node node = to; by.contains(node) && node != from; node = by[node].first)
      if (by[node].second != 0) handles.push_back(by[node].second);
    return handles;
  }

  const Graph& graph_;
  const State& state_;
  const Nodes hots_;
  const std::size_t count_;
  const int source_;
  bool any_way_ = false;
  std::priority_queue<Way, std::vector<Way>, Dearer> queue_;
  std::map<std::tuple<std::size_t, int, Node>, std::vector<Way>> seen_;
};

}  // namespace

FoundWay fewest_moves(const Graph& graph, const State& state, std::size_t point, int source) {
  Search search(graph, state, point, source);
  FoundWay found{search.best(), false};
  found.any_way = search.any_way();
  return found;
}

}  // namespace ohmstead
