#pragma once
// Random planning problems of all kinds, sound but not friendly: ties, multiwire pairs, several poles, pins,
// loads on demand, connections that are there, sources in phase or with one leg, circuits on their own legs.

#include <cstdint>

#include "backup/plan.h"

namespace ohmstead {

struct PlanMaking {
  int least_circuits = 8, most_circuits = 40;
  int least_positions = 4, most_positions = 16;
  bool odd_sources = true;   ///< in phase, one leg, three legs now and then
  bool pins = true;
  bool own_legs = true;      ///< now and then circuits that need no position
};
/// The same seed gives the same problem.
[[nodiscard]] PlanProblem random_plan_problem(std::uint64_t seed, const PlanMaking& making = {});

}  // namespace ohmstead
