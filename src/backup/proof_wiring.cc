#include "backup/proof_wiring.h"

#include <algorithm>
#include <bit>
#include <map>

#include "feed/liveness.h"
#include "feed/what_if.h"
#include "house/index.h"
#include "house/tour.h"
#include "house/walking.h"

namespace ohmstead {

namespace {

bool is_hurt(const House& house, std::size_t point) {
  return std::ranges::any_of(house.loads, [&](const Load& load) { return load.point == house.points[point].id && load.hurt_by_power_loss; });
}

/// Reads the wiring, part after part.
class WiringReader {
 public:
  WiringReader(const House& house, const Feeds& feeds, Id<Source> source)
      : house_(house), feeds_(feeds), wiring_{.source = source}, graph_(build_graph(house, feeds)), usual_(usual_state(graph_)) {}

  ProofWiring read() {
    if (is_panel_proof(house_, wiring_.source)) return read_panel();
    find_units();
    find_lines();
    leave_halves_for_doubt();
    find_risks();
    for (const Panel& panel : house_.panels)
      if (panel.supply == Supply::utility && panel.main_amps > 0) wiring_.mains.push_back({HandleKind::main, panel.id.value});
    wiring_.walk = walking_seconds(house_);
    find_device_room();
    choose_panel_lines();
    choose_witnesses();
    return std::move(wiring_);
  }

 private:
  ProofWiring read_panel() {
    read_proof_panel(house_, feeds_, wiring_);
    wiring_.walk = walking_seconds(house_);
    const ProofMove& first = wiring_.panel->ways.empty() ? wiring_.panel->part.front() : wiring_.panel->ways.front();
    const Breaker* breaker = first.handle.kind == HandleKind::breaker ? find_row(house_, Id<Breaker>{first.handle.id}) : nullptr;
    const Panel* panel = breaker == nullptr ? nullptr : find_row(house_, breaker->panel);
    const Position* position = first.handle.kind == HandleKind::position ? find_row(house_, Id<Position>{first.handle.id}) : nullptr;
    const TransferDevice* device = position == nullptr ? nullptr : find_row(house_, position->device);
    set_device_room(panel != nullptr ? panel->room : device != nullptr ? device->room : Id<Room>{});
    for (ProofLine& line : wiring_.lines)
      std::ranges::stable_sort(line.points, {}, [&](std::size_t p) { return cost_from_device(p); });
    choose_witnesses();
    return std::move(wiring_);
  }

  void find_units() {
    std::vector<std::size_t> found;
    bool automatic = false;
    for (std::size_t p = 0; p < house_.positions.size(); ++p) {
      const TransferDevice* device = find_row(house_, house_.positions[p].device);
      const bool mine = device != nullptr && device->source == wiring_.source && device->kind == TransferKind::circuits;
      if (!mine || !house_.positions[p].breaker) continue;
      if (device->automatic) automatic = true;
      else found.push_back(p);
    }
    if (found.empty() && automatic)
      throw Error(ErrorKind::invalid_input, "This transfer device moves by itself; proving asks for its positions to be moved by hand, one at a time.");
    if (found.empty())
      throw Error(ErrorKind::not_found, "No position of this source's transfer device is connected in the record; connect the plan first: `ohmstead worksheet`.");
    std::ranges::stable_sort(found, {}, [&](std::size_t p) { return house_.positions[p].number; });
    unit_of_position_.assign(house_.positions.size(), -1);
    for (const std::size_t p : found) {
      const Position& position = house_.positions[p];
      int unit = -1;
      for (const std::size_t other : found)
        if (other != p && position.tie && house_.positions[other].tie == position.tie) unit = std::max(unit, unit_of_position_[other]);
      if (unit < 0) {
        unit = static_cast<int>(wiring_.units.size());
        wiring_.units.push_back({.breaker = position.breaker});
      }
      unit_of_position_[p] = unit;
      wiring_.units[static_cast<std::size_t>(unit)].positions.push_back(p);
    }
  }

  [[nodiscard]] State with_unit_off(std::size_t unit) const {
    State state = usual_;
    for (const std::size_t p : wiring_.units[unit].positions)
      move_handle(graph_, state, graph_.handle_of({HandleKind::position, house_.positions[p].id.value}), kOff);
    return state;
  }

  /// Points that work on an ordinary day and whose feed may be relied on, by what takes them down.
  void find_lines() {
    const Liveness usual = liveness(graph_, usual_);
    std::vector<Liveness> off;
    for (std::size_t u = 0; u < wiring_.units.size(); ++u) off.push_back(liveness(graph_, with_unit_off(u)));
    std::map<std::tuple<int, Id<Breaker>, unsigned>, std::size_t> line_of;
    for (std::size_t p = 0; p < house_.points.size(); ++p) {
      if (graph_.point_relied_on[p] == 0 || state_by_record(graph_, usual, p) != PointState::working || feeds_.of_point[p].taps.empty()) continue;
      int unit = -1, cut_by = 0;
      for (std::size_t u = 0; u < off.size(); ++u)
        if (state_by_record(graph_, off[u], p) != PointState::working) unit = static_cast<int>(u), ++cut_by;
      if (cut_by > 1) continue;  // it tells nothing of one position
      const std::tuple key{unit, feeds_.of_point[p].taps[0].breaker, legs_of(usual, p)};
      const auto [found, fresh] = line_of.emplace(key, wiring_.lines.size());
      if (fresh)
        wiring_.lines.push_back({unit, std::get<1>(key), std::get<2>(key), {}, overloads_shared_neutral(house_, wiring_.source, std::get<1>(key)), false});
      wiring_.lines[found->second].points.push_back(p);
    }
  }

  [[nodiscard]] unsigned legs_of(const Liveness& live, std::size_t point) const {
    unsigned legs = 0;
    for (const Node node : graph_.point_hots[point])
      if (live.live(node)) legs |= 1U << (graph_.terminals[live.label[node] - 1U].leg - 1);
    return legs;
  }

  /// Of a unit, a line of all its legs proves each of them; else one line a leg. A line of one breaker is enough.
  void leave_halves_for_doubt() {
    for (std::size_t u = 0; u < wiring_.units.size(); ++u) {
      std::vector<std::size_t> mine;
      for (std::size_t l = 0; l < wiring_.lines.size(); ++l)
        if (wiring_.lines[l].unit == static_cast<int>(u)) mine.push_back(l);
      std::ranges::stable_sort(mine, std::ranges::greater{}, [&](std::size_t l) { return std::popcount(wiring_.lines[l].legs); });
      unsigned covered = 0;
      for (const std::size_t l : mine) {
        wiring_.lines[l].only_in_doubt = (wiring_.lines[l].legs & ~covered) == 0;
        covered |= wiring_.lines[l].legs;
        wiring_.units[u].lines.push_back(l);
      }
    }
  }

  void find_risks() {
    for (std::size_t u = 0; u < wiring_.units.size(); ++u) {
      ProofUnit& unit = wiring_.units[u];
      for (const std::size_t p : unit.positions) {
        const Breaker* breaker = find_row(house_, house_.positions[p].breaker);
        unit.never_backup = unit.never_backup || overloads_shared_neutral(house_, wiring_.source, breaker->id);
        unit.never = unit.never || breaker->open_rule == OpenRule::never;
        unit.alone = unit.alone || breaker->open_rule == OpenRule::briefly_alone;
      }
      const Liveness off = liveness(graph_, with_unit_off(u)), usual = liveness(graph_, usual_);
      for (const Load& load : house_.loads) {
        const auto point = static_cast<std::size_t>(std::ranges::find(house_.points, load.point, &Point::id) - house_.points.begin());
        if (!load.hurt_by_power_loss || point >= house_.points.size()) continue;
        if (state_by_record(graph_, usual, point) != PointState::working || state_by_record(graph_, off, point) == PointState::working) continue;
        unit.at_risk.push_back(load.id);
        unit.alone = unit.alone || load.importance == Importance::life_safety;
      }
    }
  }

  void find_device_room() {
    set_device_room(find_row(house_, house_.positions[wiring_.units[0].positions[0]].device)->room);
  }
  void set_device_room(Id<Room> id) {
    const auto room = std::ranges::find(house_.rooms, id, &Room::id);
    if (room != house_.rooms.end()) wiring_.device_room = static_cast<std::size_t>(room - house_.rooms.begin());
  }

  [[nodiscard]] int cost_from_device(std::size_t point) const {
    return look_seconds(house_, point) + (wiring_.walk.empty() ? 0 : 2 * wiring_.walk[wiring_.device_room][room_of_point(house_, point)]);
  }

  /// For each leg that a unit carries, the line that no unit carries and that is nearest.
  void choose_panel_lines() {
    unsigned legs = 0;
    for (const ProofLine& line : wiring_.lines)
      if (line.unit >= 0) legs |= line.legs;
    for (ProofLine& line : wiring_.lines)
      std::ranges::stable_sort(line.points, {}, [&](std::size_t p) { return cost_from_device(p); });
    while (legs != 0) {
      int best = -1;
      for (std::size_t l = 0; l < wiring_.lines.size(); ++l) {
        const ProofLine& line = wiring_.lines[l];
        if (line.unit >= 0 || std::popcount(line.legs) != 1 || (line.legs & legs) == 0) continue;
        if (best < 0 || cost_from_device(line.points[0]) < cost_from_device(wiring_.lines[static_cast<std::size_t>(best)].points[0])) best = static_cast<int>(l);
      }
      if (best < 0) break;
      legs &= ~wiring_.lines[static_cast<std::size_t>(best)].legs;
      wiring_.panel_lines.push_back(static_cast<std::size_t>(best));
    }
  }

  [[nodiscard]] int walk_of(const std::vector<std::size_t>& lines) const {
    if (wiring_.walk.empty()) return 0;
    std::vector<std::size_t> rooms;
    for (const std::size_t l : lines)
      if (const std::size_t room = room_of_point(house_, wiring_.lines[l].points[0]); std::ranges::find(rooms, room) == rooms.end()) rooms.push_back(room);
    const auto order = walking_order(wiring_.walk, wiring_.device_room, wiring_.device_room, rooms);
    return walk_seconds(wiring_.walk, wiring_.device_room, wiring_.device_room, order);
  }

  /// Of each line that will be looked at, the point that makes one walk to all of them shortest comes first.
  void choose_witnesses() {
    std::vector<std::size_t> lines = wiring_.panel_lines;
    for (const ProofUnit& unit : wiring_.units)
      for (const std::size_t l : unit.lines)
        if (!wiring_.lines[l].only_in_doubt) lines.push_back(l);
    for (std::size_t l = 0; wiring_.panel && l < wiring_.lines.size(); ++l)
      if (!wiring_.lines[l].only_in_doubt) lines.push_back(l);
    constexpr int kPasses = 2;
    for (int pass = 0; pass < kPasses; ++pass)
      for (const std::size_t l : lines) {
        std::vector<std::size_t>& points = wiring_.lines[l].points;
        std::size_t best = 0;
        int least = look_seconds(house_, points[0]) + walk_of(lines);
        std::vector<bool> tried(house_.rooms.size() + 1, false);
        tried[room_of_point(house_, points[0])] = true;
        for (std::size_t i = 1; i < points.size(); ++i) {
          const std::size_t room = room_of_point(house_, points[i]);
          if (tried[room] && look_seconds(house_, points[i]) >= look_seconds(house_, points[best])) continue;
          tried[room] = true;
          std::swap(points[0], points[i]);
          const int cost = look_seconds(house_, points[0]) + walk_of(lines);
          std::swap(points[0], points[i]);
          if (cost < least) least = cost, best = i;
        }
        std::rotate(points.begin(), points.begin() + static_cast<long>(best), points.begin() + static_cast<long>(best) + 1);
      }
  }

  const House& house_;
  const Feeds& feeds_;
  ProofWiring wiring_;
  Graph graph_;
  State usual_;
  std::vector<int> unit_of_position_;
};

}  // namespace

bool can_be_proved(const House& house, Id<Source> source) {
  if (is_panel_proof(house, source)) return true;
  return std::ranges::any_of(house.positions, [&](const Position& position) {
    const TransferDevice* device = find_row(house, position.device);
    return position.breaker && device != nullptr && device->source == source && device->kind == TransferKind::circuits && !device->automatic;
  });
}

bool overloads_shared_neutral(const House& house, Id<Source> source, Id<Breaker> breaker) {
  const Source* from = find_row(house, source);
  const Breaker* of = find_row(house, breaker);
  if (from == nullptr || of == nullptr || from->output == SourceOutput::full) return false;
  const auto circuit = std::ranges::find(house.circuits, breaker, &Circuit::breaker);
  const bool own = circuit != house.circuits.end() && circuit->multiwire == circuit->id && of->poles > 1;
  return own || !neutral_partners(house, breaker).empty();
}

int look_seconds(const House& house, std::size_t point) {
  const Point& looked_at = house.points[point];
  const int behind = looked_at.behind ? 2 : 0, hurt = is_hurt(house, point) ? 20 : 0;
  switch (looked_at.kind) {
    case PointKind::light: return 4 + behind + hurt;
    case PointKind::fan: return 6 + behind + hurt;
    case PointKind::receptacle: return 12 + behind + hurt;
    case PointKind::appliance: return 15 + behind + hurt;
    case PointKind::alarm:
    case PointKind::other: break;
  }
  return 20 + behind + hurt;
}

std::size_t room_of_point(const House& house, std::size_t point) {
  const auto room = std::ranges::find(house.rooms, house.points[point].room, &Room::id);
  return room == house.rooms.end() ? 0 : static_cast<std::size_t>(room - house.rooms.begin());
}

ProofWiring read_proof_wiring(const House& house, const Feeds& feeds, Id<Source> source) { return WiringReader(house, feeds, source).read(); }

}  // namespace ohmstead
