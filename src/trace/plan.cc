#include "trace/plan.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "house/index.h"
#include "house/moment.h"
#include "trace/choice.h"
#include "trace/looks.h"
#include "trace/together.h"
#include "house/tour.h"

namespace ohmstead {

namespace {

constexpr int kBriefReserveSeconds = 60;
constexpr double kLampBits = 2.5;  ///< not known of a receptacle: it will be looked at often enough for a lamp to pay
constexpr double kMayGoOff = 0.1;  ///< belief from which a load is named, and looked at first
constexpr std::size_t kFewUnits = 10;    ///< to be looked for: found as well by the likeliest way with more of them

class Planner {
 public:
  Planner(const Board& board, bool sets)
      : board_(board), house_(board.house), all_(board.conclusions), sets_(sets), find_(board, sets), chooser_(board, find_, sets), together_(board, find_) {}

  /// Sets are searched as a whole while many units are looked for.
  [[nodiscard]] bool many_to_find() const {
    if (all_.units.size() <= kSmallHouse) return false;
    std::size_t units = 0;
    for (std::size_t u = 0; u < all_.units.size(); ++u) units += !find_.settled(u) && find_.may_be_looked_at(u) ? 1 : 0;
    return units > kFewUnits;
  }

  [[nodiscard]] Step next() const {
    if (all_.ways.empty() || house_.points.empty()) return {StepKind::done, StepReason::nothing_listed, {}, {}, {}, false};
    if (!board_.open_handles.empty()) return while_open();
    if (!board_.settings.contains(kCautionStart))
      return {StepKind::caution, StepReason::start, {}, {}, loads_at_risk(0), false};
    if (const auto look = nearest(find_.doubtful())) return as_step(*look);
    if (const auto choice = chooser_.best({})) return open_step(choice->open);
    if (const auto look = nearest(find_.unconfirmed())) return as_step(*look);
    if (const auto open = together_.next(); !open.empty()) return open_step(open, StepReason::fed_by_two);
    return last_lamp().value_or(Step{});
  }

  [[nodiscard]] bool settled(std::size_t unit) const { return find_.proved(unit); }

  /// Looks, and walks: while little is known of many points every walk finds some of them, but the
  /// last few take about as many walks as there are breakers that may still feed them (docs/trace.md).
  [[nodiscard]] double seconds_left() const {
    constexpr double kSettle = 26, kPerBit = 10, kWalk = 105, kWalkWithSeveral = 35, kSeveralWalks = 180, kKnownWell = 2, kFew = 4;
    double seconds = 0, searched = 0, ways = 0;
    for (std::size_t u = 0; u < all_.units.size(); ++u) {
      if (find_.settled(u) || !find_.may_be_looked_at(u)) continue;
      seconds += kSettle + kPerBit * find_.bits_open(u);
      searched += std::min(1.0, find_.bits_open(u) / kKnownWell);
    }
    for (std::size_t w = 0; w < all_.ways.size(); ++w) ways += find_.can_open(w) ? 1 : 0;
    seconds += (board_.manner.at_once == 1 ? kWalk : kWalkWithSeveral) * ways * searched / (searched + kFew);
    for (const Look& look : find_.doubtful()) seconds += 2 * kNuisanceSeconds + look_seconds(house_.points[look.point].kind);
    for (const Look& look : find_.unconfirmed()) seconds += kEnterSeconds + look_seconds(house_.points[look.point].kind);
    return together_.next().empty() ? seconds : seconds + kSeveralWalks;
  }

 private:
  [[nodiscard]] std::vector<std::size_t> rooms_of(const std::vector<Look>& looks) const {
    std::vector<std::size_t> rooms;
    for (const Look& look : looks)
      if (std::ranges::find(rooms, find_.room_of(look.point)) == rooms.end()) rooms.push_back(find_.room_of(look.point));
    return rooms;
  }

  /// The look to make now: at a load at risk first, then in this room (second looks last), then on.
  [[nodiscard]] std::optional<Look> nearest(const std::vector<Look>& looks) const {
    if (looks.empty()) return std::nullopt;
    for (const Look& look : looks)
      if (!board_.open_ways.empty() && has_load_at_risk(house_, all_.readings.units[look.unit])) return look;
    const auto rooms = rooms_of(looks);
    const auto order = walking_order(board_.walk, board_.here, chooser_.home(board_.open_ways), rooms);
    const std::size_t room = std::ranges::find(rooms, board_.here) != rooms.end() ? board_.here : order.front();
    std::optional<Look> best;
    for (const Look& look : looks)
      if (find_.room_of(look.point) == room && (!best || (best->reason == StepReason::look_again && look.reason != StepReason::look_again)))
        best = look;
    return best;
  }

  [[nodiscard]] Step as_step(const Look& look) const {
    const bool asked = board_.open_handles.empty() && all_.readings.dead_anyway[look.point];
    Step step{asked ? StepKind::ask_dead : StepKind::look, look.reason, board_.open_handles, house_.points[look.point].id};
    step.from_door = !asked && board_.lamp_in[look.point];
    return step;
  }

  [[nodiscard]] std::vector<HandleRef> handles_of(const WaySet& ways) const {
    std::vector<HandleRef> handles;
    for (const std::size_t w : ways) handles.push_back({HandleKind::breaker, house_.breakers[all_.ways[w].breakers[0]].id.value});
    return handles;
  }

  [[nodiscard]] Step close_step(StepReason reason, const std::vector<HandleRef>& handles) const {
    Step step{StepKind::close, reason, handles};
    step.by_helper = board_.manner.helper;
    return step;
  }
  [[nodiscard]] Step close_all(StepReason reason) const { return close_step(reason, board_.open_handles); }

  [[nodiscard]] Step while_open() const {
    const WaySet& open = board_.open_ways;
    if (open.empty()) return close_all(StepReason::tour_over);
    const bool briefly = std::ranges::any_of(open, [&](std::size_t way) { return board_.briefly[way]; });
    if ((briefly || life_may_be_off()) && seconds_open() > kBriefSeconds - kBriefReserveSeconds) return close_all(StepReason::time_over);
    for (std::size_t u = 0; u < all_.units.size(); ++u)
      if (board_.answers[u].dead > 0 && keeps_somebody_alive(house_, all_.readings.units[u]) &&
          std::ranges::any_of(open, [&](std::size_t way) { return board_.tries[u][way] == 1; }))
        return close_all(StepReason::load_is_off);
    if (briefly && open.size() > 1) return close_all(StepReason::load_is_off);
    if (board_.just_closed)
      if (const auto more = chooser_.best_from(open); more && more->open != open) return open_step(without(more->open, open));
    const auto other = sets_ ? std::nullopt : chooser_.best(open);
    if (const auto look = next_look(open, sets_ ? chooser_.closed_rate() : other ? other->rate() : 0)) return as_step(*look);
    if (const auto look = nearest(together_.looks(open))) return as_step(*look);
    if (const auto lamp = lamp_step()) return *lamp;
    return next_set(sets_ ? chooser_.best(open) : other);
  }

  /// A load that keeps somebody alive, likely on what is open and not seen live since.
  [[nodiscard]] bool life_may_be_off() const {
    for (std::size_t u = 0; u < all_.units.size(); ++u)
      if (board_.answers[u].live == 0 && find_.belief(u, board_.open_ways) >= kLifeIsLikelyOnIt && keeps_somebody_alive(house_, all_.readings.units[u]))
        return true;
    return false;
  }

  /// What stays off for the next walk is left as it is; the rest is closed first.
  [[nodiscard]] Step next_set(const std::optional<Choice>& next) const {
    if (!next || !find_.doubtful().empty()) return close_all(StepReason::tour_over);
    const WaySet closing = without(board_.open_ways, next->open), opening = without(next->open, board_.open_ways);
    if (closing.size() == board_.open_ways.size()) return close_all(StepReason::tour_over);
    if (closing.empty() && !opening.empty()) return open_step(opening);
    return close_step(StepReason::next_set, handles_of(closing));
  }

  /// At a load at risk first; then what is worth its time in this room, then second looks and what
  /// can be seen live in passing; then on to the next room that is worth it.
  [[nodiscard]] std::optional<Look> next_look(const WaySet& open, double price) const {
    const auto looks = find_.in_this_round(open);
    for (const Look& look : looks) {
      const Unit& unit = all_.readings.units[look.unit];
      if (keeps_somebody_alive(house_, unit)) return look;
      if (has_load_at_risk(house_, unit) && find_.belief(look.unit, open) >= kMayGoOff) return look;
    }
    if (board_.last_point >= 0) {
      if (const auto look = chooser_.look_in(open, board_.here, price)) return look;
      for (const Look& look : looks)
        if (look.reason != StepReason::may_be_fed && find_.room_of(look.point) == board_.here) return look;
    }
    if (board_.last_point < 0)  // once it is open, the first room of its own best walk is worth the way
      if (const auto own = chooser_.best_with(open, 0)) return chooser_.look_in(open, own->rooms.front(), 0);
    const Choice rest = chooser_.rest(open, price);
    return rest.rooms.empty() ? std::nullopt : chooser_.look_in(open, rest.rooms.front(), price);
  }

  /// In the room that is about to be left: a lamp that is not needed any more is taken along, and one
  /// is left where it will be looked at often.
  [[nodiscard]] std::optional<Step> lamp_step() const {
    if (board_.manner.lamps == 0 || board_.last_point < 0 || board_.lamp_in[static_cast<std::size_t>(board_.last_point)]) return std::nullopt;
    std::vector<std::size_t> useful;  // receptacles of this room that will be looked at often
    int lamps_here = 0;
    for (std::size_t u = 0; u < all_.units.size(); ++u)
      for (const std::size_t p : all_.readings.units[u].points) {
        if (find_.room_of(p) != board_.here || house_.points[p].kind != PointKind::receptacle) continue;
        const bool still_asked = !find_.settled(u) && !all_.units[u].seen_dead;
        if (board_.lamp_in[p] && !still_asked) return Step{StepKind::take_lamp, StepReason::lamp_not_needed, {}, house_.points[p].id};
        lamps_here += board_.lamp_in[p] ? 1 : 0;
        if (still_asked && !board_.lamp_in[p] && !board_.settings.contains(kNoLampPrefix + house_.points[p].id.text()) &&
            !all_.readings.dead_anyway[p] && find_.bits_open(u) >= kLampBits)
          useful.push_back(p);
      }
    const auto lamps_in = std::ranges::count(board_.lamp_in, true);
    if (useful.empty() || lamps_here > 0 || lamps_in >= board_.manner.lamps) return std::nullopt;
    return Step{StepKind::put_lamp, StepReason::seen_from_door, {}, house_.points[useful.front()].id};
  }

  /// At the end no lamp is left behind; the nearest one is next.
  [[nodiscard]] std::optional<Step> last_lamp() const {
    std::optional<std::size_t> nearest;
    for (std::size_t p = 0; p < house_.points.size(); ++p)
      if (board_.lamp_in[p] && (!nearest || board_.walk[board_.here][find_.room_of(p)] < board_.walk[board_.here][find_.room_of(*nearest)])) nearest = p;
    if (!nearest) return std::nullopt;
    return Step{StepKind::take_lamp, StepReason::lamp_not_needed, {}, house_.points[*nearest].id};
  }

  [[nodiscard]] long seconds_open() const {
    const Round& round = house_.rounds[static_cast<std::size_t>(board_.round)];
    long seconds = seconds_between(round.at, board_.now);
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

  [[nodiscard]] Step open_step(const WaySet& ways, StepReason reason = StepReason::most_expected) const {
    for (const std::size_t way : ways) {
      const auto handles = handles_of({way});
      const auto loads = loads_at_risk(kMayGoOff, way);
      if (loads.empty() || board_.settings.contains(kCautionPrefix + Id<Breaker>{handles[0].id}.text())) continue;
      return {StepKind::caution, StepReason::load_at_risk, handles, {}, loads, board_.briefly[way]};
    }
    Step step{StepKind::open, reason, handles_of(ways)};
    step.briefly = ways.size() == 1 && board_.briefly[ways[0]];
    step.by_helper = board_.manner.helper;
    return step;
  }

  const Board& board_;
  const House& house_;
  const Conclusions& all_;
  bool sets_;  ///< the sets of the walks are searched as a whole
  LookFinder find_;
  TourChooser chooser_;
  TogetherFinder together_;
};

}  // namespace

/// Once sets promise little more, the likeliest way is opened, with more of them.
Step next_step(const Board& board) {
  if (board.manner.at_once != 1 && !board.conclusions.ways.empty())
    if (const Planner planner(board, true); planner.many_to_find()) return planner.next();
  return Planner(board, false).next();
}

Progress progress_of(const Board& board) {
  Progress progress;
  const Conclusions& all = board.conclusions;
  const Planner planner(board, false);
  for (std::size_t p = 0; p < board.house.points.size(); ++p) {
    const std::size_t at = all.readings.unit_of_point[p];
    const UnitConclusion& unit = all.units[at];
    if (!is_wanted(board.house, board.manner, board.house.points[p])) continue;
    ++progress.total;
    if (unit.feed.standing == Standing::proved) ++(planner.settled(at) ? progress.settled : progress.likely);  // likely: to be traced again
    else if (unit.dead_anyway) ++progress.dead_anyway;
    else if (unit.unexplained) ++progress.unexplained;
    else if (unit.feed.standing == Standing::likely || unit.feed.standing == Standing::declared) ++progress.likely;
  }
  progress.minutes_left = static_cast<int>(std::ceil(planner.seconds_left() / 60));
  return progress;
}

}  // namespace ohmstead
