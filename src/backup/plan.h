#pragma once
// Which circuits ride on which positions: the problem as plain numbers, and the plan that is best for it,
// proven so. Nothing here knows a house; plan_problem.h makes the problem from one. Method, bounds and
// proof: docs/backup.md.

#include <array>
#include <cstdint>
#include <vector>

#include "feed/graph.h"
#include "house/point.h"

namespace ohmstead {

/// One number for each pole of a circuit, or each leg of a source.
using PerPole = std::array<int, kMostPoles>;

/// A load as a plan counts it. Where the power factor is known these are voltamperes, else watts.
struct PlanLoad {
  bool on_demand = false;   ///< false: runs together with the others. true: switched on by a person, one at a time
  bool life_safety = false;
  int weight = 0;           ///< importance, 0..1000; how much it is worth to serve it
  PerPole running{};        ///< on each pole of its circuit, 0 or more
  PerPole starting{};       ///< while it starts, not less than running
  PerPole breaker_ma{};     ///< milliamperes that a breaker must be rated for: running, at 125 % if continuous
};

/// A branch circuit (or feeder) that could be carried.
struct PlanCircuit {
  int poles = 1;
  int amps = 0;              ///< of its own breaker; 0: not read, then no position is too large for it
  bool between_legs = false; ///< something on it needs two legs at different angles
  int multiwire = -1;        ///< circuits of one number share a neutral: all or none, on different legs, on tied positions
  bool shared_neutral = false; ///< a circuit whose own poles share a neutral (a 2-pole multiwire branch circuit)
  std::vector<PlanLoad> loads;
  PerPole position_now{-1, -1, -1};  ///< place of the position that each pole is connected to now; -1: none
  PerPole own_leg{};         ///< 1-based: it needs no position but comes on with these legs (interlock, subpanel); 0: needs positions
};

struct PlanPosition {
  int leg = 1;    ///< 1-based
  int amps = 0;   ///< its own breaker; 0: it has none
  int tie = -1;   ///< positions of one number have tied handles; -1: untied
};

/// What the source can give, cord and inlet included.
struct PlanSource {
  int legs = 2;             ///< legs that are live with it, 1..3
  bool in_phase = false;    ///< one output bridged to all legs: nothing between legs works, neutrals add up
  int running = 0, starting = 0;  ///< in all; more than 0
  PerPole leg_running{}, leg_starting{};  ///< on each leg
};

enum class PinKind : std::uint8_t {
  never,  ///< this circuit gets no place
  must,   ///< it gets one
  at,     ///< it gets this one: pole 1 on `position`
};

struct PlanPin {
  PinKind kind = PinKind::must;
  int circuit = 0;
  int position = -1;
};

struct PlanProblem {
  std::vector<PlanCircuit> circuits;  ///< at most kMostPlanCircuits
  std::vector<PlanPosition> positions;
  PlanSource source;
  std::vector<PlanPin> pins;
};
inline constexpr std::size_t kMostPlanCircuits = 400;

/// What a plan is worth; the first that differs decides.
struct PlanScore {
  int life_safety = 0;       ///< life-safety loads served: the more the better
  std::int64_t importance = 0;  ///< sum of the weights of the other loads served: the more the better
  int imbalance = 0;         ///< largest less smallest leg, of the loads that run together: the less the better
  int moves = 0;             ///< poles of circuits that come to another position than now, or lose theirs: the less the better
  bool operator==(const PlanScore&) const = default;
};
/// Is `a` worth more than `b`?
[[nodiscard]] bool better(const PlanScore& a, const PlanScore& b);

/// A circuit that is carried, and where.
struct Placed {
  int circuit = 0;
  PerPole position{-1, -1, -1};  ///< of each pole; -1 where the circuit needs none (own_leg) or has no such pole
  std::vector<bool> served;      ///< for each load: all that run together; on demand only what fits on top
  bool operator==(const Placed&) const = default;
};

struct PlanSums {
  PerPole running{};          ///< loads that run together, on each leg
  PerPole extra{};            ///< largest starting less running among them, on each leg
  int total_running = 0, total_extra = 0;
  bool operator==(const PlanSums&) const = default;
};

enum class PlanEnd : std::uint8_t {
  optimal,     ///< proven: no plan is worth more
  stopped,     ///< the search was cut off; `bound` says how much more another plan could be worth
  impossible,  ///< no plan meets the pins and the limits
};

struct Plan {
  PlanEnd end = PlanEnd::impossible;
  std::vector<Placed> placed;  ///< ascending by circuit
  PlanScore score, bound;      ///< bound: no plan is worth more than this; equal to score when optimal
  PlanSums sums;
  std::uint64_t nodes = 0;     ///< partial plans looked at
};

/// What must hold of a plan, with L the legs, P its circuits:
/// 1. a pole on a position: position amps <= circuit amps (where both are known), leg within source.legs, at most one
///    pole a position; for a load that is served: the sum of breaker_ma of the circuit's loads that run
///    together, and of it on top if on demand, <= position amps (where it has one);
/// 2. a circuit of several poles is on tied positions on different legs, and so are the circuits of a multiwire
///    number, all or none of which are carried; neither is carried from a source that is in phase or has too few legs;
/// 3. on each leg and in all: sum of running of the loads that run together <= running of the source;
///    that sum + the largest (starting - running) among them <= starting of the source;
/// 4. a load on demand is served only if on each leg and in all: that sum + its running <= running, and
///    that sum + its running + the largest (starting - running) among them and it <= starting;
/// 5. pins. A load that runs together is served if its circuit is carried.
/// Limit of work: `most_nodes` partial plans. Throws Error{invalid_input} if the problem makes no sense (a source with
/// nothing to give, a pin to what is not there, two pins of one circuit that differ, legs out of range).
[[nodiscard]] Plan best_plan(const PlanProblem& problem, std::uint64_t most_nodes = 100'000'000);

}  // namespace ohmstead
