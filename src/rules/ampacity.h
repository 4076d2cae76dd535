#pragma once
// What a conductor may carry where it lies and between the terminals it has, and the breaker that may stand before it:
// NFPA 70 310.16 with correction and adjustment, 110.14(C), 240.4(B) and (D), 334.80. Tables: rules/conductor.h.

#include "rules/calculation.h"
#include "rules/conductor.h"

namespace ohmstead {

struct AmpacityCase {
  WireSize size;
  WireMaterial metal = WireMaterial::copper;
  int insulation_c = 75;    ///< 60, 75 or 90
  double ambient_c = 30;    ///< air around it, -40 to 60
  int conductors = 3;       ///< that carry current in one cable or raceway
  int terminals_c = 0;      ///< 60 or 75 as marked; 0: not known, by 110.14(C): 60 up to 1 AWG, else 75
  bool nm_cable = false;    ///< nonmetallic-sheathed cable: corrected from 90 C, never above the 60 C column (334.80)
  bool receptacles = false; ///< a branch circuit with more than one receptacle: no rounding up (240.4(B)(1))
  bool motor = false;       ///< a motor or compressor, whose breaker goes by its nameplate (240.4(G)): no limit of 240.4(D)
  int edition = kNewestEdition;
};

struct AmpacityAnswer {
  double amps = 0;         ///< what it may carry
  int breaker_amps = 0;    ///< largest standard breaker before it; 0: none, or above 400 A
  double continuous_amps = 0;  ///< most of a load that runs three hours or more on that breaker (80 %)
  Calculation calculation;
};

/// Throws Error{invalid_input}: no such column or edition, a size that has no ampacity in the table, air too hot for the insulation.
[[nodiscard]] AmpacityAnswer ampacity(const AmpacityCase& given);

}  // namespace ohmstead
