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

struct UnitWords;

class Prior {
 public:
  Prior(const House& house, const Readings& readings, std::span<const Way> ways, const Kin& kin);

  /// Weight of each way for one unit, in any scale; 0 where its kind forbids it: too few poles, a
  /// panel's feeder, a backfed breaker.
  [[nodiscard]] std::vector<double> weights(std::size_t unit) const;

  /// Learns how far the old directory can be trusted. `likeliest` are the units' most believed
  /// candidates, from their own readings. Each label gains or loses by what was found on its breaker,
  /// and all labels by each.
  void learn(std::span<const Candidate> likeliest);

 private:
  /// What a unit fits, for each way. Units that the labels cannot tell apart share one.
  using Fits = std::vector<std::size_t>;  ///< places in levels_
  [[nodiscard]] Fits fits_of(const UnitWords& unit, const std::vector<std::vector<LabelSays>>& says);
  void weigh_levels(std::span<const double> trust);

  std::vector<std::vector<double>> by_kind_;  ///< [unit][way]: weight before the labels are read
  std::vector<Fits> fits_;
  std::vector<std::size_t> fits_of_unit_;
  std::vector<double> levels_;                ///< all fits that occur: a few
  std::vector<std::vector<double>> weight_;   ///< [way][level]: what a fit counts, as far as the way's label is trusted
};

/// Weights of one unit, as above, before anything was learned.
[[nodiscard]] std::vector<double> prior_weights(const House& house, std::span<const Way> ways, const Unit& unit);

/// How the words of an old label fit a unit: 1 says nothing, more than 1 names its room, its kind or
/// the thing itself, less than 1 names something else.
[[nodiscard]] double label_fit(const House& house, std::string_view label, const Unit& unit);

}  // namespace ohmstead
