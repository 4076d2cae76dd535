#include "diagnosis_world.h"

#include <algorithm>

#include "feed/graph.h"
#include "house/index.h"
#include "tests/support/random_house.h"
#include "trace/conclude.h"

namespace ohmstead::test {

namespace {

House unseen_house(std::uint64_t seed) {
  House house = random_house(seed, 1 + static_cast<int>(seed % 12));
  house.rounds.clear(), house.opened.clear(), house.observations.clear(), house.trips.clear();
  house.diagnoses.clear(), house.diagnosis_looks.clear();
  return house;
}

/// Where handles stand on an ordinary day: names of throws, no liveness.
reference::Switching usual(const House& house, const Feeds& feeds) {
  reference::Switching made;
  const Graph graph = build_graph(house, feeds);
  for (std::size_t h = 1; h < graph.handles.size(); ++h) made.throws[graph.handles[h].ref] = graph.handles[h].usual;
  const auto legs = static_cast<int>(leg_angles_deg(house.dwelling.system).size());
  for (int leg = 1; leg <= legs; ++leg) made.live_legs["utility"].insert(leg);
  return made;
}

bool is_dead(PointState state) { return state == PointState::dead || state == PointState::part_live; }

}  // namespace

DiagnosisWorld::DiagnosisWorld(std::uint64_t seed)
    : random_(seed), house_(unseen_house(seed)), feeds_(conclude(house_)), wiring_(house_, feeds_), usual_(usual(house_, feeds_)),
      usual_states_(wiring_.states(usual_)) {}

reference::Switching DiagnosisWorld::switching(const PlantedFault& fault) const {
  reference::Switching now = usual_;
  switch (fault.kind) {
    case CauseKind::handle_open:
      for (const HandleRef& handle : wiring_.group(fault.handle)) now.throws[handle] = fault.to;
      break;
    case CauseKind::nothing_out: now.broken.insert({fault.handle, 0}); break;
    case CauseKind::pole_lost: now.broken.insert({fault.handle, fault.leg}); break;
    case CauseKind::leg_lost: now.live_legs["utility"].erase(fault.leg); break;
    case CauseKind::utility_gone:
    case CauseKind::service_lost: now.live_legs.erase("utility"); break;
    default: break;
  }
  return now;
}

std::vector<PointState> DiagnosisWorld::states(const PlantedFault& fault) const {
  std::vector<PointState> states = wiring_.states(switching(fault));
  if (fault.kind == CauseKind::itself) states[fault.point] = PointState::dead;
  for (const std::size_t p : fault.dead) states[p] = PointState::dead;
  return states;
}

std::set<std::size_t> DiagnosisWorld::changed(const PlantedFault& fault) const {
  const std::vector<PointState> now = states(fault);
  std::set<std::size_t> dead;
  for (std::size_t p = 0; p < now.size(); ++p)
    if (usual_states_[p] == PointState::working && is_dead(now[p])) dead.insert(p);
  return dead;
}

/// A random part of a circuit, not all of it.
void DiagnosisWorld::add_loose(std::vector<PlantedFault>& faults) {
  for (const Breaker& breaker : house_.breakers)
    for (int pole = 1; pole <= breaker.poles; ++pole) {
      std::vector<std::size_t> on_it;
      for (std::size_t p = 0; p < house_.points.size(); ++p)
        if (usual_states_[p] == PointState::working && std::ranges::any_of(feeds_.of_point[p].taps, [&](const Tap& tap) { return tap.breaker == breaker.id && tap.pole == pole; }))
          on_it.push_back(p);
      if (on_it.size() < 2) continue;
      std::ranges::shuffle(on_it, random_);
      const std::size_t dead = 1 + random_() % (on_it.size() - 1);
      PlantedFault fault{.kind = CauseKind::loose_on_circuit, .handle = {HandleKind::breaker, breaker.id.value}, .leg = pole, .point = on_it[0]};
      fault.dead.insert(on_it.begin(), on_it.begin() + static_cast<long>(dead));
      faults.push_back(fault);
    }
}

std::vector<int> DiagnosisWorld::leg_of_points() const {
  std::vector<int> legs(house_.points.size(), 0);
  const auto utility = usual_.live_legs.at("utility");
  for (const int leg : utility) {
    reference::Switching without = usual_;
    without.live_legs["utility"].erase(leg);
    const auto states = wiring_.states(without);
    for (std::size_t p = 0; p < legs.size(); ++p)
      if (house_.points[p].hots == 1 && usual_states_[p] == PointState::working && is_dead(states[p])) legs[p] = leg;
  }
  return legs;
}

/// What is on in the two halves lies in series at 240 V: the half that draws more gets the smaller share (Ohm's law). `legs` is 0 for what is not on it.
void DiagnosisWorld::add_open_neutral(PlantedFault fault, const std::vector<int>& legs, std::vector<PlantedFault>& faults) {
  constexpr double kBetween = 240, kStarts = 50, kGlows = 25, kTooMuch = 150;
  for (const int loaded : {1, 2}) {
    const double share = 4 + static_cast<double>(random_() % 9);  // the loaded half draws so many times what the other does
    const double little = kBetween / (1 + share);
    fault.dead.clear(), fault.bright.clear();
    fault.leg = loaded, fault.glows = little >= kGlows;
    for (std::size_t p = 0; p < legs.size(); ++p)
      if (legs[p] != 0) (legs[p] == loaded ? fault.dead : fault.bright).insert(p);
    if (little < kStarts && kBetween - little > kTooMuch && !fault.dead.empty() && !fault.bright.empty()) faults.push_back(fault);
  }
}

void DiagnosisWorld::add_neutrals(std::vector<PlantedFault>& faults) {
  if (usual_.live_legs.at("utility") != std::set<int>{1, 2}) return;  // of three legs it is another sum
  const std::vector<int> legs = leg_of_points();
  add_open_neutral({.kind = CauseKind::neutral_of_service}, legs, faults);
  std::map<Id<Circuit>, std::vector<Id<Breaker>>> shared;
  for (const Circuit& circuit : house_.circuits)
    if (circuit.multiwire) shared[circuit.multiwire].push_back(circuit.breaker);
  for (const auto& [group, breakers] : shared) {
    std::vector<int> on_it(legs.size(), 0);
    for (std::size_t p = 0; p < legs.size(); ++p)
      if (std::ranges::any_of(feeds_.of_point[p].taps, [&](const Tap& tap) { return std::ranges::find(breakers, tap.breaker) != breakers.end(); })) on_it[p] = legs[p];
    add_open_neutral({.kind = CauseKind::neutral_shared, .handle = {HandleKind::breaker, breakers[0].value}}, on_it, faults);
  }
}

std::vector<PlantedFault> DiagnosisWorld::faults() {
  std::vector<PlantedFault> all;
  for (const auto& [handle, throws] : usual_.throws) {
    const bool position = handle.kind == HandleKind::position;
    for (int to = 0; to < (position ? 3 : 2); ++to)
      if (to != throws) all.push_back({.kind = CauseKind::handle_open, .handle = handle, .to = static_cast<Throw>(to), .tripped = !position && random_() % 2 == 0});
    if (handle.kind == HandleKind::breaker || handle.kind == HandleKind::main || handle.kind == HandleKind::device) all.push_back({.kind = CauseKind::nothing_out, .handle = handle});
    if (handle.kind == HandleKind::breaker || handle.kind == HandleKind::main)
      for (int pole = 1; pole <= 3; ++pole) all.push_back({.kind = CauseKind::pole_lost, .handle = handle, .leg = pole});
  }
  for (const int leg : usual_.live_legs.at("utility"))
    if (usual_.live_legs.at("utility").size() > 1) all.push_back({.kind = CauseKind::leg_lost, .leg = leg});
  all.push_back({.kind = CauseKind::utility_gone});
  all.push_back({.kind = CauseKind::service_lost});
  for (std::size_t p = 0; p < house_.points.size(); ++p)
    if (usual_states_[p] == PointState::working) all.push_back({.kind = CauseKind::itself, .point = p});
  add_loose(all);
  add_neutrals(all);
  std::erase_if(all, [&](const PlantedFault& fault) { return changed(fault).empty(); });
  return all;
}

bool DiagnosisWorld::same_device(const HandleRef& a, const HandleRef& b) const {
  if (a.kind != HandleKind::device || b.kind != HandleKind::device) return false;
  const Handle *first = find_row(house_, Id<Handle>{a.id}), *second = find_row(house_, Id<Handle>{b.id});
  return first != nullptr && second != nullptr && first->device == second->device;
}

double DiagnosisWorld::how_often_open(const PlantedFault& fault) const {
  double tripped = 0, off = 0.15;
  switch (fault.handle.kind) {
    case HandleKind::breaker:
    case HandleKind::position_breaker: tripped = 1; break;
    case HandleKind::main: tripped = 0.1, off = 0.05; break;
    case HandleKind::position: off = 0.5; break;
    default: break;
  }
  if (const Handle* handle = fault.handle.kind == HandleKind::device ? find_row(house_, Id<Handle>{fault.handle.id}) : nullptr) {
    const DeviceKind kind = row(house_, handle->device).kind;
    off = kind == DeviceKind::wall_switch ? 1.5 : kind == DeviceKind::disconnect ? 0.3 : 0.02;
    tripped = kind == DeviceKind::gfci_receptacle ? 2.5 : 0;
    if (tripped == 0 && fault.tripped) return off;
  }
  return fault.tripped ? 2 * tripped : tripped > 0 ? 2 * off : off;  // one of the two is in the list, by the toss of a coin
}

double DiagnosisWorld::how_often_fails(const HandleRef& ref) const {
  const Handle* handle = ref.kind == HandleKind::device ? find_row(house_, Id<Handle>{ref.id}) : nullptr;
  return handle == nullptr ? 0.1 : row(house_, handle->device).kind == DeviceKind::gfci_receptacle ? 0.3 : 0.2;
}

LookSaw DiagnosisWorld::sees(const PlantedFault& fault, const std::vector<PointState>& states, const DiagnosisStep& step) const {
  const auto place = [&](Id<Point> id) { return static_cast<std::size_t>(std::ranges::find(house_.points, id, &Point::id) - house_.points.begin()); };
  const bool at_fault = [&] {
    const auto group = step.handle ? wiring_.group(step.handle) : std::vector<HandleRef>{};
    return fault.kind == CauseKind::handle_open && std::ranges::find(group, fault.handle) != group.end();
  }();
  if (step.kind == DiagnosisStepKind::danger) return fault.bright.empty() ? LookSaw::skip : LookSaw::done;
  const bool other_switch = fault.kind == CauseKind::handle_open && same_device(step.handle, fault.handle);  // any switch of a group brings it back
  if (step.kind == DiagnosisStepKind::cure) return at_fault || other_switch ? LookSaw::works : LookSaw::still_dead;
  const bool is_point = step.what == LookAt::point || step.what == LookAt::other_lamp;
  if (is_point && fault.bright.contains(place(step.point))) return LookSaw::bright;
  if (is_point && fault.glows && fault.dead.contains(place(step.point)) && house_.points[place(step.point)].kind == PointKind::light) return LookSaw::dim;
  switch (step.what) {
    case LookAt::handle: {
      const Throw stands = at_fault ? fault.to : usual_.throws.at(step.handle);
      if (step.handle.kind == HandleKind::position) return stands == kOff ? LookSaw::off : stands == kBackupSide ? LookSaw::backup : LookSaw::on;
      return stands == kOn ? LookSaw::on : at_fault && fault.tripped ? LookSaw::tripped : LookSaw::off;
    }
    case LookAt::neighbors: return fault.kind == CauseKind::utility_gone ? LookSaw::no : LookSaw::yes;
    case LookAt::other_lamp: return fault.kind == CauseKind::itself && place(step.point) == fault.point ? LookSaw::live : is_dead(states[place(step.point)]) ? LookSaw::dead : LookSaw::live;
    default: break;
  }
  return is_dead(states[place(step.point)]) ? LookSaw::dead : LookSaw::live;
}

}  // namespace ohmstead::test
