#include "trace/plan.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "trace/choice.h"
#include "trace/looks.h"
#include "trace/tour.h"

namespace ohmstead {

namespace {

constexpr int kBriefReserveSeconds = 60;
constexpr double kMayGoOff = 0.1;  ///< belief from which a load is named, and looked at first
class Planner {
 public:
  explicit Planner(const Board& board) : board_(board), house_(board.house), all_(board.conclusions), find_(board), chooser_(board, find_) {}

  [[nodiscard]] Step next() const {
    if (all_.ways.empty() || house_.points.empty()) return {StepKind::done, StepReason::nothing_listed, {}, {}, {}, false};
    if (!board_.open_handles.empty()) return while_open();
    if (!board_.settings.contains(kCautionStart))
      return {StepKind::caution, StepReason::start, {}, {}, loads_at_risk(0), false};
    if (const auto look = nearest(find_.doubtful(), here())) return as_step(*look);
    if (const auto choice = chooser_.best({})) return open_step(choice->way);
    if (const auto look = nearest(find_.unconfirmed(), here())) return as_step(*look);
    return {};
  }

  [[nodiscard]] double seconds_left() const {
    constexpr double kSettle = 20, kPerBit = 15;
    double seconds = 0;
    for (std::size_t u = 0; u < all_.units.size(); ++u) {
      if (all_.units[u].feed.standing == Standing::proved) continue;
      if (!find_.may_be_looked_at(u)) continue;
      double bits = 0;
      for (const Candidate& candidate : all_.units[u].candidates)
        if (candidate.belief > 0) bits -= candidate.belief * std::log2(candidate.belief);
      seconds += kSettle + kPerBit * bits;
    }
    for (const Look& look : find_.doubtful()) seconds += 2 * kNuisanceSeconds + look_seconds(house_.points[look.point].kind);
    for (const Look& look : find_.unconfirmed()) seconds += kEnterSeconds + look_seconds(house_.points[look.point].kind);
    return seconds;
  }

 private:
  [[nodiscard]] std::size_t here() const {
    if (board_.last_point >= 0) return find_.room_of(static_cast<std::size_t>(board_.last_point));
    return chooser_.panel_room(board_.open_way < 0 ? 0 : static_cast<std::size_t>(board_.open_way));
  }
  [[nodiscard]] std::vector<std::size_t> rooms_of(const std::vector<Look>& looks) const {
    std::vector<std::size_t> rooms;
    for (const Look& look : looks)
      if (std::ranges::find(rooms, find_.room_of(look.point)) == rooms.end()) rooms.push_back(find_.room_of(look.point));
    return rooms;
  }

  /// The look to make now: at a load at risk first, then in this room (second looks last), then on.
  [[nodiscard]] std::optional<Look> nearest(const std::vector<Look>& looks, std::size_t from) const {
    if (looks.empty()) return std::nullopt;
    for (const Look& look : looks)
      if (board_.open_way >= 0 && has_load_at_risk(house_, all_.readings.units[look.unit])) return look;
    const auto rooms = rooms_of(looks);
    const auto order = walking_order(board_.walk, from, chooser_.panel_room(board_.open_way < 0 ? 0 : static_cast<std::size_t>(board_.open_way)), rooms);
    const std::size_t room = std::ranges::find(rooms, from) != rooms.end() ? from : order.front();
    std::optional<Look> best;
    for (const Look& look : looks)
      if (find_.room_of(look.point) == room && (!best || (best->reason == StepReason::look_again && look.reason != StepReason::look_again)))
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
    if (const auto look = next_look(way)) return as_step(*look);
    return close_step(StepReason::tour_over);
  }

  /// At a load at risk first; then what is worth its time in this room, then second looks and what
  /// can be seen live in passing; then on to the next room that is worth it.
  [[nodiscard]] std::optional<Look> next_look(std::size_t way) const {
    const auto looks = find_.in_this_round(way);
    for (const Look& look : looks) {
      const Unit& unit = all_.readings.units[look.unit];
      if (keeps_somebody_alive(house_, unit)) return look;
      if (has_load_at_risk(house_, unit) && belief_in(all_.units[look.unit], way) >= kMayGoOff) return look;
    }
    const auto other = chooser_.best(way);
    const double price = other ? other->rate() : 0;
    const std::size_t room = here();
    if (board_.last_point >= 0) {
      if (const auto look = chooser_.look_in(way, room, price)) return look;
      for (const Look& look : looks)
        if (look.reason != StepReason::may_be_fed && find_.room_of(look.point) == room) return look;
    }
    if (board_.last_point < 0)  // once it is open, the first room of its own best walk is worth the way
      if (const auto own = chooser_.best_with(way, 0)) return chooser_.look_in(way, own->rooms.front(), 0);
    const Choice rest = chooser_.rest(way, room, price);
    return rest.rooms.empty() ? std::nullopt : chooser_.look_in(way, rest.rooms.front(), price);
  }

  [[nodiscard]] long seconds_open() const {
    const Round& round = house_.rounds[static_cast<std::size_t>(board_.round)];
    long seconds = 0;
    for (const Observation& seen : house_.observations)
      if (seen.round == round.id && !seen.withdrawn) seconds = std::max(seconds, seconds_between(round.at, seen.at));
    return seconds;
  }

  /// Loads hurt by a power loss that may hang on a way with at least this belief; those that keep
  /// somebody alive first.
  [[nodiscard]] std::vector<Id<Load>> loads_at_risk(double belief, std::optional<std::size_t> way = {}) const {
    std::vector<Id<Load>> loads;
    for (const Load& load : house_.loads) {
      if (!load.hurt_by_power_loss) continue;
      for (std::size_t p = 0; p < house_.points.size(); ++p)
        if (house_.points[p].id == load.point &&
            (!way || belief_in(all_.units[all_.readings.unit_of_point[p]], *way) >= belief))
          loads.push_back(load.id);
    }
    std::ranges::stable_partition(loads, [&](Id<Load> id) { return row(house_, id).importance == Importance::life_safety; });
    return loads;
  }

  [[nodiscard]] Step open_step(std::size_t way) const {
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
  LookFinder find_;
  TourChooser chooser_;
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
