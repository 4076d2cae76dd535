#include "tests/trace/world_maker.h"

#include <algorithm>
#include <numeric>

#include "tests/trace/world_parts.h"

namespace ohmstead::test {

namespace {

/// What now and then is on a surprising circuit.
bool may_stray(const WorldPoint& point) {
  return point.is == PointClass::light || (point.is == PointClass::receptacle && point.check_s > 2);
}

}  // namespace

int Chance::pick(const std::vector<int>& weights) {
  int left = below(std::accumulate(weights.begin(), weights.end(), 0));
  int place = 0;
  for (; left >= weights[static_cast<std::size_t>(place)]; ++place) left -= weights[static_cast<std::size_t>(place)];
  return place;
}

World make_world(WorldKind kind, unsigned seed) { return WorldBuilder(kind, seed).make(); }

WorldBuilder::WorldBuilder(WorldKind kind, unsigned seed) : chance_(seed) {
  world_.seed = seed, world_.kind = kind;
  if (kind == WorldKind::single_phase_230) world_.system = VoltageSystem::single_230;
}

World WorldBuilder::make() {
  switch (world_.kind) {
    case WorldKind::tiny: tiny_house(); break;
    case WorldKind::big: big_house(); break;
    case WorldKind::few_circuits: old_rooms(), ordinary_points(), old_circuits(); break;
    case WorldKind::single_phase_230: ordinary_rooms(), ordinary_points(), circuits_230(); break;
    default: ordinary_rooms(), ordinary_points(), ordinary_circuits();
  }
  const bool small = world_.kind == WorldKind::tiny || world_.kind == WorldKind::few_circuits;
  if (world_.kind == WorldKind::no_locality) mix_up_places();
  if (!small && world_.kind != WorldKind::big) spare_breakers({19, 28, 24, 15, 8, 4, 2});
  only_alone();
  if (world_.kind == WorldKind::two_panels) {
    const auto garage = rooms_of("garage");
    add_subpanel(!garage.empty() && garage.front() != world_.panel_room ? garage.front() : hall_of(world_.floors - 1), chance_.between(25, 45));
  }
  if (world_.kind == WorldKind::labels_wrong) wrong_labels();
  else if (world_.kind != WorldKind::no_labels) labels();
  if (world_.kind != WorldKind::tiny) strays(), dead_at_start();
  put_into_panels();
  return std::move(world_);
}

void WorldBuilder::spare_breakers(const std::vector<int>& weights) {
  const int amps_low = world_.system == VoltageSystem::single_230 ? 10 : 15, amps_high = world_.system == VoltageSystem::single_230 ? 16 : 20;
  for (int i = chance_.pick(weights); i > 0; --i) wire({}, chance_.percent(50) ? amps_low : amps_high);
}

/// A freezer must not warm up, a clock not stop.
void WorldBuilder::only_alone() {
  const auto has = [&](const Wiring& circuit, const char* kind) {
    return std::ranges::any_of(circuit.points, [&](int p) { return point(p).kind == kind; });
  };
  if (world_.kind == WorldKind::big) return;
  for (Wiring& circuit : circuits_)
    circuit.only_alone = circuit.poles == 1 && ((has(circuit, "freezer_receptacle") && chance_.percent(92)) ||
                                                (has(circuit, "fridge_receptacle") && chance_.percent(28)));
  Wiring& any = circuits_[static_cast<std::size_t>(chance_.below(static_cast<int>(circuits_.size())))];
  if (chance_.percent(60) && has(any, "receptacle")) any.only_alone = true;
}

/// Another breaker of one pole: mostly one that is at home in a room close by.
std::size_t WorldBuilder::stray_target(int stray, const std::vector<std::size_t>& home) {
  std::vector<std::size_t> by_distance[4];  // next room, this room, this floor, elsewhere
  for (std::size_t c = 0; c < circuits_.size(); ++c) {
    if (c == home[static_cast<std::size_t>(stray)] || circuits_[c].poles > 1 || circuits_[c].points.empty()) continue;
    const int here = point(stray).room;
    int distance = 3;
    for (const int r : rooms_on(circuits_[c]))
      distance = std::min(distance, share_a_wall(r, here) ? 0 : r == here ? 1 : room(r).floor == room(here).floor ? 2 : 3);
    by_distance[distance].push_back(c);
  }
  const auto& wanted = by_distance[chance_.pick({53, 18, 14, 15})];
  if (!wanted.empty()) return chance_.any(wanted);
  for (const auto& some : by_distance)
    if (!some.empty()) return chance_.any(some);
  return home[static_cast<std::size_t>(stray)];
}

void WorldBuilder::strays() {
  if (world_.kind == WorldKind::no_locality) return;  // there no circuit surprises
  std::vector<std::size_t> home(world_.points.size());
  for (std::size_t c = 0; c < circuits_.size(); ++c)
    for (const int p : circuits_[c].points) home[static_cast<std::size_t>(p)] = c;
  const int rate = chance_.between(40, 80);
  std::vector<std::pair<int, std::size_t>> moved;
  for (int p = 0; p < static_cast<int>(world_.points.size()); ++p)
    if (may_stray(point(p)) && chance_.below(1000) < rate) moved.emplace_back(p, stray_target(p, home));
  for (const auto& [p, to] : moved) {
    std::erase(circuits_[home[static_cast<std::size_t>(p)]].points, p);
    circuits_[to].points.push_back(p);
    point(p).stray = to != home[static_cast<std::size_t>(p)];
  }
}

/// Switched halves and burnt lamps, dead outlets, and what hangs on a neighbour's panel.
void WorldBuilder::dead_at_start() {
  std::vector<int> usual;
  for (int p = 0; p < static_cast<int>(world_.points.size()); ++p) {
    if (point(p).kind == "split_upper" && chance_.percent(38)) point(p).at_start = AtStart::dead_until_repaired;
    else if (may_stray(point(p)) && point(p).mate < 0) usual.push_back(p);
  }
  chance_.shuffle(usual);
  const auto next = [&]() -> WorldPoint& {
    const int p = usual.back();
    usual.pop_back();
    return point(p);
  };
  for (int i = chance_.pick({53, 33, 11, 3}); i > 0; --i) next().at_start = AtStart::dead_until_repaired;
  for (int i = chance_.pick({79, 16, 4, 1}); i > 0; --i) next().at_start = AtStart::dead_for_good;
  for (int i = chance_.pick({87, 9, 3, 1}); i > 0; --i) {
    const int p = usual.back();
    usual.pop_back();
    for (Wiring& circuit : circuits_) std::erase(circuit.points, p);
    point(p).stray = false;
  }
}

/// Breakers stand in the panels in any order.
void WorldBuilder::put_into_panels() {
  chance_.shuffle(circuits_);
  std::ranges::stable_sort(circuits_, {}, &Wiring::panel);
  std::vector<int> next_slot(world_.subpanels.size() + 1, 1);
  for (const Wiring& circuit : circuits_) {
    int& slot = next_slot[static_cast<std::size_t>(circuit.panel)];
    const int breaker = static_cast<int>(world_.breakers.size());
    world_.breakers.push_back({slot, circuit.poles, circuit.amps, circuit.only_alone, circuit.label, circuit.panel, circuit.status});
    slot += circuit.poles;
    for (const int p : circuit.points) point(p).breaker = breaker;
    if (circuit.feeds_panel > 0) world_.subpanels[static_cast<std::size_t>(circuit.feeds_panel) - 1].fed_by = breaker;
  }
}

}  // namespace ohmstead::test
