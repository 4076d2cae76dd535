#include "trace/choice.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "trace/room_search.h"
#include "house/tour.h"
#include "trace/worth.h"

namespace ohmstead {

namespace {

constexpr double kBitWorth = 60, kDeadWorth = 60;  ///< seconds that one bit, and one dead sighting, save later
constexpr double kSureWorth = 40;          ///< the same when nothing more has to be asked of a unit; with several off, in a large house
constexpr std::size_t kMostTogether = 14;  ///< open at once where any number may be
constexpr std::size_t kMostInSets = 7;     ///< the same while sets are searched as a whole
constexpr double kPriceShare = 0.5;        ///< price of a second on a walk, as a share of the next best rate
constexpr double kPriceShareOfSets = 0.2;  ///< the same for the choice of a set: a walk with several pays for a long time
constexpr std::size_t kMostTried = 4, kMostSwapped = 1;  ///< of the ways that promise most, at each move
constexpr int kMostMoves = 40;

}  // namespace

double look_seconds(PointKind kind) {
  return kind == PointKind::receptacle ? 8 : kind == PointKind::light ? 2 : 12;
}

TourChooser::TourChooser(const Board& board, const LookFinder& find, bool sets)
    : board_(board), house_(board.house), all_(board.conclusions), find_(find), sets_(sets && board.manner.at_once != 1),
      sure_worth_(board.manner.at_once != 1 && all_.units.size() > kSmallHouse ? kSureWorth : 0) {
  if (!board.manner.helper) return;
  const auto last = std::find_if(house_.observations.rbegin(), house_.observations.rend(), [](const Observation& seen) { return !seen.withdrawn; });
  for (std::size_t p = 0; p < house_.points.size() && last != house_.observations.rend(); ++p)
    if (house_.points[p].id == last->point && !board.lamp_in[p]) stands_at_ = p;
}

std::size_t TourChooser::home(const WaySet& open) const {
  return board_.manner.helper ? board_.walk.size() - 1 : panel_room(board_, open.empty() ? 0 : open[0]);
}

double TourChooser::seconds_of(const Look& look) const {
  if (stands_at_ == look.point) return kSamePointSeconds;
  return board_.lamp_in[look.point] ? kGlanceSeconds : look_seconds(house_.points[look.point].kind);
}

/// A dead sighting saves one later only where the unit was not seen dead with that way yet; with one
/// way open a second one is worth as much, for it makes sure (not in sets: other ways make sure there).
double TourChooser::worth_of_look(const Look& look, const WaySet& open, double belief) const {
  const double now = find_.belief(look.unit, open);
  const double first_time = (!sets_ && open.size() == 1) || now <= 0 ? 1 : find_.unseen_belief(look.unit, open) / now;
  return kBitWorth * reading_bits(belief) + kDeadWorth * belief * first_time + sure_worth_ * find_.makes_sure(look.unit, open, belief);
}

/// Looks at kin in one room: the first counts in full; the others as far as it turns out dead, when
/// they are likely to be dead too, and as far as they are worth a look by themselves if it is live.
TourChooser::Stop TourChooser::stop_for(const WaySet& open, const std::vector<Look>& kin, double price) const {
  const auto belief = [&](const Look& look) { return find_.belief(look.unit, open); };
  const auto promise = [&](const Look& look) { return std::pair{board_.lamp_in[look.point], belief(look)}; };
  const auto first = std::ranges::max_element(kin, {}, promise);
  const double p = belief(*first);
  const auto group = static_cast<std::size_t>(all_.kin.group_of_unit()[first->unit]);
  const double together = all_.kin.chance(group, group);
  Stop stop{find_.room_of(first->point), worth_of_look(*first, open, p), seconds_of(*first), *first, board_.lamp_in[first->point], board_.lamp_in[first->point]};
  for (const Look& look : kin) {
    if (look.unit == first->unit) continue;
    const double mine = belief(look), if_dead = std::max(mine, together);
    const double if_live = p >= 1 ? 0 : std::clamp((mine - p * if_dead) / (1 - p), 0.0, 1.0);
    const double seconds = seconds_of(look);
    for (const auto& [chance, then] : {std::pair{p, if_dead}, {1 - p, if_live}}) {
      const double worth = worth_of_look(look, open, then);
      if (worth > price * seconds) stop.worth += chance * worth, stop.seconds += chance * seconds;
    }
  }
  return stop;
}

/// One stop for each room with looks that are worth their time.
std::vector<TourChooser::Stop> TourChooser::stops(const WaySet& open, const std::vector<Look>& looks, double price) const {
  std::map<std::pair<std::size_t, long>, std::vector<Look>> kin;
  std::map<std::size_t, Stop> rooms;
  for (const Look& look : looks) {
    if (look.reason == StepReason::may_be_fed) kin[{find_.room_of(look.point), all_.kin.group_of_unit()[look.unit]}].push_back(look);
  }
  for (const auto& [where, group] : kin) {
    const Stop stop = stop_for(open, group, price);
    if (stop.worth <= price * stop.seconds) continue;
    Stop& room = rooms.try_emplace(where.first, Stop{where.first, 0, 0, {}, true, false}).first->second;
    if (!room.look || std::pair{stop.at_door, find_.belief(stop.look->unit, open)} > std::pair{room.first_at_door, find_.belief(room.look->unit, open)})
      room.look = stop.look, room.first_at_door = stop.at_door;
    if (room.at_door && !stop.at_door) room.at_door = false, room.seconds += kEnterSeconds;
    room.worth += stop.worth, room.seconds += stop.seconds;
  }
  std::vector<Stop> all;
  for (const auto& [room, stop] : rooms) all.push_back(stop);
  return all;
}

void TourChooser::walk_through(Choice& choice, const std::vector<Stop>& stops, std::size_t from, double price) const {
  const std::size_t end = home(choice.open);
  RoomSearch search(board_, from, end, price);
  for (const Stop& stop : stops) search.add(stop.room, stop.worth, stop.seconds);
  choice.rooms = search.rooms();
  choice.seconds += walk_seconds(board_.walk, from, end, choice.rooms);
  for (const Stop& stop : stops)
    if (std::ranges::find(choice.rooms, stop.room) != choice.rooms.end()) choice.worth += stop.worth, choice.seconds += stop.seconds;
}

/// What is open already costs no more.
double TourChooser::handles_seconds(const WaySet& open) const {
  const double each = 2 * (kHandleSeconds + (board_.manner.helper ? kTalkSeconds : 0)) + kNuisanceSeconds;
  return each * static_cast<double>(without(open, board_.open_ways).size());
}

std::optional<Choice> TourChooser::best_with(const WaySet& open, double rate) const {
  std::optional<Choice> best;
  const auto looks = find_.fresh(open);
  const std::size_t from = board_.manner.helper ? board_.here : home(open);
  for (int round = 0; round < 6 && !looks.empty(); ++round) {
    Choice choice{open, 0, handles_seconds(open), {}};
    auto all = stops(open, looks, rate);
    for (Stop& stop : all)
      if (stands_at_ && stop.room == board_.here && !stop.at_door) stop.seconds -= kEnterSeconds;
    walk_through(choice, all, from, rate);
    if (choice.rooms.empty() || choice.worth <= rate * choice.seconds * (1 + 1e-6)) break;
    rate = choice.worth / std::max(1e-3, choice.seconds);
    best = std::move(choice);
  }
  return best;
}

std::size_t TourChooser::most_open() const {
  return board_.manner.at_once > 0 ? static_cast<std::size_t>(board_.manner.at_once) : std::min(sets_ ? kMostInSets : kMostTogether, all_.ways.size());
}

/// What looks with these open are worth beyond their price, walks left out.
double TourChooser::rough_gain(const WaySet& open, double price) const {
  double gain = -price * handles_seconds(open);
  for (const Stop& stop : stops(open, find_.fresh(open), price)) gain += std::max(0.0, stop.worth - price * stop.seconds);
  return gain;
}

/// Opens one more, whichever adds most, as long as the walk brings more for each second.
Choice TourChooser::grown(Choice choice, const WaySet& not_these) const {
  while (choice.open.size() < most_open()) {
    double best = -HUGE_VAL;
    std::size_t best_way = all_.ways.size();
    for (std::size_t w = 0; w < all_.ways.size(); ++w) {
      if (holds(choice.open, w) || board_.briefly[w] || !find_.can_open(w)) continue;
      if (const double gain = rough_gain(with(choice.open, w), choice.rate()); gain > best) best = gain, best_way = w;
    }
    if (best_way == all_.ways.size()) break;
    auto more = best_with(with(choice.open, best_way), choice.rate());
    if (!more || more->open == not_these) break;
    choice = std::move(*more);
  }
  return choice;
}

bool TourChooser::any_briefly(const WaySet& open) const {
  return std::ranges::any_of(open, [&](std::size_t way) { return board_.briefly[way]; });
}

Choice TourChooser::walk_with(const WaySet& open, double price) const {
  Choice choice{open, 0, handles_seconds(open), {}};
  walk_through(choice, stops(open, find_.fresh(open), price), board_.manner.helper ? board_.here : home(open), price);
  return choice;
}

/// Ways that are not in the set and may join it, the ones that promise most first.
std::vector<std::size_t> TourChooser::may_join(const WaySet& open, double price) const {
  std::vector<std::pair<double, std::size_t>> gains;
  for (std::size_t w = 0; w < all_.ways.size(); ++w)
    if (!holds(open, w) && !board_.briefly[w] && find_.can_open(w)) gains.push_back({-rough_gain(with(open, w), price), w});
  std::ranges::sort(gains);
  std::vector<std::size_t> ways;
  for (std::size_t i = 0; i < std::min(kMostTried, gains.size()); ++i) ways.push_back(gains[i].second);
  return ways;
}

/// Sets that differ from this one by one way more, one less (but not of `keep`), or one for another.
std::vector<WaySet> TourChooser::neighbours(const WaySet& open, const WaySet& keep, double price) const {
  std::vector<WaySet> sets;
  const auto joining = may_join(open, price);
  for (std::size_t i = 0; i < joining.size(); ++i) {
    if (open.size() < most_open()) sets.push_back(with(open, joining[i]));
    for (const std::size_t w : open.size() > 1 && i < kMostSwapped ? without(open, keep) : WaySet{}) sets.push_back(with(without(open, {w}), joining[i]));
  }
  for (const std::size_t w : open.size() > 1 ? without(open, keep) : WaySet{}) sets.push_back(without(open, {w}));
  return sets;
}

Choice TourChooser::improved(const WaySet& start, const WaySet& keep, const WaySet& not_these, double price) const {
  const auto net = [&](const Choice& choice) {
    return choice.rooms.empty() || choice.open == not_these ? -HUGE_VAL : choice.net(price);
  };
  Choice best = walk_with(start, price);
  for (int move = 0; move < kMostMoves; ++move) {
    Choice next = best;
    for (const WaySet& set : neighbours(best.open, keep, price))
      if (Choice choice = walk_with(set, price); net(choice) > net(next) + 1e-6) next = std::move(choice);
    if (next.open == best.open) break;
    best = std::move(next);
  }
  if (best.open == not_these) best.rooms.clear();
  return best;
}

/// What is open now is left out: it costs nothing to open, and so says little of what time is worth.
double TourChooser::closed_rate() const {
  double rate = 0;
  for (std::size_t w = 0; w < all_.ways.size(); ++w)
    if (!holds(board_.open_ways, w) && find_.can_open(w))
      if (const auto choice = best_with({w}, rate)) rate = choice->rate();
  return rate;
}

std::optional<Choice> TourChooser::best(const WaySet& not_these) const {
  std::optional<Choice> best;
  for (std::size_t w = 0; w < all_.ways.size(); ++w)
    if (WaySet{w} != not_these && find_.can_open(w))
      if (auto choice = best_with({w}, best ? best->rate() : 0)) best = std::move(choice);
  if (!best || any_briefly(best->open)) return best;
  return sets_ ? best_set(std::move(*best), not_these) : grown(std::move(*best), not_these);
}

/// Searched from the best way alone, and from what is open now: perhaps most of it can stay off.
Choice TourChooser::best_set(Choice one, const WaySet& not_these) const {
  const double price = kPriceShareOfSets * closed_rate();
  if (price <= 0) return one;
  Choice set = improved(one.open, {}, not_these, price);
  if (board_.open_ways.size() > 1 && !any_briefly(board_.open_ways)) {
    Choice from_now = improved(board_.open_ways, {}, not_these, price);
    if (!from_now.rooms.empty() && (set.rooms.empty() || from_now.net(price) > set.net(price))) set = std::move(from_now);
  }
  return set.rooms.empty() ? one : set;
}

std::optional<Choice> TourChooser::best_from(const WaySet& open) const {
  auto choice = best_with(open, 0);
  if (!choice || any_briefly(open)) return choice;
  if (!sets_) return grown(std::move(*choice), {});
  Choice more = improved(open, open, {}, kPriceShareOfSets * closed_rate());
  return more.rooms.empty() ? choice : more;
}

Choice TourChooser::rest(const WaySet& open, double price) const {
  Choice choice{open, 0, 0, {}};
  auto all = stops(open, find_.in_this_round(open), price * kPriceShare);
  for (Stop& stop : all)
    if (stop.room == board_.here && board_.last_point >= 0 && !stop.at_door) stop.seconds -= kEnterSeconds;
  walk_through(choice, all, board_.here, price * kPriceShare);
  return choice;
}

std::optional<Look> TourChooser::look_in(const WaySet& open, std::size_t room, double price) const {
  for (const Stop& stop : stops(open, find_.in_this_round(open), price * kPriceShare))
    if (stop.room == room) return stop.look;
  return std::nullopt;
}

}  // namespace ohmstead
