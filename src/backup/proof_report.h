#pragma once
// What was proved of each position, and what is wrong with it: concluded anew from the looks of the proving sessions.

#include <optional>
#include <string>
#include <vector>

#include "backup/proof_panel_verdict.h"
#include "backup/proof_verdict.h"
#include "feed/feeds.h"

namespace ohmstead {

/// What is wrong with a unit.
enum class ProofFault {
  none,
  exchanged,           ///< with `other`: each carries the other's circuit
  other_circuit,       ///< it carries `breakers` instead of its own
  also_other_circuit,  ///< it carries its own and `breakers` too
  carries_nothing,     ///< its circuit is not on it, and nothing was found that is
  fed_another_way,     ///< its circuit is on it, and stays live when it is off
  not_cut,             ///< its circuit stays live when it is off: one of the two above, not told apart yet
  backup_side_only,    ///< dead on utility, live on backup
  dead_both_ways,      ///< dead on utility and on backup
  dead_on_utility,     ///< not looked at on backup yet
  utility_side_only,   ///< dead on backup
  one_leg,             ///< both halves live on backup, and what needs both does not work: they are on one leg
  half_dead,           ///< one half is dead on backup
  unclear,             ///< the answers fit nothing simple
  turned_round,        ///< dead on backup, and the panel is live then: its two wires are exchanged
};
OHMSTEAD_WORDS(ProofFault, "none", "exchanged", "other_circuit", "also_other_circuit", "carries_nothing", "fed_another_way", "not_cut",
               "backup_side_only", "dead_both_ways", "dead_on_utility", "utility_side_only", "one_leg", "half_dead", "unclear", "turned_round")

/// What is missing before it is proved.
enum class ProofMissing {
  no_point,      ///< no point on it is known by proof or declaration, or none could be looked at
  may_not_be_off, ///< it may not be off by itself, or cannot be moved
  utility,       ///< which position cuts it
  backup,        ///< live from the source
  nothing_live,  ///< nothing is live with the main off and nothing on backup
  panel,         ///< what is not carried is dead while the source runs
  never_backup,  ///< it may not be put on backup: its shared neutral would carry more than it is made for
};
OHMSTEAD_WORDS(ProofMissing, "no_point", "may_not_be_off", "utility", "backup", "nothing_live", "panel", "never_backup")

struct UnitProof {
  std::vector<std::size_t> positions;   ///< places in house.positions
  ProofResult result = ProofResult::not_yet;
  ProofFault fault = ProofFault::none;
  int other = -1;                       ///< exchanged: the unit
  std::vector<Id<Breaker>> breakers;    ///< what it really carries, where that is not what the record says
  std::vector<ProofMissing> missing;    ///< not_yet
  std::string last_seen;                ///< UTC of the newest look at its circuit; empty: none
  bool operator==(const UnitProof&) const = default;
};

struct ProofReport {
  std::vector<UnitProof> units;
  std::optional<PanelProof> panel;      ///< the source comes onto a panel as a whole: there are no units then
  /// Points that were live with the main off although nothing was on backup: the source reaches them past the positions.
  std::vector<std::size_t> backfed;
  /// Points that are not carried and were live while the source ran: it reaches the panel.
  std::vector<std::size_t> panel_live;
  bool nothing_fed_from_two = false;    ///< both were looked for on every leg, and not found; with a panel: nothing was live when parted, and the interlocks block
  bool operator==(const ProofReport&) const = default;
};

[[nodiscard]] ProofReport proof_report(const ProofBoard& board);

/// What was proved of the transfer device of this source. Feeds and errors as for ProvingSession (backup/proving.h).
[[nodiscard]] ProofReport proved(const House& house, const Feeds& feeds, Id<Source> source);

/// The wiring as it was found: positions that were found to carry another circuit, changed. Nothing where nothing is to be changed.
/// The proofs made so far go on counting: the wiring is the same, only the record of it was wrong.
[[nodiscard]] std::optional<House> recorded_as_found(const House& house, const ProofReport& report);

}  // namespace ohmstead
