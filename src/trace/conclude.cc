#include "trace/conclude.h"

#include <algorithm>
#include <cstdlib>

#include "house/index.h"
#include "trace/prior.h"
#include "trace/votes.h"

namespace ohmstead {

namespace {

constexpr double kUnexplainedBelief = 0.9;
constexpr double kWorthDisputing = 0.05;
constexpr double kDeclarationStands = 0.9;

/// One unit of one house under judgement.
struct Judge {
  const House& house;
  const Conclusions& all;
  const Unit& unit;

  [[nodiscard]] Expect expect(const Candidate& candidate, const Reading& reading) const {
    return expected(house, all.ways, candidate, unit.hots, all.readings.effects[reading.round]);
  }
  [[nodiscard]] bool own_handle_open(std::size_t way, const Reading& reading) const {
    return all.readings.effects[reading.round].own_handle[all.ways[way].breakers[0]];
  }
  /// Was it seen dead with the way's own handle open, as the candidate says it must be?
  [[nodiscard]] bool seen_dead(const Candidate& candidate) const {
    const auto with_open = [&](std::size_t way) {
      return std::ranges::any_of(unit.readings, [&](const Reading& r) {
        return r.dead && own_handle_open(way, r) && expect(candidate, r) != Expect::live;
      });
    };
    return with_open(candidate.first) && (candidate.kind == CandidateKind::one || with_open(candidate.second));
  }
  [[nodiscard]] bool seen_live(const Candidate& candidate) const {
    return std::ranges::any_of(unit.readings,
                               [&](const Reading& r) { return !r.dead && expect(candidate, r) == Expect::live; });
  }
  /// Seen live although the candidate says dead.
  [[nodiscard]] bool ruled_out(const Candidate& candidate) const {
    return std::ranges::any_of(unit.readings,
                               [&](const Reading& r) { return !r.dead && expect(candidate, r) == Expect::dead; });
  }
  [[nodiscard]] int against(const Candidate& candidate) const {
    return static_cast<int>(std::ranges::count_if(unit.readings, [&](const Reading& r) {
      return speaks_against(expect(candidate, r), r.dead);
    }));
  }
  /// Dead and live readings with this candidate's handle open that nearly balance.
  [[nodiscard]] bool undecided(const Candidate& candidate) const {
    int dead = 0, live = 0;
    for (const Reading& r : unit.readings)
      if (expect(candidate, r) == Expect::dead) ++(r.dead ? dead : live);
    return dead > 0 && live > 0 && std::abs(dead - live) < 2;
  }
};

Standing standing_of(const Judge& judge, const UnitConclusion& so_far) {
  const Candidate& top = so_far.candidates.front();
  if (is_a_feed(top) && top.belief >= kProvedBelief && so_far.seen_dead && so_far.seen_live) return Standing::proved;
  const auto said = std::ranges::find(so_far.candidates, true, &Candidate::declared);
  if (said != so_far.candidates.end())
    return judge.against(*said) > 0 && said->belief < kDeclarationStands ? Standing::disputed : Standing::declared;
  if (is_a_feed(top) && judge.against(top) >= 2) return Standing::disputed;
  if (std::ranges::any_of(so_far.candidates, [&](const Candidate& candidate) {
        return is_a_feed(candidate) && candidate.belief >= kWorthDisputing && judge.undecided(candidate);
      }))
    return Standing::disputed;
  return is_a_feed(top) && top.belief >= kLikelyBelief && !judge.unit.readings.empty() ? Standing::likely
                                                                                       : Standing::open;
}

UnitConclusion conclude_unit(const House& house, const Conclusions& all, const Unit& unit,
                             std::vector<Candidate> candidates) {
  UnitConclusion result;
  result.candidates = std::move(candidates);
  const Judge judge{house, all, unit};
  const Candidate& top = result.candidates.front();
  result.seen_dead = is_a_feed(top) && judge.seen_dead(top);
  result.seen_live = is_a_feed(top) && judge.seen_live(top);
  result.unexplained = top.kind == CandidateKind::elsewhere && top.belief >= kUnexplainedBelief &&
                       std::ranges::all_of(result.candidates, [&](const Candidate& candidate) {
                         return candidate.kind != CandidateKind::one || judge.ruled_out(candidate);
                       });
  result.dead_anyway =
      !unit.points.empty() && std::ranges::any_of(unit.points, [&](std::size_t p) { return all.readings.dead_anyway[p]; }) &&
      std::ranges::none_of(unit.readings, [&](const Reading& r) { return !all.readings.dead_anyway[r.point]; });
  result.feed.standing = standing_of(judge, result);
  if (result.feed.standing == Standing::open) {
    result.feed.belief = is_a_feed(top) ? top.belief : 0;
    return result;
  }
  const auto said = std::ranges::find(result.candidates, true, &Candidate::declared);
  const auto best = std::ranges::find_if(result.candidates, is_a_feed);
  const Candidate& shown = result.feed.standing == Standing::declared ? *said : *best;
  result.feed.belief = result.feed.standing == Standing::declared ? 1 : shown.belief;
  result.feed.taps = taps_of(house, all.ways, shown, unit.hots);
  return result;
}

}  // namespace

Conclusions conclude_units(const House& house) {
  Conclusions all{read_observations(house), ways_of(house), {}, {}};
  const std::size_t n = all.readings.units.size();
  all.kin = Kin(house, all.readings);
  Prior prior(house, all.readings, all.ways, all.kin);
  std::vector<std::vector<double>> logs;
  for (std::size_t u = 0; u < n; ++u) logs.push_back(log_likelihoods(house, all.readings, all.ways, u));
  if (!house.observations.empty()) {
    std::vector<Candidate> tops;
    for (std::size_t u = 0; u < n; ++u)
      tops.push_back(likeliest(house, all.readings, all.ways, u, WeighedWays{prior.weights(u), logs[u]}));
    prior.learn(tops);
  }
  const auto believe_with = [&](std::size_t u, const std::vector<double>& weights) {
    return believe(house, all.readings, all.ways, u, WeighedWays{weights, logs[u]});
  };
  std::vector<std::vector<Candidate>> alone(n);
  for (std::size_t u = 0; u < n; ++u)
    if (Votes::counts(all.readings.units[u])) alone[u] = believe_with(u, prior.weights(u));
  const Votes votes(all.readings, all.ways, all.kin, alone);
  for (std::size_t u = 0; u < n; ++u) {
    std::vector<double> weights = prior.weights(u);
    votes.mix_into(weights, u);
    all.units.push_back(conclude_unit(house, all, all.readings.units[u], believe_with(u, weights)));
  }
  return all;
}

Feeds feeds_of(const House& house, const Conclusions& conclusions) {
  Feeds feeds;
  for (std::size_t i = 0; i < house.points.size(); ++i)
    feeds.of_point.push_back(conclusions.units[conclusions.readings.unit_of_point[i]].feed);
  for (std::size_t i = 0; i < house.devices.size(); ++i)
    feeds.of_device.push_back(conclusions.units[conclusions.readings.unit_of_device[i]].feed);
  return feeds;
}

Feeds conclude(const House& house) { return feeds_of(house, conclude_units(house)); }

bool seems_spare(const House& house, const Conclusions& all, Id<Breaker> breaker) {
  (void)row(house, breaker);
  const auto way = std::ranges::find_if(all.ways, [&](const Way& candidate) {
    return std::ranges::any_of(candidate.breakers, [&](std::size_t b) { return house.breakers[b].id == breaker; });
  });
  if (!way->feeds_points) return false;
  const auto at = static_cast<std::size_t>(way - all.ways.begin());
  bool some = false;
  for (std::size_t u = 0; u < all.units.size(); ++u) {
    const Unit& unit = all.readings.units[u];
    const Candidate mine{CandidateKind::one, at, 0, 0, false, 0};
    const Judge judge{house, all, unit};
    const bool live = judge.ruled_out(mine);
    const bool can_be = std::ranges::any_of(all.units[u].candidates, [&](const Candidate& c) {
      return is_a_feed(c) && (c.first == at || (c.kind != CandidateKind::one && c.second == at)) && c.belief >= 0.01;
    });
    const bool settled = relied_on(all.units[u].feed.standing);
    if (!unit.points.empty() && can_be) return false;
    if (unit.points.empty() || unit.hots > way->poles) continue;
    if (!settled && !live) return false;
    some = true;
  }
  return some;
}

bool seems_spare(const House& house, Id<Breaker> breaker) {
  return seems_spare(house, conclude_units(house), breaker);
}

}  // namespace ohmstead
