#pragma once
// What the looks of a proving session tell: which position each circuit hangs on, what it does on backup, whether the source
// reaches what it must not. Pure counting; the rules and their reasons are in docs/backup.md.

#include <vector>

#include "backup/proof_board.h"

namespace ohmstead {

/// How far a reading that contradicts the plan must be ahead before a fault is said: one look can be wrong, and so can its repetition.
inline constexpr int kSureOfFault = 3;
/// Most looks at one circuit in one state; then it is left as unclear.
inline constexpr int kMostLooksInOneState = 9;

/// What cuts a circuit: a unit (its place), or one of these.
inline constexpr int kNothingCuts = -1;  ///< it stays live whatever position is off
inline constexpr int kNeverFed = -2;     ///< it is dead on the utility with everything on

/// Readings of one line on the utility, weighed.
struct Cutter {
  std::vector<int> wrong;         ///< readings that speak against each unit; then against kNothingCuts, then kNeverFed
  int planned = kNothingCuts;     ///< by the record
  bool sure = false;              ///< settled: `is` cuts it
  int is = kNothingCuts;          ///< what the readings fit best; by the record where they fit equally well
  /// What is not ruled out yet, `is` among it; what must still be told apart.
  std::vector<int> open;
  [[nodiscard]] bool right() const { return sure && is == planned; }
  [[nodiscard]] bool fault() const { return sure && is != planned; }
  [[nodiscard]] bool doubtful() const { return !sure && against(planned) > 0; }
  [[nodiscard]] int against(int hypothesis) const;
};

/// Would a line that this cuts be dead with these units off?
[[nodiscard]] bool dead_when_off(int cutter, const std::vector<Throw>& units);

/// Votes of the readings of one line in states of one kind.
struct Votes {
  int live = 0, dead = 0;
  /// Settled as expected; settled against it; else more looks are wanted if there are any votes.
  [[nodiscard]] bool as_expected(bool expect_live) const { return (expect_live ? live - dead : dead - live) >= 1; }
  [[nodiscard]] bool against(bool expect_live) const { return (expect_live ? dead - live : live - dead) >= kSureOfFault; }
  [[nodiscard]] int count() const { return live + dead; }
};

/// On the utility: the source does not run, some units may be off, none is on backup.
[[nodiscard]] bool is_on_utility(const ProofState& state);
/// The main is off, the source runs, every unit is on the utility side or off: nothing may be live.
[[nodiscard]] bool is_back_check(const ProofState& state);
/// The main is off, the source runs, some units are on backup.
[[nodiscard]] bool is_backup_check(const ProofState& state);

class Verdict {
 public:
  explicit Verdict(const ProofBoard& board);

  [[nodiscard]] const Cutter& cutter(std::size_t line) const { return cutters_[line]; }
  /// Votes with the main off and nothing on backup; and with the unit of the line (or any) on backup.
  [[nodiscard]] const Votes& back(std::size_t line) const { return back_[line]; }
  [[nodiscard]] const Votes& backup(std::size_t line) const { return backup_[line]; }
  /// Does the unit carry none of the circuits that it should, as far as is settled?
  [[nodiscard]] bool empty_handed(std::size_t unit) const;
  /// Lines that this unit cuts although the record says otherwise.
  [[nodiscard]] std::vector<std::size_t> others_of(std::size_t unit) const;
  /// The unit that decides whether a line is on backup: what cuts it, else what should carry it; -1: none.
  [[nodiscard]] int unit_on_backup(std::size_t line) const;

 private:
  void weigh(std::size_t line);

  const ProofBoard& board_;
  std::vector<Cutter> cutters_;
  std::vector<Votes> back_, backup_;
};

}  // namespace ohmstead
