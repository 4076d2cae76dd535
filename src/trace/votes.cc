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

constexpr double kHardlyApart = -0.03;   ///< logarithm from which on the live ones of a group do not count

bool by_itself(Sort sort) { return sort == Sort::own || sort == Sort::two_hots; }

double odds_of(double chance) { return std::pow(chance / (1 - chance), kOddsPower); }
double log_apart_of(double chance) { return kLivePower * std::log(1 - chance); }

/// The same for the chances of kin, of which there are a few.
class KnownChances {
 public:
  struct Known {
    double chance = 0, odds = 0, log_apart = 0;
  };
  const Known& of(double chance) {
    const auto found = std::ranges::find(known_, chance, &Known::chance);
    if (found != known_.end()) return *found;
    return known_.emplace_back(Known{chance, odds_of(chance), log_apart_of(chance)});
  }

 private:
  std::vector<Known> known_;
};

}  // namespace

Votes::Votes(const Readings& readings, std::span<const Way> ways, const Kin& kin, std::span<const std::vector<Candidate>> beliefs)
    : kin_(kin), ways_(ways.size()), vote_(beliefs.size()), group_vote_(kin.groups().size()), live_(beliefs.size()),
      group_live_(kin.groups().size()), found_(ways.size(), 0), found_own_(ways.size(), 0) {
  count(readings, ways, beliefs);
  sum_up_others();
}

void Votes::count(const Readings& readings, std::span<const Way> ways, std::span<const std::vector<Candidate>> beliefs) {
  for (std::size_t u = 0; u < beliefs.size(); ++u) {
    const long group = kin_.group_of_unit()[u];
    const auto& seen = readings.units[u].readings;
    if (group < 0 || seen.empty()) continue;
    const auto g = static_cast<std::size_t>(group);
    live_[u].assign(ways_, 0);
    for (const Reading& reading : seen)
      for (std::size_t w = 0; w < ways_ && !reading.dead; ++w)
        if (readings.effects[reading.round].own_handle[ways[w].breakers[0]]) live_[u][w] = 1;
    if (counts(readings.units[u])) {
      vote_[u].assign(ways_, 0);
      group_vote_[g].resize(ways_, 0);
      for (const Candidate& candidate : beliefs[u]) {
        if (candidate.kind != CandidateKind::one) continue;
        vote_[u][candidate.first] += candidate.belief;
        group_vote_[g][candidate.first] += candidate.belief;
        found_[candidate.first] += candidate.belief;
        if (by_itself(kin_.groups()[g].sort)) found_own_[candidate.first] += candidate.belief;
        if (candidate.belief > 0.2) live_[u][candidate.first] = 0;
      }
    }
    group_live_[g].resize(ways_, 0);
    for (std::size_t w = 0; w < ways_; ++w) group_live_[g][w] += live_[u][w];
  }
}

void Votes::sum_up_others() {
  KnownChances known;
  const std::size_t n = kin_.groups().size();
  votes_of_others_.assign(n, std::vector<double>(ways_, 0)), log_live_of_others_ = votes_of_others_;
  for (std::size_t mine = 0; mine < n; ++mine) {
    for (std::size_t g = 0; g < n; ++g) {
      if (g == mine || group_live_[g].empty()) continue;  // nothing was seen there
      const auto [chance, odds, log_apart] = known.of(kin_.chance(mine, g));
      if (log_apart <= kHardlyApart)
        for (std::size_t w = 0; w < ways_; ++w) log_live_of_others_[mine][w] += log_apart * group_live_[g][w];
      for (std::size_t w = 0; w < group_vote_[g].size(); ++w) votes_of_others_[mine][w] += odds * group_vote_[g][w];
    }
    own_odds_.push_back(odds_of(kin_.chance(mine, mine))), own_log_apart_.push_back(log_apart_of(kin_.chance(mine, mine)));
  }
}

/// Shares, adding up to 1, of the breakers on which no kin was found yet.
std::vector<double> Votes::new_for(std::size_t unit, std::span<const double> base) const {
  const auto mine = static_cast<std::size_t>(kin_.group_of_unit()[unit]);
  const bool alone = by_itself(kin_.groups()[mine].sort);
  const bool own_live = own_log_apart_[mine] <= kHardlyApart && !group_live_[mine].empty();
  std::vector<double> shares(ways_, 0);
  double sum = 0;
  for (std::size_t w = 0; w < ways_; ++w) {
    const double own = vote_[unit].empty() ? 0 : vote_[unit][w];
    const double found = std::max(0.0, found_[w] - own), found_own = std::max(0.0, found_own_[w] - (alone ? own : 0));
    double log_live = log_live_of_others_[mine][w];
    if (own_live) log_live += own_log_apart_[mine] * (group_live_[mine][w] - (live_[unit].empty() ? 0 : live_[unit][w]));
    shares[w] = base[w] * std::exp(log_live) / (1 + (alone ? kCrowdingOfOwn : kCrowding) * found + kCrowdingOfOwn * found_own);
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
  const auto& of_kin = group_vote_[mine];
  std::vector<double> votes = new_for(unit, weights);
  double all = kNewCircuit;
  for (std::size_t w = 0; w < ways_; ++w) {
    votes[w] *= kNewCircuit;
    if (weights[w] <= 0) continue;
    double vote = votes_of_others_[mine][w];
    if (!of_kin.empty()) vote += own_odds_[mine] * std::max(0.0, of_kin[w] - (vote_[unit].empty() ? 0 : vote_[unit][w]));
    votes[w] += vote, all += vote;
  }
  for (std::size_t w = 0; w < ways_; ++w) weights[w] = (1 - kStrayShare) * votes[w] / all + kStrayShare * weights[w];
}

}  // namespace ohmstead
