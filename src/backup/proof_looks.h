#pragma once
// Internal to next_proof_step: looks that are worth making, and which of them comes next.

#include <vector>

#include "backup/proof_step.h"

namespace ohmstead::backup_detail {

/// A look that is worth making in the state of now.
struct DueLook {
  std::size_t line = 0;
  std::size_t point = 0;
  ProofReason reason = ProofReason::carried;
};

struct WantedLook {
  std::size_t line = 0;
  ProofReason reason = ProofReason::carried;
  bool another = false;  ///< at another point of the line, if there is one
};

/// If a look at this line in this state is still possible.
void add_due(const ProofBoard& board, std::vector<DueLook>& due, const ProofState& state, const WantedLook& wanted);
[[nodiscard]] int looks_in(const ProofBoard& board, std::size_t line, const ProofState& state);
/// The last look at it was dead, in the state of now.
[[nodiscard]] bool last_was_dead(const ProofBoard& board, std::size_t line);
/// The nearest of them, on the shortest walk through all.
[[nodiscard]] ProofStep look_at(const ProofBoard& board, const std::vector<DueLook>& due);

}  // namespace ohmstead::backup_detail
