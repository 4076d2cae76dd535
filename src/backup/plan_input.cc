// Whether a problem makes sense, before anything is counted.

#include <fmt/format.h>

#include <set>

#include "backup/plan_measure.h"
#include "house/error.h"

namespace ohmstead {
namespace {

constexpr int kMostWatts = 1'000'000;       ///< of a load on a pole, or of a source
constexpr std::int64_t kMostInAll = 1'000'000'000;  ///< starting watts of all loads together: sums stay far from overflow

[[noreturn]] void refuse(const std::string& sentence) { throw Error(ErrorKind::invalid_input, sentence); }

bool between(int value, int least, int most) { return value >= least && value <= most; }

void check_source(const PlanSource& source) {
  if (!between(source.legs, 1, kMostPoles))
    refuse(fmt::format("The source has {} legs; give it 1 to {}.", source.legs, kMostPoles));
  const auto check = [](const char* what, int running, int starting) {
    if (running <= 0 || starting <= 0)
      refuse(fmt::format("The source gives {} W running and {} W starting {}; enter what it can give, more than 0.", running,
                         starting, what));
    if (running > kMostWatts || starting > kMostWatts)
      refuse(fmt::format("The source gives {} W running and {} W starting {}; the most that can be planned is {} W.", running,
                         starting, what, kMostWatts));
  };
  check("in all", source.running, source.starting);
  for (std::size_t leg = 0; leg < static_cast<std::size_t>(source.legs); ++leg)
    check("on a leg", source.leg_running[leg], source.leg_starting[leg]);
}

std::int64_t check_load(const PlanLoad& load, int circuit) {
  if (!between(load.weight, 0, 1000))
    refuse(fmt::format("A load on circuit {} of the plan has the importance {}; give it 0 to 1000.", circuit, load.weight));
  std::int64_t starting = 0;
  for (std::size_t pole = 0; pole < load.running.size(); ++pole) {
    if (load.running[pole] < 0 || load.breaker_ma[pole] < 0 || load.starting[pole] > kMostWatts)
      refuse(fmt::format("A load on circuit {} of the plan draws less than nothing, or more than {} W; correct its watts.",
                         circuit, kMostWatts));
    if (load.starting[pole] < load.running[pole])
      refuse(fmt::format("A load on circuit {} of the plan starts with {} W and runs with {} W; starting watts are not less.",
                         circuit, load.starting[pole], load.running[pole]));
    starting += load.starting[pole];
  }
  return starting;
}

void check_poles(const PlanProblem& problem, int c) {
  const PlanCircuit& circuit = problem.circuits[static_cast<std::size_t>(c)];
  if (!between(circuit.poles, 1, kMostPoles))
    refuse(fmt::format("Circuit {} of the plan has {} poles; give it 1 to {}.", c, circuit.poles, kMostPoles));
  for (std::size_t pole = 0; pole < static_cast<std::size_t>(circuit.poles); ++pole) {
    if (!between(circuit.own_leg[pole], 0, kMostPoles))
      refuse(fmt::format("Circuit {} of the plan comes on with leg {}; legs are 1 to {}.", c, circuit.own_leg[pole], kMostPoles));
    if ((circuit.own_leg[pole] > 0) != (circuit.own_leg[0] > 0))
      refuse(fmt::format("Circuit {} of the plan comes on with a leg for some of its poles only; all of them or none do.", c));
    if (!between(circuit.position_now[pole], -1, static_cast<int>(problem.positions.size()) - 1))
      refuse(fmt::format("Circuit {} of the plan is on position {} now, which is not there.", c, circuit.position_now[pole]));
  }
}

/// The search knows the sizes on a leg by one bit each, and looks at sets of them.
void check_sizes(const PlanProblem& problem) {
  constexpr std::size_t kMostSizes = 12;
  std::array<std::set<int>, kMostPoles> sizes;
  for (const PlanPosition& position : problem.positions) {
    if (!between(position.leg, 1, kMostPoles) || position.amps < 0)
      refuse(fmt::format("A position is on leg {} with a breaker of {} A; legs are 1 to {}, and amperes not below 0.",
                         position.leg, position.amps, kMostPoles));
    sizes[static_cast<std::size_t>(position.leg - 1)].insert(position.amps);
  }
  for (const auto& on_leg : sizes)
    if (on_leg.size() > kMostSizes)
      refuse(fmt::format("The positions on one leg have {} sizes of breakers; the most that can be planned is {}.",
                         on_leg.size(), kMostSizes));
}

void check_pins(const PlanProblem& problem) {
  std::vector<const PlanPin*> pin_of(problem.circuits.size(), nullptr);
  for (const PlanPin& pin : problem.pins) {
    if (!between(pin.circuit, 0, static_cast<int>(problem.circuits.size()) - 1))
      refuse(fmt::format("A pin is for circuit {} of the plan, which is not there; take the pin away.", pin.circuit));
    if (pin.kind == PinKind::at && !between(pin.position, 0, static_cast<int>(problem.positions.size()) - 1))
      refuse(fmt::format("Circuit {} of the plan is pinned to position {}, which is not there; choose another one.", pin.circuit,
                         pin.position));
    const PlanPin*& first = pin_of[static_cast<std::size_t>(pin.circuit)];
    if (first && (first->kind != pin.kind || (pin.kind == PinKind::at && first->position != pin.position)))
      refuse(fmt::format("Circuit {} of the plan has two pins that differ; take one of them away.", pin.circuit));
    first = &pin;
  }
}

void check_connected_once(const PlanProblem& problem) {
  std::set<int> seen;
  for (const PlanCircuit& circuit : problem.circuits)
    for (std::size_t pole = 0; pole < static_cast<std::size_t>(circuit.poles); ++pole)
      if (const int now = circuit.position_now[pole]; now >= 0 && !seen.insert(now).second)
        refuse(fmt::format("Two circuits of the plan are on position {} now; a position carries one.", now));
}

}  // namespace

void check_plan_problem(const PlanProblem& problem) {
  check_source(problem.source);
  if (problem.circuits.size() > kMostPlanCircuits)
    refuse(fmt::format("The plan is for {} circuits; the most is {}.", problem.circuits.size(), kMostPlanCircuits));
  check_sizes(problem);
  std::int64_t starting = 0;
  for (std::size_t c = 0; c < problem.circuits.size(); ++c) {
    check_poles(problem, static_cast<int>(c));
    for (const PlanLoad& load : problem.circuits[c].loads) starting += check_load(load, static_cast<int>(c));
  }
  if (starting > kMostInAll)
    refuse(fmt::format("All loads together start with {} W; the most that can be planned is {} W.", starting, kMostInAll));
  check_pins(problem);
  check_connected_once(problem);
}

}  // namespace ohmstead
