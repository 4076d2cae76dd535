#pragma once
// What the looks and tries of a proving session tell where the source comes onto a panel as a whole. Pure counting; the rules and their
// reasons are in docs/backup.md.

#include <string>
#include <vector>

#include "backup/proof_board.h"
#include "backup/proof_verdict.h"

namespace ohmstead {

enum class ProofResult { not_yet, proved, wrong };
OHMSTEAD_WORDS(ProofResult, "not_yet", "proved", "wrong")

/// What is wrong with a circuit of the panel.
enum class CircuitFault {
  none,
  from_street,      ///< live with the panel parted from the street, no source, and its own breaker off: it is fed past them
  dead_anyway,      ///< dead on an ordinary day too
  dead_on_source,   ///< its breaker is on, its leg is live, and it is dead
  leg_dead,         ///< its leg is dead from the source
  needs_both,       ///< it needs both legs and does not work, though each is live; or it is not known which leg is dead
  live_though_off,  ///< its breaker is off, and it is live from the source: it hangs on another breaker
  leg_or_circuit,   ///< dead from the source, and nothing else tells whether the whole leg is
};
OHMSTEAD_WORDS(CircuitFault, "none", "from_street", "dead_anyway", "dead_on_source", "leg_dead", "needs_both", "live_though_off", "leg_or_circuit")

enum class PanelFault {
  none,
  nothing_live,  ///< the source gives nothing to the panel
  one_leg_dead,  ///< 120 V only reaches one leg
  legs_same,     ///< each leg is live, and nothing that needs both works: one output is bridged to both
  street_stays,  ///< parted from the street, and with no source, circuits are live as long as their breakers are on: the panel itself is
};
OHMSTEAD_WORDS(PanelFault, "none", "nothing_live", "one_leg_dead", "legs_same", "street_stays")

enum class TryResult { not_yet, blocked, not_blocked };
OHMSTEAD_WORDS(TryResult, "not_yet", "blocked", "not_blocked")

struct CircuitProof {
  Id<Breaker> breaker;  ///< the first of a tie
  bool kept = false;    ///< stays on with the source; else it must be off
  ProofResult result = ProofResult::not_yet;
  CircuitFault fault = CircuitFault::none;
  bool no_point = false;   ///< no point of it is known or could be looked at
  std::string last_seen;   ///< UTC; empty: never
  bool operator==(const CircuitProof&) const = default;
};

struct PanelProof {
  std::vector<ProofTry> tries;
  std::vector<TryResult> tried;        ///< of each try
  std::vector<CircuitProof> circuits;  ///< kept ones first, in the order of the house
  PanelFault fault = PanelFault::none;
  std::vector<Id<Breaker>> which;      ///< one_leg_dead, street_stays: what was seen dead, or live
  bool ordinary_seen = false;          ///< each leg was seen live with everything as on an ordinary day
  bool by_plan = false;
  ProofResult result = ProofResult::not_yet;
  bool operator==(const PanelProof&) const = default;
  /// The source and the street can meet: an interlock that does not block, or something that stays live from the street.
  [[nodiscard]] bool danger() const;
  [[nodiscard]] bool all_blocked() const;
};

class PanelVerdict {
 public:
  /// Precondition: board.wiring.panel.
  explicit PanelVerdict(const ProofBoard& board);

  // Votes of a line: on an ordinary day; parted, without source, its breaker on, and off; with the source, its breaker on, and off.
  [[nodiscard]] const Votes& ordinary(std::size_t line) const { return ordinary_[line]; }
  [[nodiscard]] const Votes& street(std::size_t line) const { return street_[line]; }
  [[nodiscard]] const Votes& past(std::size_t line) const { return past_[line]; }
  [[nodiscard]] const Votes& on(std::size_t line) const { return on_[line]; }
  [[nodiscard]] const Votes& off(std::size_t line) const { return off_[line]; }

  [[nodiscard]] TryResult tried(const ProofTry& one) const;
  [[nodiscard]] bool danger() const;
  /// Legs (bit l-1) on which something was live from the street; is it known of a circuit that it is fed past its breaker?
  [[nodiscard]] unsigned street_legs() const { return street_legs_; }
  [[nodiscard]] bool past_found() const;
  /// Legs (bit l-1) that were seen live from the source; that are dead from it; that seem dead, and one more circuit must tell.
  [[nodiscard]] unsigned live_legs() const { return live_; }
  [[nodiscard]] unsigned dead_legs() const { return dead_; }
  [[nodiscard]] unsigned doubtful_legs() const { return doubtful_; }
  [[nodiscard]] bool legs_same() const { return same_; }
  [[nodiscard]] CircuitFault fault_of(std::size_t line) const;
  [[nodiscard]] bool is_proved(std::size_t line) const;

 private:
  void count();
  void judge_legs();
  [[nodiscard]] bool halves_live(std::size_t whole) const;

  const ProofBoard& board_;
  std::vector<Votes> ordinary_, street_, past_, on_, off_;
  unsigned street_legs_ = 0, live_ = 0, dead_ = 0, doubtful_ = 0;
  bool same_ = false;
};

[[nodiscard]] PanelProof panel_proof(const ProofBoard& board);

}  // namespace ohmstead
