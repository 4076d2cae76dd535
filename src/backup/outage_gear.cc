#include "backup/outage_gear.h"

#include <algorithm>

#include "backup/outage_bars.h"
#include "backup/plan_problem.h"
#include "backup/source_reach.h"
#include "house/index.h"

namespace ohmstead {

namespace {

int worth_of(Importance importance, LoadUse use) {
  if (importance == Importance::life_safety) return kLifeWorth;
  const int steps = importance == Importance::high ? 30 : importance == Importance::normal ? 20 : 10;
  return use == LoadUse::together ? steps : use == LoadUse::on_demand ? steps - 5 : 4;
}

class GearBuilder {
 public:
  GearBuilder(const House& house, const Feeds& feeds, std::size_t source) : house_(house), id_(house.sources[source].id) {
    gear_.source = source;
    gear_.graph = build_graph(house, feeds);
    gear_.rated_watts = house.sources[source].running_watts;
    gear_.limits = plan_source(house, house.sources[source]);
  }

  OutageGear build() {
    gear_.everything = backup_state(house_, gear_.graph, gear_.source);
    const SourceReach reach = source_reach(house_, gear_.graph, id_);
    gear_.off_first = reach.off_first, gear_.ways = reach.ways;
    for (const Move& move : gear_.off_first) move_handle(gear_.graph, gear_.everything, move.handle, move.to);
    add_positions();
    add_breakers(reach);
    if (gear_.units.empty()) refuse();
    find_points();
    add_loads();
    find_planned();
    State usual = usual_state(gear_.graph);
    usual.live_legs.assign(usual.live_legs.size(), 0xFF);
    gear_.joined_anyway = liveness(gear_.graph, usual).joined;
    return std::move(gear_);
  }

 private:
  [[noreturn]] void refuse() const {
    const std::string& name = house_.sources[gear_.source].name;
    if (std::ranges::any_of(house_.positions, [&](const Position& position) { return of_source(position); }))
      throw Error(ErrorKind::invalid_input, "No position of the transfer device of source '" + name + "' is connected in the record; connect the plan first: `ohmstead worksheet`.");
    throw Error(ErrorKind::invalid_input, "Source '" + name + "' feeds no transfer device, interlocked breaker or panel; write down how it meets "
                                          "the house, such as `Transfer T 8 positions from " + name + "`.");
  }

  [[nodiscard]] bool of_source(const Position& position) const {
    const TransferDevice* device = find_row(house_, position.device);
    return device != nullptr && device->source == id_;
  }
  [[nodiscard]] std::uint32_t group(const HandleRef& ref) const { return gear_.graph.handles[gear_.graph.handle_of(ref)].group; }

  void add_positions() {
    const int volts = volts_to_neutral(house_.dwelling.system);
    for (const Position& position : house_.positions) {
      if (!of_source(position)) continue;
      gear_.automatic = gear_.automatic || find_row(house_, position.device)->automatic;
      if (feeds_panel(house_, position) || !position.breaker) continue;
      OutageUnit& unit = unit_at(group({HandleKind::position, position.id.value}), kBackupSide);
      const Breaker* breaker = find_row(house_, position.breaker);
      const int amps = at_most(position.amps, breaker == nullptr ? 0 : breaker->amps);
      int& watts = unit.leg_watts[static_cast<std::size_t>(std::clamp(position.leg, 1, gear_.limits.legs) - 1)];
      watts = at_most(amps * volts, watts);
    }
  }

  void add_breakers(const SourceReach& reach) {
    const int volts = volts_to_neutral(house_.dwelling.system);
    for (const std::uint32_t handle : reach.breakers) unit_at(handle, kOn);
    for (const Breaker& breaker : house_.breakers) {
      const std::uint32_t handle = group({HandleKind::breaker, breaker.id.value});
      if (std::ranges::find(reach.breakers, handle) == reach.breakers.end()) continue;
      for (int& watts : unit_at(handle, kOn).leg_watts) watts = at_most(breaker.amps * volts, watts);
    }
  }

  static int at_most(int one, int other) { return one <= 0 ? other : other <= 0 ? one : std::min(one, other); }

  OutageUnit& unit_at(std::uint32_t handle, Throw on) {
    const auto found = std::ranges::find(gear_.units, handle, &OutageUnit::handle);
    if (found != gear_.units.end()) return *found;
    return gear_.units.emplace_back(OutageUnit{.handle = handle, .on = on, .leg_watts = {}, .points = {}, .loads = {}});
  }

  [[nodiscard]] bool works(const Liveness& live, std::size_t point) const {
    return state_by_record(gear_.graph, live, point) == PointState::working;
  }

  void find_points() {
    const Liveness all = liveness(gear_.graph, gear_.everything);
    gear_.point_unit.assign(house_.points.size(), -1);
    for (std::size_t p = 0; p < house_.points.size(); ++p) gear_.point_carried.push_back(works(all, p));
    for (std::size_t u = 0; u < gear_.units.size(); ++u) {
      State without = gear_.everything;
      move_handle(gear_.graph, without, gear_.units[u].handle, kOff);
      const Liveness live = liveness(gear_.graph, without);
      for (std::size_t p = 0; p < house_.points.size(); ++p)
        if (gear_.point_carried[p] && gear_.point_unit[p] < 0 && !works(live, p)) {
          gear_.point_unit[p] = static_cast<int>(u);
          gear_.units[u].points.push_back(p);
        }
    }
  }

  void add_loads() {
    const Index<Point> point_at(house_.points);
    for (const Load& load : house_.loads) {
      OutageLoad one{.use = wanted_use(load), .draw = {}};
      const long at = point_at.at(load.point);
      const LoadFigures figures = figures_of(house_, load);
      one.worth = worth_of(load.importance, one.use);
      if (at >= 0) {
        one.point = static_cast<std::size_t>(at);
        one.unit = gear_.point_unit[one.point];
        if (figures.known) one.draw = draw_at(gear_, one.point, planned_running(figures), planned_starting(figures));
        one.draw.starts_itself = starts_itself(load);
        one.draw.rank = -one.worth;
        if (one.unit >= 0) gear_.units[static_cast<std::size_t>(one.unit)].loads.push_back(gear_.loads.size());
      }
      gear_.loads.push_back(one);
    }
    for (const OutageUnit& unit : gear_.units) {
      if (unit.points.size() != 1 || unit.loads.size() != 1 || house_.points[unit.points[0]].kind != PointKind::appliance) continue;
      OutageLoad& alone = gear_.loads[unit.loads[0]];
      alone.by_handle = alone.draw.starts_itself;
    }
  }

  [[nodiscard]] bool in_plan(std::uint32_t handle) const {
    return std::ranges::any_of(house_.planned, [&](const Planned& planned) {
      if (!planned.position) return group({HandleKind::breaker, planned.breaker.value}) == handle;
      const auto wired = std::ranges::find_if(house_.positions, [&](const Position& p) { return p.breaker == planned.breaker && p.pole == planned.pole; });
      return wired != house_.positions.end() && group({HandleKind::position, wired->id.value}) == handle;
    });
  }

  void find_planned() {
    for (OutageUnit& unit : gear_.units) {
      const bool wanted = std::ranges::any_of(unit.loads, [&](std::size_t l) { return gear_.loads[l].use != LoadUse::not_wanted; });
      unit.planned = house_.planned.empty() ? wanted || unit.on == kBackupSide : in_plan(unit.handle);
    }
  }

  const House& house_;
  Id<Source> id_;
  OutageGear gear_;
};

}  // namespace

const OutageBar* OutageGear::bar_of(std::uint32_t handle) const {
  const auto found = std::ranges::find(bars, handle, &OutageBar::handle);
  return found == bars.end() ? nullptr : &*found;
}

int OutageGear::unit_of(std::uint32_t handle) const {
  const std::uint32_t group = graph.handles[handle].group;
  const auto found = std::ranges::find(units, group, &OutageUnit::handle);
  return found == units.end() ? -1 : static_cast<int>(found - units.begin());
}

bool OutageGear::is_way(std::uint32_t handle) const {
  const std::uint32_t group = graph.handles[handle].group;
  return std::ranges::any_of(ways, [&](const Move& move) { return move.handle == group; });
}

OutageGear outage_gear(const House& house, const Feeds& feeds, std::size_t source) {
  if (source >= house.sources.size()) throw Error(ErrorKind::not_found, "There is no such source; `ohmstead status` lists what is written down.");
  if (house.sources[source].running_watts <= 0)
    throw Error(ErrorKind::invalid_input, "It is not recorded how many watts source '" + house.sources[source].name +
                                          "' gives; read them from its nameplate and enter them.");
  OutageGear gear = GearBuilder(house, feeds, source).build();
  bar_shared_neutrals(house, gear);
  bar_by_proof(house, feeds, gear);
  return gear;
}

StartLoad draw_at(const OutageGear& gear, std::size_t point, int running, int starting) {
  StartLoad draw;
  starting = std::max(running, starting);
  const Liveness live = liveness(gear.graph, gear.everything);
  const int hots = std::max<int>(1, gear.graph.point_hot_count[point]);
  for (int hot = 0; hot < hots && hot < kMostPoles; ++hot) {
    const Node node = gear.graph.point_hots[point][static_cast<std::size_t>(hot)];
    const int leg = live.live(node) ? gear.graph.terminals[live.label[node] - 1U].leg : 1;
    const auto at = static_cast<std::size_t>(std::clamp(leg, 1, gear.limits.legs) - 1);
    draw.running[at] += running / hots + (hot < running % hots ? 1 : 0);
    draw.starting[at] += starting / hots + (hot < starting % hots ? 1 : 0);
  }
  return draw;
}

}  // namespace ohmstead
