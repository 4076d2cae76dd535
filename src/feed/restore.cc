#include "feed/restore.h"

#include <algorithm>
#include <deque>
#include <map>
#include <optional>
#include <queue>

#include "feed/what_if.h"
#include "house/index.h"

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
  Search(const House& house, const Graph& graph, const State& state, std::size_t point, int source)
      : graph_(graph), state_(state), hots_(graph.point_hots[point]),
        count_(static_cast<std::size_t>(house.points[point].hots)), source_(source) {}

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

bool lawful(const Graph& graph, const State& state) {
  return broken_interlocks(graph, state).empty() && liveness(graph, state).joined.empty();
}

/// Order of the moves between two states in which every step is lawful; openings first.
std::optional<std::vector<Move>> ordered_moves(const Graph& graph, const State& from, const State& to) {
  std::vector<std::uint32_t> groups;
  for (std::uint32_t h = 1; h < graph.handles.size(); ++h)
    if (graph.handles[h].group == h && from.throws[h] != to.throws[h]) groups.push_back(h);
  const auto closes = [&](std::uint32_t h) { return to.throws[h] != kOff; };
  std::ranges::stable_partition(groups, [&](std::uint32_t h) { return !closes(h); });
  std::vector<std::uint32_t> order = groups;
  for (int tries = 0; tries < 5040; ++tries) {
    State at = from;
    std::vector<Move> moves;
    bool fine = true;
    for (const std::uint32_t h : order) {
      move_handle(graph, at, h, to.throws[h]);
      moves.push_back({h, to.throws[h]});
      fine = fine && lawful(graph, at);
    }
    if (fine) return moves;
    std::ranges::rotate(order, order.begin() + 1);
    if (order == groups) break;
  }
  return std::nullopt;
}

/// Importance and watts of what goes off with one handle.
struct Sheddable {
  Importance importance = Importance::low;
  int watts = 0;
  std::uint32_t handle = 0;
};

bool over(const House& house, const Graph& graph, const State& state, int source) {
  if (source == 0) return false;
  const Source& row = house.sources[static_cast<std::size_t>(source - 1)];
  if (row.running_watts == 0) return false;
  const auto watts = watts_on_terminals(house, graph, liveness(graph, state));
  int total = 0, terminals = 0, worst = 0;
  for (std::size_t t = 0; t < watts.size(); ++t) {
    if (graph.terminals[t].source != source) continue;
    total += watts[t], ++terminals, worst = std::max(worst, watts[t]);
  }
  return total > row.running_watts || (terminals > 1 && worst > row.running_watts / terminals);
}

int importance_rank(Importance importance) {
  switch (importance) {
    case Importance::low: return 0;
    case Importance::normal: return 1;
    case Importance::high: return 2;
    case Importance::life_safety: break;
  }
  return 3;
}

/// Handles whose opening takes load off `source` and leaves `point` working, least important first.
std::vector<Sheddable> sheddable(const House& house, const Graph& graph, const State& state, std::size_t point) {
  const Liveness before = liveness(graph, state);
  const Index<Point> point_at(house.points);
  std::vector<Sheddable> found;
  for (std::uint32_t h = 1; h < graph.handles.size(); ++h) {
    const GraphHandle& handle = graph.handles[h];
    if (handle.group != h || state.throws[h] == kOff || handle.ref.kind == HandleKind::device) continue;
    State opened = state;
    move_handle(graph, opened, h, kOff);
    const Liveness after = liveness(graph, opened);
    if (state_by_record(graph, after, point) != PointState::working) continue;
    Sheddable item{Importance::low, 0, h};
    for (const Load& load : house.loads) {
      const long p = point_at.at(load.point);
      if (p < 0 || state_by_record(graph, before, static_cast<std::size_t>(p)) != PointState::working ||
          state_by_record(graph, after, static_cast<std::size_t>(p)) == PointState::working)
        continue;
      item.watts += load.running_watts.value_or(0);
      if (importance_rank(load.importance) > importance_rank(item.importance)) item.importance = load.importance;
    }
    if (item.watts > 0) found.push_back(item);
  }
  std::ranges::stable_sort(found, [](const Sheddable& a, const Sheddable& b) {
    return std::pair(importance_rank(a.importance), -a.watts) < std::pair(importance_rank(b.importance), -b.watts);
  });
  return found;
}

}  // namespace

std::vector<int> watts_on_terminals(const House& house, const Graph& graph, const Liveness& live) {
  std::vector<int> watts(graph.terminals.size(), 0);
  const Index<Point> point_at(house.points);
  for (const Load& load : house.loads) {
    const long p = point_at.at(load.point);
    if (p < 0 || state_by_record(graph, live, static_cast<std::size_t>(p)) != PointState::working) continue;
    const int hots = house.points[static_cast<std::size_t>(p)].hots;
    for (int h = 0; h < hots; ++h)
      watts[live.label[graph.point_hots[static_cast<std::size_t>(p)][static_cast<std::size_t>(h)]] - 1U] +=
          load.running_watts.value_or(0) / hots;
  }
  return watts;
}

Restoration restore(const House& house, const Graph& graph, const State& state, std::size_t point, int source) {
  Restoration answer;
  for (int h = 0; h < house.points[point].hots; ++h)
    if (graph.point_hots[point][static_cast<std::size_t>(h)] == kNoNode) answer.cannot = CannotRestore::feed_not_established;
  if (answer.cannot != CannotRestore::none) return answer;
  if (state.live_legs[static_cast<std::size_t>(source)] == 0) {
    answer.cannot = CannotRestore::source_dead;
    return answer;
  }
  Search search(house, graph, state, point, source);
  auto goal = search.best();
  if (!goal || state_by_record(graph, liveness(graph, *goal), point) != PointState::working) {
    answer.cannot = search.any_way() ? CannotRestore::not_lawful : CannotRestore::no_way;
    return answer;
  }
  State start = state;
  if (over(house, graph, *goal, source))
    for (const Sheddable& item : sheddable(house, graph, *goal, point)) {
      if (!over(house, graph, *goal, source)) break;
      move_handle(graph, *goal, item.handle, kOff);
      if (start.throws[item.handle] == kOff) continue;
      move_handle(graph, start, item.handle, kOff);
      answer.moves.push_back({item.handle, kOff});
    }
  answer.shed_moves = answer.moves.size();
  const auto moves = ordered_moves(graph, start, *goal);
  if (!moves || over(house, graph, *goal, source)) {
    answer.cannot = moves ? CannotRestore::over_capacity : CannotRestore::not_lawful;
    answer.moves.clear();
    return answer;
  }
  answer.moves.insert(answer.moves.end(), moves->begin(), moves->end());
  answer.goes_off = what_changes(house, graph, declared_feeds(house), state, *goal).off;
  const auto watts = watts_on_terminals(house, graph, liveness(graph, *goal));
  for (std::size_t t = 0; t < watts.size(); ++t)
    if (graph.terminals[t].source == source) answer.running_watts += watts[t];
  return answer;
}

}  // namespace ohmstead
