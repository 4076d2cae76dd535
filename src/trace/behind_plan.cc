#include "trace/behind_plan.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "house/index.h"
#include "house/moment.h"
#include "trace/choice.h"
#include "house/tour.h"
#include "trace/worth.h"

namespace ohmstead {

namespace {

constexpr double kBitSeconds = 20;     ///< worth of a bit, as in choice.cc
constexpr double kFoundSeconds = 500;  ///< worth of finding a point: a person asks about a device to find all that hangs on it
constexpr double kFirstFoundSeconds = 750;  ///< the first one: 'it works nothing' is an answer that nobody is content with
constexpr int kBriefReserve = 60;
constexpr double kMayGoOff = 0.1, kLifeLikely = 0.2;
constexpr double kWorthAsking = 0.05;  ///< belief from which a point that is dead anyway is asked about
constexpr int kMostLooksInARound = 3, kMostRounds = 6, kMostAsksDead = 2, kMostLooksClosed = 3;

struct Place {
  std::size_t point = 0, room = 0;
  double worth = 0;
};

class BehindPlanner {
 public:
  explicit BehindPlanner(const BehindBoard& behind)
      : behind_(behind), board_(behind.board), house_(board_.house), home_(room_of_handle(house_, behind.handle)) {
    const Index<Room> room_at(house_.rooms);
    for (const Point& point : house_.points) room_of_.push_back(static_cast<std::size_t>(std::max(0L, room_at.at(point.room))));
    count();
  }

  [[nodiscard]] Step next() const {
    if (house_.points.empty()) return {StepKind::done, StepReason::nothing_listed};
    if (!board_.open_handles.empty()) return is_open() ? while_open() : close_step(StepReason::tour_over);
    if (const auto point = nearest(dead_anyway())) return look_step(StepKind::ask_dead, StepReason::dead_whatever, *point);
    if (const auto caution = caution_step()) return *caution;
    if (may_open() && !walk(looks(), home_).empty()) return open_step();
    if (const auto point = nearest(unconfirmed())) return look_step(StepKind::look, StepReason::live_when_closed, *point);
    return {};
  }

  /// Seconds that are still to be spent, and points that are still to be settled.
  [[nodiscard]] std::pair<double, int> left() const {
    const auto rooms = walk(looks(), here());
    double seconds = is_open() || rooms.empty() ? 0 : kHandleSeconds + kNuisanceSeconds;
    int points = 0;
    for (const std::vector<Place>& all : {looks(), unconfirmed()})
      for (const Place& place : all)
        if (std::ranges::find(rooms, place.room) != rooms.end() || place.worth == 0) seconds += look_seconds(kind(place.point)), ++points;
    seconds += walk_seconds(board_.walk, here(), home_, rooms) + kEnterSeconds * static_cast<double>(rooms.size());
    return {seconds, points};
  }

 private:
  void count() {
    asked_open_.assign(house_.points.size(), 0), asked_now_ = asked_closed_ = rounds_asked_ = asked_open_;
    const Index<Point> point_at(house_.points);
    std::set<std::pair<Id<Round>, Id<Point>>> asked;
    std::set<Id<Round>> with_it;
    for (const Opened& opened : house_.opened)
      if (first_of_group(house_, opened.handle) == behind_.handle) with_it.insert(opened.round);
    rounds_ = static_cast<int>(with_it.size());
    for (const Observation& seen : house_.observations) {
      const long p = point_at.at(seen.point);
      if (p < 0 || seen.withdrawn) continue;
      const auto at = static_cast<std::size_t>(p);
      if (!with_it.contains(seen.round)) {
        ++asked_closed_[at];
        if (seen.seen == Seen::live) asked_closed_[at] = 0;
        continue;
      }
      asked_closed_[at] = 0;  // only looks since it was last open
      if (asked.insert({seen.round, seen.point}).second) ++rounds_asked_[at];
      if (board_.round >= 0 && seen.round == house_.rounds[static_cast<std::size_t>(board_.round)].id) ++asked_now_[at];
    }
  }

  [[nodiscard]] PointKind kind(std::size_t point) const { return house_.points[point].kind; }
  [[nodiscard]] const BehindPoint& seen(std::size_t point) const { return behind_.points[point]; }
  [[nodiscard]] bool is_open() const {
    return std::ranges::all_of(board_.open_handles, [&](const HandleRef& handle) { return first_of_group(house_, handle) == behind_.handle; }) &&
           !board_.open_handles.empty();
  }
  [[nodiscard]] std::size_t here() const { return board_.last_point >= 0 ? room_of_[static_cast<std::size_t>(board_.last_point)] : home_; }
  [[nodiscard]] bool may_open() const {
    return rounds_ < kMostRounds && !board_.settings.contains(kSkipPrefix + handle_key(behind_.handle)) &&
           !board_.settings.contains(kStaysOffPrefix + handle_key(behind_.handle));
  }

  /// Looks with the handle open that are worth more than the time they take.
  [[nodiscard]] std::vector<Place> looks() const {
    std::vector<Place> places;
    const bool some = std::ranges::any_of(behind_.points, [](const BehindPoint& point) { return point.dead > 0 && point.belief >= kLikelyBelief; });
    const double found_seconds = some ? kFoundSeconds : kFirstFoundSeconds;
    for (std::size_t p = 0; p < house_.points.size(); ++p) {
      const BehindPoint& point = seen(p);
      const bool settled = point.standing == BehindStanding::behind || point.standing == BehindStanding::not_behind;
      const bool dead_enough = point.dead > 0 && point.belief >= kBehindBelief;
      const bool tries = asked_now_[p] < kMostLooksInARound && (asked_now_[p] > 0 || rounds_asked_[p] < kMostLooksInARound);
      if (settled || dead_enough || !tries || board_.conclusions.readings.dead_anyway[p]) continue;
      const double worth = kBitSeconds * reading_bits(point.belief) + found_seconds * point.belief - look_seconds(kind(p));
      if (worth > 0) places.push_back({p, room_of_[p], worth});
    }
    return places;
  }

  /// Seconds more for going into this room too, where it fits best.
  [[nodiscard]] int detour(std::size_t from, std::size_t end, const std::vector<std::size_t>& order, std::size_t room) const {
    const auto& walk = board_.walk;
    int least = walk[from][room] + walk[room][order.empty() ? end : order[0]] - walk[from][order.empty() ? end : order[0]];
    for (std::size_t at = 0; at < order.size(); ++at) {
      const std::size_t next = at + 1 < order.size() ? order[at + 1] : end;
      least = std::min(least, walk[order[at]][room] + walk[room][next] - walk[order[at]][next]);
    }
    return least;
  }

  /// Rooms whose looks are worth the way, in walking order from `from` back to the handle.
  [[nodiscard]] std::vector<std::size_t> walk(const std::vector<Place>& places, std::size_t from) const {
    std::vector<double> worth(std::max<std::size_t>(1, house_.rooms.size()), 0);
    for (const Place& place : places) worth[place.room] += place.worth;
    std::vector<std::size_t> rooms, order;
    const std::size_t end = board_.manner.helper ? board_.walk.size() - 1 : home_;
    for (;;) {
      double best_gain = 0;
      std::size_t best = 0;
      for (std::size_t r = 0; r < worth.size(); ++r) {
        const double enter = r == here() && board_.last_point >= 0 ? 0 : kEnterSeconds;
        if (worth[r] <= enter || std::ranges::find(rooms, r) != rooms.end()) continue;
        const double gain = worth[r] - enter - detour(from, end, order, r);
        if (gain > best_gain) best_gain = gain, best = r;
      }
      if (best_gain <= 0) return order;
      rooms.push_back(best);
      order = walking_order(board_.walk, from, end, rooms);
    }
  }

  /// Seen dead with the handle open and not live with it closed yet.
  [[nodiscard]] std::vector<Place> unconfirmed() const {
    std::vector<Place> places;
    for (std::size_t p = 0; p < house_.points.size(); ++p)
      if (seen(p).dead > 0 && seen(p).belief >= kLikelyBelief && !seen(p).live_closed && asked_closed_[p] < kMostLooksClosed) places.push_back({p, room_of_[p], 0});
    return places;
  }

  [[nodiscard]] std::vector<Place> dead_anyway() const {
    std::vector<Place> places;
    for (std::size_t p = 0; p < house_.points.size(); ++p)
      if (board_.conclusions.readings.dead_anyway[p] && seen(p).belief >= kWorthAsking && board_.asked_with_nothing_open[p] <= kMostAsksDead)
        places.push_back({p, room_of_[p], 0});
    return places;
  }

  /// The next one on a short walk through all of them.
  [[nodiscard]] std::optional<std::size_t> nearest(const std::vector<Place>& places) const {
    if (places.empty()) return std::nullopt;
    std::vector<std::size_t> rooms;
    for (const Place& place : places)
      if (std::ranges::find(rooms, place.room) == rooms.end()) rooms.push_back(place.room);
    const bool some_here = std::ranges::find(rooms, here()) != rooms.end();
    const std::size_t room = some_here ? here() : walking_order(board_.walk, here(), home_, rooms).front();
    return std::ranges::find(places, room, &Place::room)->point;
  }

  [[nodiscard]] Step while_open() const {
    const bool brief = is_brief();
    if (brief && seconds_open() > kBriefSeconds - kBriefReserve) return close_step(StepReason::time_over);
    for (std::size_t p = 0; p < house_.points.size(); ++p)
      if (seen(p).dead > 0 && asked_now_[p] == 1 && keeps_alive(p)) return close_step(StepReason::load_is_off);
    std::vector<Place> all = looks();
    const auto at_risk = std::ranges::find_if(all, [&](const Place& place) { return keeps_alive(place.point) && seen(place.point).belief >= kMayGoOff; });
    if (at_risk != all.end()) return open_look(at_risk->point);
    const auto rooms = walk(all, here());
    if (rooms.empty()) return close_step(StepReason::tour_over);
    std::erase_if(all, [&](const Place& place) { return place.room != (std::ranges::find(rooms, here()) != rooms.end() ? here() : rooms.front()); });
    const auto again = std::ranges::find_if(all, [&](const Place& place) { return static_cast<long>(place.point) == board_.last_point; });
    return open_look(again != all.end() ? again->point : std::ranges::max_element(all, {}, &Place::worth)->point);
  }

  [[nodiscard]] Step open_look(std::size_t point) const {
    return look_step(StepKind::look, asked_now_[point] > 0 ? StepReason::look_again : StepReason::may_be_fed, point);
  }
  [[nodiscard]] Step look_step(StepKind kind, StepReason reason, std::size_t point) const {
    return {kind, reason, board_.open_handles, house_.points[point].id};
  }
  [[nodiscard]] Step close_step(StepReason reason) const {
    Step step{StepKind::close, reason, board_.open_handles};
    step.by_helper = board_.manner.helper;
    return step;
  }
  [[nodiscard]] Step open_step() const {
    Step step{StepKind::open, StepReason::most_expected, {behind_.handle}};
    step.briefly = is_brief();
    step.by_helper = board_.manner.helper;
    return step;
  }

  /// What is read before the handle moves: once for the house, once for a transfer device, once for the loads that may go off.
  [[nodiscard]] std::optional<Step> caution_step() const {
    if (!may_open() || walk(looks(), home_).empty()) return std::nullopt;
    if (!board_.settings.contains(kCautionStart)) return Step{StepKind::caution, StepReason::start, {}, {}, loads_at_risk(0)};
    if (board_.settings.contains(kCautionPrefix + handle_key(behind_.handle))) return std::nullopt;
    const auto loads = loads_at_risk(kMayGoOff);
    const bool transfer = behind_.handle.kind == HandleKind::position;
    if (loads.empty() && !transfer) return std::nullopt;
    return Step{StepKind::caution, transfer ? StepReason::transfer : StepReason::load_at_risk, {behind_.handle}, {}, loads, is_brief()};
  }

  [[nodiscard]] std::vector<Id<Load>> loads_at_risk(double belief) const {
    std::vector<Id<Load>> loads;
    const Index<Point> point_at(house_.points);
    for (const Load& load : house_.loads)
      if (const long p = point_at.at(load.point); p >= 0 && load.hurt_by_power_loss && seen(static_cast<std::size_t>(p)).belief >= belief)
        loads.push_back(load.id);
    std::ranges::stable_partition(loads, [&](Id<Load> id) { return row(house_, id).importance == Importance::life_safety; });
    return loads;
  }

  [[nodiscard]] bool keeps_alive(std::size_t point) const {
    return std::ranges::any_of(house_.loads, [&](const Load& load) {
      return load.point == house_.points[point].id && load.hurt_by_power_loss && load.importance == Importance::life_safety;
    });
  }
  [[nodiscard]] bool is_brief() const {
    const Breaker* breaker = behind_.handle.kind == HandleKind::breaker ? find_row(house_, Id<Breaker>{behind_.handle.id}) : nullptr;
    if (breaker != nullptr && breaker->open_rule == OpenRule::briefly_alone) return true;
    for (std::size_t p = 0; p < house_.points.size(); ++p)
      if (seen(p).belief >= kLifeLikely && keeps_alive(p)) return true;
    return false;
  }
  [[nodiscard]] long seconds_open() const {
    const Round& round = house_.rounds[static_cast<std::size_t>(board_.round)];
    long seconds = seconds_between(round.at, board_.now);
    for (const Observation& look : house_.observations)
      if (look.round == round.id && !look.withdrawn) seconds = std::max(seconds, seconds_between(round.at, look.at));
    return seconds;
  }

  const BehindBoard& behind_;
  const Board& board_;
  const House& house_;
  std::size_t home_;
  std::vector<std::size_t> room_of_;
  std::vector<int> asked_open_, asked_now_, asked_closed_, rounds_asked_;
  int rounds_ = 0;
};

}  // namespace

BehindBoard read_behind_board(const Board& board, const HandleRef& handle) {
  return {board, first_of_group(board.house, handle), find_behind(BehindGround{board.house, board.conclusions, board.walk}, handle)};
}

Step next_behind_step(const BehindBoard& behind) { return BehindPlanner(behind).next(); }

Progress behind_progress(const BehindBoard& behind) {
  Progress progress;
  for (const BehindPoint& point : behind.points)
    if (point.standing == BehindStanding::behind || point.standing == BehindStanding::not_behind) ++progress.settled;
  const auto [seconds, points] = BehindPlanner(behind).left();
  progress.total = progress.settled + points;
  progress.minutes_left = static_cast<int>(std::ceil(seconds / 60));
  return progress;
}

}  // namespace ohmstead
