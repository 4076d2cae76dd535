#include "plan_checker.h"

#include <algorithm>
#include <map>
#include <set>

namespace ohmstead {
namespace {

struct Judge {
  const PlanProblem& problem;
  const std::vector<Placed>& placed;
  Judged out;

  void fail(const char* rule) { out.broken.emplace_back(rule); }
  const PlanCircuit& circuit(int c) const { return problem.circuits.at(static_cast<std::size_t>(c)); }
  const PlanPosition& position(int p) const { return problem.positions.at(static_cast<std::size_t>(p)); }
  bool is_placed(int c) const {
    return std::any_of(placed.begin(), placed.end(), [c](const Placed& at) { return at.circuit == c; });
  }
  int leg_of(const Placed& at, int pole) const {
    const auto k = static_cast<std::size_t>(pole);
    return at.position[k] >= 0 ? position(at.position[k]).leg : circuit(at.circuit).own_leg[k];
  }
  /// Watts of a load on a leg (1-based); leg 0: in all.
  int watts(const Placed& at, const PlanLoad& load, int leg, const PerPole& of) const {
    (void)load;
    int sum = 0;
    for (int pole = 0; pole < circuit(at.circuit).poles; ++pole)
      if (leg == 0 || leg_of(at, pole) == leg) sum += of[static_cast<std::size_t>(pole)];
    return sum;
  }

  bool breaker_holds(const Placed& at, int pole, const PlanLoad* on_top) const {
    const auto k = static_cast<std::size_t>(pole);
    if (at.position[k] < 0 || position(at.position[k]).amps == 0) return true;
    long long ma = on_top ? on_top->breaker_ma[k] : 0;
    for (const PlanLoad& load : circuit(at.circuit).loads) ma += load.on_demand ? 0 : load.breaker_ma[k];
    return ma <= 1000LL * position(at.position[k]).amps;
  }

  void rule_1() {
    std::set<int> used;
    for (const Placed& at : placed) {
      const PlanCircuit& c = circuit(at.circuit);
      for (int pole = 0; pole < kMostPoles; ++pole) {
        const int p = at.position[static_cast<std::size_t>(pole)];
        const bool needs = pole < c.poles && c.own_leg[static_cast<std::size_t>(pole)] == 0;
        if ((p >= 0) != needs) fail("1: a pole has no position, or one it does not need");
        if (pole < c.poles && leg_of(at, pole) > problem.source.legs) fail("1: a leg that the source does not have");
        if (p < 0) continue;
        if (!used.insert(p).second) fail("1: two poles on one position");
        if (position(p).amps > 0 && c.amps > 0 && position(p).amps > c.amps) fail("1: position larger than the breaker");
        if (!breaker_holds(at, pole, nullptr)) fail("1: position too small for what runs together");
      }
    }
  }

  void check_together(const std::vector<int>& circuits) {
    std::set<int> legs, ties;
    int poles = 0, on_positions = 0;
    for (const Placed& at : placed) {
      if (std::find(circuits.begin(), circuits.end(), at.circuit) == circuits.end()) continue;
      for (int pole = 0; pole < circuit(at.circuit).poles; ++pole) {
        ++poles;
        legs.insert(leg_of(at, pole));
        const int p = at.position[static_cast<std::size_t>(pole)];
        if (p < 0) continue;
        ++on_positions;
        ties.insert(position(p).tie);
      }
    }
    if (poles == 0) return;
    if (problem.source.in_phase) fail("2: several poles or a multiwire circuit from a source in phase");
    if (poles > problem.source.legs) fail("2: the source has too few legs");
    if (static_cast<int>(legs.size()) != poles) fail("2: poles on the same leg");
    if (on_positions > 1 && (ties.size() != 1 || *ties.begin() < 0)) fail("2: positions that are not tied");
  }

  void rule_2() {
    std::map<int, std::vector<int>> multiwire;
    for (int c = 0; c < static_cast<int>(problem.circuits.size()); ++c) {
      if (circuit(c).multiwire >= 0) multiwire[circuit(c).multiwire].push_back(c);
      if (circuit(c).poles > 1) check_together({c});
    }
    for (const auto& [number, circuits] : multiwire) {
      for (const int c : circuits)
        if (is_placed(c) != is_placed(circuits[0])) fail("2: a part of a multiwire circuit");
      check_together(circuits);
    }
  }

  int base(int leg) const {
    int sum = 0;
    for (const Placed& at : placed)
      for (const PlanLoad& load : circuit(at.circuit).loads)
        if (!load.on_demand) sum += watts(at, load, leg, load.running);
    return sum;
  }
  int extra(const Placed& at, const PlanLoad& load, int leg) const {
    return watts(at, load, leg, load.starting) - watts(at, load, leg, load.running);
  }
  int worst_extra(int leg) const {
    int most = 0;
    for (const Placed& at : placed)
      for (const PlanLoad& load : circuit(at.circuit).loads)
        if (!load.on_demand) most = std::max(most, extra(at, load, leg));
    return most;
  }
  int running_limit(int leg) const {
    return leg == 0 ? problem.source.running : problem.source.leg_running[static_cast<std::size_t>(leg - 1)];
  }
  int starting_limit(int leg) const {
    return leg == 0 ? problem.source.starting : problem.source.leg_starting[static_cast<std::size_t>(leg - 1)];
  }

  void rule_3() {
    for (int leg = 0; leg <= problem.source.legs; ++leg) {
      if (base(leg) > running_limit(leg)) fail("3: more running than the source gives");
      if (base(leg) + worst_extra(leg) > starting_limit(leg)) fail("3: more starting than the source gives");
    }
  }

  bool rule_4(const Placed& at, const PlanLoad& load) const {
    for (int pole = 0; pole < circuit(at.circuit).poles; ++pole)
      if (!breaker_holds(at, pole, &load)) return false;
    for (int leg = 0; leg <= problem.source.legs; ++leg) {
      const int with = base(leg) + watts(at, load, leg, load.running);
      if (with > running_limit(leg) || with + std::max(worst_extra(leg), extra(at, load, leg)) > starting_limit(leg)) return false;
    }
    return true;
  }

  void rule_5() {
    for (const PlanPin& pin : problem.pins) {
      const auto at = std::find_if(placed.begin(), placed.end(), [&](const Placed& p) { return p.circuit == pin.circuit; });
      if ((at != placed.end()) == (pin.kind == PinKind::never)) fail("5: a pin is not met");
      if (pin.kind == PinKind::at && at != placed.end() && at->position[0] != pin.position) fail("5: pinned to another position");
    }
  }

  void count() {
    for (const Placed& at : placed) {
      std::vector<bool> served;
      for (const PlanLoad& load : circuit(at.circuit).loads) {
        served.push_back(!load.on_demand || rule_4(at, load));
        if (!served.back()) continue;
        if (load.life_safety) ++out.score.life_safety;
        else out.score.importance += load.weight;
      }
      out.served.push_back(served);
    }
    int least = base(1), most = base(1);
    for (int leg = 1; leg <= problem.source.legs; ++leg) {
      const auto k = static_cast<std::size_t>(leg - 1);
      least = std::min(least, base(leg)), most = std::max(most, base(leg));
      out.sums.running[k] = base(leg);
      out.sums.extra[k] = worst_extra(leg);
    }
    out.sums.total_running = base(0), out.sums.total_extra = worst_extra(0);
    out.score.imbalance = most - least;
    for (int c = 0; c < static_cast<int>(problem.circuits.size()); ++c)
      for (int pole = 0; pole < circuit(c).poles; ++pole) {
        int then = -1;
        for (const Placed& at : placed)
          if (at.circuit == c) then = at.position[static_cast<std::size_t>(pole)];
        if (then != circuit(c).position_now[static_cast<std::size_t>(pole)]) ++out.score.moves;
      }
  }
};

}  // namespace

Judged judge(const PlanProblem& problem, const std::vector<Placed>& placed) {
  Judge judge{problem, placed, {}};
  judge.rule_1();
  judge.rule_2();
  judge.rule_3();
  judge.rule_5();
  judge.count();
  return judge.out;
}

std::vector<std::string> faults_of(const PlanProblem& problem, const Plan& plan) {
  Judged judged = judge(problem, plan.placed);
  std::vector<std::string> faults = std::move(judged.broken);
  for (std::size_t k = 0; k < plan.placed.size(); ++k) {
    if (plan.placed[k].served != judged.served[k]) faults.emplace_back("4: other loads are served than could be");
    if (k > 0 && plan.placed[k - 1].circuit >= plan.placed[k].circuit) faults.emplace_back("circuits not ascending");
  }
  if (!(plan.score == judged.score)) faults.emplace_back("the score is another one");
  if (!(plan.sums == judged.sums)) faults.emplace_back("the sums are other ones");
  if (plan.end == PlanEnd::optimal && !(plan.bound == plan.score)) faults.emplace_back("optimal with another bound");
  return faults;
}

}  // namespace ohmstead
