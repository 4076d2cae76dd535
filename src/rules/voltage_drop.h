#pragma once
// Voltage drop of a circuit: by the resistance table, and beside it by resistivity and area, so that one checks the other;
// with a conduit given also by the impedance table and the power factor.

#include <optional>

#include "rules/calculation.h"
#include "rules/conductor.h"

namespace ohmstead {

struct DropCase {
  WireSize size;
  WireMaterial metal = WireMaterial::copper;
  double length_ft = 0;      ///< one way
  double amps = 0;
  double volts = 120;        ///< between the two conductors that carry it; three phases: between phases
  int phases = 1;            ///< 1: out and back (2 L); 3: sqrt(3) L
  double conductor_c = 75;   ///< of the wire itself under load
  std::optional<Make> make;  ///< none: solid up to 10 AWG, stranded above (common practice)
  std::optional<Conduit> conduit;  ///< none: direct-current table alone
  double power_factor = 1;   ///< 0 < pf <= 1, lagging; counts with a conduit
};

struct DropAnswer {
  double volts = 0, percent = 0;        ///< by the table; with a conduit by the impedance table
  double formula_volts = 0;             ///< by resistivity and area of a solid conductor
  double longest_ft = 0;                ///< one way, at kGoodPercent
  std::string size_enough;              ///< smallest size of that metal within kGoodPercent, not below this one; empty: none in the tables
  Calculation calculation;
};

/// Advice, not a duty: 3 % to the farthest outlet of a branch circuit, 5 % with the feeder (informational notes of NFPA 70 210.19
/// and 215.2, text).
inline constexpr double kGoodPercent = 3, kGoodPercentWithFeeder = 5;

/// Throws Error{invalid_input} for lengths, currents and volts that are not above 0 or make no sense, other phases than 1 and 3, a
/// power factor outside (0, 1], a temperature outside of -40 to 90 C, and sizes that a table does not have.
[[nodiscard]] DropAnswer voltage_drop(const DropCase& given);

}  // namespace ohmstead
