#include "trace/votes.h"

#include <algorithm>
#include <cmath>

namespace ohmstead {

namespace {

constexpr double kStrayShare = 0.08;     ///< units that hang where their kind and label say, whatever the neighbours
constexpr double kOddsPower = 1.8;       ///< near kin counts for more than its odds: votes of one circuit go together
constexpr double kNewCircuit = 2.5;      ///< weight of 'not found nearby yet' against the odds of kin
constexpr double kLivePower = 0.6;       ///< kin seen live together count for less than each by itself
constexpr double kCrowding = 0.3, kCrowdingOfOwn = 3;

bool by_itself(Sort sort) { return sort == Sort::own || sort == Sort::two_hots; }

}  // namespace

Votes::Votes(const Readings& readings, std::span<const Way> ways, const Kin& kin, std::span<const std::vector<Candidate>> beliefs)
    : readings_(readings), kin_(kin), ways_(ways.size()), vote_(beliefs.size()), group_vote_(kin.groups().size()),
      live_(beliefs.size()), group_live_(kin.groups().size()), found_(ways.size(), 0), found_own_(ways.size(), 0) {
  for (std::size_t a = 0; a < kin.groups().size(); ++a) {
    odds_.emplace_back(), log_apart_.emplace_back();
    for (std::size_t b = 0; b < kin.groups().size(); ++b) {
      const double chance = kin.chance(a, b);
      odds_.back().push_back(std::pow(chance / (1 - chance), kOddsPower));
      log_apart_.back().push_back(kLivePower * std::log(1 - chance));
    }
  }
  for (std::size_t u = 0; u < beliefs.size(); ++u) {
    const long group = kin.group_of_unit()[u];
    const auto& seen = readings.units[u].readings;
    if (group < 0 || seen.empty()) continue;
    const auto g = static_cast<std::size_t>(group);
    live_[u].assign(ways_, 0);
    for (const Reading& reading : seen)
      for (std::size_t w = 0; w < ways_; ++w)
        if (!reading.dead && readings.effects[reading.round].own_handle[ways[w].breakers[0]]) live_[u][w] = 1;
    if (std::ranges::any_of(seen, &Reading::dead)) {
      vote_[u].assign(ways_, 0);
      group_vote_[g].resize(ways_, 0);
      for (const Candidate& candidate : beliefs[u]) {
        if (candidate.kind != CandidateKind::one) continue;
        vote_[u][candidate.first] += candidate.belief;
        group_vote_[g][candidate.first] += candidate.belief;
        found_[candidate.first] += candidate.belief;
        if (by_itself(kin.groups()[g].sort)) found_own_[candidate.first] += candidate.belief;
        if (candidate.belief > 0.2) live_[u][candidate.first] = 0;
      }
    }
    group_live_[g].resize(ways_, 0);
    for (std::size_t w = 0; w < ways_; ++w) group_live_[g][w] += live_[u][w];
  }
}

/// Shares, adding up to 1, of the breakers on which no kin was found yet.
std::vector<double> Votes::new_for(std::size_t unit, std::span<const double> base) const {
  const auto mine = static_cast<std::size_t>(kin_.group_of_unit()[unit]);
  const bool alone = by_itself(kin_.groups()[mine].sort);
  std::vector<double> log_live(ways_, 0);
  for (std::size_t g = 0; g < group_live_.size(); ++g) {
    if (group_live_[g].empty()) continue;
    const double step = log_apart_[mine][g];
    if (step > -0.03) continue;
    for (std::size_t w = 0; w < ways_; ++w) {
      const double units = group_live_[g][w] - (g == mine && !live_[unit].empty() ? live_[unit][w] : 0);
      log_live[w] += step * units;
    }
  }
  std::vector<double> shares(ways_, 0);
  double sum = 0;
  for (std::size_t w = 0; w < ways_; ++w) {
    const double own = vote_[unit].empty() ? 0 : vote_[unit][w];
    const double found = std::max(0.0, found_[w] - own), found_own = std::max(0.0, found_own_[w] - (alone ? own : 0));
    shares[w] = base[w] * std::exp(log_live[w]) / (1 + (alone ? kCrowdingOfOwn : kCrowding) * found + kCrowdingOfOwn * found_own);
    sum += shares[w];
  }
  for (std::size_t w = 0; w < ways_; ++w) shares[w] = sum > 0 ? shares[w] / sum : base[w];
  return shares;
}

void Votes::mix_into(std::vector<double>& weights, std::size_t unit) const {
  const long group = kin_.group_of_unit()[unit];
  double sum = 0;
  for (const double weight : weights) sum += weight;
  if (group < 0 || sum <= 0) return;
  for (double& weight : weights) weight /= sum;
  const auto mine = static_cast<std::size_t>(group);
  std::vector<double> votes = new_for(unit, weights);
  for (double& vote : votes) vote *= kNewCircuit;
  double all = kNewCircuit;
  for (std::size_t g = 0; g < group_vote_.size(); ++g) {
    if (group_vote_[g].empty()) continue;
    const double odds = odds_[mine][g];
    for (std::size_t w = 0; w < ways_; ++w) {
      const double own = g == mine && !vote_[unit].empty() ? vote_[unit][w] : 0;
      const double vote = weights[w] > 0 ? odds * std::max(0.0, group_vote_[g][w] - own) : 0;
      votes[w] += vote, all += vote;
    }
  }
  for (std::size_t w = 0; w < ways_; ++w) weights[w] = (1 - kStrayShare) * votes[w] / all + kStrayShare * weights[w];
}

}  // namespace ohmstead
