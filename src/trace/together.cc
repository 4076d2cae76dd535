#include "trace/together.h"

#include <algorithm>
#include <cmath>

namespace ohmstead {

namespace {

constexpr double kNothingAlone = 0.6;    ///< belief that no way feeds a unit by itself, from which two are thought of
constexpr double kFound = 0.5;
constexpr double kTwoOfThem = 0.2;       ///< of what nothing explains: chance that two listed breakers do
/// Two breakers that feed one point are joined by it, so nothing else is dead with one of them alone.
constexpr double kSomethingElseOnIt = 0.05;
constexpr double kLeastChance = 0.006;   ///< of a dead reading, for which a set is opened
constexpr double kHalf = 0.5, kNearlySure = 0.8;
constexpr std::size_t kMostWays = 40, kMostTogether = 14, kMostSuspects = 20;
constexpr int kMostTries = 12;

double nothing_alone(const UnitConclusion& unit) {
  double belief = 0;
  for (const Candidate& candidate : unit.candidates)
    if (candidate.kind != CandidateKind::one && candidate.kind != CandidateKind::dead_anyway) belief += candidate.belief;
  return belief;
}

}  // namespace

TogetherFinder::TogetherFinder(const Board& board, const LookFinder& find)
    : board_(board), all_(board.conclusions), find_(find), found_on_(all_.ways.size(), 0) {
  for (std::size_t u = 0; u < all_.units.size(); ++u) {
    const UnitConclusion& unit = all_.units[u];
    const Candidate& top = unit.candidates.front();
    if (top.kind == CandidateKind::one && top.belief >= kFound && unit.seen_dead) found_on_[top.first] = 1;
    if (suspects_.size() >= kMostSuspects || !nothing_explains(u)) continue;
    for (const std::size_t p : all_.readings.units[u].points)
      if (!all_.readings.dead_anyway[p]) {
        suspects_.push_back({u, p});
        break;
      }
  }
}

bool TogetherFinder::nothing_explains(std::size_t unit) const {
  const UnitConclusion& mine = all_.units[unit];
  return !find_.settled(unit) && mine.feed.standing != Standing::declared && nothing_alone(mine) >= kNothingAlone;
}

std::size_t TogetherFinder::most_open() const {
  return board_.manner.at_once > 0 ? static_cast<std::size_t>(board_.manner.at_once) : kMostTogether;
}

bool TogetherFinder::Pairs::dead(const WaySet& open, const Pair& pair) const {
  const bool a = holds(open, pair.a), b = holds(open, pair.b);
  return each_kills ? a || b : a && b;
}

double TogetherFinder::Pairs::chance_dead(const WaySet& open) const {
  double chance = 0;
  for (const Pair& pair : all)
    if (dead(open, pair)) chance += pair.weight;
  return chance;
}

/// Two hots on two breakers that are not tied: each has one pole.
TogetherFinder::Pairs TogetherFinder::pairs_of(std::size_t unit) const {
  Pairs pairs{all_.readings.units[unit].hots > 1, {}, {}, 0};
  for (std::size_t w = 0; w < all_.ways.size(); ++w)
    if ((find_.can_open(w) || holds(board_.open_ways, w)) && !board_.briefly[w] && board_.tries[unit][w] < kMostTries &&
        (!pairs.each_kills || all_.ways[w].poles == 1))
      pairs.ways.push_back(w);
  std::ranges::stable_sort(pairs.ways, {}, [&](std::size_t w) { return found_on_[w]; });
  if (pairs.ways.size() > kMostWays) pairs.ways.resize(kMostWays);
  std::ranges::sort(pairs.ways);
  for (std::size_t i = 0; i < pairs.ways.size(); ++i)
    for (std::size_t j = i + 1; j < pairs.ways.size(); ++j) {
      Pair pair{pairs.ways[i], pairs.ways[j], 1};
      for (const std::size_t way : {pair.a, pair.b}) pair.weight *= found_on_[way] ? kSomethingElseOnIt : 1;
      pairs.all.push_back(pair);
    }
  if (!pairs.all.empty()) weigh(pairs, unit);
  return pairs;
}

void TogetherFinder::weigh(Pairs& pairs, std::size_t unit) const {
  const auto& readings = all_.readings.units[unit].readings;
  double before = 0, nothing_listed = 1 - kTwoOfThem;
  for (const Pair& pair : pairs.all) before += pair.weight;
  for (Pair& pair : pairs.all) pair.weight *= kTwoOfThem / before;
  for (const Reading& reading : readings) {
    WaySet off;
    for (const std::size_t way : pairs.ways)
      if (all_.readings.effects[reading.round].dead_poles[all_.ways[way].breakers[0]] != 0) off.push_back(way);
    for (Pair& pair : pairs.all) pair.weight *= pairs.dead(off, pair) == reading.dead ? 1 - kReadingError : kReadingError;
    nothing_listed *= reading.dead ? kReadingError : 1 - kReadingError;
  }
  double sum = nothing_listed;
  for (const Pair& pair : pairs.all) sum += pair.weight;
  for (Pair& pair : pairs.all) pair.weight /= sum, pairs.sum += pair.weight;
}

/// With two hots: ways that would be dead in half of the cases, or the less tried one of a pair that
/// is nearly sure. Else the likeliest pair, grown in the same way.
WaySet TogetherFinder::set_for(std::size_t unit) const {
  const Pairs pairs = pairs_of(unit);
  if (pairs.all.empty() || (!pairs.each_kills && most_open() < 2)) return {};
  const Pair& likeliest = *std::ranges::max_element(pairs.all, {}, &Pair::weight);
  const auto& tries = board_.tries[unit];
  if (pairs.each_kills && likeliest.weight >= kNearlySure) return {tries[likeliest.a] <= tries[likeliest.b] ? likeliest.a : likeliest.b};
  WaySet open;
  if (!pairs.each_kills) open = {likeliest.a, likeliest.b};
  const double aim = kHalf * pairs.sum;
  while (open.size() < most_open()) {
    double best = std::abs(pairs.chance_dead(open) - aim);
    std::size_t best_way = all_.ways.size();
    for (const std::size_t w : pairs.ways)
      if (!holds(open, w))
        if (const double off = std::abs(pairs.chance_dead(with(open, w)) - aim); off < best) best = off, best_way = w;
    if (best_way == all_.ways.size()) break;
    open = with(open, best_way);
  }
  return pairs.chance_dead(open) >= kLeastChance ? open : WaySet{};
}

WaySet TogetherFinder::next() const {
  for (const Suspect& suspect : suspects_)
    if (WaySet open = set_for(suspect.unit); !open.empty()) return open;
  return {};
}

std::vector<Look> TogetherFinder::looks(const WaySet& open) const {
  std::vector<Look> looks;
  for (const Suspect& suspect : suspects_)
    if (board_.answers[suspect.unit].all() == 0 && pairs_of(suspect.unit).chance_dead(open) >= kLeastChance)
      looks.push_back({suspect.unit, suspect.point, StepReason::fed_by_two});
  return looks;
}

}  // namespace ohmstead
