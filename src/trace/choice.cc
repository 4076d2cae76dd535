#include "trace/choice.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "trace/room_search.h"
#include "trace/tour.h"

namespace ohmstead {

namespace {

constexpr double kBitWorth = 20, kDeadWorth = 60;  ///< seconds that one bit, and one dead sighting, save later
constexpr double kPriceShare = 0.5;  ///< price of a second on a walk, as a share of the next best rate

double entropy(double p) { return p <= 0 || p >= 1 ? 0 : -p * std::log2(p) - (1 - p) * std::log2(1 - p); }

/// Bits that one reading tells of whether this way feeds the unit.
double bits(double belief) {
  return entropy(belief * (1 - kReadingError) + (1 - belief) * kReadingError) - entropy(kReadingError);
}

double worth_of_look(double belief) { return kBitWorth * bits(belief) + kDeadWorth * belief; }

}  // namespace

double look_seconds(PointKind kind) {
  return kind == PointKind::receptacle ? 8 : kind == PointKind::light ? 2 : 12;
}

TourChooser::TourChooser(const Board& board, const LookFinder& find)
    : board_(board), house_(board.house), all_(board.conclusions), find_(find), room_at_(house_.rooms) {}

std::size_t TourChooser::panel_room(std::size_t way) const {
  const Panel* panel = find_row(house_, house_.breakers[all_.ways[way].breakers[0]].panel);
  const long at = panel == nullptr ? -1 : room_at_.at(panel->room);
  return at < 0 ? 0 : static_cast<std::size_t>(at);
}

/// Looks at kin in one room: the first counts in full; the others as far as it turns out dead, when
/// they are likely to be dead too, and as far as they are worth a look by themselves if it is live.
TourChooser::Stop TourChooser::stop_for(std::size_t way, const std::vector<Look>& kin, double price) const {
  const auto belief = [&](const Look& look) { return find_.belief(look.unit, way); };
  const auto first = std::ranges::max_element(kin, {}, belief);
  const double p = belief(*first);
  const auto group = static_cast<std::size_t>(all_.kin.group_of_unit()[first->unit]);
  const double together = all_.kin.chance(group, group);
  Stop stop{find_.room_of(first->point), worth_of_look(p), look_seconds(house_.points[first->point].kind), *first};
  for (const Look& look : kin) {
    if (look.unit == first->unit) continue;
    const double mine = belief(look), if_dead = std::max(mine, together);
    const double if_live = p >= 1 ? 0 : std::clamp((mine - p * if_dead) / (1 - p), 0.0, 1.0);
    const double seconds = look_seconds(house_.points[look.point].kind);
    for (const auto& [chance, then] : {std::pair{p, if_dead}, {1 - p, if_live}}) {
      const double worth = worth_of_look(then);
      if (worth > price * seconds) stop.worth += chance * worth, stop.seconds += chance * seconds;
    }
  }
  return stop;
}

/// One stop for each room with looks that are worth their time.
std::vector<TourChooser::Stop> TourChooser::stops(std::size_t way, const std::vector<Look>& looks, double price) const {
  std::map<std::pair<std::size_t, long>, std::vector<Look>> kin;
  std::map<std::size_t, Stop> rooms;
  for (const Look& look : looks) {
    if (look.reason == StepReason::may_be_fed) kin[{find_.room_of(look.point), all_.kin.group_of_unit()[look.unit]}].push_back(look);
  }
  for (const auto& [where, group] : kin) {
    const Stop stop = stop_for(way, group, price);
    if (stop.worth <= price * stop.seconds) continue;
    Stop& room = rooms.try_emplace(where.first, Stop{where.first, 0, kEnterSeconds, {}}).first->second;
    const double belief = find_.belief(stop.look->unit, way);
    if (!room.look || belief > find_.belief(room.look->unit, way)) room.look = stop.look;
    room.worth += stop.worth, room.seconds += stop.seconds;
  }
  std::vector<Stop> all;
  for (const auto& [room, stop] : rooms) all.push_back(stop);
  return all;
}

void TourChooser::walk_through(Choice& choice, const std::vector<Stop>& stops, std::size_t from, double price) const {
  const std::size_t home = panel_room(choice.way);
  RoomSearch search(board_, from, home, price);
  for (const Stop& stop : stops) search.add(stop.room, stop.worth, stop.seconds);
  choice.rooms = search.rooms();
  choice.seconds += walk_seconds(board_.walk, from, home, choice.rooms);
  for (const Stop& stop : stops)
    if (std::ranges::find(choice.rooms, stop.room) != choice.rooms.end()) choice.worth += stop.worth, choice.seconds += stop.seconds;
}

std::optional<Choice> TourChooser::best_with(std::size_t way, double rate) const {
  std::optional<Choice> best;
  const auto looks = find_.fresh(way);
  for (int round = 0; round < 6 && !looks.empty(); ++round) {
    Choice choice{way, 0, 2 * kHandleSeconds + kNuisanceSeconds, {}};
    walk_through(choice, stops(way, looks, rate), panel_room(way), rate);
    if (choice.rooms.empty() || choice.worth <= rate * choice.seconds * (1 + 1e-6)) break;
    rate = choice.worth / choice.seconds;
    best = std::move(choice);
  }
  return best;
}

std::optional<Choice> TourChooser::best(std::optional<std::size_t> without) const {
  std::optional<Choice> best;
  for (std::size_t w = 0; w < all_.ways.size(); ++w)
    if (w != without && find_.can_open(w))
      if (auto choice = best_with(w, best ? best->rate() : 0)) best = std::move(choice);
  return best;
}

Choice TourChooser::rest(std::size_t way, std::size_t from, double price) const {
  Choice choice{way, 0, 0, {}};
  auto all = stops(way, find_.in_this_round(way), price * kPriceShare);
  for (Stop& stop : all)
    if (stop.room == from && board_.last_point >= 0) stop.seconds -= kEnterSeconds;
  walk_through(choice, all, from, price * kPriceShare);
  return choice;
}

std::optional<Look> TourChooser::look_in(std::size_t way, std::size_t room, double price) const {
  for (const Stop& stop : stops(way, find_.in_this_round(way), price * kPriceShare))
    if (stop.room == room) return stop.look;
  return std::nullopt;
}

}  // namespace ohmstead
