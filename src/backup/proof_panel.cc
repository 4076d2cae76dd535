#include "backup/proof_panel.h"

#include <algorithm>
#include <bit>
#include <map>

#include "backup/figures.h"
#include "backup/proof_wiring.h"
#include "house/index.h"
#include "house/tour.h"

namespace ohmstead {

namespace {

bool comes_on_whole(const House& house, const Position& position, Id<Source> source) {
  const TransferDevice* device = find_row(house, position.device);
  return device != nullptr && device->source == source && device->kind == TransferKind::whole_house;
}

class PanelReader {
 public:
  PanelReader(const House& house, const Feeds& feeds, ProofWiring& wiring)
      : house_(house), feeds_(feeds), wiring_(wiring), graph_(build_graph(house, feeds)), reach_(source_reach(house, graph_, wiring.source)) {}

  void read() {
    refuse_automatic();
    find_moves();
    find_tries();
    find_lines();
    find_kept();
    mark_lines();
    wiring_.panel = panel_;
  }

 private:
  [[nodiscard]] std::uint32_t group(const HandleRef& ref) const { return graph_.handles[graph_.handle_of(ref)].group; }

  void refuse_automatic() const {
    for (const Position& position : house_.positions)
      if (comes_on_whole(house_, position, wiring_.source) && find_row(house_, position.device)->automatic)
        throw Error(ErrorKind::invalid_input, "This transfer device moves by itself, and proving asks for it to be moved by hand. Have whoever fitted it show you the test of its "
                                              "maker's directions: with the power from the street off ahead of it the source starts, what is to run comes on within the time that they state, "
                                              "and all else stays dead; with that power on again it goes back by itself.");
  }

  void add_group(const Move& move, std::vector<ProofMove>& moves) const {
    for (const GraphHandle& handle : graph_.handles)
      if (handle.ref && handle.group == move.handle && handle.ref.kind != HandleKind::position_breaker) moves.push_back({handle.ref, move.to});
  }

  void find_moves() {
    for (const Move& move : reach_.off_first) add_group(move, panel_.part);
    for (const Move& move : reach_.ways) add_group(move, graph_.handles[move.handle].ref.kind == HandleKind::position ? panel_.part : panel_.ways);
  }

  void find_tries() {
    for (const ProofMove& way : panel_.ways) {
      const auto is_tried = [&](const ProofTry& one) { return one.way && group(one.tried) == group(way.handle); };
      if (std::ranges::any_of(panel_.tries, is_tried)) continue;  // tied to one that was before it
      for (const Interlock& one : house_.interlocks)
        for (const auto& [mine, other] : {std::pair(one.first, one.second), std::pair(one.second, one.first)})
          if (group(mine) == group(way.handle)) {
            panel_.tries.push_back({one.id, other, mine, true});
            panel_.tries.push_back({one.id, mine, other, false});
          }
      if (std::ranges::none_of(panel_.tries, is_tried))
        throw Error(ErrorKind::invalid_input, "No interlock is written down for the backfed breaker of this source, and without one nothing is to be proved: with the main on it sends power out to "
                                              "the street. Have a licensed electrician fit one made for this panel, then write it down: `Interlock Main 2+4 with Main main`.");
    }
  }

  [[nodiscard]] bool works(const Liveness& live, std::size_t point) const { return state_by_record(graph_, live, point) == PointState::working; }

  /// Points that work on an ordinary day and with the source, by the breaker that takes them down.
  void find_lines() {
    const auto place = static_cast<std::size_t>(std::ranges::find(house_.sources, wiring_.source, &Source::id) - house_.sources.begin());
    State all = backup_state(house_, graph_, place);
    for (const Move& move : reach_.off_first) move_handle(graph_, all, move.handle, move.to);
    const Liveness usual = liveness(graph_, usual_state(graph_)), carried = liveness(graph_, all);
    std::vector<int> breaker_of(house_.points.size(), -1);
    for (std::size_t b = 0; b < reach_.breakers.size(); ++b) {
      State without = all;
      move_handle(graph_, without, reach_.breakers[b], kOff);
      const Liveness live = liveness(graph_, without);
      for (std::size_t p = 0; p < house_.points.size(); ++p)
        if (breaker_of[p] < 0 && works(carried, p) && !works(live, p)) breaker_of[p] = static_cast<int>(b);
    }
    std::map<std::pair<int, unsigned>, std::size_t> line_of;
    for (std::size_t p = 0; p < house_.points.size(); ++p) {
      if (breaker_of[p] < 0 || graph_.point_relied_on[p] == 0 || !works(usual, p)) continue;
      const unsigned legs = legs_of(usual, p);
      const auto [found, fresh] = line_of.emplace(std::pair(breaker_of[p], legs), wiring_.lines.size());
      if (fresh) wiring_.lines.push_back({.breaker = {graph_.handles[reach_.breakers[static_cast<std::size_t>(breaker_of[p])]].ref.id}, .legs = legs, .points = {}});
      wiring_.lines[found->second].points.push_back(p);
    }
    if (wiring_.lines.empty())
      throw Error(ErrorKind::not_found, "Nothing behind this source is known by proof or declaration, so nothing can tell; trace it first: `ohmstead trace`.");
  }

  [[nodiscard]] unsigned legs_of(const Liveness& live, std::size_t point) const {
    unsigned legs = 0;
    for (const Node node : graph_.point_hots[point])
      if (live.live(node)) legs |= 1U << (graph_.terminals[live.label[node] - 1U].leg - 1);
    return legs;
  }

  [[nodiscard]] bool is_planned(const Breaker& breaker) const {
    if (std::ranges::find(house_.planned, breaker.id, &Planned::breaker) != house_.planned.end()) return true;
    const Panel* panel = find_row(house_, breaker.panel);
    const Breaker* feeder = panel == nullptr || panel->supply != Supply::breaker ? nullptr : find_row(house_, panel->feeder);
    return feeder != nullptr && is_planned(*feeder);  // a panel may be carried by its feeder
  }

  [[nodiscard]] bool is_wished(Id<Breaker> breaker) const {
    return std::ranges::any_of(wiring_.lines, [&](const ProofLine& line) {
      return line.breaker == breaker && std::ranges::any_of(house_.loads, [&](const Load& load) {
        return wanted_use(load) != LoadUse::not_wanted && std::ranges::any_of(line.points, [&](std::size_t p) { return house_.points[p].id == load.point; });
      });
    });
  }

  void find_kept() {
    panel_.by_plan = !house_.planned.empty();
    for (const std::uint32_t handle : reach_.breakers) {
      std::vector<Id<Breaker>> tied;
      for (const GraphHandle& one : graph_.handles)
        if (one.group == handle && one.ref.kind == HandleKind::breaker) tied.push_back({one.ref.id});
      const bool kept = std::ranges::any_of(tied, [&](Id<Breaker> id) { return panel_.by_plan ? is_planned(row(house_, id)) : is_wished(id); });
      std::vector<Id<Breaker>>& into = kept ? panel_.kept : panel_.rest;
      into.insert(into.end(), tied.begin(), tied.end());
    }
    if (panel_.kept.empty())
      throw Error(ErrorKind::not_found, "No breaker is to stay on with this source: say what must run (`ohmstead wish`), and keep a plan (`ohmstead plan --keep`).");
  }

  /// Of one breaker, a line of all its legs tells of each of them; else one line a leg.
  void mark_lines() {
    for (ProofLine& line : wiring_.lines) line.kept = panel_.is_kept(line.breaker);
    std::ranges::stable_sort(wiring_.lines, [](const ProofLine& a, const ProofLine& b) { return std::popcount(a.legs) > std::popcount(b.legs); });
    std::map<Id<Breaker>, unsigned> covered;
    for (ProofLine& line : wiring_.lines) {
      unsigned& legs = covered[line.breaker];
      line.only_in_doubt = (line.legs & ~legs) == 0;
      legs |= line.legs;
    }
  }

  const House& house_;
  const Feeds& feeds_;
  ProofWiring& wiring_;
  Graph graph_;
  SourceReach reach_;
  ProofPanel panel_;
};

}  // namespace

bool ProofPanel::is_kept(Id<Breaker> breaker) const { return std::ranges::find(kept, breaker) != kept.end(); }

bool is_panel_proof(const House& house, Id<Source> source) {
  const bool by_position = std::ranges::any_of(house.positions, [&](const Position& position) {
    const TransferDevice* device = find_row(house, position.device);
    return position.breaker && device != nullptr && device->source == source && device->kind == TransferKind::circuits;
  });
  return !by_position && (std::ranges::find(house.breakers, source, &Breaker::backfed_from) != house.breakers.end() ||
                          std::ranges::any_of(house.positions, [&](const Position& position) { return comes_on_whole(house, position, source); }));
}

void read_proof_panel(const House& house, const Feeds& feeds, ProofWiring& wiring) { PanelReader(house, feeds, wiring).read(); }

}  // namespace ohmstead
