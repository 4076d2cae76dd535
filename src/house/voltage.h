#pragma once
// The voltage system of a dwelling: how many legs (hot conductors of the supply), and the phase
// angle of each. One small table for each system; everything else is computed from it.

#include <span>

#include "house/enum_text.h"

namespace ohmstead {

enum class VoltageSystem {
  split_phase_120_240,  ///< two legs 180 degrees apart, 120 V to neutral, 240 V between
  wye_120_208,          ///< two legs of a 208Y/120 V wye, 120 degrees apart
  wye_120_208_3,        ///< all three legs of a 208Y/120 V wye
  single_230,           ///< one leg, 230 V to neutral
};
OHMSTEAD_WORDS(VoltageSystem, "split_phase_120_240", "wye_120_208", "wye_120_208_3", "single_230")

/// Volts to neutral of any leg: 120 or 230.
[[nodiscard]] int volts_to_neutral(VoltageSystem system);
/// Phase angles of the legs in degrees, leg 1 first. The number of legs is its size (1..3).
[[nodiscard]] std::span<const int> leg_angles_deg(VoltageSystem system);
[[nodiscard]] int leg_count(VoltageSystem system);
/// Nominal volts between two different legs: 240 or 208 (rounded to the trade's name of it).
/// 0 where the system has one leg only.
[[nodiscard]] int volts_between_legs(VoltageSystem system);

/// One load on one leg, for the neutral current of several.
struct LegCurrent {
  double amps = 0;
  int leg = 1;                ///< 1-based
  double power_factor = 1.0;  ///< 0 < pf <= 1, lagging
};

/// Amperes in the shared neutral: the magnitude of the phasor sum of the loads' currents.
/// Split phase with equal power factors gives |Ia - Ib|; two legs of a wye give
/// sqrt(A^2 + B^2 - AB). Throws Error{invalid_input} for a leg the system does not have, a
/// negative current or a power factor outside (0, 1].
[[nodiscard]] double neutral_amps(VoltageSystem system, std::span<const LegCurrent> loads);

}  // namespace ohmstead
