// The load side of the graph: switching devices and points.

#include <algorithm>

#include "feed/graph_builder.h"

namespace ohmstead::feed_detail {

Node Builder::tap_node(const Feed& feed, int hot) {
  if (feed.standing == Standing::open || feed.standing == Standing::disputed) return kNoNode;
  Node node = kNoNode;
  for (const Tap& tap : feed.taps) {
    const long at = breaker_at_.at(tap.breaker);
    if (tap.hot != hot || at < 0) continue;
    const Node here = graph_.circuit[static_cast<std::size_t>(at)][pole_at(tap.pole)];
    if (node == kNoNode) node = here;
    else join_always(node, here);  // fed from two breakers: they are one conductor
  }
  return node;
}

void Builder::add_devices() {
  const std::size_t n = house_.devices.size();
  graph_.device_line.assign(n, kNoNodes);
  graph_.device_load.assign(n, kNoNodes);
  graph_.handle_nodes.resize(house_.handles.size());
  handles_of_device_.resize(n);
  for (std::size_t h = 0; h < house_.handles.size(); ++h)
    if (const long at = device_at_.at(house_.handles[h].device); at >= 0)
      handles_of_device_[static_cast<std::size_t>(at)].push_back(h);
  device_done_.assign(n, false);
  for (std::size_t d = 0; d < n; ++d) {
    std::vector<std::size_t> chain;  // outermost last
    for (long at = static_cast<long>(d); at >= 0 && !device_done_[static_cast<std::size_t>(at)];
         at = device_at_.at(house_.devices[static_cast<std::size_t>(at)].behind)) {
      chain.push_back(static_cast<std::size_t>(at));
      if (chain.size() > n) break;
    }
    for (auto at = chain.rbegin(); at != chain.rend(); ++at) add_device(*at);
  }
}

void Builder::add_device(std::size_t at) {
  if (device_done_[at]) return;
  device_done_[at] = true;
  const Device& device = house_.devices[at];
  Nodes& line = graph_.device_line[at];
  const long outer = device_at_.at(device.behind);
  for (int p = 1; p <= device.poles; ++p) {
    Node& node = line[pole_at(p)];
    node = outer >= 0 ? graph_.device_load[static_cast<std::size_t>(outer)][pole_at(p)] : tap_node(feeds_.of_device[at], p);
    if (node == kNoNode) graph_.unknown.push_back(node = add_node());
  }
  graph_.device_load[at] = add_nodes(device.poles);
  const auto& handles = handles_of_device_[at];
  if (handles.size() > 1) return add_switch_group(at, handles);
  for (const std::size_t h : handles) {
    const bool may_isolate = device.kind == DeviceKind::disconnect;
    const auto handle = add_handle({HandleKind::device, house_.handles[h].id.value}, 2, kOn, may_isolate);
    for (int p = 1; p <= device.poles; ++p) {
      const Node load = graph_.device_load[at][pole_at(p)];
      join(line[pole_at(p)], load, handle, bit(kOn));
      graph_.handle_nodes[h].insert(graph_.handle_nodes[h].end(), {line[pole_at(p)], load});
    }
  }
}

void Builder::add_switch_group(std::size_t at, const std::vector<std::size_t>& switches) {
  const Node line = graph_.device_line[at][0], load = graph_.device_load[at][0];
  Node upper = kNoNode, lower = kNoNode;  // the two travellers out of the switch before
  for (std::size_t i = 0; i < switches.size(); ++i) {
    const std::size_t h = switches[i];
    const auto handle = add_handle({HandleKind::device, house_.handles[h].id.value}, 2, 0, false);
    auto& at_box = graph_.handle_nodes[h];
    if (i > 0) at_box.insert(at_box.end(), {upper, lower});
    if (i + 1 == switches.size()) {  // last 3-way: one traveller to the load
      join(upper, load, handle, bit(0));
      join(lower, load, handle, bit(1));
      at_box.push_back(load);
      return;
    }
    const Node next_upper = add_node(), next_lower = add_node();
    if (i == 0) {  // first 3-way: the line to one traveller
      join(line, next_upper, handle, bit(0));
      join(line, next_lower, handle, bit(1));
      at_box.push_back(line);
    } else {  // 4-way: straight or crossed
      join(upper, next_upper, handle, bit(0));
      join(lower, next_lower, handle, bit(0));
      join(upper, next_lower, handle, bit(1));
      join(lower, next_upper, handle, bit(1));
    }
    at_box.insert(at_box.end(), {next_upper, next_lower});
    upper = next_upper;
    lower = next_lower;
  }
}

void Builder::add_points() {
  graph_.point_hots.assign(house_.points.size(), kNoNodes);
  for (std::size_t i = 0; i < house_.points.size(); ++i) {
    const Point& point = house_.points[i];
    const long behind = device_at_.at(point.behind);
    graph_.point_hot_count.push_back(static_cast<std::uint8_t>(point.hots));
    graph_.point_relied_on.push_back(relied_on(feeds_.of_point[i].standing) ? 1 : 0);
    for (int hot = 1; hot <= point.hots; ++hot)
      graph_.point_hots[i][pole_at(hot)] = behind >= 0 ? graph_.device_load[static_cast<std::size_t>(behind)][pole_at(hot)]
                                                       : tap_node(feeds_.of_point[i], hot);
  }
}

}  // namespace ohmstead::feed_detail
