#include "trace/looks.h"

#include <algorithm>
#include <cmath>

#include "house/index.h"
#include "trace/choice.h"

namespace ohmstead {

namespace {

constexpr double kShareOfBest = 0.3;      ///< asked about again with a breaker only where that is nearly the likeliest one
constexpr double kSureInSets = 0.995;      ///< belief from which nothing more is asked: with several open in a large house neighbors say much
constexpr double kSurelyElsewhere = 0.98;
constexpr double kHopeless = 0.002;       ///< no way that may still be opened is likelier, and this one was tried
constexpr double kShareWorthAThought = 0.01;
constexpr double kMaybeDeadAnyway = 0.3;
constexpr double kNearlyOnOne = 0.7;      ///< with several open a second look is made where one of them is nearly sure
constexpr double kLikelyThisOne = 0.2, kHardlyThisOne = 0.02;
constexpr int kMostTries = 3;             ///< rounds with one breaker in which one unit is asked about
constexpr int kMostTriesOfSeveral = 12;   ///< the same where several are open at once
constexpr int kMostTriesOfSets = 5;       ///< the same while sets are searched as a whole
constexpr double kHardlyOnSet = 0.01;
constexpr int kMostLooksInARound = 3;
constexpr int kMostRoundsOfAWay = 10, kMostRoundsOfAWayInSets = 40;
constexpr int kMostAsksWithNothingOpen = 2;

double belief_of(const UnitConclusion& unit, CandidateKind kind) {
  const auto found = std::ranges::find(unit.candidates, kind, &Candidate::kind);
  return found == unit.candidates.end() ? 0 : found->belief;
}

}  // namespace

LookFinder::LookFinder(const Board& board, bool sets)
    : board_(board), house_(board.house), all_(board.conclusions),
      sure_(board.manner.at_once != 1 && board.conclusions.units.size() > kSmallHouse ? kSureInSets : kProvedBelief),
      most_tries_(board.manner.at_once == 1 ? kMostTries : sets ? kMostTriesOfSets : kMostTriesOfSeveral) {
  const Index<Room> room_at(house_.rooms);
  for (const Point& point : house_.points)
    room_of_point_.push_back(static_cast<std::size_t>(std::max(0L, room_at.at(point.room))));
  const auto again = board_.settings.lower_bound(kAgainPrefix);
  again_from_.assign(house_.points.size(), 0);
  if (again != board_.settings.end() && again->starts_with(kAgainPrefix))
    for (std::size_t p = 0; p < house_.points.size(); ++p) again_from_[p] = settled_from(house_, house_.points[p].id);
  for (std::size_t u = 0; u < all_.units.size(); ++u) {
    point_of_unit_.push_back(find_point(u));
    belief_.emplace_back(all_.ways.size(), 0);
    for (const Candidate& candidate : all_.units[u].candidates) {
      const bool each = candidate.kind == CandidateKind::each;  // 'together' is dead with no single one
      if (candidate.kind == CandidateKind::one || each) belief_[u][candidate.first] += candidate.belief;
      if (each) belief_[u][candidate.second] += candidate.belief;
    }
    dead_with_.emplace_back(all_.ways.size(), 0);
    for (const Reading& reading : all_.readings.units[u].readings)
      for (std::size_t w = 0; w < all_.ways.size() && reading.dead; ++w)
        if (all_.readings.effects[reading.round].own_handle[all_.ways[w].breakers[0]]) dead_with_[u][w] = 1;
    proved_.push_back(find_settled(u));
    settled_.push_back(proved_[u] && (!is_wanted(u) || all_.units[u].candidates[0].belief >= sure_));
    dead_due_.push_back(!settled_[u] && is_dead_due(u));
    if (dead_due_[u]) dead_with_[u].assign(all_.ways.size(), 0);
    double best = 0;
    for (std::size_t w = 0; w < all_.ways.size(); ++w)
      if (can_open(w) && board_.tries[u][w] < most_tries_ && !dead_tells_no_more(u, w)) best = std::max(best, belief_[u][w]);
    best_open_.push_back(best);
  }
}

/// The likeliest way's belief after a dead look, where it is open, or after a live one. Of other beliefs than the unit's own
/// it has the share that it has now. What has two hots may hang on two ways, and is not sure so soon.
double LookFinder::makes_sure(std::size_t unit, const WaySet& open, double belief) const {
  const Candidate& top = all_.units[unit].candidates[0];
  if (top.kind != CandidateKind::one || top.belief >= sure_ || all_.readings.units[unit].hots > 1) return 0;
  const double now = this->belief(unit, open), so = holds(open, top.first) ? belief : 1 - belief, so_now = holds(open, top.first) ? now : 1 - now;
  if (so_now <= 0) return 0;
  const double seen = (1 - kReadingError) * so + kReadingError * (1 - so);
  return (1 - kReadingError) * top.belief * so / so_now >= sure_ * seen ? seen : 0;
}

bool LookFinder::can_open(std::size_t way) const {
  return board_.may_open[way] && board_.rounds_of_way[way] < (board_.manner.at_once == 1 ? kMostRoundsOfAWay : kMostRoundsOfAWayInSets);
}

/// Seen dead with its own handle open, and live with it closed, by observations from this one on.
LookFinder::SeenSince LookFinder::seen_since(std::size_t unit, std::size_t from) const {
  const Index<Round> round_at(house_.rounds);
  const Index<Point> point_at(house_.points);
  bool dead = false, live = false;
  for (std::size_t i = from; i < house_.observations.size(); ++i) {
    const Observation& seen = house_.observations[i];
    const long p = point_at.at(seen.point), r = round_at.at(seen.round);
    if (seen.withdrawn || p < 0 || r < 0 || all_.readings.unit_of_point[static_cast<std::size_t>(p)] != unit) continue;
    const bool open = all_.readings.effects[static_cast<std::size_t>(r)].own_handle[all_.ways[all_.units[unit].candidates[0].first].breakers[0]];
    dead = dead || (open && seen.seen == Seen::dead);
    live = live || (!open && seen.seen == Seen::live);
  }
  return {dead, live};
}

/// To be traced again, and not yet seen dead again.
bool LookFinder::is_dead_due(std::size_t unit) const {
  return !all_.ways.empty() && std::ranges::any_of(all_.readings.units[unit].points, [&](std::size_t p) {
    return again_from_[p] > 0 && !seen_since(unit, again_from_[p]).dead;
  });
}

bool LookFinder::is_wanted(std::size_t unit) const {
  const auto& points = all_.readings.units[unit].points;
  return points.empty() || std::ranges::any_of(points, [&](std::size_t p) { return ohmstead::is_wanted(house_, board_.manner, house_.points[p]); });
}

bool LookFinder::find_settled(std::size_t unit) const {
  const Unit& mine = all_.readings.units[unit];
  if (!is_wanted(unit)) return true;
  if (all_.units[unit].feed.standing != Standing::proved) return false;
  // One mistaken 'live' of what was dead at the start would blame a breaker for everything behind a GFCI.
  const auto live = std::ranges::count(mine.readings, false, &Reading::dead);
  if (mine.points.size() > 1 && live < 2) return false;
  for (const std::size_t p : mine.points)
    if (again_from_[p] > 0 && !seen_since(unit, again_from_[p]).both()) return false;
  return true;
}

double LookFinder::belief(std::size_t unit, const WaySet& open) const {
  double sum = 0;
  for (const std::size_t w : open) sum += belief_[unit][w];
  return std::min(1.0, sum);
}

double LookFinder::unseen_belief(std::size_t unit, const WaySet& open) const {
  double sum = 0;
  for (const std::size_t w : open) sum += dead_with_[unit][w] ? 0 : belief_[unit][w];
  return std::min(1.0, sum);
}

double LookFinder::bits_open(std::size_t unit) const {
  double bits = 0;
  for (const Candidate& candidate : all_.units[unit].candidates)
    if (candidate.belief > 0) bits -= candidate.belief * std::log2(candidate.belief);
  return bits;
}

/// It was seen dead often enough with one of these open; only a look with it closed is missing,
/// which does away with 'dead anyway'.
bool LookFinder::enough_dead(std::size_t unit, const WaySet& open) const {
  const Candidate& top = most_believed(unit);
  return top.kind == CandidateKind::one && holds(open, top.first) && dead_with_[unit][top.first] && top.belief >= sure_ * not_dead_anyway(unit);
}

/// A breaker that stays off makes dead whatever else is open: what can be found out is the next one.
const Candidate& LookFinder::most_believed(std::size_t unit) const {
  const auto& all = all_.units[unit].candidates;
  for (const Candidate& candidate : all)
    if (candidate.belief < kShareWorthAThought) break;
    else if (candidate.kind != CandidateKind::one || !board_.stays_off[candidate.first]) return candidate;
  return all[0];
}

/// Seen dead with it, and whatever else may feed the unit is dead with it, too.
bool LookFinder::dead_tells_no_more(std::size_t unit, std::size_t way) const {
  return dead_with_[unit][way] && belief_[unit][way] >= sure_ * not_dead_anyway(unit);
}

double LookFinder::not_dead_anyway(std::size_t unit) const {
  double belief = belief_of(all_.units[unit], CandidateKind::dead_anyway);
  for (std::size_t w = 0; w < all_.ways.size(); ++w)
    if (board_.stays_off[w]) belief += belief_[unit][w];
  return 1 - belief;
}

/// One to be traced again, else one that was seen live, else the first that is not dead anyway.
std::optional<std::size_t> LookFinder::find_point(std::size_t unit) const {
  const Unit& mine = all_.readings.units[unit];
  for (const std::size_t point : mine.points)
    if (again_from_[point] > 0 && !all_.readings.dead_anyway[point]) return point;
  for (const Reading& reading : mine.readings)
    if (!reading.dead && !all_.readings.dead_anyway[reading.point]) return reading.point;
  for (const std::size_t point : mine.points)
    if (!all_.readings.dead_anyway[point]) return point;
  return std::nullopt;
}

bool LookFinder::worth_a_first_look(std::size_t unit, const WaySet& open) const {
  const UnitConclusion& mine = all_.units[unit];
  if (settled(unit) || waits_for_live(unit)) return false;
  const bool surely_elsewhere = belief_of(mine, CandidateKind::elsewhere) >= kSurelyElsewhere;
  if (open.size() > 1 && belief(unit, open) < kHardlyOnSet) return false;
  return std::ranges::any_of(open, [&](std::size_t way) {
    const int tries = board_.tries[unit][way];
    if (tries >= most_tries_ || ((surely_elsewhere || best_open_[unit] < kHopeless) && tries > 0)) return false;
    const double belief = belief_[unit][way];
    if (dead_tells_no_more(unit, way)) return false;
    return belief > 0 && (tries == 0 || belief >= kShareOfBest * best_open_[unit]);
  });
}

bool LookFinder::worth_another_look(std::size_t unit, const WaySet& open) const {
  const RoundAnswers& answers = board_.answers[unit];
  if (answers.passed > 0 || answers.all() >= kMostLooksInARound || settled(unit)) return false;
  if (answers.dead > 0 && answers.live > 0) return answers.dead == answers.live;
  const double belief = this->belief(unit, open);
  if (answers.dead > 0) {
    if (belief >= kProvedBelief * not_dead_anyway(unit)) return false;  // only other sets tell more
    if (open.size() > 1 && *std::ranges::max_element(belief_[unit]) < kNearlyOnOne) return false;
    return belief >= kHardlyThisOne && !enough_dead(unit, open);
  }
  return belief >= kLikelyThisOne && answers.live < 2;
}

bool LookFinder::waits_for_live(std::size_t unit) const {
  const UnitConclusion& mine = all_.units[unit];
  if (settled(unit) || dead_due_[unit]) return false;
  const Candidate& top = most_believed(unit);
  if (top.kind != CandidateKind::one) return mine.seen_dead && !mine.seen_live;
  return !board_.stays_off[top.first] && enough_dead(unit, {top.first});
}

bool LookFinder::may_ask_with_nothing_open(std::size_t point) const {
  return board_.asked_with_nothing_open[point] < kMostAsksWithNothingOpen &&
         board_.ever_asked_with_nothing_open[point] < 3 * kMostAsksWithNothingOpen;
}

std::vector<Look> LookFinder::fresh(const WaySet& open) const {
  std::vector<Look> looks;
  for (std::size_t u = 0; u < all_.units.size(); ++u)
    if (const auto point = point_to_look_at(u); point && worth_a_first_look(u, open))
      looks.push_back({u, *point, StepReason::may_be_fed});
  return looks;
}

std::vector<Look> LookFinder::in_this_round(const WaySet& open) const {
  std::vector<Look> looks;
  for (std::size_t u = 0; u < all_.units.size(); ++u) {
    const auto point = point_to_look_at(u);
    if (!point) continue;
    const bool first = board_.answers[u].all() == 0;
    if (first ? worth_a_first_look(u, open) : worth_another_look(u, open))
      looks.push_back({u, *point, first ? StepReason::may_be_fed : StepReason::look_again});
  }
  add_looks_on_the_way(looks, open);
  return looks;
}

void LookFinder::add_looks_on_the_way(std::vector<Look>& looks, const WaySet& open) const {
  std::vector<bool> visited(std::max<std::size_t>(1, house_.rooms.size()), false);
  for (const Look& look : looks) visited[room_of(look.point)] = true;
  if (board_.last_point >= 0) visited[room_of(static_cast<std::size_t>(board_.last_point))] = true;
  for (std::size_t u = 0; u < all_.units.size(); ++u) {
    const auto point = point_to_look_at(u);
    if (!point || board_.answers[u].all() > 0 || !waits_for_live(u) || !visited[room_of(*point)]) continue;
    if (!holds(open, most_believed(u).first)) looks.push_back({u, *point, StepReason::live_when_closed});
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
    // One that is dead with nothing open is asked about before the next one behind the same switch or GFCI.
    if (usable && std::ranges::any_of(all_.readings.units[u].readings, [](const Reading& reading) { return !reading.dead; })) continue;
    for (const std::size_t point : all_.readings.units[u].points)
      if (all_.readings.dead_anyway[point] && may_ask_with_nothing_open(point)) looks.push_back({u, point, StepReason::dead_whatever});
  }
  return looks;
}

bool LookFinder::may_be_looked_at(std::size_t unit) const {
  if (!point_to_look_at(unit)) return false;
  for (std::size_t w = 0; w < all_.ways.size(); ++w)
    if ((can_open(w) || holds(board_.open_ways, w)) && worth_a_first_look(unit, {w})) return true;
  return false;
}

}  // namespace ohmstead
