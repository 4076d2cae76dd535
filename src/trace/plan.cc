#include "trace/plan.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "house/index.h"
#include "trace/tour.h"

namespace ohmstead {

namespace {

constexpr double kShareOfBest = 0.3;      ///< a look is worth it where the breaker is nearly the likeliest one
constexpr double kSurelyElsewhere = 0.98;
constexpr double kMaybeDeadAnyway = 0.3;
constexpr int kMostTries = 3;             ///< rounds with one breaker in which one unit is asked about
constexpr int kMostLooksInARound = 3;
constexpr int kMostRoundsOfAWay = 10;
constexpr int kMostAsksWithNothingOpen = 2;
constexpr int kBriefReserveSeconds = 60;
// Seconds of work (common practice, no source): see docs/trace.md.
constexpr double kHandleSeconds = 4, kNuisanceSeconds = 20, kEnterSeconds = 5;

double look_seconds(PointKind kind) {
  return kind == PointKind::receptacle ? 8 : kind == PointKind::light ? 2 : 12;
}

struct Look {
  std::size_t unit, point;
  StepReason reason;
};

class Planner {
 public:
  explicit Planner(const Board& board) : board_(board), house_(board.house), all_(board.conclusions), room_at_(house_.rooms) {
    for (std::size_t u = 0; u < all_.units.size(); ++u) {
      double best = 0;
      for (std::size_t w = 0; w < all_.ways.size(); ++w)
        if (openable(u, w)) best = std::max(best, belief_in(all_.units[u], w));
      best_open_.push_back(best);
    }
  }

  [[nodiscard]] Step next() const {
    if (all_.ways.empty() || house_.points.empty()) return {StepKind::done, StepReason::nothing_listed, {}, {}, {}, false};
    if (!board_.open_handles.empty()) return while_open();
    if (!board_.settings.contains(kCautionStart))
      return {StepKind::caution, StepReason::start, {}, {}, loads_at_risk(0), false};
    if (const auto look = nearest(doubtful_looks(), here())) return as_step(*look);
    if (const auto way = best_way()) return open_step(*way);
    if (const auto look = nearest(unconfirmed_looks(), here())) return as_step(*look);
    return {};
  }

  [[nodiscard]] double seconds_left() const {
    std::vector<double> tours;
    for (std::size_t w = 0; w < all_.ways.size(); ++w)
      if (board_.may_open[w] || board_.open_way == static_cast<long>(w)) {
        const auto looks = tour_looks(w, true);
        if (!looks.empty()) tours.push_back(tour_seconds(w, looks));
      }
    std::ranges::sort(tours, std::greater<>{});
    double seconds = 0;  // points settled with one breaker are not asked about with the next
    for (std::size_t i = 0; i < tours.size(); ++i)
      seconds += tours[i] * (1 - 0.7 * static_cast<double>(i) / static_cast<double>(tours.size()));
    for (const Look& look : unconfirmed_looks()) seconds += kEnterSeconds + look_seconds(house_.points[look.point].kind);
    for (const Look& look : doubtful_looks()) seconds += 2 * kNuisanceSeconds + look_seconds(house_.points[look.point].kind);
    return seconds;
  }

 private:
  [[nodiscard]] bool openable(std::size_t unit, std::size_t way) const {
    return board_.may_open[way] && board_.tries[unit][way] < kMostTries && board_.rounds_of_way[way] < kMostRoundsOfAWay;
  }
  [[nodiscard]] bool settled(std::size_t unit) const { return all_.units[unit].feed.standing == Standing::proved; }

  /// The point of a unit to look at: one that was seen live, else the first that is not dead anyway.
  [[nodiscard]] std::optional<std::size_t> point_to_look_at(std::size_t unit) const {
    const Unit& mine = all_.readings.units[unit];
    for (const Reading& reading : mine.readings)
      if (!reading.dead && !all_.readings.dead_anyway[reading.point]) return reading.point;
    for (const std::size_t point : mine.points)
      if (!all_.readings.dead_anyway[point]) return point;
    return std::nullopt;
  }

  /// Is the first look at a unit in a round with this way open worth the time?
  [[nodiscard]] bool worth_a_look(std::size_t unit, std::size_t way) const {
    const UnitConclusion& mine = all_.units[unit];
    if (settled(unit) || board_.tries[unit][way] >= kMostTries) return false;
    if (mine.candidates[0].kind == CandidateKind::elsewhere && mine.candidates[0].belief >= kSurelyElsewhere) return false;
    if (enough_dead(mine, way)) return false;
    const double belief = belief_in(mine, way);
    return belief > 0 && belief >= kShareOfBest * best_open_[unit];
  }
  /// Only a look with it closed is still missing.
  [[nodiscard]] static bool enough_dead(const UnitConclusion& unit, std::size_t way) {
    double anyway = 0;
    for (const Candidate& candidate : unit.candidates)
      if (candidate.kind == CandidateKind::dead_anyway) anyway = candidate.belief;
    return unit.seen_dead && unit.candidates[0].kind == CandidateKind::one && unit.candidates[0].first == way &&
           unit.candidates[0].belief >= kProvedBelief * (1 - anyway);
  }
  [[nodiscard]] bool waits_for_live(std::size_t unit) const {
    const UnitConclusion& mine = all_.units[unit];
    if (settled(unit) || !mine.seen_dead) return false;
    return mine.candidates[0].kind == CandidateKind::one ? enough_dead(mine, mine.candidates[0].first) : !mine.seen_live;
  }

  /// Another look at a unit that was already answered about in this round?
  [[nodiscard]] bool again(std::size_t unit, std::size_t way) const {
    const RoundAnswers& answers = board_.answers[unit];
    const UnitConclusion& mine = all_.units[unit];
    if (answers.passed > 0 || answers.all() >= kMostLooksInARound || settled(unit)) return false;
    const double belief = belief_in(mine, way);
    if (answers.dead > 0 && answers.live > 0) return answers.dead == answers.live;
    if (answers.dead > 0) return belief >= 0.02 && !enough_dead(mine, way);
    return belief >= 0.2 && answers.live < 2;
  }

  [[nodiscard]] std::vector<Look> tour_looks(std::size_t way, bool from_new) const {
    std::vector<Look> looks;
    for (std::size_t u = 0; u < all_.units.size(); ++u) {
      const auto point = point_to_look_at(u);
      if (!point) continue;
      const bool fresh = from_new || board_.answers[u].all() == 0;
      if (fresh && worth_a_look(u, way)) looks.push_back({u, *point, StepReason::may_be_fed});
      else if (!from_new && !fresh && again(u, way)) looks.push_back({u, *point, StepReason::look_again});
    }
    return looks;
  }

  /// Points on the way that wait for a live reading with their breaker closed.
  void add_looks_on_the_way(std::vector<Look>& looks, std::size_t way) const {
    std::vector<bool> visited(house_.rooms.size(), false);
    for (const Look& look : looks) visited[room_of(look.point)] = true;
    if (board_.last_point >= 0) visited[room_of(static_cast<std::size_t>(board_.last_point))] = true;
    for (std::size_t u = 0; u < all_.units.size(); ++u) {
      const auto point = point_to_look_at(u);
      if (!point || board_.answers[u].all() > 0 || !waits_for_live(u) || !visited[room_of(*point)]) continue;
      if (all_.units[u].candidates[0].first != way) looks.push_back({u, *point, StepReason::live_when_closed});
    }
  }

  [[nodiscard]] std::vector<Look> unconfirmed_looks() const {
    std::vector<Look> looks;
    for (std::size_t u = 0; u < all_.units.size(); ++u)
      if (const auto point = point_to_look_at(u); point && waits_for_live(u) && may_ask_with_nothing_open(*point))
        looks.push_back({u, *point, StepReason::live_when_closed});
    return looks;
  }

  /// Units that look dead whatever is open, and points that are dead with nothing open.
  [[nodiscard]] std::vector<Look> doubtful_looks() const {
    std::vector<Look> looks;
    for (std::size_t u = 0; u < all_.units.size(); ++u) {
      if (settled(u)) continue;
      const auto usable = point_to_look_at(u);
      const auto anyway = std::ranges::find(all_.units[u].candidates, CandidateKind::dead_anyway, &Candidate::kind);
      const auto dead = std::ranges::count(all_.readings.units[u].readings, true, &Reading::dead);
      if (usable && anyway->belief >= kMaybeDeadAnyway && dead >= 2 && may_ask_with_nothing_open(*usable) && !all_.units[u].seen_live)
        looks.push_back({u, *usable, StepReason::dead_whatever});
      if (usable) continue;
      for (const std::size_t point : all_.readings.units[u].points)
        if (may_ask_with_nothing_open(point)) looks.push_back({u, point, StepReason::dead_whatever});
    }
    return looks;
  }
  [[nodiscard]] bool may_ask_with_nothing_open(std::size_t point) const {
    return board_.asked_with_nothing_open[point] < kMostAsksWithNothingOpen &&
           board_.ever_asked_with_nothing_open[point] < 3 * kMostAsksWithNothingOpen;
  }

  [[nodiscard]] std::size_t room_of(std::size_t point) const {
    const long at = room_at_.at(house_.points[point].room);
    return at < 0 ? 0 : static_cast<std::size_t>(at);
  }
  [[nodiscard]] std::size_t panel_room(std::size_t way) const {
    const Panel* panel = find_row(house_, house_.breakers[all_.ways[way].breakers[0]].panel);
    const long at = panel == nullptr ? -1 : room_at_.at(panel->room);
    return at < 0 ? 0 : static_cast<std::size_t>(at);
  }
  [[nodiscard]] std::size_t here() const {
    if (board_.last_point >= 0) return room_of(static_cast<std::size_t>(board_.last_point));
    return panel_room(board_.open_way < 0 ? 0 : static_cast<std::size_t>(board_.open_way));
  }
  [[nodiscard]] std::vector<std::size_t> rooms_of(const std::vector<Look>& looks) const {
    std::vector<std::size_t> rooms;
    for (const Look& look : looks)
      if (std::ranges::find(rooms, room_of(look.point)) == rooms.end()) rooms.push_back(room_of(look.point));
    return rooms;
  }

  /// The look to make now: at a load at risk first, then in this room (second looks last), then on.
  [[nodiscard]] std::optional<Look> nearest(const std::vector<Look>& looks, std::size_t from) const {
    if (looks.empty()) return std::nullopt;
    for (const Look& look : looks)
      if (board_.open_way >= 0 && has_load_at_risk(house_, all_.readings.units[look.unit])) return look;
    const auto rooms = rooms_of(looks);
    const auto order = walking_order(board_.walk, from, panel_room(board_.open_way < 0 ? 0 : static_cast<std::size_t>(board_.open_way)), rooms);
    const std::size_t room = std::ranges::find(rooms, from) != rooms.end() ? from : order.front();
    std::optional<Look> best;
    for (const Look& look : looks)
      if (room_of(look.point) == room && (!best || (best->reason == StepReason::look_again && look.reason != StepReason::look_again)))
        best = look;
    return best;
  }

  [[nodiscard]] Step as_step(const Look& look) const {
    const bool asked = board_.open_handles.empty() && all_.readings.dead_anyway[look.point];
    return {asked ? StepKind::ask_dead : StepKind::look, look.reason, board_.open_handles, house_.points[look.point].id, {}, false};
  }

  [[nodiscard]] Step close_step(StepReason reason) const {
    return {StepKind::close, reason, board_.open_handles, {}, {}, false};
  }

  [[nodiscard]] Step while_open() const {
    if (board_.open_way < 0) return close_step(StepReason::tour_over);
    const auto way = static_cast<std::size_t>(board_.open_way);
    if (board_.briefly[way] && seconds_open() > kBriefSeconds - kBriefReserveSeconds) return close_step(StepReason::time_over);
    for (std::size_t u = 0; u < all_.units.size(); ++u)
      if (board_.answers[u].dead > 0 && board_.tries[u][way] == 1 && keeps_somebody_alive(house_, all_.readings.units[u]))
        return close_step(StepReason::load_is_off);
    auto looks = tour_looks(way, false);
    add_looks_on_the_way(looks, way);
    if (const auto look = nearest(looks, here())) return as_step(*look);
    return close_step(StepReason::tour_over);
  }

  [[nodiscard]] long seconds_open() const {
    const Round& round = house_.rounds[static_cast<std::size_t>(board_.round)];
    long seconds = 0;
    for (const Observation& seen : house_.observations)
      if (seen.round == round.id && !seen.withdrawn) seconds = std::max(seconds, seconds_between(round.at, seen.at));
    return seconds;
  }

  [[nodiscard]] double tour_seconds(std::size_t way, const std::vector<Look>& looks) const {
    const std::size_t home = panel_room(way);
    const auto order = walking_order(board_.walk, home, home, rooms_of(looks));
    double seconds = 2 * kHandleSeconds + kNuisanceSeconds + walk_seconds(board_.walk, home, home, order) +
                     kEnterSeconds * static_cast<double>(order.size());
    for (const Look& look : looks) seconds += look_seconds(house_.points[look.point].kind);
    return seconds;
  }

  [[nodiscard]] std::optional<std::size_t> best_way() const {
    std::optional<std::size_t> best;
    double best_rate = 0;
    for (std::size_t w = 0; w < all_.ways.size(); ++w) {
      if (!board_.may_open[w] || board_.rounds_of_way[w] >= kMostRoundsOfAWay) continue;
      const auto looks = tour_looks(w, true);
      if (looks.empty()) continue;
      double gain = 0;
      for (const Look& look : looks) gain += belief_in(all_.units[look.unit], w);
      const double rate = gain / tour_seconds(w, looks);
      if (rate > best_rate * (1 + 1e-9)) best = w, best_rate = rate;
    }
    return best;
  }

  /// Loads hurt by a power loss that may hang on a way with at least this belief.
  [[nodiscard]] std::vector<Id<Load>> loads_at_risk(double belief, std::optional<std::size_t> way = {}) const {
    std::vector<Id<Load>> loads;
    for (const Load& load : house_.loads) {
      if (!load.hurt_by_power_loss && load.importance != Importance::life_safety) continue;
      for (std::size_t p = 0; p < house_.points.size(); ++p)
        if (house_.points[p].id == load.point &&
            (!way || belief_in(all_.units[all_.readings.unit_of_point[p]], *way) >= belief))
          loads.push_back(load.id);
    }
    return loads;
  }

  [[nodiscard]] Step open_step(std::size_t way) const {
    constexpr double kMayGoOff = 0.1;
    const Breaker& breaker = house_.breakers[all_.ways[way].breakers[0]];
    const HandleRef handle{HandleKind::breaker, breaker.id.value};
    const auto loads = loads_at_risk(kMayGoOff, way);
    if (!loads.empty() && !board_.settings.contains(kCautionPrefix + breaker.id.text()))
      return {StepKind::caution, StepReason::load_at_risk, {handle}, {}, loads, board_.briefly[way]};
    return {StepKind::open, StepReason::most_expected, {handle}, {}, {}, board_.briefly[way]};
  }

  const Board& board_;
  const House& house_;
  const Conclusions& all_;
  Index<Room> room_at_;
  std::vector<double> best_open_;  ///< of the units: highest belief in a way that may still be opened
};

}  // namespace

Step next_step(const Board& board) { return Planner(board).next(); }

Progress progress_of(const Board& board) {
  Progress progress;
  const Conclusions& all = board.conclusions;
  for (std::size_t p = 0; p < board.house.points.size(); ++p) {
    const UnitConclusion& unit = all.units[all.readings.unit_of_point[p]];
    ++progress.total;
    if (unit.feed.standing == Standing::proved) ++progress.settled;
    else if (unit.dead_anyway) ++progress.dead_anyway;
    else if (unit.unexplained) ++progress.unexplained;
    else if (unit.feed.standing == Standing::likely || unit.feed.standing == Standing::declared) ++progress.likely;
  }
  progress.minutes_left = static_cast<int>(std::ceil(Planner(board).seconds_left() / 60));
  return progress;
}

}  // namespace ohmstead
