#include "feed/restore.h"

#include <algorithm>
#include <optional>

#include "feed/way_search.h"
#include "feed/what_if.h"
#include "house/index.h"

namespace ohmstead {

namespace {

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

/// Handles whose opening takes load off `source` and leaves `point` and everything that somebody's
/// life hangs on working, least important first.
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
    if (item.watts > 0 && item.importance != Importance::life_safety) found.push_back(item);
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
  auto [goal, any_way] = fewest_moves(graph, state, point, source);
  if (!goal || state_by_record(graph, liveness(graph, *goal), point) != PointState::working) {
    answer.cannot = any_way ? CannotRestore::not_lawful : CannotRestore::no_way;
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
