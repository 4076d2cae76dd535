#pragma once
// What was seen so far while proving, and in which state of the handles. Made anew from the rows of the house at every step.

#include <functional>
#include <string>
#include <vector>

#include "backup/proof_wiring.h"

namespace ohmstead {

// Names of settings of a session.
inline constexpr const char* kProveCaution = "prove.caution.";     ///< + what: it was read
inline constexpr const char* kProveStuck = "prove.stuck.";         ///< + position id: it cannot be moved, or may not be
inline constexpr const char* kProveNoSource = "prove.no_source";   ///< the source is not to be started, or the main not turned off
inline constexpr const char* kProveTry = "prove.try.";             ///< + proof_try_name: "blocked" or "not blocked"
inline constexpr const char* kProveUndone = "prove.undone.";       ///< + round id: the move was taken back

/// Where everything stands during a round.
struct ProofState {
  bool utility = true;                ///< the main is on (with a whole-house switch: it stands at utility)
  bool running = false;               ///< the source runs; it is joined to the transfer device while the main is off only
  std::vector<Throw> units;           ///< kOff, kUtilitySide or kBackupSide, in the order of the units
  std::vector<Id<Breaker>> off;       ///< branch breakers that are off
  bool let_in = false;                ///< with a panel: what lets the source in is on (the source may still stand still)
  bool operator==(const ProofState&) const = default;
  [[nodiscard]] bool on_backup() const;    ///< some unit is
  [[nodiscard]] bool all_on_utility() const;
};

struct ProofReading {
  std::size_t line = 0, point = 0;    ///< place in the lines, in house.points
  std::size_t state = 0;              ///< place in ProofBoard::states
  bool dead = false;
};

struct ProofBoard {
  const House& house;
  const ProofWiring& wiring;
  std::vector<std::size_t> rounds;    ///< places in house.rounds that count, oldest first
  std::vector<ProofState> states;     ///< of these
  std::vector<ProofReading> readings; ///< oldest first; not of points that are dead for a reason of their own
  std::vector<bool> spoiled;          ///< of house.points: not to be looked at: skipped, twice not sure, or dead for a reason of its own
  std::vector<int> not_sure;          ///< of house.points: how often nobody was sure
  ProofState now;
  int round = -1;                     ///< place in `rounds` where the next look belongs; -1: a new one must be begun
  std::string time;                   ///< now, UTC; may be empty
  std::size_t here = 0;               ///< place in house.rooms where the person is, as far as looks tell

  [[nodiscard]] ProofState ordinary() const;
  [[nodiscard]] bool said(const std::string& setting) const;
  /// May this unit be moved to off?
  [[nodiscard]] bool may_be_off(std::size_t unit) const;
  /// Can any of its positions not be moved?
  [[nodiscard]] bool is_stuck(std::size_t unit) const;
  /// The point of a line to look at next in the state of now, or -1: another one than was seen there before, if there is one and
  /// `another` is wanted.
  [[nodiscard]] long point_of(std::size_t line, bool another = false) const;
  /// Seconds for which this has held without a break, until `time`; 0 where times are missing.
  [[nodiscard]] long lasting(const std::function<bool(const ProofState&)>& holds) const;
};

/// Name of a try in the settings: the interlock, and the handle that was tried.
[[nodiscard]] std::string proof_try_name(const ProofTry& one);

[[nodiscard]] ProofBoard read_proof_board(const House& house, const ProofWiring& wiring, const std::string& time = "");

}  // namespace ohmstead
