#pragma once
// What a shared neutral carries, as a phasor sum with its steps (house/voltage.h computes it).

#include <vector>

#include "house/voltage.h"
#include "rules/calculation.h"

namespace ohmstead {

struct NeutralCase {
  VoltageSystem system = VoltageSystem::split_phase_120_240;
  std::vector<LegCurrent> loads;  ///< one at least
};

struct NeutralAnswer {
  double amps = 0;
  double same_leg_amps = 0;  ///< with every load on leg 1, or from a source whose legs are in phase
  Calculation calculation;
};

/// Throws Error{invalid_input}: no load, a leg that the system does not have, a current below 0, a power factor outside (0, 1].
[[nodiscard]] NeutralAnswer neutral_current(const NeutralCase& given);

}  // namespace ohmstead
