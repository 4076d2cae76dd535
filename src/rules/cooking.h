#pragma once
// Demand of household cooking appliances, NFPA 70 table 220.55 and its notes 1 to 3. Of the table six cells were seen (secondary:
// A1, B3, C1, C8, C10), the others are from memory.

#include <span>
#include <string>

namespace ohmstead {

struct CookingDemand {
  double va = 0;     ///< in tenths of a kilovoltampere, as the examples of annex D print it
  std::string how;   ///< "2 of 4 kW and 1 of 5.1 kW: 13.1 kW x 55 % (column B)"
};

/// Demand of appliances with these nameplates in VA, each above 1,750. The smaller of column C and, where all are up to 8.75 kW,
/// columns A and B (note 3). Throws Error{invalid_input}: none, more than ten, one of 1,750 VA or less (it counts at its nameplate
/// elsewhere) or above 27 kW.
[[nodiscard]] CookingDemand cooking_demand(std::span<const double> ratings_va);

}  // namespace ohmstead
