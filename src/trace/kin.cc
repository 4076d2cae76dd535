#include "trace/kin.h"

#include <algorithm>
#include <map>

#include "house/index.h"
#include "house/walking.h"
#include "trace/label_words.h"

namespace ohmstead {

namespace {

constexpr std::size_t kMostRoomsToWalk = 150;

/// Chances of sharing a breaker in one room, in rooms close by, on one floor, and elsewhere.
struct Chances {
  double room, near, floor, far;
};

constexpr Chances kLights{0.88, 0.22, 0.14, 0.03};
constexpr Chances kReceptacles{0.77, 0.11, 0.06, 0.003};
constexpr Chances kLightAndReceptacle{0.4, 0.05, 0.015, 0.003};
constexpr Chances kWetAndOther{0.3, 0.03, 0.01, 0.003};
constexpr Chances kCounters{0.3, 0.05, 0.02, 0.003};
constexpr Chances kCounterAndOther{0.1, 0.03, 0.01, 0.003};
constexpr Chances kBaths{0.85, 0.3, 0.3, 0.15};
constexpr Chances kOutsides{0.7, 0.5, 0.4, 0.2};
constexpr Chances kBathAndOutside{0.3, 0.15, 0.15, 0.15};
constexpr Chances kAlarms{0.95, 0.95, 0.95, 0.95};
constexpr Chances kAlarmAndLight{0.2, 0.16, 0.15, 0.09};
constexpr Chances kAlarmAndOther{0.04, 0.05, 0.04, 0.03};
constexpr Chances kOwn{0.08, 0.003, 0.003, 0.003};
constexpr Chances kOwnAndOther{0.1, 0.01, 0.005, 0.003};
constexpr Chances kTwoHots{0.003, 0.003, 0.001, 0.001};

Chances chances(Sort a, Sort b) {
  if (a > b) std::swap(a, b);
  const auto either = [&](Sort sort) { return a == sort || b == sort; };
  if (either(Sort::two_hots)) return kTwoHots;
  if (either(Sort::own)) return a == b ? kOwn : kOwnAndOther;
  if (either(Sort::alarm)) return a == b ? kAlarms : a == Sort::light ? kAlarmAndLight : kAlarmAndOther;
  if (a == b) {
    switch (a) {
      case Sort::light: return kLights;
      case Sort::counter: return kCounters;
      case Sort::bath: return kBaths;
      case Sort::outside: return kOutsides;
      default: return kReceptacles;
    }
  }
  if (either(Sort::counter)) return kCounterAndOther;
  if (a == Sort::bath && b == Sort::outside) return kBathAndOutside;
  if (either(Sort::bath) || either(Sort::outside)) return kWetAndOther;
  return kLightAndReceptacle;
}

bool has_word(const std::set<std::string>& words, std::initializer_list<const char*> of) {
  return std::ranges::any_of(of, [&](const char* word) { return words.contains(word); });
}

/// Words of the names of a point and its room.
std::set<std::string> words_about(const House& house, const Point& point) {
  const Room* room = find_row(house, point.room);
  auto words = room == nullptr ? std::set<std::string>{} : words_in(room->name);
  words.merge(words_in(point.name));
  return words;
}

bool are_outside(const std::set<std::string>& words) {
  return has_word(words, {"outside", "outdoor", "exterior", "garage", "yard", "porch", "patio", "deck"});
}

Sort sort_of_receptacle(const House& house, const Point& point) {
  if (names_an_appliance(words_in(point.name))) return Sort::own;
  const auto words = words_about(house, point);
  if (has_word(words, {"counter", "countertop", "kitchen"})) return Sort::counter;
  if (has_word(words, {"bath", "bathroom", "powder", "washroom"})) return Sort::bath;
  if (are_outside(words)) return Sort::outside;
  return Sort::receptacle;
}

}  // namespace

bool is_outside(const House& house, const Point& point) { return are_outside(words_about(house, point)); }

Sort sort_of(const House& house, const Unit& unit) {
  if (unit.hots > 1) return Sort::two_hots;
  if (unit.points.empty()) return Sort::receptacle;
  const Point& point = house.points[unit.points[0]];
  switch (point.kind) {
    case PointKind::light:
    case PointKind::fan: return Sort::light;
    case PointKind::alarm: return Sort::alarm;
    case PointKind::receptacle: return sort_of_receptacle(house, point);
    case PointKind::appliance:
    case PointKind::other: break;
  }
  return Sort::own;
}

Kin::Kin(const House& house, const Readings& readings) {
  for (const Room& room : house.rooms) floor_of_room_.push_back(room.floor);
  const Index<Room> room_at(house.rooms);
  std::map<std::pair<long, Sort>, long> known;
  for (const Unit& unit : readings.units) {
    if (unit.points.empty()) {
      group_of_unit_.push_back(-1);
      continue;
    }
    const KinGroup group{room_at.at(house.points[unit.points[0]].room), sort_of(house, unit)};
    const auto [found, is_new] = known.try_emplace({group.room, group.sort}, static_cast<long>(groups_.size()));
    group_of_unit_.push_back(found->second);
    if (is_new) groups_.push_back(group);
  }
  if (house.rooms.size() <= kMostRoomsToWalk) walk_ = walking_seconds(house);
}

double Kin::chance(std::size_t a, std::size_t b) const {
  const KinGroup &mine = groups_[a], &other = groups_[b];
  const Chances all = chances(mine.sort, other.sort);
  if (mine.room < 0 || other.room < 0) return mine.room == other.room ? all.floor : all.far;
  const auto from = static_cast<std::size_t>(mine.room), to = static_cast<std::size_t>(other.room);
  if (from == to) return all.room;
  if (floor_of_room_[from] != floor_of_room_[to]) return all.far;
  return !walk_.empty() && walk_[from][to] <= kNearSeconds ? all.near : all.floor;
}

}  // namespace ohmstead
