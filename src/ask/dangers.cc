#include "ask/dangers.h"

#include <algorithm>

#include "house/index.h"

namespace ohmstead::dangers {

namespace {

bool any_live(const Nodes& nodes, const Liveness& live) {
  return std::ranges::any_of(nodes, [&](Node node) { return live.live(node); });
}

/// Does the record say nothing of what feeds this device?
bool is_unknown(const Record& record, std::size_t device) {
  const Standing standing = record.feeds.of_device[device].standing;
  return standing == Standing::open || standing == Standing::disputed;
}

/// Legs of the utility, or poles of a breaker, that are the normal side of a position.
bool normal_side_live(const Record& record, const Position& position, const TransferDevice& device,
                      const Liveness& live) {
  const House& house = record.house;
  const auto breaker = std::ranges::find(house.breakers, position.breaker, &Breaker::id);
  if (breaker != house.breakers.end()) {
    const auto b = static_cast<std::size_t>(breaker - house.breakers.begin());
    return live.live(record.graph.breaker_load[b][static_cast<std::size_t>(position.pole - 1)]);
  }
  if (device.kind != TransferKind::whole_house) return false;
  return std::ranges::any_of(record.graph.terminals, [&](const Terminal& terminal) {
    return terminal.source == 0 && terminal.leg == position.pole && live.live(terminal.node);
  });
}

}  // namespace

std::vector<std::pair<int, int>> joined_terminals(const Graph& graph, State state) {
  for (std::uint8_t& legs : state.live_legs) legs = 0;
  for (const Terminal& terminal : graph.terminals) {
    std::uint8_t& legs = state.live_legs[static_cast<std::size_t>(terminal.source)];
    legs = static_cast<std::uint8_t>(legs | 1 << (terminal.leg - 1));
  }
  return liveness(graph, state).joined;
}

std::vector<StaysLive> live_mates(const Record& record, const Change& change, const State& after) {
  const House& house = record.house;
  const Liveness live = liveness(record.graph, after);
  const Index<Point> point_at(house.points);
  std::vector<StaysLive> found;
  for (const std::size_t gone : change.off) {
    const Point& point = house.points[gone];
    const long mate = point_at.at(point.mate);
    if (mate < 0) continue;
    const Point& other = house.points[static_cast<std::size_t>(mate)];
    const bool said_already = point.box && other.box == point.box;
    if (!said_already && any_live(record.graph.point_hots[static_cast<std::size_t>(mate)], live))
      found.push_back({gone, Closeness::same_box, {ThingKind::point, other.id.value}});
  }
  return found;
}

std::vector<NotKnownNear> not_known_near(const Record& record, const Change& change) {
  const House& house = record.house;
  const Index<Device> device_at(house.devices);
  std::vector<NotKnownNear> found;
  for (const std::size_t gone : change.off) {
    const Point& point = house.points[gone];
    for (const std::size_t other : change.unknown) {
      const Point& near = house.points[other];
      if ((point.box && near.box == point.box) || (point.mate && point.mate == near.id))
        found.push_back({gone, {ThingKind::point, near.id.value}});
    }
    if (!point.box) continue;
    for (const Handle& handle : house.handles) {
      const long device = handle.box == point.box ? device_at.at(handle.device) : -1;
      if (device >= 0 && is_unknown(record, static_cast<std::size_t>(device)))
        found.push_back({gone, {ThingKind::handle, handle.id.value}});
    }
  }
  return found;
}

std::vector<Id<TransferDevice>> devices_that_will_move(const Record& record, const State& before, const State& after) {
  const Liveness live_before = liveness(record.graph, before), live_after = liveness(record.graph, after);
  std::vector<Id<TransferDevice>> moving;
  for (const TransferDevice& device : record.house.transfer_devices) {
    if (!device.automatic) continue;
    for (const Position& position : record.house.positions)
      if (position.device == device.id && normal_side_live(record, position, device, live_before) &&
          !normal_side_live(record, position, device, live_after)) {
        moving.push_back(device.id);
        break;
      }
  }
  return moving;
}

bool reaches_unknown(const Record& record, const InBox& box, const std::vector<std::uint32_t>& open) {
  const Graph& graph = record.graph;
  if (graph.unknown.empty()) return false;
  std::vector<bool> is_open(graph.handles.size(), false), unknown(graph.node_count(), false), seen = unknown;
  for (const std::uint32_t group : open) is_open[group] = true;
  for (const Node node : graph.unknown) unknown[node] = true;
  std::vector<Id<Breaker>> partners;
  std::vector<Node> queue = conductors_in(record.house, graph, record.feeds, box, partners);
  for (const Node node : queue) seen[node] = true;
  for (std::size_t at = 0; at < queue.size(); ++at) {
    if (unknown[queue[at]]) return true;
    for (const Arc& arc : graph.arcs_of(queue[at])) {
      if (seen[arc.to] || is_open[graph.handles[arc.handle].group]) continue;
      seen[arc.to] = true;
      queue.push_back(arc.to);
    }
  }
  return false;
}

}  // namespace ohmstead::dangers
