#pragma once
// What a proving session asks for, and what can be answered. Plain values; the sentences are in ask/proving_words.h.

#include <string>
#include <vector>

#include "backup/proof_board.h"

namespace ohmstead {

enum class ProofStepKind {
  caution,       ///< read this before a hand moves; `done`
  move,          ///< move these handles; `done`, or `skip`: one cannot be moved (not where they only go back)
  start_source,  ///< start the source outdoors, not joined to the house yet; `done`, or `skip`: it is not to be started
  to_source,     ///< main off, then join the source; `done`, or `skip`: not now
  look,          ///< is this point live or dead? `live`, `dead`, `not_sure`, `skip`
  to_utility,    ///< part the source from the house, then main on; `done`
  stop_source,   ///< let it cool down and stop it; `done`
  done,          ///< nothing useful is left to ask; takes no answer
  try_interlock, ///< with one handle on, try whether the other goes on, the source standing still: `blocked`, `not_blocked`, or `skip`
};
OHMSTEAD_WORDS(ProofStepKind, "caution", "move", "start_source", "to_source", "look", "to_utility", "stop_source", "done", "try_interlock")

/// Why this step comes now.
enum class ProofReason {
  start,          ///< first caution
  load_at_risk,   ///< caution: loads hurt by a power loss go off next
  source,         ///< caution: before the source is started
  carried,        ///< move, look: which position each circuit hangs on
  on_utility,     ///< look: it must be live with everything as on an ordinary day
  confirm,        ///< look: the last look did not fit; one look can be wrong
  find_cutter,    ///< move, look: it does not hang on the position that it should; on which?
  find_other,     ///< move, look: the position does not carry what it should; what does it carry?
  nothing_live,   ///< look: main off, source on, no position on backup: nothing may be live
  on_backup,      ///< move, look: it must be live from the source
  not_the_panel,  ///< look: not carried, so it must be dead while the source runs
  which_half,     ///< look: which leg of it is dead
  time_over,      ///< move: this may be off for a short time only
  put_back,       ///< move, to_utility, stop_source: all that this was needed for was seen
  danger,         ///< put back at once: the source reaches what it must not
  finished,       ///< done
  street,         ///< move, look: parted from the street, with no source: it must be dead
  interlock,      ///< try_interlock: the two may never be on together
  left_off,       ///< look: its breaker is off by the plan, so it must be dead
  which_leg,      ///< move, look: is a whole leg of the source dead, or one circuit?
};
OHMSTEAD_WORDS(ProofReason, "start", "load_at_risk", "source", "carried", "on_utility", "confirm", "find_cutter", "find_other",
               "nothing_live", "on_backup", "not_the_panel", "which_half", "time_over", "put_back", "danger", "finished",
               "street", "interlock", "left_off", "which_leg")

struct ProofStep {
  ProofStepKind kind = ProofStepKind::done;
  ProofReason reason = ProofReason::finished;
  std::vector<ProofMove> moves;      ///< move, to_source, to_utility: in this order; try_interlock: the one that is tried
  Id<Point> point;                   ///< look
  std::vector<Id<Load>> loads;       ///< caution; move: what is hurt by a power loss and loses its power with it, unless the caution came just before
  bool briefly = false;              ///< move: for kProofBriefSeconds at most
  ProofState after;                  ///< where everything stands when this is done (look: stands now)
  std::string caution;               ///< caution: which one, for the record; try_interlock: the same
  bool operator==(const ProofStep&) const = default;
};

/// Longest time that a circuit that may be off briefly stays off.
inline constexpr int kProofBriefSeconds = 300;

enum class ProofAnswerKind { done, live, dead, not_sure, skip, blocked, not_blocked };
OHMSTEAD_WORDS(ProofAnswerKind, "done", "live", "dead", "not_sure", "skip", "blocked", "not_blocked")

struct ProofAnswer {
  ProofAnswerKind kind = ProofAnswerKind::done;
  Method method = Method::look;
  std::string at;      ///< UTC now
  std::string who;     ///< may be empty
  HandleRef handle{};  ///< skip of a move of several handles: the one that cannot be moved; none: the first. The others were not moved
};

/// May this step be answered so?
[[nodiscard]] bool fits(const ProofStep& step, ProofAnswerKind answer);

}  // namespace ohmstead
