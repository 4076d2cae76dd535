#pragma once
// A source that comes onto a panel as a whole: through a backfed breaker with an interlock, or a whole-house switch. What is
// moved and tried to prove it, and which of the panel's circuits stay on. Method: docs/backup.md.

#include <vector>

#include "backup/source_reach.h"
#include "house/house.h"

namespace ohmstead {

struct ProofWiring;

struct ProofMove {
  HandleRef handle;  ///< position (of a tie: each), main or breaker
  Throw to = kOff;
  bool operator==(const ProofMove&) const = default;
};

/// With `on` on, an interlock must not let `tried` go on.
struct ProofTry {
  Id<Interlock> interlock;
  HandleRef on, tried;
  bool way = false;  ///< it is tried whether the source's breaker goes on; else whether the main does
  bool operator==(const ProofTry&) const = default;
};

struct ProofPanel {
  std::vector<ProofMove> part;        ///< parts the panel from the street: mains off, or whole-house positions to backup (the source stands still then)
  std::vector<ProofMove> ways;        ///< then lets the source in: backfed breakers on; none with a whole-house switch
  std::vector<ProofTry> tries;
  std::vector<Id<Breaker>> kept;      ///< stay on with the source: by the kept plan, else those with something wished for
  std::vector<Id<Breaker>> rest;      ///< all others behind the source; each of a tie
  bool by_plan = false;               ///< there is a kept plan
  [[nodiscard]] bool is_kept(Id<Breaker> breaker) const;
};

/// Does this source come on so, and has it no transfer position with a circuit of its own?
[[nodiscard]] bool is_panel_proof(const House& house, Id<Source> source);

/// Fills `wiring` for such a source: its panel, and lines, each of which is the points of one breaker that works or fails together. Feeds are
/// those of the record without proofs. Throws Error{invalid_input}: no interlock is written down, the device moves by itself; Error{not_found}: nothing is
/// kept or wished for, or no point behind it is known.
void read_proof_panel(const House& house, const Feeds& feeds, ProofWiring& wiring);

}  // namespace ohmstead
