#pragma once
// What is likely before anything was opened: kind and rating, the words of the old directory, and
// what was found for the neighbours in the room. Weights are domain experience (no source); they
// only decide what is asked first and how many looks a proof takes, never what a reading means.

#include <span>
#include <string_view>
#include <vector>

#include "trace/belief.h"

namespace ohmstead {

/// Weight of each way for one unit, in any scale; 0 where its kind forbids it: too few poles, a
/// panel's feeder, a backfed breaker.
[[nodiscard]] std::vector<double> prior_weights(const House& house, std::span<const Way> ways, const Unit& unit);

/// How the words of an old label fit a unit: 1 says nothing, more than 1 names its room, its kind or
/// the thing itself, less than 1 names something else.
[[nodiscard]] double label_fit(const House& house, std::string_view label, const Unit& unit);

/// Mixes into `weights` what is believed of the units in the same room and of the same sort
/// (lights and alarms; the rest). `beliefs` are their distributions from their own readings alone.
void add_neighbours(const House& house, const Readings& readings, std::size_t unit,
                    std::span<const std::vector<Candidate>> beliefs, std::vector<double>& weights);

}  // namespace ohmstead
