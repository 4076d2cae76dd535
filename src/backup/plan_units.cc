#include "backup/plan_units.h"

#include <algorithm>
#include <map>
#include <set>

namespace ohmstead::planning {
namespace {

void add_limits(const PlanSource& source, Layout& layout) {
  for (std::size_t leg = 0; leg < static_cast<std::size_t>(source.legs); ++leg) {
    layout.most_running[leg] = std::min(source.leg_running[leg], source.leg_starting[leg]);
    layout.most_starting[leg] = source.leg_starting[leg];
  }
  layout.most_running[kWhole] = std::min(source.running, source.starting);
  layout.most_starting[kWhole] = source.starting;
}

void add_levels(const PlanProblem& problem, Layout& layout) {
  layout.reserved.assign(problem.positions.size(), 0);
  for (const PlanPin& pin : problem.pins)
    if (pin.kind == PinKind::at) at(layout.reserved, pin.position) = 1;
  std::array<std::map<int, std::vector<int>>, kMostPoles> of_size;
  std::map<int, std::set<int>> legs_of_tie;
  for (std::size_t p = 0; p < problem.positions.size(); ++p) {
    const PlanPosition& position = problem.positions[p];
    if (position.leg > problem.source.legs) continue;
    if (!layout.reserved[p]) at(of_size, position.leg - 1)[position.amps].push_back(static_cast<int>(p));
    if (position.tie >= 0) legs_of_tie[position.tie].insert(position.leg);
  }
  for (std::size_t leg = 0; leg < of_size.size(); ++leg)
    for (auto& [amps, positions] : of_size[leg]) layout.levels[leg].push_back({amps, std::move(positions)});
  for (const PlanPosition& position : problem.positions)
    if (position.tie >= 0 && position.leg <= problem.source.legs && legs_of_tie[position.tie].size() > 1) ++layout.tied_poles;
}

std::vector<Unit> bare_units(const PlanProblem& problem) {
  std::vector<Unit> units;
  std::map<int, std::size_t> of_number;
  for (std::size_t c = 0; c < problem.circuits.size(); ++c) {
    const PlanCircuit& circuit = problem.circuits[c];
    std::size_t place = units.size();
    if (circuit.multiwire >= 0) place = of_number.try_emplace(circuit.multiwire, place).first->second;
    if (place == units.size()) units.emplace_back();
    Unit& unit = units[place];
    unit.circuits.push_back(static_cast<int>(c));
    unit.poles += circuit.poles;
    for (std::size_t pole = 0; pole < static_cast<std::size_t>(circuit.poles); ++pole)
      unit.moves_out += circuit.position_now[pole] >= 0;
  }
  return units;
}

struct Pinned {
  bool never = false, must = false, at = false;
};
Pinned pinned(const PlanProblem& problem, const Unit& unit) {
  Pinned found;
  for (const PlanPin& pin : problem.pins) {
    if (std::find(unit.circuits.begin(), unit.circuits.end(), pin.circuit) == unit.circuits.end()) continue;
    found.never |= pin.kind == PinKind::never;
    found.must |= pin.kind != PinKind::never;
    found.at |= pin.kind == PinKind::at;
  }
  return found;
}

bool source_carries(const PlanProblem& problem, const Unit& unit) {
  const bool several = unit.poles > 1 || problem.circuits[static_cast<std::size_t>(unit.circuits[0])].multiwire >= 0;
  return !(several && problem.source.in_phase) && unit.poles <= problem.source.legs;
}

void add_unit(const PlanProblem& problem, Layout& layout, Unit unit) {
  const Pinned pins = pinned(problem, unit);
  unit.must = pins.must;
  const PlanCircuit& first = problem.circuits[static_cast<std::size_t>(unit.circuits[0])];
  unit.pooled = unit.poles == 1 && first.own_leg[0] == 0 && !pins.at;
  unit.holds = first.own_leg[0] == 0 && !unit.pooled;
  unit.first = unit.last = layout.ways.size();
  if (!pins.never && source_carries(problem, unit)) add_ways(problem, layout, unit);
  unit.last = layout.ways.size();
  if (unit.first == unit.last) {
    layout.fixed_moves += unit.moves_out;
    layout.impossible |= unit.must;
  } else {
    layout.units.push_back(std::move(unit));
  }
}

void number_ties(const PlanProblem& problem, Layout& layout) {
  std::map<int, int> number;
  for (Way& way : layout.ways) {
    if (way.tie < 0) continue;
    const auto [found, fresh] = number.try_emplace(way.tie, static_cast<int>(number.size()));
    if (fresh) layout.units_of_tie.push_back(static_cast<int>(std::ranges::count(problem.positions, way.tie, &PlanPosition::tie) / 2));
    way.tie = found->second;
  }
}

}  // namespace

int pinned_position(const PlanProblem& problem, int circuit) {
  for (const PlanPin& pin : problem.pins)
    if (pin.circuit == circuit && pin.kind == PinKind::at) return pin.position;
  return -1;
}

std::vector<PoleRef> poles_of(const PlanProblem& problem, const Unit& unit) {
  std::vector<PoleRef> poles;
  for (const int c : unit.circuits)
    for (int pole = 0; pole < problem.circuits[static_cast<std::size_t>(c)].poles; ++pole)
      poles.push_back({c, static_cast<std::size_t>(pole)});
  return poles;
}

void add_slot_sets(const PlanProblem& problem, Layout& layout) {
  std::array<std::set<std::uint32_t>, kMostPoles> unions;
  for (const Way& way : layout.ways) {
    if (way.levels == 0) continue;
    auto& known = at(unions, way.legs[0]);
    if (known.contains(way.levels)) continue;
    std::vector<std::uint32_t> more{way.levels};
    for (const std::uint32_t levels : known) more.push_back(levels | way.levels);
    known.insert(more.begin(), more.end());
  }
  std::vector<std::pair<int, std::uint32_t>> level_of(problem.positions.size(), {-1, 0});
  for (std::size_t leg = 0; leg < unions.size(); ++leg) {
    std::uint32_t bit = 1;
    for (const Level& level : layout.levels[leg]) {
      for (const int p : level.positions) at(level_of, p) = {static_cast<int>(leg), bit};
      bit <<= 1;
    }
    for (const std::uint32_t levels : unions[leg]) {
      SlotSet set{static_cast<int>(leg), levels, 0};
      for (std::size_t k = 0; k < layout.levels[leg].size(); ++k)
        if (levels >> k & 1) set.slots += static_cast<int>(layout.levels[leg][k].positions.size());
      layout.sets.push_back(set);
    }
  }
  for (Way& way : layout.ways)
    for (std::size_t s = 0; s < layout.sets.size(); ++s) {
      const SlotSet& set = layout.sets[s];
      bool takes = way.levels != 0 && way.legs[0] == set.leg && (way.levels & ~set.levels) == 0;
      for (const int p : way.positions)
        takes |= p >= 0 && at(level_of, p).first == set.leg && (at(level_of, p).second & set.levels) != 0;
      if (takes) way.sets.push_back(static_cast<int>(s));
    }
}

Layout make_layout(const PlanProblem& problem) {
  Layout layout;
  for (const PlanCircuit& circuit : problem.circuits)
    for (const PlanLoad& load : circuit.loads) layout.life_worth += load.life_safety ? 0 : load.weight;
  add_limits(problem.source, layout);
  add_levels(problem, layout);
  std::set<int> held;
  for (std::size_t c = 0; c < problem.circuits.size(); ++c)
    if (const int p = pinned_position(problem, static_cast<int>(c)); p >= 0) layout.impossible |= !held.insert(p).second;
  for (Unit& unit : bare_units(problem)) add_unit(problem, layout, std::move(unit));
  number_ties(problem, layout);
  add_slot_sets(problem, layout);
  for (Way& way : layout.ways)
    for (OnTop& top : way.on_top) top.number = layout.tops++;
  return layout;
}

}  // namespace ohmstead::planning
