#include <algorithm>

#include "house/index.h"
#include "rules/circuit_phrases.h"
#include "rules/plain_words.h"

namespace ohmstead {

namespace {

/// Longest name of a use within a description, in characters.
constexpr std::size_t kLongestUse = 30;
/// A plug-in load from here on, in watts, is why a circuit is there (common practice, no source).
constexpr int kBigLoadWatts = 500;

const Load* telling_load(const House& house, const Point& point) {
  for (const Load& load : house.loads) {
    if (load.point != point.id || load.name.empty()) continue;
    const bool matters = load.importance == Importance::high || load.importance == Importance::life_safety ||
                         load.hurt_by_power_loss || load.running_watts.value_or(0) >= kBigLoadWatts;
    if (matters || point.kind == PointKind::appliance || point.kind == PointKind::other) return &load;
  }
  return nullptr;
}

std::string clean(const std::string& name) {
  return without_capital(label_name(name, kLongestUse));
}

/// Drops the words by which a name tells the halves of a split receptacle.
std::string without_half(std::string stem) {
  for (const std::string_view word : {" half", " upper", " lower", " (upper)", " (lower)"})
    if (stem.ends_with(word)) stem.resize(stem.size() - word.size());
  return without_number(stem);
}

std::string with_noun(const std::string& stem, const std::string& noun) {
  if (stem.empty()) return noun;
  return holds_word(stem, noun) ? stem : stem + " " + noun;
}

std::string receptacle_use(const WordingFacts& facts, const Point& point, bool other_half_too) {
  std::string stem = without_half(without_number(clean(point.name)));
  if (stem == "outlet" || stem == "plug" || stem == "socket") stem.clear();
  std::string noun = with_noun(stem, "receptacle");
  const int volts = volts_between_legs(facts.house.dwelling.system);
  if (point.hots > 1 && volts > 0 && !holds_word(noun, " V")) noun = std::to_string(volts) + " V " + noun;
  if (point.half == ReceptacleHalf::both || other_half_too) return noun;
  return std::string(point.half == ReceptacleHalf::upper ? "upper-half " : "lower-half ") + noun;
}

void name_item(const WordingFacts& facts, const Point& point, bool other_half_too, FedItem& item) {
  if (const Load* load = telling_load(facts.house, point); load != nullptr) {
    item.use = clean(load->name);
    if (!item.use.empty()) return;
  }
  const std::string stem = without_number(clean(point.name));
  switch (point.kind) {
    case PointKind::receptacle:
      item.generic = Generic::receptacle;
      item.use = receptacle_use(facts, point, other_half_too);
      return;
    case PointKind::light: {
      item.generic = Generic::light;
      const bool is_lamp = holds_word(stem, "lamp") || holds_word(stem, "fixture") || holds_word(stem, "chandelier");
      item.use = is_lamp ? stem : with_noun(stem, "light");
      return;
    }
    case PointKind::alarm:
      item.generic = Generic::alarm;
      item.use = holds_word(stem, "detector") ? stem : with_noun(stem, "alarm");
      return;
    case PointKind::fan:
      item.generic = Generic::fan;
      item.use = with_noun(stem, "fan");
      return;
    case PointKind::appliance:
    case PointKind::other: item.use = stem.empty() ? "appliance" : stem;
  }
}

}  // namespace

WordingFacts wording_facts(const House& house, const Feeds& feeds) {
  WordingFacts facts{house, feeds, room_words(house), {}, std::vector<std::size_t>(house.rooms.size()), {}};
  const Index<Room> room_at(house.rooms);
  const Index<Floor> floor_at(house.floors);
  for (const Point& point : house.points) {
    const long room = room_at.at(point.room);
    facts.room_of.push_back(room < 0 ? house.rooms.size() : static_cast<std::size_t>(room));
    if (room >= 0) ++facts.points_in_room[static_cast<std::size_t>(room)];
  }
  for (const Room& room : house.rooms) {
    const long floor = floor_at.at(room.floor);
    facts.floor_of_room.push_back(floor < 0 ? house.floors.size() : static_cast<std::size_t>(floor));
  }
  return facts;
}

std::vector<FedItem> fed_items(const WordingFacts& facts, Id<Breaker> breaker) {
  const House& house = facts.house;
  std::vector<FedItem> items;
  std::vector<Id<Point>> done;
  const auto feed_of = [&](std::size_t i) { return i < facts.feeds.of_point.size() ? facts.feeds.of_point[i] : Feed{}; };
  const auto on_it = [&](const Feed& feed) { return std::ranges::find(feed.taps, breaker, &Tap::breaker) != feed.taps.end(); };
  std::vector<Id<Point>> fed;
  for (std::size_t i = 0; i < house.points.size(); ++i)
    if (on_it(feed_of(i))) fed.push_back(house.points[i].id);
  for (std::size_t i = 0; i < house.points.size(); ++i) {
    const Point& point = house.points[i];
    if (facts.room_of[i] >= house.rooms.size() || !on_it(feed_of(i))) continue;
    const bool both = point.mate && std::ranges::find(fed, point.mate) != fed.end();
    if (both && std::ranges::find(done, point.mate) != done.end()) continue;
    done.push_back(point.id);
    FedItem item{i, facts.room_of[i], Generic::named, {}, {}, label_name(point.place, kLongestUse), false};
    item.sure = relied_on(feed_of(i).standing);
    item.number = number_at_end(printable(point.name));
    name_item(facts, point, both, item);
    items.push_back(std::move(item));
  }
  std::ranges::stable_sort(items, {}, &FedItem::room);
  return items;
}

}  // namespace ohmstead
