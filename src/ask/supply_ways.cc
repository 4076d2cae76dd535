#include "ask/supply_ways.h"

#include <algorithm>
#include <deque>

namespace ohmstead {

SupplyWays::SupplyWays(const Record& record)
    : house_(record.house), graph_(record.graph), breaker_at_(record.house.breakers), from_(graph_.node_count(), kNoNode), by_(graph_.node_count(), 0), seen_(graph_.node_count(), false) {
  std::vector<Node> starts;
  for (const Terminal& terminal : graph_.terminals)
    if (terminal.source == 0) starts.push_back(terminal.node);
  walk(starts);
  by_utility_ = seen_;
  walk(graph_.unknown);
}

bool SupplyWays::marked(std::size_t panel, const std::vector<bool>& marks) const {
  return std::ranges::any_of(graph_.panel_bus[panel], [&](Node node) { return node != kNoNode && marks[node]; });
}

std::vector<HandleRef> SupplyWays::way_to(std::size_t panel, int& above) const {
  std::vector<HandleRef> way;
  above = -1;
  const Nodes& bus = graph_.panel_bus[panel];
  const auto reached = std::ranges::find_if(bus, [&](Node node) { return node != kNoNode && seen_[node]; });
  for (Node at = reached == bus.end() ? kNoNode : *reached; at != kNoNode && from_[at] != kNoNode && above < 0; at = from_[at]) {
    if (by_[at] == 0) continue;
    way.push_back(graph_.handles[by_[at]].ref);
    if (way.back().kind == HandleKind::breaker) above = panel_of(Id<Breaker>{way.back().id});
  }
  std::ranges::reverse(way);
  return way;
}

void SupplyWays::walk(const std::vector<Node>& starts) {
  std::deque<Node> open;
  for (const Node node : starts)
    if (!seen_[node]) open.push_back(node), seen_[node] = true;
  for (; !open.empty(); open.pop_front())
    for (const Arc& arc : graph_.arcs_of(open.front())) {
      if (seen_[arc.to] || !leads_down(arc)) continue;
      seen_[arc.to] = true, from_[arc.to] = open.front(), by_[arc.to] = arc.handle;
      open.push_back(arc.to);
    }
}

bool SupplyWays::leads_down(const Arc& arc) const {
  const GraphHandle& handle = graph_.handles[arc.handle];
  if (((arc.closed_in >> handle.usual) & 1U) == 0 || handle.ref.kind == HandleKind::device) return false;
  if (handle.ref.kind != HandleKind::breaker) return true;
  const long at = breaker_at_.at(Id<Breaker>{handle.ref.id});
  if (at < 0) return false;
  const Nodes& loads = graph_.breaker_load[static_cast<std::size_t>(at)];
  return std::ranges::find(loads, arc.to) != loads.end();
}

int SupplyWays::panel_of(Id<Breaker> breaker) const {
  const Breaker* found = find_row(house_, breaker);
  for (std::size_t p = 0; found != nullptr && p < house_.panels.size(); ++p)
    if (house_.panels[p].id == found->panel) return static_cast<int>(p);
  return -1;
}

}  // namespace ohmstead
