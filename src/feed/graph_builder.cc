#include "feed/graph_builder.h"

#include <algorithm>
#include <map>

#include "house/numbering.h"

namespace ohmstead::feed_detail {

Builder::Builder(const House& house, const Feeds& feeds)
    : house_(house), feeds_(feeds), breaker_at_(house.breakers), panel_at_(house.panels),
      position_at_(house.positions), source_at_(house.sources), device_at_(house.devices) {
  graph_.handles.push_back({{}, 1, 0, false, 0});  // the permanent joint: one throw, closed in it
}

Graph Builder::build() {
  add_sources();
  add_nodes_of_breakers();
  add_positions();
  add_panels();
  add_breakers();
  add_devices();
  add_points();
  add_interlocks();
  group_tied_handles();
  pack();
  return std::move(graph_);
}

Nodes Builder::add_nodes(int count) {
  Nodes nodes = kNoNodes;
  for (int i = 0; i < count; ++i) nodes[static_cast<std::size_t>(i)] = add_node();
  return nodes;
}

std::uint32_t Builder::add_handle(const HandleRef& ref, Throw throws, Throw usual, bool may_isolate) {
  const auto number = static_cast<std::uint32_t>(graph_.handles.size());
  graph_.handles.push_back({ref, throws, usual, may_isolate, number});
  handle_number_[static_cast<std::size_t>(ref.kind)].emplace(ref.id, number);
  return number;
}

void Builder::join(Node a, Node b, std::uint32_t handle, std::uint32_t closed_in) {
  if (a == kNoNode || b == kNoNode || a == b) return;
  contacts_.push_back({a, b, handle, closed_in});
}

void Builder::add_sources() {
  const auto angles = leg_angles_deg(house_.dwelling.system);
  const int legs = static_cast<int>(angles.size());
  graph_.source_count = static_cast<int>(house_.sources.size()) + 1;
  for (int s = 0; s < graph_.source_count; ++s) {
    const SourceOutput output = s == 0 ? SourceOutput::full : house_.sources[static_cast<std::size_t>(s - 1)].output;
    const int terminals = output == SourceOutput::full ? legs : 1;
    Nodes nodes = add_nodes(terminals);
    for (int l = 0; l < terminals; ++l)
      graph_.terminals.push_back({nodes[static_cast<std::size_t>(l)], s, l + 1, angles[static_cast<std::size_t>(l)]});
    if (output == SourceOutput::one_120_both_legs)
      for (int l = 1; l < legs; ++l) nodes[static_cast<std::size_t>(l)] = nodes[0];
    source_legs_.push_back(nodes);
  }
}

Node Builder::source_leg(Id<Source> source, int leg) const {
  const long at = source_at_.at(source);
  return at < 0 ? kNoNode : source_legs_[static_cast<std::size_t>(at) + 1][pole_at(leg)];
}

void Builder::add_nodes_of_breakers() {
  for (const Breaker& breaker : house_.breakers) graph_.breaker_load.push_back(add_nodes(breaker.poles));
  graph_.circuit = graph_.breaker_load;
}

void Builder::add_positions() {
  std::unordered_map<std::uint64_t, const TransferDevice*> device_by_id;
  for (const TransferDevice& device : house_.transfer_devices) device_by_id.emplace(device.id.value, &device);
  for (const Position& position : house_.positions) {
    const auto found = device_by_id.find(position.device.value);
    const TransferDevice* device = found == device_by_id.end() ? nullptr : found->second;
    const Node load = add_node();
    position_load_.push_back(load);
    const auto handle = add_handle({HandleKind::position, position.id.value}, 3, kUtilitySide, false);
    Node normal = kNoNode;
    if (const long at = breaker_at_.at(position.breaker); at >= 0) {
      normal = graph_.breaker_load[static_cast<std::size_t>(at)][pole_at(position.pole)];
      graph_.circuit[static_cast<std::size_t>(at)][pole_at(position.pole)] = load;
    } else if (device != nullptr && device->kind == TransferKind::whole_house) {
      normal = source_legs_[0][pole_at(position.pole)];
    }
    join(normal, load, handle, bit(kUtilitySide));
    if (device == nullptr) continue;
    Node backup = source_leg(device->source, position.leg);
    if (position.amps > 0) {
      const Node behind = add_node();
      const auto own = add_handle({HandleKind::position_breaker, position.id.value}, 2, kOn, true);
      join(backup, behind, own, bit(kOn));
      backup = behind;
    }
    join(backup, load, handle, bit(kBackupSide));
  }
}

Nodes Builder::supply_nodes(const Panel& panel) {
  switch (panel.supply) {
    case Supply::utility: return source_legs_[0];
    case Supply::breaker: {
      const long at = breaker_at_.at(panel.feeder);
      return at < 0 ? kNoNodes : graph_.circuit[static_cast<std::size_t>(at)];
    }
    case Supply::position: {
      const long at = position_at_.at(panel.position);
      if (at < 0) return kNoNodes;
      const Position& named = house_.positions[static_cast<std::size_t>(at)];
      Nodes nodes = kNoNodes;
      for (std::size_t i = 0; i < house_.positions.size(); ++i) {
        const Position& position = house_.positions[i];
        const bool member = position.id == named.id || (named.tie && position.tie == named.tie);
        if (member) nodes[pole_at(position.pole)] = position_load_[i];
      }
      std::ranges::stable_partition(nodes, [](Node node) { return node != kNoNode; });
      return nodes;
    }
    case Supply::nothing_known: break;
  }
  const Nodes nodes = add_nodes(leg_count(house_.dwelling.system));
  for (const Node node : nodes)
    if (node != kNoNode) graph_.unknown.push_back(node);
  return nodes;
}

void Builder::add_panels() {
  for (const Panel& panel : house_.panels) {
    Nodes line = supply_nodes(panel);
    for (int l = leg_count(house_.dwelling.system); l < kMostPoles; ++l) line[static_cast<std::size_t>(l)] = kNoNode;
    if (panel.main_amps == 0) {
      graph_.panel_bus.push_back(line);
      continue;
    }
    const auto main = add_handle({HandleKind::main, panel.id.value}, 2, kOn, true);
    Nodes bus = kNoNodes;
    for (std::size_t l = 0; l < bus.size(); ++l) {
      if (line[l] == kNoNode) continue;
      bus[l] = add_node();
      join(line[l], bus[l], main, bit(kOn));
    }
    graph_.panel_bus.push_back(bus);
  }
}

void Builder::add_breakers() {
  for (std::size_t b = 0; b < house_.breakers.size(); ++b) {
    const Breaker& breaker = house_.breakers[b];
    const long at = panel_at_.at(breaker.panel);
    const Throw usual = breaker.backfed_from ? kOff : kOn;
    const auto handle = add_handle({HandleKind::breaker, breaker.id.value}, 2, usual, true);
    if (at < 0) continue;
    const Panel& panel = house_.panels[static_cast<std::size_t>(at)];
    const Nodes& bus = graph_.panel_bus[static_cast<std::size_t>(at)];
    const int legs = std::max(1, static_cast<int>(std::ranges::count_if(bus, [](Node n) { return n != kNoNode; })));
    const auto places = pole_places(panel, breaker);
    for (std::size_t p = 0; p < places.size(); ++p)
      join(bus[pole_at(bus_leg(panel, places[p].space, legs))], graph_.breaker_load[b][p], handle, bit(kOn));
    if (breaker.backfed_from)
      for (std::size_t p = 0; p < places.size(); ++p)
        join_always(graph_.circuit[b][p], source_leg(breaker.backfed_from, bus_leg(panel, places[p].space, legs)));
  }
}

void Builder::add_interlocks() {
  const auto number = [&](const HandleRef& ref) {
    const auto& by_id = handle_number_[static_cast<std::size_t>(ref.kind)];
    const auto found = by_id.find(ref.id);
    return found == by_id.end() ? 0U : found->second;
  };
  for (const Interlock& interlock : house_.interlocks) {
    const InterlockedPair pair{number(interlock.first), number(interlock.second)};
    if (pair.first != 0 && pair.second != 0) graph_.interlocks.push_back(pair);
  }
}

void Builder::group_tied_handles() {
  const auto tie_up = [&](HandleKind kind, const auto& table) {
    std::map<std::uint64_t, std::uint32_t> group_of_tie;
    for (const auto& row : table) {
      const auto& by_id = handle_number_[static_cast<std::size_t>(kind)];
      const auto found = by_id.find(row.id.value);
      if (!row.tie || found == by_id.end()) continue;
      graph_.handles[found->second].group = group_of_tie.emplace(row.tie.value, found->second).first->second;
    }
  };
  tie_up(HandleKind::breaker, house_.breakers);
  tie_up(HandleKind::position, house_.positions);
  tie_up(HandleKind::position_breaker, house_.positions);
  for (GraphHandle& handle : graph_.handles) {  // an inlet's breaker keeps what is tied to it off
    GraphHandle& first = graph_.handles[handle.group];
    first.usual = std::min(first.usual, handle.usual);
  }
  for (GraphHandle& handle : graph_.handles) handle.usual = graph_.handles[handle.group].usual;
}

void Builder::pack() {
  auto& first = graph_.first_arc;
  first.assign(std::size_t{node_count_} + 1, 0);
  for (const Contact& c : contacts_) ++first[c.a + 1], ++first[c.b + 1];
  for (std::size_t n = 1; n < first.size(); ++n) first[n] += first[n - 1];
  graph_.arcs.resize(contacts_.size() * 2);
  std::vector<std::uint32_t> next(first.begin(), first.end() - 1);
  for (const Contact& c : contacts_) {
    graph_.arcs[next[c.a]++] = {c.b, c.handle, c.closed_in};
    graph_.arcs[next[c.b]++] = {c.a, c.handle, c.closed_in};
  }
}

}  // namespace ohmstead::feed_detail
