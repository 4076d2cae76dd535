#include "trace/looks.h"

#include <algorithm>

#include "house/index.h"

namespace ohmstead {

namespace {

constexpr double kShareOfBest = 0.3;      ///< asked about again with a breaker only where that is nearly the likeliest one
constexpr double kSurelyElsewhere = 0.98;
constexpr double kMaybeDeadAnyway = 0.3;
constexpr double kLikelyThisOne = 0.2, kHardlyThisOne = 0.02;
constexpr int kMostTries = 3;             ///< rounds with one breaker in which one unit is asked about
constexpr int kMostLooksInARound = 3;
constexpr int kMostRoundsOfAWay = 10;
constexpr int kMostAsksWithNothingOpen = 2;

double belief_of(const UnitConclusion& unit, CandidateKind kind) {
  const auto found = std::ranges::find(unit.candidates, kind, &Candidate::kind);
  return found == unit.candidates.end() ? 0 : found->belief;
}

/// It was seen dead often enough with this way open; only a look with it closed is missing, which
/// does away with 'dead anyway'.
bool enough_dead(const UnitConclusion& unit, std::size_t way) {
  const Candidate& top = unit.candidates[0];
  return unit.seen_dead && top.kind == CandidateKind::one && top.first == way &&
         top.belief >= kProvedBelief * (1 - belief_of(unit, CandidateKind::dead_anyway));
}

}  // namespace

LookFinder::LookFinder(const Board& board) : board_(board), house_(board.house), all_(board.conclusions) {
  const Index<Room> room_at(house_.rooms);
  for (const Point& point : house_.points)
    room_of_point_.push_back(static_cast<std::size_t>(std::max(0L, room_at.at(point.room))));
  for (std::size_t u = 0; u < all_.units.size(); ++u) {
    point_of_unit_.push_back(find_point(u));
    belief_.emplace_back(all_.ways.size(), 0);
    for (const Candidate& candidate : all_.units[u].candidates) {
      const bool two = candidate.kind == CandidateKind::each || candidate.kind == CandidateKind::together;
      if (candidate.kind == CandidateKind::one || two) belief_[u][candidate.first] += candidate.belief;
      if (two) belief_[u][candidate.second] += candidate.belief;
    }
    double best = 0;
    for (std::size_t w = 0; w < all_.ways.size(); ++w)
      if (can_open(w) && board_.tries[u][w] < kMostTries) best = std::max(best, belief_[u][w]);
    best_open_.push_back(best);
  }
}

bool LookFinder::can_open(std::size_t way) const {
  return board_.may_open[way] && board_.rounds_of_way[way] < kMostRoundsOfAWay;
}

bool LookFinder::settled(std::size_t unit) const { return all_.units[unit].feed.standing == Standing::proved; }

/// A point that was seen live, else the first that is not dead anyway.
std::optional<std::size_t> LookFinder::find_point(std::size_t unit) const {
  const Unit& mine = all_.readings.units[unit];
  for (const Reading& reading : mine.readings)
    if (!reading.dead && !all_.readings.dead_anyway[reading.point]) return reading.point;
  for (const std::size_t point : mine.points)
    if (!all_.readings.dead_anyway[point]) return point;
  return std::nullopt;
}

bool LookFinder::worth_a_first_look(std::size_t unit, std::size_t way) const {
  const UnitConclusion& mine = all_.units[unit];
  if (settled(unit) || board_.tries[unit][way] >= kMostTries || waits_for_live(unit)) return false;
  if (belief_of(mine, CandidateKind::elsewhere) >= kSurelyElsewhere && board_.tries[unit][way] > 0) return false;
  const double belief = belief_[unit][way];
  return belief > 0 && (board_.tries[unit][way] == 0 || belief >= kShareOfBest * best_open_[unit]);
}

bool LookFinder::worth_another_look(std::size_t unit, std::size_t way) const {
  const RoundAnswers& answers = board_.answers[unit];
  const UnitConclusion& mine = all_.units[unit];
  if (answers.passed > 0 || answers.all() >= kMostLooksInARound || settled(unit)) return false;
  if (answers.dead > 0 && answers.live > 0) return answers.dead == answers.live;
  if (answers.dead > 0) return belief_[unit][way] >= kHardlyThisOne && !enough_dead(mine, way);
  return belief_[unit][way] >= kLikelyThisOne && answers.live < 2;
}

bool LookFinder::waits_for_live(std::size_t unit) const {
  const UnitConclusion& mine = all_.units[unit];
  if (settled(unit) || !mine.seen_dead) return false;
  return mine.candidates[0].kind == CandidateKind::one ? enough_dead(mine, mine.candidates[0].first) : !mine.seen_live;
}

bool LookFinder::may_ask_with_nothing_open(std::size_t point) const {
  return board_.asked_with_nothing_open[point] < kMostAsksWithNothingOpen &&
         board_.ever_asked_with_nothing_open[point] < 3 * kMostAsksWithNothingOpen;
}

std::vector<Look> LookFinder::fresh(std::size_t way) const {
  std::vector<Look> looks;
  for (std::size_t u = 0; u < all_.units.size(); ++u)
    if (const auto point = point_to_look_at(u); point && worth_a_first_look(u, way))
      looks.push_back({u, *point, StepReason::may_be_fed});
  return looks;
}

std::vector<Look> LookFinder::in_this_round(std::size_t way) const {
  std::vector<Look> looks;
  for (std::size_t u = 0; u < all_.units.size(); ++u) {
    const auto point = point_to_look_at(u);
    if (!point) continue;
    const bool first = board_.answers[u].all() == 0;
    if (first ? worth_a_first_look(u, way) : worth_another_look(u, way))
      looks.push_back({u, *point, first ? StepReason::may_be_fed : StepReason::look_again});
  }
  add_looks_on_the_way(looks, way);
  return looks;
}

void LookFinder::add_looks_on_the_way(std::vector<Look>& looks, std::size_t way) const {
  std::vector<bool> visited(std::max<std::size_t>(1, house_.rooms.size()), false);
  for (const Look& look : looks) visited[room_of(look.point)] = true;
  if (board_.last_point >= 0) visited[room_of(static_cast<std::size_t>(board_.last_point))] = true;
  for (std::size_t u = 0; u < all_.units.size(); ++u) {
    const auto point = point_to_look_at(u);
    if (!point || board_.answers[u].all() > 0 || !waits_for_live(u) || !visited[room_of(*point)]) continue;
    if (all_.units[u].candidates[0].first != way) looks.push_back({u, *point, StepReason::live_when_closed});
  }
}

std::vector<Look> LookFinder::unconfirmed() const {
  std::vector<Look> looks;
  for (std::size_t u = 0; u < all_.units.size(); ++u)
    if (const auto point = point_to_look_at(u); point && waits_for_live(u) && may_ask_with_nothing_open(*point))
      looks.push_back({u, *point, StepReason::live_when_closed});
  return looks;
}

std::vector<Look> LookFinder::doubtful() const {
  std::vector<Look> looks;
  for (std::size_t u = 0; u < all_.units.size(); ++u) {
    if (settled(u)) continue;
    const UnitConclusion& mine = all_.units[u];
    const auto usable = point_to_look_at(u);
    const auto dead = std::ranges::count(all_.readings.units[u].readings, true, &Reading::dead);
    if (usable && !mine.seen_live && dead >= 2 && belief_of(mine, CandidateKind::dead_anyway) >= kMaybeDeadAnyway &&
        may_ask_with_nothing_open(*usable))
      looks.push_back({u, *usable, StepReason::dead_whatever});
    if (usable) continue;
    for (const std::size_t point : all_.readings.units[u].points)
      if (may_ask_with_nothing_open(point)) looks.push_back({u, point, StepReason::dead_whatever});
  }
  return looks;
}

bool LookFinder::may_be_looked_at(std::size_t unit) const {
  if (!point_to_look_at(unit)) return false;
  for (std::size_t w = 0; w < all_.ways.size(); ++w)
    if ((can_open(w) || board_.open_way == static_cast<long>(w)) && worth_a_first_look(unit, w)) return true;
  return false;
}

}  // namespace ohmstead
