#include "ask/saw.h"

#include <algorithm>
#include <map>

#include "ask/printable.h"
#include "ask/saw_clauses.h"
#include "house/index.h"
#include "trace/board.h"

namespace ohmstead {

namespace {

constexpr int kPartOfAWord = 20;  // see Match::rank
constexpr Kinds kPlaces{ThingKind::room, ThingKind::floor};
constexpr Kinds kThings{ThingKind::room, ThingKind::floor, ThingKind::point};
constexpr int kNothing = 1000;

int rank_of(const MatchResult& found) { return found.best.empty() ? kNothing : found.best[0].rank; }

/// How something was called: the narrower one is believed where two disagree.
enum class Breadth { one, several, whole_room };

struct Told {
  bool dead = false;
  Breadth breadth = Breadth::one;
};

class SawReader {
 public:
  SawReader(const House& house, const Names& names, Sighting& into) : house_(house), names_(names), into_(into) {}

  void take(const SawClause& clause) {
    for (const std::string& name : clause.names) {
      if (clause.kind == SawKind::handle_off || (clause.kind == SawKind::off_or_dead && calls_a_handle(name))) take_off(name, clause.tripped);
      else take_things(clause, name);
    }
  }
  void finish() {
    into_.seen.clear();
    for (const auto& [point, told] : told_) into_.seen.push_back({point, told.dead});
  }
  [[nodiscard]] bool is_a_whole_name(const std::string& name) const { return rank_of(names_.find(name, kThings)) == 0; }

 private:
  /// Does 'off', said of this, mean that a hand or a fault opened it?
  [[nodiscard]] bool calls_a_handle(const std::string& name) const {
    const int handle = rank_of(names_.find(name, {ThingKind::breaker, ThingKind::position}));
    const int thing = rank_of(names_.find(name, kThings));
    if (handle < kNothing && handle == thing)
      (void)names_.one(name, {ThingKind::breaker, ThingKind::position, ThingKind::room, ThingKind::floor, ThingKind::point});
    return handle < thing || (thing == kNothing && words_say(name, "main"));
  }
  static bool words_say(const std::string& name, const std::string& word) {
    return (" " + name + " ").find(" " + word + " ") != std::string::npos;
  }

  void take_off(const std::string& name, bool tripped) {
    const HandleRef handle = names_.one_handle(name);
    const auto add = [&](std::vector<HandleRef>& handles) {
      if (std::ranges::find(handles, handle) == handles.end()) handles.push_back(handle);
    };
    add(into_.off);
    if (tripped) add(into_.tripped);
  }

  void take_things(const SawClause& clause, const std::string& name) {
    Breadth breadth = Breadth::one;
    const std::vector<std::size_t> points = things_called(name, clause.of_light, breadth);
    const bool alarm = breadth == Breadth::one && house_.points[points[0]].kind == PointKind::alarm;
    if (clause.went_off && alarm)
      throw Error(ErrorKind::invalid_input, "'" + terminal::printable(name) + " went off' can mean that it sounded; say 'dead' or 'live', and nothing was recorded.");
    for (const std::size_t point : points) tell(point, {clause.kind != SawKind::live, breadth});
  }

  void tell(std::size_t point, Told told) {
    const auto known = told_.find(point);
    if (known == told_.end() || told.breadth < known->second.breadth) {
      told_[point] = told;
    } else if (told.breadth == known->second.breadth && told.dead != known->second.dead) {
      throw Error(ErrorKind::invalid_input, "'" + names_.name_of(thing_of(house_.points[point])) + "' is said to be both dead and live; nothing was recorded. Tell the two moments one by one.");
    }
  }

  [[nodiscard]] std::vector<std::size_t> places(const std::vector<ThingRef>& things) const {
    const Index<Point> point_at(house_.points);
    std::vector<std::size_t> points;
    for (const ThingRef& thing : things) points.push_back(static_cast<std::size_t>(point_at.at(Id<Point>{thing.id})));
    return points;
  }

  [[nodiscard]] std::vector<std::size_t> things_called(const std::string& name, bool of_light, Breadth& breadth) {
    const MatchResult rooms = names_.find(name, kPlaces), points = names_.find(name, {ThingKind::point});
    if (!rooms.best.empty() && rank_of(rooms) <= rank_of(points)) {
      breadth = of_light ? Breadth::several : Breadth::whole_room;
      return in_place(names_.one(name, kPlaces), of_light);
    }
    const bool plural = name.ends_with('s') && (points.best.size() > 1 || rank_of(points) >= kPartOfAWord);
    if (plural)
      if (const auto group = names_.group(name); !group.empty()) {
        if (group.size() > 1) breadth = Breadth::several;
        return places(group);
      }
    return places({names_.one(name, {ThingKind::point})});
  }

  [[nodiscard]] std::vector<std::size_t> in_place(const ThingRef& place, bool of_light) {
    std::vector<std::size_t> points;
    for (std::size_t p = 0; p < house_.points.size(); ++p) {
      const Room* room = find_row(house_, house_.points[p].room);
      if (room == nullptr || (place.kind == ThingKind::room ? room->id.value : room->floor.value) != place.id) continue;
      if (of_light && house_.points[p].kind != PointKind::light) continue;
      points.push_back(p);
      if (std::ranges::find(into_.rooms, room->id) == into_.rooms.end()) into_.rooms.push_back(room->id);
    }
    if (points.empty() && of_light)
      throw Error(ErrorKind::not_found, "'" + names_.name_of(place) + "' dark or on is told by its lights, and no light is written down there; name what was dead or live, and nothing was recorded.");
    if (points.empty())
      throw Error(ErrorKind::not_found, "Nothing is written down in '" + names_.name_of(place) + "' that could be dead or live; nothing was recorded.");
    return points;
  }

  const House& house_;
  const Names& names_;
  Sighting& into_;
  std::map<std::size_t, Told> told_;
};

/// "breaker 12 off; hall dead", as far as the form goes.
std::string said_again(const std::vector<SawClause>& clauses) {
  const char* words[] = {"off", "off", "dead", "live"};
  std::string text;
  for (const SawClause& clause : clauses) {
    text += text.empty() ? "" : "; ";
    for (const std::string& name : clause.names) text += name + (&name == &clause.names.back() ? " " : " and ");
    text += words[static_cast<std::size_t>(clause.kind)];
  }
  return text;
}

std::string shortened(const std::string& text) { return terminal::printable(text.size() > 120 ? text.substr(0, 120) + "..." : text); }

}  // namespace

void read_saw(const House& house, const Names& names, std::string_view text, Sighting& into) {
  if (text.size() > kLongestSaw)
    throw Error(ErrorKind::invalid_input, "These words are " + std::to_string(text.size()) + " bytes long; at most " + std::to_string(kLongestSaw) + " are read. Tell it in several times.");
  SawReader reader(house, names, into);
  const auto whole = one_saw_clause(text);
  if (whole && reader.is_a_whole_name(whole->names[0])) {
    reader.take(*whole);
    return reader.finish();
  }
  const SawClauses clauses = saw_clauses(text);
  if (clauses.understood.empty() || !clauses.not_understood.empty()) {
    const std::string bad = clauses.not_understood.empty() ? std::string(text) : clauses.not_understood.front();
    throw Error(ErrorKind::invalid_input, "'" + shortened(bad) + "' was not understood" +
                                              (clauses.understood.empty() ? "" : " (understood: " + shortened(said_again(clauses.understood)) + ")") +
                                              ", so nothing was recorded; say for each thing how it was, such as '12 tripped, hall dark, kitchen still on'.");
  }
  for (const SawClause& clause : clauses.understood) reader.take(clause);
  reader.finish();
}

std::vector<HandleRef> standing_off(const House& house) {
  std::vector<HandleRef> off;
  const auto add = [&](const HandleRef& handle) {
    if (std::ranges::find(off, handle) == off.end()) off.push_back(handle);
  };
  for (const Opened& opened : house.opened) {
    const Round* round = find_row(house, opened.round);
    if (round != nullptr && round->kind == RoundKind::trace && !round->finished) add(opened.handle);
  }
  for (const Breaker& breaker : house.breakers)
    if (std::ranges::find(house.settings, kStaysOffPrefix + breaker.id.text(), &Setting::name) != house.settings.end())
      add({HandleKind::breaker, breaker.id.value});
  return off;
}

House with_sighting(House house, const Sighting& sighting) {
  const Id<Round> round = Id<Round>::fresh();
  house.rounds.push_back({round, RoundKind::daily_life, sighting.at, sighting.who, true});
  for (const HandleRef& handle : sighting.off) house.opened.push_back({Id<Opened>::fresh(), round, handle});
  for (const HandleRef& handle : sighting.tripped)
    house.trips.push_back({Id<Trip>::fresh(), handle, sighting.at, sighting.who, sighting.cause, round});
  for (const SeenPoint& seen : sighting.seen)
    house.observations.push_back({Id<Observation>::fresh(), round, house.points[seen.point].id, seen.dead ? Seen::dead : Seen::live, Method::look, sighting.at, false});
  return house;
}

std::optional<House> without_last_sighting(House house) {
  for (auto round = house.rounds.rbegin(); round != house.rounds.rend(); ++round) {
    if (round->kind != RoundKind::daily_life) continue;
    bool some = false;
    for (Observation& seen : house.observations)
      if (seen.round == round->id && !seen.withdrawn) some = seen.withdrawn = true;
    for (Trip& trip : house.trips)
      if (trip.round == round->id && !trip.withdrawn) some = trip.withdrawn = true;
    if (some) return house;
  }
  return std::nullopt;
}

}  // namespace ohmstead
