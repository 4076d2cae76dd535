#pragma once
// What is to be proved, by the record: positions that move together, the circuits they should carry, and the points that
// tell of them. It does not depend on what was seen while proving.

#include <optional>
#include <vector>

#include "backup/proof_panel.h"
#include "feed/graph.h"
#include "house/house.h"

namespace ohmstead {

/// Positions that move together and are proved together: one, or all of a tie.
struct ProofUnit {
  std::vector<std::size_t> positions;  ///< places in house.positions, by number
  std::vector<std::size_t> lines;      ///< places in the lines: what it should carry
  Id<Breaker> breaker;                 ///< whose circuit it carries, by the record (the first, where there are several)
  std::vector<Id<Load>> at_risk;       ///< loads on it that are hurt by a power loss
  bool never = false;                  ///< by the record it may not be off by itself
  bool alone = false;                  ///< off only briefly and alone
  bool never_backup = false;           ///< it may not be put on backup: overloads_shared_neutral of what it carries
};

/// A circuit, or one leg of it, as far as a point can tell: its points are live and dead together.
struct ProofLine {
  int unit = -1;                      ///< which unit carries it by the record; -1: none
  Id<Breaker> breaker;
  unsigned legs = 0;                  ///< of the utility, bit l-1 for leg l
  std::vector<std::size_t> points;    ///< places in house.points that may be looked at, the one to look at first
  bool never_backup = false;          ///< the same, of its breaker
  bool only_in_doubt = false;         ///< one leg of a unit (with a panel: of a breaker) that another line proves as a whole
  bool kept = false;                  ///< with a panel: its breaker stays on with the source; `unit` is -1 then
};

struct ProofWiring {
  Id<Source> source;
  std::vector<ProofUnit> units;           ///< by the number of their first position
  std::vector<ProofLine> lines;           ///< only points whose feed is proved or declared, and that work on an ordinary day
  std::vector<std::size_t> panel_lines;   ///< not carried, one for each leg: they tell whether the source reaches the panel
  std::optional<ProofPanel> panel;        ///< the source comes onto a panel as a whole: no units then
  std::vector<HandleRef> mains;           ///< what parts the house from the utility; empty: no such handle is recorded
  std::vector<std::vector<int>> walk;     ///< house/walking.h
  std::size_t device_room = 0;            ///< place in house.rooms
};

/// Feeds are those of the record without proofs (backup/proof_start.h). Throws Error{not_found} with one sentence: no position
/// of this source carries a circuit, and it comes onto no panel as a whole; Error{invalid_input}: its device moves by itself; and as read_proof_panel.
[[nodiscard]] ProofWiring read_proof_wiring(const House& house, const Feeds& feeds, Id<Source> source);

/// Is there anything of this source that is moved by hand, so that a session can be held?
[[nodiscard]] bool can_be_proved(const House& house, Id<Source> source);

/// Does the circuit of this breaker share a neutral (with another, or between its own poles), and is this a source whose output is on one leg
/// or bridged to all? On such a source the currents of the circuits do not cancel: the shared neutral carries their sum, and no breaker sees it.
[[nodiscard]] bool overloads_shared_neutral(const House& house, Id<Source> source, Id<Breaker> breaker);

/// Seconds that a look at a point takes once one is there (common practice, no source).
[[nodiscard]] int look_seconds(const House& house, std::size_t point);
/// Place in house.rooms; 0 when it is in none.
[[nodiscard]] std::size_t room_of_point(const House& house, std::size_t point);

}  // namespace ohmstead
