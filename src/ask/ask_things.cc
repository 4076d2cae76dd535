#include "ask/ask_things.h"

#include <algorithm>

#include "ask/words.h"
#include "house/error.h"
#include "house/index.h"

namespace ohmstead::ask_detail {

namespace {

constexpr int kSlip = 40;  ///< Match::rank from which on a word is misspelled
constexpr std::size_t kMostTogether = 40;

bool is_one_of(std::string_view word, std::initializer_list<std::string_view> list) { return std::ranges::find(list, word) != list.end(); }

bool only_leads(std::string_view word) {
  return is_one_of(word, {"breaker", "breakers", "fuse", "fuses", "circuit", "circuits", "switch", "panel", "box", "braker", "handle", "line",
                          "button", "lever", "thingy", "thing"});
}
bool only_says_outlet(std::string_view word) { return is_one_of(word, {"outlet", "outlets", "plug", "plugs", "socket", "receptacle"}); }
bool only_says_kind(std::string_view word) {
  return only_says_outlet(word) || is_one_of(word, {"machine", "machines", "cable", "appliance", "unit", "one", "motor", "supply", "equipment",
                                                    "device", "warm", "cold", "service"});
}

template <class Drop>
std::string without(std::string_view words, const Drop& drop) {
  std::string left;
  while (!words.empty()) {
    const std::size_t end = std::min(words.find(' '), words.size());
    const std::string_view word = words.substr(0, end);
    if (!word.empty() && !drop(word)) left.append(left.empty() ? "" : " ").append(word);
    words.remove_prefix(std::min(end + 1, words.size()));
  }
  return left;
}

/// The words as they are; then without words that say no more than what kind of thing it is.
std::vector<std::string> readings_of(std::string_view words) {
  std::vector<std::string> readings{std::string(words), without(words, only_leads), without(words, only_says_outlet), without(words, only_says_kind),
                                    without(words, [](std::string_view word) { return only_leads(word) || only_says_kind(word); })};
  std::erase(readings, "");
  readings.erase(std::unique(readings.begin(), readings.end()), readings.end());
  return readings;
}

std::size_t place_of(const House& house, std::uint64_t point) {
  return static_cast<std::size_t>(std::ranges::find(house.points, Id<Point>{point}, &Point::id) - house.points.begin());
}

/// "ceiling light 2" -> "ceiling light"; halves of a split one, too.
std::string stem_of(std::string name) {
  for (const std::string_view half : {" upper", " lower"})
    if (name.ends_with(half)) name.resize(name.size() - half.size());
  const std::size_t last = name.find_last_not_of("0123456789");
  return last != std::string::npos && name[last] == ' ' ? name.substr(0, last) : name;
}

bool alike(const Record& record, std::size_t a, std::size_t b) {
  const Point &one = record.house.points[a], &other = record.house.points[b];
  return one.room == other.room && stem_of(one.name) == stem_of(other.name) && record.feeds.of_point[a].taps == record.feeds.of_point[b].taps;
}

/// Points that fit equally well: one answer, or to be asked about.
FoundThings sorted_out(const Record& record, const std::vector<ThingRef>& points, bool many) {
  const std::size_t first = place_of(record.house, points.front().id);
  const bool together = std::ranges::all_of(points, [&](const ThingRef& point) { return alike(record, first, place_of(record.house, point.id)); });
  FoundThings found;
  (together || (many && points.size() <= kMostTogether) ? found.things : found.candidates) = points;
  return found;
}

FoundThings from_matches(std::vector<Match> best) {
  FoundThings found;
  for (const Match& match : best) (best.size() == 1 ? found.things : found.candidates).push_back(match.thing);
  found.by_slip = !best.empty() && best.front().rank >= kSlip;
  return found;
}

}  // namespace

FoundThings find_points(const Record& record, const Names& names, std::string_view words, bool many) {
  for (const std::string& reading : readings_of(words)) {
    std::vector<Match> best = names.find(reading, {ThingKind::point, ThingKind::load}).best;
    const std::vector<Match> places = names.find(reading, {ThingKind::room, ThingKind::floor}).best;
    if (!places.empty() && (best.empty() || places.front().rank < best.front().rank)) return from_matches(places);
    if (best.empty()) best = names.find(reading, {ThingKind::device, ThingKind::handle}).best;
    if (best.empty()) continue;
    std::vector<ThingRef> points;
    for (const Match& match : best) {
      ThingRef thing = match.thing;
      if (thing.kind == ThingKind::load) thing = {ThingKind::point, row(record.house, Id<Load>{thing.id}).point.value};
      if (std::ranges::find(points, thing) == points.end()) points.push_back(thing);
    }
    const bool all_points = std::ranges::all_of(points, [](const ThingRef& thing) { return thing.kind == ThingKind::point; });
    FoundThings found = all_points ? sorted_out(record, points, many) : from_matches(best);
    found.by_slip = best.front().rank >= kSlip;
    return found;
  }
  return {};
}

FoundThings find_handle(const Names& names, std::string_view words) {
  std::string plain = without(words, [](std::string_view word) { return is_one_of(word, {"circuit", "fuse", "number", "handle"}); });
  FoundThings found;
  const bool may_be_device = std::ranges::any_of(words_of_text(words), [](const Word& word) {
    return is_one_of(word.meaning, {"switch", "gfci", "disconnect"});
  });
  try {
    found.things = {thing_of_handle(names.one_handle(plain))};
  } catch (const Error& error) {
    if (error.kind == ErrorKind::ambiguous)
      for (const Match& match : names.find(plain, kMovable).best) found.candidates.push_back(match.thing);
  }
  const auto is_device = [](const ThingRef& thing) { return thing.kind == ThingKind::handle || thing.kind == ThingKind::device; };
  if (!may_be_device && (std::ranges::any_of(found.things, is_device) || std::ranges::any_of(found.candidates, is_device)))
    return {};  // "kitchen light" is no switch
  return found;
}

bool says_handle(std::string_view words) {
  for (const Word& word : words_of_text(words)) {
    const bool t_number = word.text.size() >= 2 && word.text[0] == 't' && word.text.find_first_not_of("0123456789", 1) == std::string::npos;
    if (word.number || t_number || is_one_of(word.meaning, {"breaker", "position", "main", "switch", "disconnect", "gfci"})) return true;
  }
  return false;
}

FoundThings find_other(const Names& names, std::string_view words) {
  return from_matches(names.find(words, {ThingKind::panel, ThingKind::source, ThingKind::transfer_device}).best);
}

HandleRef handle_of_thing(const ThingRef& thing) {
  switch (thing.kind) {
    case ThingKind::panel:
      return {HandleKind::main, thing.id};
    case ThingKind::breaker:
      return {HandleKind::breaker, thing.id};
    case ThingKind::position:
      return {HandleKind::position, thing.id};
    case ThingKind::handle:
      return {HandleKind::device, thing.id};
    default:
      return {};
  }
}

ThingRef thing_of_handle(const HandleRef& handle) {
  switch (handle.kind) {
    case HandleKind::main:
      return {ThingKind::panel, handle.id};
    case HandleKind::breaker:
      return {ThingKind::breaker, handle.id};
    case HandleKind::position:
    case HandleKind::position_breaker:
      return {ThingKind::position, handle.id};
    case HandleKind::device:
      return {ThingKind::handle, handle.id};
    case HandleKind::none:
      break;
  }
  return {};
}

std::vector<std::size_t> points_of(const House& house, const std::vector<ThingRef>& things) {
  std::vector<std::size_t> points;
  for (std::size_t p = 0; p < house.points.size(); ++p) {
    const Point& point = house.points[p];
    const Room* room = find_row(house, point.room);
    const auto holds = [&](const ThingRef& thing) {
      return thing == ThingRef{ThingKind::point, point.id.value} || thing == ThingRef{ThingKind::room, point.room.value} ||
             (room != nullptr && thing == ThingRef{ThingKind::floor, room->floor.value});
    };
    if (std::ranges::any_of(things, holds)) points.push_back(p);
  }
  return points;
}

std::vector<ThingRef> nearest_to(const Names& names, std::string_view words) {
  constexpr std::size_t kMost = 3;
  std::vector<ThingRef> near;
  for (const Word& word : words_of_text(words)) {
    if (word.number || word.text.size() < 3) continue;
    for (const Match& match : names.find(word.text, {ThingKind::point, ThingKind::load, ThingKind::room}).best)
      if (near.size() < kMost && std::ranges::find(near, match.thing) == near.end()) near.push_back(match.thing);
  }
  return near;
}

}  // namespace ohmstead::ask_detail
