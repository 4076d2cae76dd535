// Why a circuit has no place in a plan.

#include <algorithm>

#include "backup/plan_choices.h"
#include "backup/plan_choices_parts.h"

namespace ohmstead {

using namespace choices_detail;

namespace {

class Asked {
 public:
  Asked(const PlanProblem& problem, const Plan& plan, int circuit, int load)
      : problem_(problem), plan_(plan), circuit_(problem.circuits[static_cast<std::size_t>(circuit)]), at_(circuit), load_(load) {}

  WhyNotAnswer answer() {
    if (is_served(plan_, at_, load_)) return {};
    if (by_itself()) return answer_;
    if (alone()) return answer_;
    Plan instead = best_with(problem_, at_, load_);
    if (instead.end == PlanEnd::impossible) {
      answer_.why = WhyNot::pins;
      return answer_;
    }
    name_the_losers(instead);
    answer_.instead = std::move(instead);
    name_the_bottleneck();
    return answer_;
  }

 private:
  bool because(WhyNot why, int needed = 0, int there = 0) {
    answer_.why = why, answer_.needed = needed, answer_.there = there;
    return true;
  }

  /// Reasons that need no other circuit, and no search.
  bool by_itself() {
    const PlanSource& source = problem_.source;
    if (std::ranges::any_of(problem_.pins, [&](const PlanPin& pin) { return pin.circuit == at_ && pin.kind == PinKind::never; })) return because(WhyNot::pinned_out);
    const bool one_voltage = source.in_phase || source.legs < 2, shares = circuit_.multiwire >= 0 || circuit_.shared_neutral;
    if (one_voltage && shares) return because(WhyNot::shared_neutral);
    if (one_voltage && (circuit_.between_legs || circuit_.poles > 1)) return because(WhyNot::no_two_legs);
    if (circuit_.own_leg[0] > 0) return false;
    const std::vector<const PlanPosition*> all = reachable(false), small_enough = reachable(true);
    if (all.empty()) return because(WhyNot::no_tied_pair);
    if (small_enough.empty()) {
      const auto smallest = std::ranges::min_element(all, {}, [](const PlanPosition* position) { return position->amps; });
      return because(WhyNot::positions_too_large, circuit_.amps, (*smallest)->amps);
    }
    int most = 0;
    for (const PlanPosition* position : small_enough) most = std::max(most, position->amps == 0 ? 1'000'000 : position->amps);
    const int needed = breaker_amps();
    return needed > most && because(WhyNot::breaker_too_small, needed, most);
  }

  /// Positions that the circuit could be on, one after the other looked at; of tied ones on different legs where it needs these.
  [[nodiscard]] std::vector<const PlanPosition*> reachable(bool small_enough) const {
    std::vector<const PlanPosition*> found;
    const auto fits = [&](const PlanPosition& position) {
      return position.leg <= problem_.source.legs && (!small_enough || circuit_.amps == 0 || position.amps <= circuit_.amps);
    };
    const bool tied = circuit_.poles > 1 || circuit_.multiwire >= 0;
    for (const PlanPosition& position : problem_.positions) {
      if (!fits(position)) continue;
      const bool partner = std::ranges::any_of(problem_.positions, [&](const PlanPosition& other) {
        return other.tie >= 0 && other.tie == position.tie && other.leg != position.leg && fits(other);
      });
      if (!tied || partner) found.push_back(&position);
    }
    return found;
  }

  /// What the breaker of its position must be rated for, rounded up.
  [[nodiscard]] int breaker_amps() const {
    int most = 0;
    for (std::size_t pole = 0; pole < static_cast<std::size_t>(circuit_.poles); ++pole) {
      int sum = load_ >= 0 ? circuit_.loads[static_cast<std::size_t>(load_)].breaker_ma[pole] : 0;
      for (const PlanLoad& load : circuit_.loads)
        if (!load.on_demand) sum += load.breaker_ma[pole];
      most = std::max(most, sum);
    }
    return (most + 999) / 1000;
  }

  /// With everything else gone (but what shares its neutral), does it have a place?
  bool alone() {
    PlanProblem only = problem_;
    only.pins.clear();
    for (std::size_t c = 0; c < only.circuits.size(); ++c) {
      const bool partner = circuit_.multiwire >= 0 && only.circuits[c].multiwire == circuit_.multiwire;
      if (static_cast<int>(c) != at_ && !partner) only.pins.push_back({PinKind::never, static_cast<int>(c), -1});
    }
    if (best_with(only, at_, load_).end != PlanEnd::impossible) return false;
    PlanProblem more = only;
    raise_running(more);
    const Plan with_running = best_with(more, at_, load_);
    raise_all(more);
    const Plan with_both = best_with(more, at_, load_);
    if (with_both.end == PlanEnd::impossible) return because(circuit_.multiwire >= 0 ? WhyNot::partner : WhyNot::no_position_left);
    if (over_running(with_both.sums)) return true;
    return with_running.end != PlanEnd::impossible ? because(WhyNot::running_alone) : over_starting(with_both.sums) || because(WhyNot::starting_alone);
  }

  /// The first limit on running that these sums, with the load on demand, pass.
  bool over_running(const PlanSums& sums) {
    const PlanSource& source = problem_.source;
    const PerPole top = on_top();
    int total = sums.total_running;
    for (const int watts : top) total += watts;
    if (total > source.running) return because(WhyNot::running_alone, total, source.running);
    const int most_top = *std::ranges::max_element(top);
    for (std::size_t leg = 0; leg < static_cast<std::size_t>(source.legs); ++leg)
      if (sums.running[leg] + most_top > source.leg_running[leg]) return because(WhyNot::running_alone, sums.running[leg] + most_top, source.leg_running[leg]);
    return false;
  }

  bool over_starting(const PlanSums& sums) {
    const PlanSource& source = problem_.source;
    int top = 0, extra = sums.total_extra;
    for (const int watts : on_top()) top += watts;
    if (load_ >= 0) {
      int own = 0;
      for (std::size_t pole = 0; pole < kMostPoles; ++pole)
        own += circuit_.loads[static_cast<std::size_t>(load_)].starting[pole] - circuit_.loads[static_cast<std::size_t>(load_)].running[pole];
      extra = std::max(extra, own);
    }
    const int total = sums.total_running + top + extra;
    if (total > source.starting) return because(WhyNot::starting_alone, total, source.starting);
    for (std::size_t leg = 0; leg < static_cast<std::size_t>(source.legs); ++leg)
      if (sums.running[leg] + sums.extra[leg] > source.leg_starting[leg])
        return because(WhyNot::starting_alone, sums.running[leg] + sums.extra[leg], source.leg_starting[leg]);
    return false;
  }

  [[nodiscard]] PerPole on_top() const { return load_ >= 0 ? circuit_.loads[static_cast<std::size_t>(load_)].running : PerPole{}; }

  static constexpr int kPlenty = 1'000'000;  // the most that can be planned
  static void raise_running(PlanProblem& problem) {  // up to what it can start with
    PlanSource& source = problem.source;
    source.running = source.starting;
    source.leg_running = source.leg_starting;
  }
  static void raise_starting(PlanProblem& problem) {
    problem.source.starting = kPlenty;
    problem.source.leg_starting.fill(kPlenty);
  }
  static void raise_all(PlanProblem& problem) {
    raise_starting(problem);
    raise_running(problem);
  }

  void name_the_losers(const Plan& instead) {
    for (const Placed& placed : plan_.placed) {
      if (placed_in(instead, placed.circuit) == nullptr) {
        answer_.circuits_lost.push_back(placed.circuit);
        continue;
      }
      for (std::size_t load = 0; load < placed.served.size(); ++load)
        if (placed.served[load] && !is_served(instead, placed.circuit, static_cast<int>(load))) answer_.loads_lost.emplace_back(placed.circuit, static_cast<int>(load));
    }
  }

  /// Is the circuit served, and nothing that was served lost, with this problem?
  [[nodiscard]] bool would_do(const PlanProblem& problem) const {
    const Plan plan = best_with(problem, at_, load_);
    return plan.end != PlanEnd::impossible && serves_as_much(plan.score, plan_.score);
  }

  void name_the_bottleneck() {
    PlanProblem running = problem_, starting = problem_;
    raise_running(running), raise_starting(starting);
    const bool needs_place = circuit_.own_leg[0] == 0 && placed_in(plan_, at_) == nullptr;
    if (needs_place && would_do(with_positions_for(problem_, at_))) answer_.why = WhyNot::no_position_left;
    else if (would_do(running)) answer_.why = WhyNot::running;
    else if (would_do(starting)) answer_.why = WhyNot::starting;
    else answer_.why = WhyNot::several;
  }

  const PlanProblem& problem_;
  const Plan& plan_;
  const PlanCircuit& circuit_;
  int at_, load_;
  WhyNotAnswer answer_;
};

}  // namespace

WhyNotAnswer why_not(const PlanProblem& problem, const Plan& plan, int circuit, int load) { return Asked(problem, plan, circuit, load).answer(); }

}  // namespace ohmstead
