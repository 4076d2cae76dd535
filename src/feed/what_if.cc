#include "feed/what_if.h"

#include <algorithm>
#include <set>

#include "house/index.h"

namespace ohmstead {

namespace {

/// Collects what stays live close to points that go off.
class CloseBy {
 public:
  CloseBy(const House& house, const Graph& graph, const Feeds& feeds, const Liveness& after)
      : house_(house), graph_(graph), feeds_(feeds), after_(after) {}

  void look_around(std::size_t gone) {
    if (house_.points[gone].box) look_in_box(gone, house_.points[gone].box);
    std::set<std::size_t> partners;
    for (const Tap& tap : feeds_.of_point[gone].taps)
      for (const std::size_t b : neutral_partners(house_, tap.breaker)) partners.insert(b);
    for (const std::size_t b : partners)
      if (std::ranges::any_of(graph_.circuit[b], [&](Node n) { return after_.live(n); }))
        add(gone, Closeness::shared_neutral, {ThingKind::breaker, house_.breakers[b].id.value});
  }
  [[nodiscard]] std::vector<StaysLive> take() { return std::move(found_); }

 private:
  void look_in_box(std::size_t gone, Id<Box> box) {
    for (std::size_t i = 0; i < house_.points.size(); ++i)
      if (i != gone && house_.points[i].box == box && any_live(graph_.point_hots[i]))
        add(gone, Closeness::same_box, {ThingKind::point, house_.points[i].id.value});
    for (std::size_t h = 0; h < house_.handles.size(); ++h)
      if (house_.handles[h].box == box &&
          std::ranges::any_of(graph_.handle_nodes[h], [&](Node n) { return after_.live(n); }))
        add(gone, Closeness::same_box, {ThingKind::handle, house_.handles[h].id.value});
    for (const Passing& passing : house_.passings) {
      if (passing.box != box) continue;
      for (std::size_t b = 0; b < house_.breakers.size(); ++b)
        if (house_.breakers[b].id == passing.breaker &&
            after_.live(graph_.circuit[b][static_cast<std::size_t>(passing.pole - 1)]))
          add(gone, Closeness::passing, {ThingKind::breaker, passing.breaker.value});
    }
  }
  [[nodiscard]] bool any_live(const Nodes& nodes) const {
    return std::ranges::any_of(nodes, [&](Node n) { return after_.live(n); });
  }
  void add(std::size_t gone, Closeness why, ThingRef live) { found_.push_back({gone, why, live}); }

  const House& house_;
  const Graph& graph_;
  const Feeds& feeds_;
  const Liveness& after_;
  std::vector<StaysLive> found_;
};

}  // namespace

std::vector<std::size_t> neutral_partners(const House& house, Id<Breaker> breaker) {
  std::vector<std::size_t> partners;
  const auto own = std::ranges::find(house.circuits, breaker, &Circuit::breaker);
  if (own == house.circuits.end() || !own->multiwire) return partners;
  const Index<Breaker> breaker_at(house.breakers);
  for (const Circuit& circuit : house.circuits) {
    const long at = breaker_at.at(circuit.breaker);
    if (circuit.multiwire == own->multiwire && circuit.breaker != breaker && at >= 0)
      partners.push_back(static_cast<std::size_t>(at));
  }
  return partners;
}

Change what_changes(const House& house, const Graph& graph, const Feeds& feeds, const State& before,
                    const State& after) {
  const Liveness live_before = liveness(graph, before), live_after = liveness(graph, after);
  Change change;
  change.joined = live_after.joined;
  CloseBy close_by(house, graph, feeds, live_after);
  for (std::size_t i = 0; i < house.points.size(); ++i) {
    const PointState was = state_by_record(graph, live_before, i);
    const PointState is = state_by_record(graph, live_after, i);
    if (is == PointState::unknown || was == PointState::unknown) {
      change.unknown.push_back(i);
    } else if (was == PointState::working && is != PointState::working) {
      change.off.push_back(i);
      if (is == PointState::part_live) change.part_live.push_back(i);
      close_by.look_around(i);
    } else if (was != PointState::working && is == PointState::working) {
      change.on.push_back(i);
    } else if (was == PointState::dead && is == PointState::part_live) {
      change.part_live.push_back(i);
    }
  }
  change.stays_live = close_by.take();
  return change;
}

std::vector<InterlockedPair> broken_interlocks(const Graph& graph, const State& state) {
  std::vector<InterlockedPair> broken;
  for (const InterlockedPair& pair : graph.interlocks)
    if (state.throws[pair.first] == kOn && state.throws[pair.second] == kOn) broken.push_back(pair);
  return broken;
}

}  // namespace ohmstead
