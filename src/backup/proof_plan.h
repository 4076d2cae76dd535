#pragma once
// What to ask next while proving. Everything it may look at is in the board. Method: docs/backup.md.

#include "backup/proof_series.h"
#include "backup/proof_step.h"
#include "backup/proof_verdict.h"

namespace ohmstead {

[[nodiscard]] ProofStep next_proof_step(const ProofBoard& board);
/// The same where the source comes onto a panel as a whole (board.wiring.panel); next_proof_step calls it.
[[nodiscard]] ProofStep next_panel_step(const ProofBoard& board);

/// The rounds on the utility that are planned for a house in which everything is wired as it should be. Units that may not be
/// off, or of which no point is known, are in no round.
[[nodiscard]] Series proof_series(const ProofBoard& board);

/// How far a session has come, in looks.
struct ProofProgress {
  int looks = 0;        ///< made
  int looks_left = 0;   ///< if everything is right
  int moves_left = 0;   ///< steps at the handles, if everything is right
  bool operator==(const ProofProgress&) const = default;
};
[[nodiscard]] ProofProgress proof_progress(const ProofBoard& board);
/// The same with a panel; proof_progress calls it.
[[nodiscard]] ProofProgress panel_progress(const ProofBoard& board);

}  // namespace ohmstead
