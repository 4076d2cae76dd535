#pragma once
// From which round on proofs count. What was seen of a wiring that is no more, or before somebody wanted to prove it
// anew, stays in the record and proves nothing.

#include "house/house.h"

namespace ohmstead {

/// Name of the setting; its value is a number of rounds.
inline constexpr const char* kProveFrom = "prove.from";

/// Rounds in the record now, and before, prove nothing from now on. A round under way counts as finished.
void prove_anew(House& house);

/// Place in house.rounds of the first round that counts.
[[nodiscard]] std::size_t proofs_from(const House& house);

}  // namespace ohmstead
