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

/// The house as if nothing had ever been seen while proving. Which points hang on which breaker is concluded from this: in a house that
/// is wired otherwise than the record says, looks of a proof would be read wrongly.
[[nodiscard]] House without_proofs(const House& house);

}  // namespace ohmstead
