#pragma once
// A proving session of a transfer device as a state machine without input or output:
//   step() -> a person does it -> answer() -> step() ...
// Its whole state is in rows of the house (proof rounds, opened handles, observations, settings), so a session that was
// interrupted goes on exactly where it was. The caller writes house() to disk before it shows the next step.

#include <memory>
#include <vector>

#include "backup/proof_plan.h"
#include "feed/feeds.h"

namespace ohmstead {

class ProvingSession {
 public:
  /// Precondition: the house is sound; feeds are concluded from without_proofs(house) (backup/proof_start.h). Throws as
  /// read_proof_wiring (backup/proof_wiring.h).
  ProvingSession(House house, Feeds feeds, Id<Source> source);
  ~ProvingSession();
  ProvingSession(ProvingSession&&) noexcept;
  ProvingSession& operator=(ProvingSession&&) noexcept;

  [[nodiscard]] const House& house() const;
  [[nodiscard]] const ProofStep& step() const;
  [[nodiscard]] ProofProgress progress() const;
  /// Where everything stands now.
  [[nodiscard]] ProofState now() const;
  [[nodiscard]] const ProofWiring& wiring() const;

  /// Takes the answer to step(). Throws Error{invalid_input} and changes nothing if the step cannot be answered so.
  void answer(const ProofAnswer& answer);

  /// Takes back the last answer that still stands; step() is then what it was before it. Looks stay in the record as
  /// withdrawn. False when there is nothing to take back. A caution, or something skipped, can be taken back only in the run
  /// in which it was answered.
  bool undo();

  /// The time now, UTC: a circuit that may be off briefly is put back first when its time is over.
  void now_is(const std::string& at);

  /// What could not be moved, or was not to be started, may be asked for again.
  void forget_skipped();

 private:
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace ohmstead
