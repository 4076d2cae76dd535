#include "backup/case_builder.h"

#include <algorithm>
#include <numeric>

#include "house/numbering.h"

namespace ohmstead::backup_detail {

namespace {

std::size_t index_of_pole(int pole) { return static_cast<std::size_t>(pole - 1); }

/// How much it is worth to serve a load (common practice, no source: what must run counts much more than what is nice).
int weight_of(Importance importance) {
  switch (importance) {
    case Importance::low: return 1;
    case Importance::normal: return 3;
    case Importance::high: return 10;
    case Importance::life_safety: return 0;  // counted before everything else
  }
  return 0;
}

/// First tap of this hot; null if there is none.
const Tap* tap_of(const Feed& feed, int hot) {
  const auto found = std::ranges::find(feed.taps, hot, &Tap::hot);
  return found == feed.taps.end() ? nullptr : &*found;
}

/// Do two breakers feed one conductor?
bool fed_twice(const Feed& feed) {
  return std::ranges::any_of(feed.taps, [&](const Tap& tap) { return std::ranges::count(feed.taps, tap.hot, &Tap::hot) > 1; });
}

}  // namespace

CaseBuilder::CaseBuilder(const House& house, const Feeds& feeds, std::size_t source)
    : house_(house), feeds_(feeds), source_(house.sources[source]), graph_(build_graph(house, feeds)),
      live_(liveness(graph_, backup_state(house, graph_, source))), breaker_index_(house.breakers), panel_index_(house.panels) {
  case_.source = source;
  case_.problem.source = plan_source(house, source_);
}

BackupCase CaseBuilder::build() {
  find_positions();
  find_panels_behind();
  require_something();
  join_breakers_of_one_point();
  add_loads();
  add_connected_and_pinned();
  join_multiwire();
  add_positions_now();
  add_pins();
  add_doubts();
  return std::move(case_);
}

void CaseBuilder::find_positions() {
  std::unordered_map<std::uint64_t, int> ties;
  for (const Position& position : house_.positions) {
    const TransferDevice* device = find_row(house_, position.device);
    if (device == nullptr || device->source != source_.id || device->kind != TransferKind::circuits) continue;
    const bool feeds_panel = std::ranges::any_of(house_.panels, [&](const Panel& panel) {
      const Position* first = panel.supply == Supply::position ? find_row(house_, panel.position) : nullptr;
      return first != nullptr && (first->id == position.id || (first->tie && first->tie == position.tie));
    });
    if (feeds_panel) continue;
    const int tie = position.tie ? ties.emplace(position.tie.value, static_cast<int>(ties.size())).first->second : -1;
    case_.problem.positions.push_back({position.leg, position.amps, tie});
    case_.positions.push_back(position.id);
  }
}

void CaseBuilder::find_panels_behind() {
  for (const Panel& panel : house_.panels) panel_behind_.push_back(is_behind(panel));
  const bool any = std::ranges::find(panel_behind_, true) != panel_behind_.end();
  const bool backfed = std::ranges::any_of(house_.breakers, [&](const Breaker& b) { return b.backfed_from == source_.id; });
  case_.hookup = !any ? Hookup::positions : backfed ? Hookup::interlock : Hookup::subpanel;
}

bool CaseBuilder::is_behind(const Panel& start) const {
  const Panel* panel = &start;
  for (std::size_t depth = 0; panel != nullptr && depth <= house_.panels.size(); ++depth) {
    if (std::ranges::any_of(house_.breakers, [&](const Breaker& b) { return b.panel == panel->id && b.backfed_from == source_.id; })) return true;
    const auto of_source = [&](const TransferDevice* device) { return device != nullptr && device->source == source_.id; };
    if (panel->supply == Supply::utility)
      return std::ranges::any_of(house_.transfer_devices, [&](const TransferDevice& d) { return of_source(&d) && d.kind == TransferKind::whole_house; });
    if (panel->supply == Supply::position) {
      const Position* position = find_row(house_, panel->position);
      return position != nullptr && of_source(find_row(house_, position->device));
    }
    const Breaker* feeder = panel->supply == Supply::breaker ? find_row(house_, panel->feeder) : nullptr;
    panel = feeder == nullptr ? nullptr : find_row(house_, feeder->panel);
  }
  return false;
}

bool CaseBuilder::is_near(const Panel& panel) const {
  if (panel.supply != Supply::breaker) return true;
  return std::ranges::any_of(house_.transfer_devices, [&](const TransferDevice& device) {
    return device.source == source_.id && device.room && device.room == panel.room;
  });
}

bool CaseBuilder::is_connected(Id<Breaker> breaker) const {
  return std::ranges::any_of(house_.positions, [&](const Position& position) {
    const TransferDevice* device = find_row(house_, position.device);
    return position.breaker == breaker && device != nullptr && device->source == source_.id;
  });
}

bool CaseBuilder::rides_by_feeder(const Panel& start) const {
  const Panel* panel = &start;
  for (std::size_t depth = 0; panel != nullptr && depth <= house_.panels.size(); ++depth) {
    const Breaker* feeder = panel->supply == Supply::breaker ? find_row(house_, panel->feeder) : nullptr;
    if (feeder != nullptr && is_connected(feeder->id)) return true;
    panel = feeder == nullptr ? nullptr : find_row(house_, feeder->panel);
  }
  return false;
}

void CaseBuilder::require_something() const {
  if (!case_.problem.positions.empty() || case_.hookup != Hookup::positions) return;
  throw Error(ErrorKind::invalid_input, "Source '" + source_.name + "' feeds no transfer device, interlocked breaker or panel; write down how it meets "
                                        "the house, such as `Transfer T 8 positions from " + source_.name + "`.");
}

void CaseBuilder::join_breakers_of_one_point() {
  group_of_.resize(house_.breakers.size());
  std::iota(group_of_.begin(), group_of_.end(), std::size_t{0});
  for (const Feed& feed : feeds_.of_point)
    for (const Tap& tap : feed.taps) {
      const long first = breaker_index_.at(feed.taps.front().breaker), other = breaker_index_.at(tap.breaker);
      if (first < 0 || other < 0 || tap.hot == feed.taps.front().hot) continue;
      const std::size_t from = group_of_[static_cast<std::size_t>(other)], to = group_of_[static_cast<std::size_t>(first)];
      std::ranges::replace(group_of_, std::max(from, to), std::min(from, to));
    }
  groups_.resize(house_.breakers.size());
  for (std::size_t b = 0; b < house_.breakers.size(); ++b) groups_[group_of_[b]].breakers.push_back(b);
  for (std::size_t p = 0; p < house_.points.size(); ++p) {
    const Feed& feed = feeds_.of_point[p];
    if (house_.points[p].hots < 2 || feed.standing < Standing::likely) continue;
    for (const Tap& tap : feed.taps)
      if (const long at = breaker_index_.at(tap.breaker); at >= 0) groups_[group_of_[static_cast<std::size_t>(at)]].between_legs = true;
  }
}

std::optional<BreakerPole> CaseBuilder::carrying(BreakerPole pole) const {
  for (std::size_t depth = 0; depth <= house_.panels.size(); ++depth) {
    const Breaker* breaker = find_row(house_, pole.breaker);
    const long at = breaker == nullptr ? -1 : panel_index_.at(breaker->panel);
    if (at < 0) return std::nullopt;
    const Panel& panel = house_.panels[static_cast<std::size_t>(at)];
    if (panel_behind_[static_cast<std::size_t>(at)] || is_connected(breaker->id)) return pole;
    if (case_.problem.positions.empty()) return std::nullopt;
    if (is_near(panel) && !rides_by_feeder(panel)) return pole;
    const Breaker* feeder = find_row(house_, panel.feeder);
    const auto places = pole_places(panel, *breaker);
    if (feeder == nullptr || places.size() < static_cast<std::size_t>(pole.pole)) return std::nullopt;
    pole = {feeder->id, bus_leg(panel, places[index_of_pole(pole.pole)].space, panel_legs(house_, panel))};
  }
  return std::nullopt;
}

int CaseBuilder::leg_now(std::size_t breaker, int pole) const {
  const Node node = graph_.breaker_load[breaker][index_of_pole(pole)];
  if (!live_.live(node)) return 0;
  const Terminal& terminal = graph_.terminals[live_.label[node] - 1U];
  return terminal.source == static_cast<int>(case_.source) + 1 ? terminal.leg : 0;
}

int CaseBuilder::circuit_of(std::size_t breaker) {
  Group& group = groups_[group_of_[breaker]];
  if (group.circuit >= 0) return group.circuit;
  group.circuit = static_cast<int>(case_.circuits.size());
  PlanCircuit plan{.poles = 0};
  CarriedCircuit carried{.breaker = house_.breakers[group.breakers.front()].id};
  bool ratings_known = true;
  for (const std::size_t b : group.breakers) {
    const Breaker& one = house_.breakers[b];
    const long panel = panel_index_.at(one.panel);
    for (int pole = 1; pole <= one.poles && plan.poles < kMostPoles; ++pole, ++plan.poles) {
      carried.poles.push_back({one.id, pole});
      if (panel >= 0 && panel_behind_[static_cast<std::size_t>(panel)]) plan.own_leg[static_cast<std::size_t>(plan.poles)] = leg_now(b, pole);
    }
    ratings_known = ratings_known && one.amps > 0;
    plan.amps = plan.amps == 0 ? one.amps : std::min(plan.amps, one.amps);
    carried.gfci_or_afci = carried.gfci_or_afci || one.protection != Protection::plain;
    const auto wires = std::ranges::find(house_.circuits, one.id, &Circuit::breaker);
    plan.shared_neutral = plan.shared_neutral || (wires != house_.circuits.end() && one.poles > 1 && bool(wires->multiwire));
  }
  if (!ratings_known) plan.amps = 0;
  plan.between_legs = group.between_legs || (plan.poles > 1 && !plan.shared_neutral);
  case_.problem.circuits.push_back(plan);
  case_.circuits.push_back(carried);
  return group.circuit;
}

int CaseBuilder::pole_in(int circuit, BreakerPole pole) const {
  const auto& poles = case_.circuits[static_cast<std::size_t>(circuit)].poles;
  const auto at = std::ranges::find(poles, pole);
  return at == poles.end() ? 0 : static_cast<int>(at - poles.begin());
}

PlanLoad CaseBuilder::plan_load(const CarriedLoad& carried, const Feed& feed, int circuit) const {
  const Load& load = house_.loads[carried.load];
  const int hots = std::max(1, house_.points[carried.point].hots);
  PlanLoad plan{.on_demand = carried.use == LoadUse::on_demand, .life_safety = load.importance == Importance::life_safety,
                .weight = weight_of(load.importance)};
  const int running = planned_running(carried.figures), starting = std::max(running, planned_starting(carried.figures));
  const int volts = volts_to_neutral(house_.dwelling.system);
  for (int hot = 1; hot <= hots; ++hot) {
    const Tap* tap = tap_of(feed, hot);
    const auto pole = tap == nullptr ? std::nullopt : carrying({tap->breaker, tap->pole});
    const auto at = static_cast<std::size_t>(pole ? pole_in(circuit, *pole) : std::min(hot - 1, kMostPoles - 1));
    const int share = running / hots + (hot <= running % hots ? 1 : 0), start = starting / hots + (hot <= starting % hots ? 1 : 0);
    plan.running[at] += share;
    plan.starting[at] += start;
    const std::int64_t milliamps = (std::int64_t{share} * 1000 + volts - 1) / volts;
    plan.breaker_ma[at] += static_cast<int>(load.continuous ? (milliamps * 5 + 3) / 4 : milliamps);
  }
  return plan;
}

void CaseBuilder::put_on_circuit(std::size_t at, const CarriedLoad& carried, const Feed& feed) {
  const Id<Load> id = house_.loads[at].id;
  const Tap* tap = tap_of(feed, 1);
  if (tap == nullptr) tap = &feed.taps.front();
  if (fed_twice(feed)) return case_.doubts.push_back({PlanDoubt::Kind::fed_twice, id, {}});
  const auto pole = carrying({tap->breaker, tap->pole});
  if (!pole) return case_.doubts.push_back({PlanDoubt::Kind::out_of_reach, id, {}});
  const int circuit = circuit_of(static_cast<std::size_t>(breaker_index_.at(pole->breaker)));
  case_.problem.circuits[static_cast<std::size_t>(circuit)].loads.push_back(plan_load(carried, feed, circuit));
  case_.circuits[static_cast<std::size_t>(circuit)].loads.push_back(carried);
  if (feed.standing == Standing::likely) case_.doubts.push_back({PlanDoubt::Kind::feed_only_likely, id, {}});
  if (!carried.figures.known) case_.doubts.push_back({PlanDoubt::Kind::no_figures, id, {}});
  else if (carried.figures.running_basis == FigureBasis::guess) case_.doubts.push_back({PlanDoubt::Kind::figures_guessed, id, {}});
}

void CaseBuilder::add_load(std::size_t at) {
  const Load& load = house_.loads[at];
  const auto point = std::ranges::find(house_.points, load.point, &Point::id);
  if (point == house_.points.end()) return;
  CarriedLoad carried{.load = at, .point = static_cast<std::size_t>(point - house_.points.begin()), .use = wanted_use(load)};
  if (carried.use == LoadUse::not_wanted) return;
  const Feed& feed = feeds_.of_point[carried.point];
  carried.figures = figures_of(house_, load);
  carried.standing = feed.standing;
  const bool known = feed.standing >= Standing::likely && !feed.taps.empty() && breaker_index_.at(feed.taps.front().breaker) >= 0;
  if (known) put_on_circuit(at, carried, feed);
  else case_.doubts.push_back({PlanDoubt::Kind::feed_not_known, load.id, {}});
}

void CaseBuilder::add_loads() {
  for (std::size_t at = 0; at < house_.loads.size(); ++at) add_load(at);
  const bool wanted = std::ranges::any_of(house_.loads, [](const Load& load) { return wanted_use(load) != LoadUse::not_wanted; });
  if (!wanted)
    throw Error(ErrorKind::invalid_input, "Nothing is wished for in an outage yet; say what must run, such as `ohmstead wish freezer`, "
                                          "and what may be switched on now and then: `ohmstead wish 'microwave, on demand'`.");
}

}  // namespace ohmstead::backup_detail
