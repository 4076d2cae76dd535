#pragma once
// What the neighbours of a unit say about its breaker. A unit hangs with one of the units that were
// found already, the likelier the nearer it is of kin (trace/kin.h), or on a breaker not found
// nearby yet. What was seen live with a breaker open makes that breaker less likely for its kin.

#include <span>
#include <vector>

#include "trace/belief.h"
#include "trace/kin.h"

namespace ohmstead {

class Votes {
 public:
  /// `beliefs` are the units' distributions from their own readings alone, so that two neighbours
  /// cannot talk each other into certainty.
  Votes(const Readings& readings, std::span<const Way> ways, const Kin& kin, std::span<const std::vector<Candidate>> beliefs);

  /// Mixes the votes into a unit's prior weights. Nothing changes while nothing was seen.
  void mix_into(std::vector<double>& weights, std::size_t unit) const;

 private:
  [[nodiscard]] std::vector<double> new_for(std::size_t unit, std::span<const double> base) const;

  const Readings& readings_;
  const Kin& kin_;
  std::size_t ways_;
  std::vector<std::vector<double>> vote_;        ///< [unit][way]; empty for a unit never seen dead
  std::vector<std::vector<double>> group_vote_;  ///< [group][way]: sum over its units; empty for none
  std::vector<std::vector<char>> live_;          ///< [unit][way]: seen live with it open
  std::vector<std::vector<double>> group_live_;  ///< [group][way]: how many units
  std::vector<std::vector<double>> odds_, log_apart_;  ///< by two groups: of sharing a breaker; of being apart
  std::vector<double> found_, found_own_;        ///< [way]: units found on it; appliances among them
};

}  // namespace ohmstead
