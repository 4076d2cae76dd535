// All ways in which a unit can be carried, by rules 1, 2 and 5 of plan.h.

#include <algorithm>
#include <map>

#include "backup/plan_units.h"

namespace ohmstead::planning {
namespace {

class WayMaker {
 public:
  WayMaker(const PlanProblem& problem, Layout& layout, Unit& unit)
      : problem_(problem), layout_(layout), unit_(unit), poles_(poles_of(problem, unit)) {
    for (const PoleRef& ref : poles_) on_positions_ += circuit(ref).own_leg[ref.pole] == 0;
  }
  void add() { unit_.pooled ? add_pooled() : place(0); }

 private:
  const PlanCircuit& circuit(const PoleRef& ref) const { return at(problem_.circuits, ref.circuit); }

  /// Rule 1: the position's breaker is not larger than the circuit's, and carries what runs together.
  bool fits(const PoleRef& ref, int amps) const {
    if (amps == 0) return true;
    const PlanCircuit& of = circuit(ref);
    if (of.amps > 0 && amps > of.amps) return false;
    return milliamperes(of, ref.pole) <= amps * std::int64_t{1000};
  }
  static std::int64_t milliamperes(const PlanCircuit& of, std::size_t pole) {
    std::int64_t sum = 0;
    for (const PlanLoad& load : of.loads)
      if (!load.on_demand) sum += load.breaker_ma[pole];
    return sum;
  }

  void place(std::size_t pole);
  void try_position(std::size_t pole, int p);
  bool leg_is_free(int leg) const { return std::find(legs_.begin(), legs_.end(), leg) == legs_.end(); }
  void add_pooled();
  void finish();
  Way counted(const std::array<int, kMostPoles>& amps) const;
  void count_load(Way& way, const PlanLoad& load, std::size_t first_pole, int poles) const;
  bool carries_on_top(const PlanCircuit& of, const PlanLoad& load, const int* amps) const;
  int kind_of(const Way& way);
  /// A number of the load within its unit.
  int number_of(const PlanLoad& load) const {
    int number = 0;
    for (const int c : unit_.circuits) {
      const auto& loads = at(problem_.circuits, c).loads;
      if (!loads.empty() && &load >= &loads.front() && &load <= &loads.back()) return number + static_cast<int>(&load - &loads.front());
      number += static_cast<int>(loads.size());
    }
    return number;
  }

  const PlanProblem& problem_;
  Layout& layout_;
  Unit& unit_;
  std::vector<PoleRef> poles_;
  int on_positions_ = 0;  ///< poles that need a position
  PerPole legs_{-1, -1, -1};
  std::vector<int> positions_;
  int tie_ = -1;
  std::map<std::vector<int>, int> kinds_;
};

void WayMaker::place(std::size_t pole) {
  if (pole == poles_.size()) return finish();
  const PoleRef& ref = poles_[pole];
  if (const int own = circuit(ref).own_leg[ref.pole]; own > 0) {
    if (own > problem_.source.legs || !leg_is_free(own - 1) || pinned_position(problem_, ref.circuit) >= 0) return;
    legs_[pole] = own - 1;
    positions_.push_back(-1);
    place(pole + 1);
    positions_.pop_back();
    legs_[pole] = -1;
    return;
  }
  for (int p = 0; p < static_cast<int>(problem_.positions.size()); ++p) try_position(pole, p);
}

void WayMaker::try_position(std::size_t pole, int p) {
  const PoleRef& ref = poles_[pole];
  const PlanPosition& position = at(problem_.positions, p);
  const int held = ref.pole == 0 ? pinned_position(problem_, ref.circuit) : -1;
  if (held >= 0 ? p != held : at(layout_.reserved, p) != 0) return;
  if (position.leg > problem_.source.legs || !leg_is_free(position.leg - 1) || !fits(ref, position.amps)) return;
  const int tie_before = tie_;
  if (on_positions_ > 1) {
    if (position.tie < 0 || (tie_ >= 0 && tie_ != position.tie)) return;
    tie_ = position.tie;
  }
  legs_[pole] = position.leg - 1;
  positions_.push_back(p);
  place(pole + 1);
  positions_.pop_back();
  legs_[pole] = -1;
  tie_ = tie_before;
}

void WayMaker::count_load(Way& way, const PlanLoad& load, std::size_t first_pole, int poles) const {
  PerLimit running{}, extra{};
  for (std::size_t k = 0; k < static_cast<std::size_t>(poles); ++k) {
    const auto leg = static_cast<std::size_t>(way.legs[first_pole + k]);
    for (const std::size_t limit : {leg, kWhole}) {
      running[limit] += load.running[k];
      extra[limit] += load.starting[k] - load.running[k];
    }
  }
  const std::int64_t value = load.life_safety ? layout_.life_worth : load.weight;
  if (!load.on_demand) {
    way.value += value;
    for (std::size_t limit = 0; limit < kLimits; ++limit) {
      way.running[limit] += running[limit];
      way.extra[limit] = std::max(way.extra[limit], extra[limit]);
    }
    return;
  }
  OnTop top{number_of(load), 0, running, extra, {}, value};
  for (std::size_t limit = 0; limit < kLimits; ++limit)
    if (running[limit] + extra[limit] > 0)
      top.needs[limit] = std::max(
          {0, running[limit], layout_.most_running[limit] - layout_.most_starting[limit] + running[limit] + extra[limit]});
  for (std::size_t limit = 0; limit < kLimits; ++limit)
    if (top.needs[limit] > layout_.most_running[limit]) return;  // never served
  way.on_top.push_back(top);
}

bool WayMaker::carries_on_top(const PlanCircuit& of, const PlanLoad& load, const int* amps) const {
  for (std::size_t pole = 0; pole < static_cast<std::size_t>(of.poles); ++pole)
    if (amps[pole] > 0 && milliamperes(of, pole) + load.breaker_ma[pole] > amps[pole] * std::int64_t{1000}) return false;
  return true;
}

/// `amps` of the position of each pole of the unit; 0 where nothing limits it. Uses legs_.
Way WayMaker::counted(const std::array<int, kMostPoles>& amps) const {
  Way way;
  way.legs = legs_;
  std::size_t first_pole = 0;
  for (const int c : unit_.circuits) {
    const PlanCircuit& of = at(problem_.circuits, c);
    for (const PlanLoad& load : of.loads)
      if (!load.on_demand || carries_on_top(of, load, amps.data() + first_pole)) count_load(way, load, first_pole, of.poles);
    first_pole += static_cast<std::size_t>(of.poles);
  }
  return way;
}

void WayMaker::finish() {
  std::array<int, kMostPoles> amps{};
  int moves = 0;
  for (std::size_t k = 0; k < poles_.size(); ++k) {
    if (positions_[k] >= 0) amps[k] = at(problem_.positions, positions_[k]).amps;
    moves += circuit(poles_[k]).position_now[poles_[k].pole] != positions_[k];
  }
  Way way = counted(amps);
  way.positions = positions_;
  way.tie = tie_;
  way.moves = moves;
  way.kind = kind_of(way);
  layout_.ways.push_back(std::move(way));
}

/// Two ways are of one kind if their legs and breaker sizes agree, and those of all positions of their ties.
int WayMaker::kind_of(const Way& way) {
  if (way.tie < 0) return -1;
  std::vector<int> signature, tied;
  for (const int p : way.positions) {
    if (p < 0) continue;
    if (at(layout_.reserved, p)) return -1;
    signature.insert(signature.end(), {at(problem_.positions, p).leg, at(problem_.positions, p).amps});
  }
  for (std::size_t p = 0; p < problem_.positions.size(); ++p) {
    const PlanPosition& position = problem_.positions[p];
    if (position.tie == way.tie && !layout_.reserved[p]) tied.push_back(position.leg + (kMostPoles + 1) * position.amps);
  }
  std::sort(tied.begin(), tied.end());
  signature.insert(signature.end(), tied.begin(), tied.end());
  return kinds_.try_emplace(signature, static_cast<int>(kinds_.size())).first->second;
}

/// One way for each leg and each set of loads on demand that its sizes of breakers serve; and one that stays.
void WayMaker::add_pooled() {
  const PoleRef ref = poles_[0];
  const int now = circuit(ref).position_now[0];
  for (int leg = 0; leg < problem_.source.legs; ++leg) {
    legs_[0] = leg;
    std::map<std::size_t, Way> by_served;  // breakers nest: the larger serves all that the smaller serves
    const auto& levels = at(layout_.levels, leg);
    for (std::size_t k = 0; k < levels.size(); ++k) {
      if (!fits(ref, levels[k].amps)) continue;
      Way way = counted({levels[k].amps, 0, 0});
      way.levels = std::uint32_t{1} << k;
      way.moves = 1;
      if (std::find(levels[k].positions.begin(), levels[k].positions.end(), now) != levels[k].positions.end()) {
        Way stay = way;
        stay.keeps = now;
        stay.moves = 0;
        layout_.ways.push_back(std::move(stay));
      }
      const auto [found, fresh] = by_served.try_emplace(way.on_top.size(), way);
      if (!fresh) found->second.levels |= way.levels;
    }
    std::uint32_t larger = 0;
    for (auto each = by_served.rbegin(); each != by_served.rend(); ++each) {
      larger |= each->second.levels;
      each->second.levels = larger;
      layout_.ways.push_back(each->second);
    }
  }
}

}  // namespace

void add_ways(const PlanProblem& problem, Layout& layout, Unit& unit) { WayMaker(problem, layout, unit).add(); }

}  // namespace ohmstead::planning
