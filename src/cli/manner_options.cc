#include "cli/manner_options.h"

#include <algorithm>
#include <charconv>

#include "ask/printable.h"
#include "house/error.h"
#include "house/index.h"

namespace ohmstead {

namespace {

Error refused(const std::string& message) { return {ErrorKind::invalid_input, message}; }

constexpr Kinds kPlaces{ThingKind::room, ThingKind::floor};

struct LookWord {
  const char* word;
  Method method;
};
constexpr LookWord kLooks[] = {{"tester", Method::tester}, {"sound", Method::listening}, {"lamp", Method::lamp},
                               {"non-contact", Method::non_contact}, {"eye", Method::look}};

int whole_number(const Arguments& arguments, const char* option, int low, int high, const char* or_word = "") {
  const std::string given = arguments.text(option);
  int number = 0;
  const auto [end, fault] = std::from_chars(given.data(), given.data() + given.size(), number);
  if (fault == std::errc{} && end == given.data() + given.size() && number >= low && number <= high) return number;
  throw refused(std::string(option) + " needs a whole number from " + std::to_string(low) + " to " + std::to_string(high) + or_word +
                ", not '" + terminal::printable(given.substr(0, 40)) + "'.");
}

Method method_given(const Arguments& arguments) {
  const std::string given = arguments.text("--with");
  for (const LookWord& look : kLooks)
    if (given == look.word) return look.method;
  throw refused("--with needs one of " + look_words() + ", not '" + terminal::printable(given.substr(0, 40)) + "'.");
}

/// Rooms of a room or a floor.
std::vector<Id<Room>> rooms_in(const House& house, const ThingRef& place) {
  std::vector<Id<Room>> rooms;
  for (const Room& room : house.rooms)
    if ((place.kind == ThingKind::room ? room.id.value : room.floor.value) == place.id) rooms.push_back(room.id);
  return rooms;
}

std::vector<Id<Room>> rooms_given(const Arguments& arguments, const House& house, const Names& names) {
  const auto given = arguments.texts("--room");
  const bool all = std::ranges::find(given, "all") != given.end();
  if (all && given.size() > 1) throw refused("--room all stands for the whole house; give it alone, or only the rooms that are wanted.");
  std::vector<Id<Room>> rooms;
  if (all) return rooms;
  for (const std::string& name : given) {
    const auto more = rooms_in(house, names.one(name, kPlaces));
    if (more.empty()) throw refused("There is no room on '" + terminal::printable(name) + "'; name a room, or a floor that has some.");
    for (const Id<Room> room : more)
      if (std::ranges::find(rooms, room) == rooms.end()) rooms.push_back(room);
  }
  return rooms;
}

void refuse_both(const Arguments& arguments, const char* one, const char* other) {
  if (arguments.has(one) && arguments.has(other))
    throw refused(std::string(one) + " and " + other + " cannot both be so; give one of them.");
}

}  // namespace

std::string look_words() {
  std::string words;
  for (const LookWord& look : kLooks) words += (words.empty() ? "" : ", ") + std::string(look.word);
  return words;
}

Manner manner_given(const Arguments& arguments, const House& house, const Names& names, Manner kept) {
  refuse_both(arguments, "--helper", "--alone");
  refuse_both(arguments, "--only-plan", "--everything");
  if (arguments.has("--at-once"))
    kept.at_once = arguments.text("--at-once") == "any" ? 0 : whole_number(arguments, "--at-once", 1, kMostAtOnce, ", or 'any'");
  if (arguments.has("--helper") || arguments.has("--alone")) kept.helper = arguments.has("--helper");
  if (arguments.has("--lamps")) kept.lamps = whole_number(arguments, "--lamps", 0, kMostLamps);
  if (arguments.has("--room")) kept.rooms = rooms_given(arguments, house, names);
  if (arguments.has("--only-plan") || arguments.has("--everything")) kept.for_plan = arguments.has("--only-plan");
  if (arguments.has("--with")) kept.method = method_given(arguments);
  return kept;
}

std::vector<Id<Point>> again_given(const Arguments& arguments, const House& house, const Names& names) {
  std::vector<Id<Point>> points;
  for (const std::string& name : arguments.texts("--again")) {
    const MatchResult places = names.find(name, kPlaces), things = names.find(name, {ThingKind::point});
    const bool is_place = !places.best.empty() && (things.best.empty() || places.best[0].rank <= things.best[0].rank);
    if (!is_place) {
      points.push_back(names.one_point(name));
      continue;
    }
    const std::size_t before = points.size();
    const auto rooms = rooms_in(house, names.one(name, kPlaces));
    for (const Point& point : house.points)
      if (std::ranges::find(rooms, point.room) != rooms.end()) points.push_back(point.id);
    if (points.size() == before) throw refused("Nothing is written down in '" + terminal::printable(name) + "' that could be traced again.");
  }
  return points;
}

}  // namespace ohmstead
