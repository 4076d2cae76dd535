#pragma once
// What every player of a proving session counts, and the playing itself.

#include <random>

#include "backup/proving.h"

namespace ohmstead::test {

struct ProverCounts {
  explicit ProverCounts(double reading_error, unsigned seed) : error(reading_error), random(seed) {}
  double error;  ///< share of the readings that is wrong
  std::mt19937 random;
  int looks = 0, moves = 0, seconds = 0;
  int unlawful = 0;  ///< steps that no person may be asked for; each prover says which
};

/// Answers until the session is done; false if that takes more than `most` answers.
template <class P>
bool prove_to_the_end(ProvingSession& session, P& prover, int most = 3000) {
  for (int i = 0; i < most; ++i) {
    if (session.step().kind == ProofStepKind::done) return true;
    session.answer(prover.answer(session));
  }
  return false;
}

}  // namespace ohmstead::test
