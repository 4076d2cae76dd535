#pragma once
// What the neighbours of a unit say about its breaker. A unit hangs with one of the units that were
// found already, the likelier the nearer it is of kin (trace/kin.h), or on a breaker not found
// nearby yet. What was seen live with a breaker open makes that breaker less likely for its kin.

#include <algorithm>
#include <span>
#include <vector>

#include "trace/belief.h"
#include "trace/kin.h"

namespace ohmstead {

class Votes {
 public:
  /// Does a unit have a vote? One that was never seen dead has none.
  [[nodiscard]] static bool counts(const Unit& unit) { return std::ranges::any_of(unit.readings, &Reading::dead); }

  /// `beliefs` are the units' distributions from their own readings alone, so that two neighbours
  /// cannot talk each other into certainty. Those of units without a vote are not looked at.
  Votes(const Readings& readings, std::span<const Way> ways, const Kin& kin, std::span<const std::vector<Candidate>> beliefs);

  /// Mixes the votes into a unit's prior weights. Nothing changes while nothing was seen.
  void mix_into(std::vector<double>& weights, std::size_t unit) const;

 private:
  void count(const Readings& readings, std::span<const Way> ways, std::span<const std::vector<Candidate>> beliefs);
  void sum_up_others();
  [[nodiscard]] std::vector<double> new_for(std::size_t unit, std::span<const double> base) const;

  const Kin& kin_;
  std::size_t ways_;
  std::vector<std::vector<double>> vote_;        ///< [unit][way]; empty for a unit never seen dead
  std::vector<std::vector<double>> group_vote_;  ///< [group][way]: sum over its units; empty for none
  std::vector<std::vector<char>> live_;          ///< [unit][way]: seen live with it open
  std::vector<std::vector<double>> group_live_;  ///< [group][way]: how many units
  /// [group][way]: what all other groups say, which is the same for all its units.
  std::vector<std::vector<double>> votes_of_others_, log_live_of_others_;
  std::vector<double> own_odds_, own_log_apart_;  ///< of the groups: between two units of it
  std::vector<double> found_, found_own_;        ///< [way]: units found on it; appliances among them
};

}  // namespace ohmstead
