#pragma once
// What is likely before anything was opened: kind and rating, and the words of the old directory,
// as far as they have proved right so far. Weights are domain experience (no source); they only
// decide what is asked first and how many looks a proof takes, never what a reading means.

#include <span>
#include <string_view>
#include <vector>

#include "trace/belief.h"
#include "trace/kin.h"
#include "trace/label_words.h"

namespace ohmstead {

class Prior {
 public:
  Prior(const House& house, const Readings& readings, std::span<const Way> ways);

  /// Weight of each way for one unit, in any scale; 0 where its kind forbids it: too few poles, a
  /// panel's feeder, a backfed breaker.
  [[nodiscard]] std::vector<double> weights(std::size_t unit) const;

  /// Learns how far the old directory can be trusted. `beliefs` are the units' distributions, best
  /// first, from their own readings. Each label gains or loses by what was found on its breaker,
  /// and all labels by each.
  void learn(std::span<const std::vector<Candidate>> beliefs);

 private:
  [[nodiscard]] double by_kind(std::size_t unit, std::size_t way) const;

  const House& house_;
  const Readings& readings_;
  std::span<const Way> ways_;
  std::vector<Sort> sorts_;                ///< of the units
  std::vector<std::vector<double>> fits_;  ///< [unit][way]
  std::vector<double> trust_;              ///< of the ways' labels: 1 as before anything was seen, 0 says nothing
};

/// Weights of one unit, as above, before anything was learned.
[[nodiscard]] std::vector<double> prior_weights(const House& house, std::span<const Way> ways, const Unit& unit);

/// How the words of an old label fit a unit: 1 says nothing, more than 1 names its room, its kind or
/// the thing itself, less than 1 names something else.
[[nodiscard]] double label_fit(const House& house, std::string_view label, const Unit& unit);

}  // namespace ohmstead
