#include "reference_graph.h"

#include <algorithm>
#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/boykov_kolmogorov_max_flow.hpp>
#include <boost/graph/connected_components.hpp>

namespace ohmstead::reference {

namespace {

template <class Row>
const Row* by_id(const std::vector<Row>& table, Id<Row> id) {
  for (const Row& row : table)
    if (row.id == id) return &row;
  return nullptr;
}

/// Leg of a space, worked out from the drawing of each numbering rather than from src/house.
int drawn_leg(const Panel& panel, int space, int legs) {
  int row = space;
  if (panel.numbering == Numbering::odd_left_even_right) row = (space % 2 == 1) ? (space + 1) / 2 : space / 2;
  const int left = (panel.spaces + 1) / 2;
  if (panel.numbering == Numbering::sequential_down && space > left) row = space - left;
  int leg = 1;
  for (int r = 1; r < row; ++r) leg = leg == legs ? 1 : leg + 1;
  return leg;
}

int next_space(const Panel& panel, int space) { return panel.numbering == Numbering::odd_left_even_right ? space + 2 : space + 1; }

std::string numbered(const std::string& name, int n) { return name + "#" + std::to_string(n); }

}  // namespace

Wiring::Wiring(const House& house, const Feeds& feeds) : house_(house), feeds_(feeds) {
  const auto angles = leg_angles_deg(house.dwelling.system);
  for (std::size_t l = 0; l < angles.size(); ++l) terminals_[numbered("utility", static_cast<int>(l) + 1)] = angles[l];
  for (const Source& source : house.sources)
    for (std::size_t l = 0; l < (source.output == SourceOutput::full ? angles.size() : 1); ++l)
      terminals_[numbered(source.id.text(), static_cast<int>(l) + 1)] = angles[l];
  wire_panels();
  wire_positions();
  wire_devices();
  wire_points();
}

std::string Wiring::source_leg(Id<Source> source, int leg) const {
  const Source* row = by_id(house_.sources, source);
  if (row == nullptr) return "";
  if (row->output == SourceOutput::one_120_both_legs) return numbered(source.text(), 1);
  if (row->output == SourceOutput::one_leg && leg > 1) return "";
  return numbered(source.text(), leg);
}

int Wiring::legs_of(const Panel& panel) const {
  const int all = static_cast<int>(leg_angles_deg(house_.dwelling.system).size());
  int found = 0;
  for (int l = 1; l <= all; ++l)
    if (!supply(panel, l).empty()) ++found;
  return std::max(found, 1);
}

/// Conductor that reaches the panel's line side on its own leg `leg`; "" if there is none.
std::string Wiring::supply(const Panel& panel, int leg) const {
  switch (panel.supply) {
    case Supply::utility: return numbered("utility", leg);
    case Supply::nothing_known: return numbered("unexplored " + panel.id.text(), leg);
    case Supply::breaker: {
      const Breaker* feeder = by_id(house_.breakers, panel.feeder);
      return feeder == nullptr || leg > feeder->poles ? "" : circuit(feeder->id, leg);
    }
    case Supply::position: break;
  }
  const Position* named = by_id(house_.positions, panel.position);
  if (named == nullptr) return "";
  std::map<int, std::string> by_pole;
  for (const Position& p : house_.positions)
    if (p.id == named->id || (named->tie && p.tie == named->tie)) by_pole[p.pole] = "out of " + p.id.text();
  for (const auto& [pole, name] : by_pole)
    if (--leg == 0) return name;
  return "";
}

/// The conductor that a breaker's pole feeds: out of the transfer position that carries it, if any.
std::string Wiring::circuit(Id<Breaker> breaker, int pole) const {
  for (const Position& p : house_.positions)
    if (p.breaker == breaker && p.pole == pole) return "out of " + p.id.text();
  return numbered("load of " + breaker.text(), pole);
}

void Wiring::wire_panels() {
  for (const Panel& panel : house_.panels) {
    const int legs = legs_of(panel);
    for (int l = 1; l <= legs; ++l) {
      const std::string line = supply(panel, l);
      if (panel.supply == Supply::nothing_known) unknown_.insert(line);
      const std::string bus = numbered("bus of " + panel.id.text(), l);
      const HandleRef main = panel.main_amps > 0 ? HandleRef{HandleKind::main, panel.id.value} : HandleRef{};
      if (!line.empty()) joints_.push_back({line, bus, main, {kOn}});
    }
    for (const Breaker& breaker : house_.breakers) {
      if (breaker.panel != panel.id) continue;
      int space = breaker.space;
      for (int pole = 1; pole <= breaker.poles; ++pole, space = next_space(panel, space)) {
        const int leg = drawn_leg(panel, space, legs);
        const std::string load = numbered("load of " + breaker.id.text(), pole);
        joints_.push_back({numbered("bus of " + panel.id.text(), leg), load, {HandleKind::breaker, breaker.id.value}, {kOn}});
        if (const auto inlet = source_leg(breaker.backfed_from, leg); !inlet.empty())
          joints_.push_back({circuit(breaker.id, pole), inlet, {}, {}});
      }
    }
  }
}

void Wiring::wire_positions() {
  for (const Position& position : house_.positions) {
    const TransferDevice* device = by_id(house_.transfer_devices, position.device);
    const std::string out = "out of " + position.id.text();
    const HandleRef handle{HandleKind::position, position.id.value};
    if (position.breaker)
      joints_.push_back({numbered("load of " + position.breaker.text(), position.pole), out, handle, {kUtilitySide}});
    else if (device != nullptr && device->kind == TransferKind::whole_house)
      joints_.push_back({numbered("utility", position.pole), out, handle, {kUtilitySide}});
    if (device == nullptr) continue;
    const std::string leg = source_leg(device->source, position.leg);
    if (leg.empty()) continue;
    if (position.amps == 0) {
      joints_.push_back({leg, out, handle, {kBackupSide}});
    } else {
      const std::string between = "small breaker of " + position.id.text();
      joints_.push_back({leg, between, {HandleKind::position_breaker, position.id.value}, {kOn}});
      joints_.push_back({between, out, handle, {kBackupSide}});
    }
  }
}

std::string Wiring::fed_by(const Feed& feed, int hot) const {
  if (feed.standing < Standing::likely) return "";
  for (const Tap& tap : feed.taps)
    if (tap.hot == hot) return circuit(tap.breaker, tap.pole);
  return "";
}

std::string Wiring::device_line(const Device& device, int pole) const {
  if (const Device* outer = by_id(house_.devices, device.behind))
    return pole > outer->poles ? "" : numbered("behind " + outer->id.text(), pole);
  for (std::size_t d = 0; d < house_.devices.size(); ++d)
    if (house_.devices[d].id == device.id) return fed_by(feeds_.of_device[d], pole);
  return "";
}

void Wiring::wire_devices() {
  for (std::size_t d = 0; d < house_.devices.size(); ++d) {
    const Device& device = house_.devices[d];
    for (const Tap& tap : feeds_.of_device[d].taps)  // fed from several breakers: all are joined
      if (!device.behind && feeds_.of_device[d].standing >= Standing::likely && tap.hot <= device.poles)
        joints_.push_back({fed_by(feeds_.of_device[d], tap.hot), circuit(tap.breaker, tap.pole), {}, {}});
    std::vector<const Handle*> handles;
    for (const Handle& handle : house_.handles)
      if (handle.device == device.id) handles.push_back(&handle);
    std::vector<std::string> line;
    for (int p = 1; p <= device.poles; ++p) {
      line.push_back(device_line(device, p));
      if (!line.back().empty()) continue;
      line.back() = numbered("unknown line of " + device.id.text(), p);
      unknown_.insert(line.back());
    }
    if (handles.size() > 1) {
      joints_.push_back({line[0], "line of " + device.id.text(), {}, {}});
      wire_group(device, handles);
      continue;
    }
    for (int p = 1; p <= device.poles && !handles.empty(); ++p) {
      const std::string load = numbered("behind " + device.id.text(), p);
      joints_.push_back({line[static_cast<std::size_t>(p - 1)], load, {HandleKind::device, handles[0]->id.value}, {kOn}});
      at_handle_[handles[0]->id].insert({line[static_cast<std::size_t>(p - 1)], load});
    }
  }
}

void Wiring::wire_group(const Device& device, const std::vector<const Handle*>& handles) {
  const auto traveller = [&](std::size_t after, char which) {
    return "traveller " + device.id.text() + "#" + std::to_string(after) + which;
  };
  const std::string line = "line of " + device.id.text(), load = numbered("behind " + device.id.text(), 1);
  for (std::size_t i = 0; i < handles.size(); ++i) {
    const HandleRef ref{HandleKind::device, handles[i]->id.value};
    auto& here = at_handle_[handles[i]->id];
    const bool first = i == 0, last = i + 1 == handles.size();
    if (first) {
      joints_.push_back({line, traveller(0, 'a'), ref, {0}});
      joints_.push_back({line, traveller(0, 'b'), ref, {1}});
      here.insert({line, traveller(0, 'a'), traveller(0, 'b')});
    } else if (last) {
      joints_.push_back({traveller(i - 1, 'a'), load, ref, {0}});
      joints_.push_back({traveller(i - 1, 'b'), load, ref, {1}});
      here.insert({traveller(i - 1, 'a'), traveller(i - 1, 'b'), load});
    } else {
      joints_.push_back({traveller(i - 1, 'a'), traveller(i, 'a'), ref, {0}});
      joints_.push_back({traveller(i - 1, 'b'), traveller(i, 'b'), ref, {0}});
      joints_.push_back({traveller(i - 1, 'a'), traveller(i, 'b'), ref, {1}});
      joints_.push_back({traveller(i - 1, 'b'), traveller(i, 'a'), ref, {1}});
      here.insert({traveller(i - 1, 'a'), traveller(i - 1, 'b'), traveller(i, 'a'), traveller(i, 'b')});
    }
  }
}

void Wiring::wire_points() {
  for (std::size_t i = 0; i < house_.points.size(); ++i) {
    const Point& point = house_.points[i];
    std::vector<std::string> hots;
    const Device* device = by_id(house_.devices, point.behind);
    for (int h = 1; h <= point.hots; ++h) {
      if (device != nullptr) hots.push_back(h > device->poles ? "" : numbered("behind " + device->id.text(), h));
      else hots.push_back(fed_by(feeds_.of_point[i], h));
    }
    if (device == nullptr && feeds_.of_point[i].standing >= Standing::likely)
      for (const Tap& tap : feeds_.of_point[i].taps)
        if (tap.hot <= point.hots)
          joints_.push_back({hots[static_cast<std::size_t>(tap.hot - 1)], circuit(tap.breaker, tap.pole), {}, {}});
    hots_.push_back(hots);
  }
}

Wiring::Reach Wiring::reach(const Switching& switching) const {
  boost::adjacency_list<boost::vecS, boost::vecS, boost::undirectedS> graph;
  std::map<std::string, unsigned long> vertex;
  const auto of = [&](const std::string& name) {
    const auto [at, fresh] = vertex.emplace(name, 0);
    if (fresh) at->second = boost::add_vertex(graph);
    return at->second;
  };
  for (const auto& [name, angle] : terminals_) of(name);
  for (const std::string& name : unknown_) of(name);
  for (const auto& hots : hots_)
    for (const std::string& name : hots) of(name);
  for (const Joint& joint : joints_) {
    const auto a = of(joint.a), b = of(joint.b);
    const bool broken = switching.broken.contains({joint.handle, 0}) || std::ranges::any_of(switching.broken, [&](const auto& one) { return one.first == joint.handle && joint.b.ends_with(numbered("", one.second)); });
    if (!joint.handle || (!broken && joint.closed_in.contains(switching.throws.at(joint.handle)))) boost::add_edge(a, b, graph);
  }
  std::vector<int> component(boost::num_vertices(graph));
  boost::connected_components(graph, component.data());
  Reach reach;
  for (const auto& [name, v] : vertex) reach.component[name] = component[v];
  for (const auto& [name, angle] : terminals_) {
    const auto hash = name.rfind('#');
    const auto legs = switching.live_legs.find(name.substr(0, hash));
    if (legs != switching.live_legs.end() && legs->second.contains(std::stoi(name.substr(hash + 1))))
      reach.live_terminals[reach.component[name]].insert(name);
  }
  for (const std::string& name : unknown_) reach.unknown.insert(reach.component[name]);
  return reach;
}

std::vector<PointState> Wiring::states(const Switching& switching) const {
  const Reach reach = this->reach(switching);
  std::vector<PointState> states;
  for (std::size_t i = 0; i < hots_.size(); ++i) {
    std::vector<std::string> lives;
    bool unknown = false;
    for (const std::string& name : hots_[i]) {
      const int component = reach.component.at(name);
      if (const auto live = reach.live_terminals.find(component); !name.empty() && live != reach.live_terminals.end())
        lives.push_back(*live->second.begin());
      else if (name.empty() || reach.unknown.contains(component))
        unknown = true;
    }
    std::set<std::pair<std::string, int>> phases;  // source and angle
    std::set<std::string> sources;
    for (const std::string& name : lives) {
      sources.insert(name.substr(0, name.rfind('#')));
      phases.insert({"", terminals_.at(name)});
    }
    const bool all = lives.size() == hots_[i].size() && phases.size() == lives.size() && sources.size() == 1;
    const bool relied = feeds_.of_point[i].standing >= Standing::declared;
    if (unknown) states.push_back(PointState::unknown);
    else if (lives.empty()) states.push_back(relied ? PointState::dead : PointState::unknown);
    else states.push_back(all ? PointState::working : PointState::part_live);
  }
  return states;
}

bool Wiring::any_joined(const Switching& switching) const {
  for (const auto& [component, names] : reach(switching).live_terminals)
    if (names.size() > 1) return true;
  return false;
}

bool Wiring::any_live(const Switching& switching, const std::set<std::string>& conductors) const {
  const Reach reach = this->reach(switching);
  return std::ranges::any_of(conductors, [&](const std::string& name) {
    const auto at = reach.component.find(name);
    return at != reach.component.end() && reach.live_terminals.contains(at->second);
  });
}

std::set<std::string> Wiring::in_box(Id<Box> box) const {
  std::set<std::string> names;
  std::set<Id<Breaker>> breakers;
  const auto take = [&](const Feed& feed) {
    for (const Tap& tap : feed.taps) breakers.insert(tap.breaker);
  };
  for (std::size_t i = 0; i < house_.points.size(); ++i) {
    if (house_.points[i].box != box) continue;
    names.insert(hots_[i].begin(), hots_[i].end());
    take(feeds_.of_point[i]);
  }
  for (const Handle& handle : house_.handles) {
    if (handle.box != box) continue;
    if (const auto at = at_handle_.find(handle.id); at != at_handle_.end()) names.insert(at->second.begin(), at->second.end());
    for (std::size_t d = 0; d < house_.devices.size(); ++d)
      if (house_.devices[d].id == handle.device) take(feeds_.of_device[d]);
  }
  for (const Passing& passing : house_.passings) {
    if (passing.box != box) continue;
    names.insert(circuit(passing.breaker, passing.pole));
    breakers.insert(passing.breaker);
  }
  for (const Id<Breaker> breaker : breakers)
    for (const Circuit& own : house_.circuits)
      for (const Circuit& other : house_.circuits)
        if (own.breaker == breaker && own.multiwire && other.multiwire == own.multiwire)
          for (int pole = 1; pole <= by_id(house_.breakers, other.breaker)->poles; ++pole)
            names.insert(circuit(other.breaker, pole));
  names.erase("");
  return names;
}

bool Wiring::isolates(const House& house, HandleRef handle) {
  if (handle.kind == HandleKind::main || handle.kind == HandleKind::breaker || handle.kind == HandleKind::position_breaker)
    return true;
  if (handle.kind != HandleKind::device) return false;
  const Device* device = by_id(house.devices, by_id(house.handles, Id<Handle>{handle.id})->device);
  return device->kind == DeviceKind::disconnect;
}

std::vector<HandleRef> Wiring::group(HandleRef handle) const {
  std::vector<HandleRef> members;
  if (handle.kind == HandleKind::breaker) {
    const Id<Breaker> tie = by_id(house_.breakers, Id<Breaker>{handle.id})->tie;
    for (const Breaker& b : house_.breakers)
      if (b.id.value == handle.id || (tie && b.tie == tie)) members.push_back({handle.kind, b.id.value});
  } else if (handle.kind == HandleKind::position || handle.kind == HandleKind::position_breaker) {
    const Id<Position> tie = by_id(house_.positions, Id<Position>{handle.id})->tie;
    for (const Position& p : house_.positions)
      if (p.id.value == handle.id || (tie && p.tie == tie)) members.push_back({handle.kind, p.id.value});
  } else {
    members.push_back(handle);
  }
  return members;
}

long Wiring::cut_cost(const std::set<std::string>& conductors, const std::map<HandleRef, int>& costs) const {
  using Traits = boost::adjacency_list_traits<boost::vecS, boost::vecS, boost::directedS>;
  using Flow = boost::adjacency_list<
      boost::vecS, boost::vecS, boost::directedS,
      boost::property<boost::vertex_color_t, boost::default_color_type,
                      boost::property<boost::vertex_distance_t, long,
                                      boost::property<boost::vertex_predecessor_t, Traits::edge_descriptor>>>,
      boost::property<boost::edge_capacity_t, long,
                      boost::property<boost::edge_residual_capacity_t, long,
                                      boost::property<boost::edge_reverse_t, Traits::edge_descriptor>>>>;
  constexpr long kEndless = 1'000'000'000;
  Flow flow;
  std::map<std::string, unsigned long> vertex;
  const auto of = [&](const std::string& name) {
    const auto [at, fresh] = vertex.emplace(name, 0);
    if (fresh) at->second = boost::add_vertex(flow);
    return at->second;
  };
  const auto add = [&](const std::string& from, const std::string& to, long capacity) {
    const auto forward = boost::add_edge(of(from), of(to), flow).first;
    const auto back = boost::add_edge(of(to), of(from), flow).first;
    boost::put(boost::edge_capacity, flow, forward, capacity);
    boost::put(boost::edge_capacity, flow, back, 0L);
    boost::put(boost::edge_reverse, flow, forward, back);
    boost::put(boost::edge_reverse, flow, back, forward);
  };
  std::set<std::string> gates;
  for (const Joint& joint : joints_) {
    if (!joint.handle || !isolates(house_, joint.handle)) {
      add(joint.a, joint.b, kEndless);
      add(joint.b, joint.a, kEndless);
      continue;
    }
    std::string gate;
    long cost = 0;
    for (const HandleRef member : group(joint.handle)) {
      gate += text_of_ref(member) + " ";
      cost += costs.contains(member) ? costs.at(member) : 0;
    }
    if (gates.insert(gate).second) add("into " + gate, "out of gate " + gate, cost);
    for (const std::string& end : {joint.a, joint.b}) {
      add(end, "into " + gate, kEndless);
      add("out of gate " + gate, end, kEndless);
    }
  }
  for (const auto& [name, angle] : terminals_) add("all sources", name, kEndless);
  for (const std::string& name : conductors) add(name, "the box", kEndless);
  if (conductors.empty()) return 0;
  const long cut = boost::boykov_kolmogorov_max_flow(flow, of("all sources"), of("the box"));
  return cut >= kEndless ? -1 : cut;
}

}  // namespace ohmstead::reference
