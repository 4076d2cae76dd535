#include "trace/belief.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "house/index.h"

namespace ohmstead {

namespace {

bool feeds_a_panel(const House& house, const Breaker& breaker) {
  return std::ranges::any_of(house.panels, [&](const Panel& panel) {
    if (panel.supply == Supply::breaker) return panel.feeder == breaker.id;
    if (panel.supply != Supply::position) return false;
    const Position* position = find_row(house, panel.position);
    return position != nullptr && position->breaker == breaker.id;
  });
}

/// State of one hot that hangs on `pole` of the way (1-based over all its poles; 0: any of them).
Expect hot_state(const House& house, const Way& way, int pole, const Effect& effect) {
  if (way.poles == 1) return (effect.dead_poles[way.breakers[0]] & 1U) != 0 ? Expect::dead : Expect::live;
  bool some_dead = false, some_live = false;
  int number = 0;
  for (const std::size_t b : way.breakers)
    for (int p = 0; p < house.breakers[b].poles; ++p) {
      ++number;
      if (pole != 0 && pole != number) continue;
      ((effect.dead_poles[b] >> p & 1U) != 0 ? some_dead : some_live) = true;
    }
  if (some_dead && some_live) return Expect::either;
  return some_dead ? Expect::dead : Expect::live;
}

/// A unit with several hots is out of work as soon as one of them is dead.
Expect all_hots_state(const House& house, const Way& way, int hots, const Effect& effect) {
  for (int hot = 1; hot <= hots; ++hot)
    if (hot_state(house, way, hot, effect) == Expect::dead) return Expect::dead;
  return Expect::live;
}

/// Every reading is weighed against every candidate: the three logarithms are taken once.
const double kEither = std::log(0.5), kRight = std::log(1 - kReadingError), kWrong = std::log(kReadingError);

double log_likelihood(Expect expect, bool dead) {
  if (expect == Expect::either) return kEither;
  return (expect == Expect::dead) == dead ? kRight : kWrong;
}

/// Ways that are named by a dead reading, and pairs of them: the only pairs worth a thought.
std::vector<std::pair<std::size_t, std::size_t>> suspicious_pairs(const Unit& unit, const Readings& readings,
                                                                  std::span<const Way> ways) {
  std::vector<std::pair<std::size_t, std::size_t>> pairs;
  if (std::ranges::none_of(unit.readings, &Reading::dead)) return pairs;
  std::set<std::size_t> named;
  for (const Reading& reading : unit.readings) {
    if (!reading.dead) continue;
    for (std::size_t w = 0; w < ways.size(); ++w)
      if (ways[w].feeds_points && readings.effects[reading.round].own_handle[ways[w].breakers[0]]) named.insert(w);
  }
  for (auto a = named.begin(); a != named.end(); ++a)
    for (auto b = std::next(a); b != named.end(); ++b) pairs.emplace_back(*a, *b);
  return pairs;
}

/// The candidate that the declarations of a unit stand for, if there are any.
std::vector<Candidate> declared_candidates(const House& house, std::span<const Way> ways, const Unit& unit) {
  std::vector<std::pair<int, std::size_t>> hot_and_way;
  Candidate candidate;
  candidate.declared = true;
  for (const DeclaredFeed& said : house.declared_feeds) {
    if (unit.point ? said.point != unit.point : said.device != unit.device) continue;
    for (std::size_t w = 0; w < ways.size(); ++w) {
      int before = 0;  // poles of the way's breakers further up
      for (const std::size_t b : ways[w].breakers) {
        if (house.breakers[b].id == said.breaker) {
          hot_and_way.emplace_back(said.hot, w);
          if (unit.hots == 1) candidate.declared_pole = before + said.pole;
        }
        before += house.breakers[b].poles;
      }
    }
  }
  if (hot_and_way.empty()) return {};
  candidate.first = hot_and_way[0].second;
  for (const auto& [hot, way] : hot_and_way) {
    if (way == candidate.first) continue;
    candidate.kind = hot == hot_and_way[0].first ? CandidateKind::together : CandidateKind::each;
    candidate.second = way;
  }
  return {candidate};
}

bool same(const Candidate& a, const Candidate& b) {
  return a.kind == b.kind && a.first == b.first && a.second == b.second;
}

/// All candidates of a unit with their prior as belief, adding up to about 1.
std::vector<Candidate> with_prior(const House& house, const Readings& readings, std::span<const Way> ways,
                                  std::size_t at, std::span<const double> weight_of_way) {
  const Unit& unit = readings.units[at];
  std::vector<Candidate> all;
  all.reserve(ways.size() + 3);
  double weights = 0;
  for (std::size_t w = 0; w < ways.size(); ++w)
    if (weight_of_way[w] > 0) weights += weight_of_way[w];
  for (std::size_t w = 0; w < ways.size(); ++w)
    if (weight_of_way[w] > 0)
      all.push_back({CandidateKind::one, w, 0, (1 - kPriorElsewhere - kPriorDeadAnyway) * weight_of_way[w] / weights,
                     false, 0});
  const double pair_count = std::max(1.0, static_cast<double>(ways.size() * (ways.size() - 1)) / 2);
  for (const auto& [a, b] : suspicious_pairs(unit, readings, ways)) {
    if (unit.hots > 1) all.push_back({CandidateKind::each, a, b, kPriorTwoWays / pair_count, false, 0});
    all.push_back({CandidateKind::together, a, b, kPriorTwoWays / pair_count, false, 0});
  }
  all.push_back({CandidateKind::elsewhere, 0, 0, kPriorElsewhere, false, 0});
  all.push_back({CandidateKind::dead_anyway, 0, 0, kPriorDeadAnyway, false, 0});
  for (const Candidate& said : declared_candidates(house, ways, unit)) {
    std::erase_if(all, [&](const Candidate& other) { return same(other, said); });
    for (Candidate& other : all) other.belief *= 1 - kDeclaredTrust;
    all.push_back(said);
    all.back().belief = kDeclaredTrust;
  }
  return all;
}

}  // namespace

std::vector<Way> ways_of(const House& house) {
  std::vector<Way> ways;
  std::vector<long> way_of_tie(house.breakers.size(), -1);
  const Index<Breaker> breaker_at(house.breakers);
  for (std::size_t b = 0; b < house.breakers.size(); ++b) {
    const Breaker& breaker = house.breakers[b];
    const long tie = breaker_at.at(breaker.tie);
    long at = tie < 0 ? -1 : way_of_tie[static_cast<std::size_t>(tie)];
    if (at < 0) {
      at = static_cast<long>(ways.size());
      ways.emplace_back();
    }
    if (tie >= 0) way_of_tie[static_cast<std::size_t>(tie)] = at;
    Way& way = ways[static_cast<std::size_t>(at)];
    way.breakers.push_back(b);
    way.poles += breaker.poles;
    if (breaker.backfed_from || feeds_a_panel(house, breaker)) way.feeds_points = false;
  }
  return ways;
}

Expect expected(const House& house, std::span<const Way> ways, const Candidate& candidate, int hots,
                const Effect& effect) {
  switch (candidate.kind) {
    case CandidateKind::elsewhere: return Expect::live;
    case CandidateKind::dead_anyway: return Expect::dead;
    case CandidateKind::one:
      if (hots > 1) return all_hots_state(house, ways[candidate.first], hots, effect);
      return hot_state(house, ways[candidate.first], candidate.declared_pole, effect);
    case CandidateKind::each:
    case CandidateKind::together: break;
  }
  const Expect a = hot_state(house, ways[candidate.first], 0, effect);
  const Expect b = hot_state(house, ways[candidate.second], 0, effect);
  if (a == b) return a;
  const Expect decides = candidate.kind == CandidateKind::each ? Expect::dead : Expect::live;
  return a == decides || b == decides ? decides : Expect::either;
}

namespace {

double log_of_readings(const House& house, const Readings& readings, std::span<const Way> ways, std::size_t unit,
                       const Candidate& candidate) {
  double sum = 0;
  for (const Reading& reading : readings.units[unit].readings)
    sum += log_likelihood(expected(house, ways, candidate, readings.units[unit].hots, readings.effects[reading.round]), reading.dead);
  return sum;
}

}  // namespace

std::vector<double> log_likelihoods(const House& house, const Readings& readings, std::span<const Way> ways, std::size_t unit) {
  std::vector<double> logs(ways.size(), 0);
  const Unit& mine = readings.units[unit];
  for (const Reading& reading : mine.readings) {
    const Effect& effect = readings.effects[reading.round];
    for (std::size_t w = 0; w < ways.size(); ++w)
      logs[w] += log_likelihood(expected(house, ways, {CandidateKind::one, w, 0, 0, false, 0}, mine.hots, effect), reading.dead);
  }
  return logs;
}

namespace {

/// Powers of e, one after another: most readings tell of most ways the same.
class SameAgain {
 public:
  double exp(double x) {
    if (x != last_) last_ = x, power_ = std::exp(x);
    return power_;
  }

 private:
  double last_ = 0, power_ = 1;
};

/// The distribution, in no order.
std::vector<Candidate> weighed_up(const House& house, const Readings& readings, std::span<const Way> ways,
                                  std::size_t unit, const WeighedWays& weighed) {
  std::vector<Candidate> all = with_prior(house, readings, ways, unit, weighed.weights);
  std::vector<double> logs;
  logs.reserve(all.size());
  for (const Candidate& candidate : all) {
    const bool plain = candidate.kind == CandidateKind::one && candidate.declared_pole == 0;
    logs.push_back(plain ? weighed.logs[candidate.first] : log_of_readings(house, readings, ways, unit, candidate));
  }
  const double best = std::ranges::max(logs);
  SameAgain power;
  double sum = 0;
  for (std::size_t i = 0; i < all.size(); ++i) sum += all[i].belief *= power.exp(logs[i] - best);
  for (Candidate& candidate : all) candidate.belief /= sum;
  return all;
}

}  // namespace

std::vector<Candidate> believe(const House& house, const Readings& readings, std::span<const Way> ways,
                               std::size_t unit, const WeighedWays& weighed) {
  struct Place {
    double belief = 0;
    std::size_t at = 0;
  };
  const std::vector<Candidate> all = weighed_up(house, readings, ways, unit, weighed);
  std::vector<Place> order;  // sorted instead of the candidates, which are large; equal ones stay in order
  order.reserve(all.size());
  for (std::size_t i = 0; i < all.size(); ++i) order.push_back({all[i].belief, i});
  std::ranges::sort(order, [](const Place& a, const Place& b) { return a.belief > b.belief || (a.belief == b.belief && a.at < b.at); });
  std::vector<Candidate> sorted;
  sorted.reserve(all.size());
  for (const Place& place : order) sorted.push_back(all[place.at]);
  return sorted;
}

Candidate likeliest(const House& house, const Readings& readings, std::span<const Way> ways, std::size_t unit,
                    const WeighedWays& weighed) {
  return std::ranges::max(weighed_up(house, readings, ways, unit, weighed), {}, &Candidate::belief);
}

std::vector<Candidate> believe(const House& house, const Readings& readings, std::span<const Way> ways,
                               std::size_t unit, std::span<const double> weight_of_way) {
  const std::vector<double> logs = log_likelihoods(house, readings, ways, unit);
  return believe(house, readings, ways, unit, WeighedWays{weight_of_way, logs});
}

std::vector<Tap> taps_of(const House& house, std::span<const Way> ways, const Candidate& candidate, int hots) {
  const auto tap = [&](int hot, const Way& way, int number) {
    for (const std::size_t b : way.breakers) {
      if (number <= house.breakers[b].poles) return Tap{hot, house.breakers[b].id, number};
      number -= house.breakers[b].poles;
    }
    return Tap{hot, house.breakers[way.breakers[0]].id, 1};
  };
  std::vector<Tap> taps;
  if (candidate.kind == CandidateKind::one)
    for (int hot = 1; hot <= hots; ++hot)
      taps.push_back(tap(hot, ways[candidate.first], hots == 1 ? std::max(1, candidate.declared_pole) : hot));
  if (candidate.kind == CandidateKind::each)
    for (int hot = 1; hot <= hots; ++hot) taps.push_back(tap(hot, ways[hot == 1 ? candidate.first : candidate.second], 1));
  if (candidate.kind == CandidateKind::together)
    for (int hot = 1; hot <= hots; ++hot)
      for (const std::size_t way : {candidate.first, candidate.second}) taps.push_back(tap(hot, ways[way], hot));
  return taps;
}

}  // namespace ohmstead
