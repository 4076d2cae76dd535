#include "backup/source_reach.h"

#include <algorithm>

#include "house/index.h"

namespace ohmstead {

namespace {

class ReachReader {
 public:
  ReachReader(const House& house, const Graph& graph, Id<Source> source) : house_(house), graph_(graph), id_(source) {}

  SourceReach read() {
    find_panels();
    add_ways();
    for (std::size_t p = 0; p < house_.panels.size(); ++p)
      if (reach_.behind[p]) add_breakers(house_.panels[p]);
    return std::move(reach_);
  }

 private:
  [[nodiscard]] bool of_source(const Position& position) const {
    const TransferDevice* device = find_row(house_, position.device);
    return device != nullptr && device->source == id_;
  }
  [[nodiscard]] bool is_backfed(const Panel& panel) const {
    return std::ranges::any_of(house_.breakers, [&](const Breaker& b) { return b.panel == panel.id && b.backfed_from == id_; });
  }
  [[nodiscard]] bool on_position(Id<Breaker> breaker) const {
    return std::ranges::any_of(house_.positions, [&](const Position& p) { return p.breaker == breaker; });
  }
  [[nodiscard]] std::uint32_t group(const HandleRef& ref) const { return graph_.handles[graph_.handle_of(ref)].group; }

  /// Panels that come on whole when the source is let in, and those that hang on them.
  void find_panels() {
    reach_.behind.assign(house_.panels.size(), false);
    for (std::size_t p = 0; p < house_.panels.size(); ++p) {
      const Panel& panel = house_.panels[p];
      const Position* position = panel.supply == Supply::position ? find_row(house_, panel.position) : nullptr;
      reach_.behind[p] = is_backfed(panel) || (position != nullptr && of_source(*position));
    }
    for (std::size_t round = 0; round < house_.panels.size(); ++round)
      for (std::size_t p = 0; p < house_.panels.size(); ++p) {
        const Breaker* feeder = house_.panels[p].supply == Supply::breaker ? find_row(house_, house_.panels[p].feeder) : nullptr;
        if (feeder == nullptr || on_position(feeder->id)) continue;
        for (std::size_t above = 0; above < house_.panels.size(); ++above)
          if (house_.panels[above].id == feeder->panel && reach_.behind[above]) reach_.behind[p] = true;
      }
  }

  void part_from_utility(const Panel& panel) {
    if (panel.main_amps > 0) {
      add_once(reach_.off_first, {group({HandleKind::main, panel.id.value}), kOff});
    } else if (panel.supply == Supply::breaker && panel.feeder && find_row(house_, panel.feeder) != nullptr) {
      add_once(reach_.off_first, {group({HandleKind::breaker, panel.feeder.value}), kOff});
    }
  }

  static void add_once(std::vector<Move>& moves, const Move& move) {
    if (std::ranges::find(moves, move) == moves.end()) moves.push_back(move);
  }

  void add_ways() {
    for (const Panel& panel : house_.panels)
      if (is_backfed(panel)) part_from_utility(panel);
    for (const Position& position : house_.positions)
      if (of_source(position) && feeds_panel(house_, position)) add_once(reach_.ways, {group({HandleKind::position, position.id.value}), kBackupSide});
    for (const Breaker& breaker : house_.breakers) {
      if (breaker.backfed_from != id_) continue;
      const std::uint32_t handle = group({HandleKind::breaker, breaker.id.value});
      for (const InterlockedPair& pair : graph_.interlocks) {
        if (graph_.handles[pair.first].group == handle) add_once(reach_.off_first, {graph_.handles[pair.second].group, kOff});
        if (graph_.handles[pair.second].group == handle) add_once(reach_.off_first, {graph_.handles[pair.first].group, kOff});
      }
      add_once(reach_.ways, {handle, kOn});
    }
  }

  void add_breakers(const Panel& panel) {
    const auto is_in = [](const std::vector<Move>& moves, std::uint32_t handle) { return std::ranges::find(moves, handle, &Move::handle) != moves.end(); };
    for (const Breaker& breaker : house_.breakers) {
      if (breaker.panel != panel.id || breaker.backfed_from || on_position(breaker.id)) continue;
      const std::uint32_t handle = group({HandleKind::breaker, breaker.id.value});
      if (is_in(reach_.ways, handle) || is_in(reach_.off_first, handle) || feeds_panel_behind(breaker)) continue;
      if (std::ranges::find(reach_.breakers, handle) == reach_.breakers.end()) reach_.breakers.push_back(handle);
    }
  }

  [[nodiscard]] bool feeds_panel_behind(const Breaker& breaker) const {
    for (std::size_t p = 0; p < house_.panels.size(); ++p)
      if (reach_.behind[p] && house_.panels[p].supply == Supply::breaker && house_.panels[p].feeder == breaker.id) return true;
    return false;
  }

  const House& house_;
  const Graph& graph_;
  Id<Source> id_;
  SourceReach reach_;
};

}  // namespace

SourceReach source_reach(const House& house, const Graph& graph, Id<Source> source) { return ReachReader(house, graph, source).read(); }

bool feeds_panel(const House& house, const Position& position) {
  const TransferDevice* device = find_row(house, position.device);
  if (device != nullptr && device->kind == TransferKind::whole_house) return true;
  return std::ranges::any_of(house.panels, [&](const Panel& panel) {
    const Position* first = panel.supply == Supply::position ? find_row(house, panel.position) : nullptr;
    return first != nullptr && (first->id == position.id || (first->tie && first->tie == position.tie));
  });
}

}  // namespace ohmstead
