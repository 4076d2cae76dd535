// Sentences about what was seen in daily life, what it changes, and what contradicts it.

#include <algorithm>
#include <set>

#include "ask/saw.h"
#include "ask/sentence.h"
#include "house/numbering.h"
#include "rules/trips.h"
#include "trace/step_text.h"

namespace ohmstead {

using sentence::say;

namespace {

constexpr std::size_t kMostListed = 12;

/// "12"; "Workshop 3" where there are several panels.
std::string number_of(const House& house, Id<Breaker> id) {
  const Breaker* breaker = find_row(house, id);
  const Panel* panel = breaker == nullptr ? nullptr : find_row(house, breaker->panel);
  if (panel == nullptr) return "a breaker";
  return (house.panels.size() > 1 ? panel->name + " " : "") + breaker_number(*panel, *breaker);
}

std::string short_name(const House& house, const HandleRef& handle) {
  return handle.kind == HandleKind::breaker ? number_of(house, Id<Breaker>{handle.id}) : handle_name(house, handle);
}

std::string numbers_of(const House& house, const std::vector<Id<Breaker>>& breakers) {
  std::vector<std::string> numbers;
  for (const Id<Breaker> breaker : breakers) numbers.push_back(number_of(house, breaker));
  return joined(numbers);
}

std::vector<Id<Breaker>> breakers_of(const Feed& feed) {
  std::vector<Id<Breaker>> breakers;
  for (const Tap& tap : feed.taps)
    if (std::ranges::find(breakers, tap.breaker) == breakers.end()) breakers.push_back(tap.breaker);
  return breakers;
}

/// "open", "likely breaker 12", "disputed (breaker 12)".
std::string feed_words(const House& house, const Feed& feed) {
  std::string text(text_of(feed.standing));
  const auto breakers = breakers_of(feed);
  if (breakers.empty()) return text;
  const std::string named = (breakers.size() == 1 ? "breaker " : "breakers ") + numbers_of(house, breakers);
  return feed.standing == Standing::disputed ? text + " (" + named + ")" : text + " " + named;
}

/// "3 March 2026"; the text itself if it is no such time.
std::string day_words(const std::string& at) {
  static constexpr const char* kMonths[] = {"January", "February", "March",     "April",   "May",      "June",
                                            "July",    "August",   "September", "October", "November", "December"};
  const auto digit = [&](std::size_t i) { return at[i] - '0'; };
  if (at.size() != 20) return at;
  const int month = digit(5) * 10 + digit(6), day = digit(8) * 10 + digit(9);
  if (month < 1 || month > 12) return at;
  return std::to_string(day) + " " + kMonths[month - 1] + " " + at.substr(0, 4);
}

std::string handles_words(const House& house, const std::vector<HandleRef>& open) {
  std::vector<std::string> names;
  for (const HandleRef& handle : open) names.push_back(short_name(house, handle));
  return names.empty() ? "with nothing off" : "with " + joined(names) + " off";
}

/// "Ana saw it live with 12 off on 3 March 2026"
std::string sight_words(const House& house, const Sight& sight) {
  std::string text = (sight.who.empty() ? "somebody" : without_controls(sight.who)) + " saw it " + (sight.dead ? "dead " : "live ") + handles_words(house, sight.open);
  if (!sight.at.empty()) text += " on " + day_words(sight.at);
  return text;
}

std::string sights_words(const House& house, const std::vector<Sight>& sights) {
  constexpr std::size_t kMost = 3;
  std::vector<std::string> parts;
  for (const Sight& sight : sights) {
    const std::string words = sight_words(house, sight);
    if (std::ranges::find(parts, words) == parts.end()) parts.push_back(words);  // two looks of one round
  }
  const std::size_t more = parts.size() > kMost ? parts.size() - kMost : 0;
  parts.resize(parts.size() - more);
  return joined(parts) + (more == 0 ? "" : " (and " + std::to_string(more) + " more)");
}

/// "; all else says 12. Look again."
std::string rest_words(const House& house, const Contradiction& contradiction) {
  const std::string numbers = numbers_of(house, contradiction.breakers);
  if (contradiction.standing == Standing::proved) return "; all else says " + numbers + ", which is proved all the same.";
  if (outweighed(contradiction)) return "; all else says " + numbers + ". Look again.";
  if (!contradiction.in_favor.empty()) return ", but " + sights_words(house, contradiction.in_favor) + ". Look again.";
  if (contradiction.declared) return ", but it is declared to be on " + numbers + ". Look again.";
  return ", though " + numbers + " seems likeliest. Look again.";
}

std::vector<std::string> at_most(std::vector<std::string> items, std::size_t most) {
  if (items.size() <= most) return items;
  const std::size_t more = items.size() - most;
  items.resize(most);
  items.push_back("and " + std::to_string(more) + " more");
  return items;
}

}  // namespace

Lines words_of_sighting(const House& house, const Names& names, const Sighting& sighting) {
  Lines lines;
  std::vector<std::string> off, items;
  for (const HandleRef& handle : sighting.off) off.push_back(names.name_of(handle));
  for (const bool dead : {true, false}) {
    std::vector<std::size_t> points;
    for (const SeenPoint& seen : sighting.seen)
      if (seen.dead == dead) points.push_back(seen.point);
    for (const std::string& room : points_by_room(house, points)) items.push_back((dead ? "dead: " : "live: ") + room);
  }
  for (const HandleRef& handle : sighting.tripped) {
    const TripsOf trips = trips_of(house, handle);
    say(lines, trips.often() ? LineKind::danger : LineKind::answer, sentence::capital(names.name_of(handle)) + " tripped" + (sighting.cause.empty() ? "" : ": " + without_controls(sighting.cause)) + "; that is kept." + (trips.often() ? " It " + without_controls(often_words(trips)) + ". " + kOftenWhy : ""));
  }
  if (!items.empty()) say(lines, LineKind::answer, "Recorded, with " + (off.empty() ? "nothing" : joined(off)) + " off:", items);
  for (const Id<Room> room : sighting.rooms) {
    std::set<PointKind> kinds;
    for (const SeenPoint& seen : sighting.seen)
      if (house.points[seen.point].room == room) kinds.insert(house.points[seen.point].kind);
    if (kinds.size() < 2) continue;
    const Room* named = find_row(house, room);
    say(lines, LineKind::detail, "That is everything in " + named->name + ". If only some of it was seen, take it back with `ohmstead saw --take-back` and name that, such as '" + named->name + " lights'.");
    break;  // said once is enough
  }
  return lines;
}

Lines words_of_change(const Record& before, const Record& after) {
  const House& house = after.house;
  std::vector<std::string> items;
  for (std::size_t p = 0; p < house.points.size(); ++p) {
    const Feed &was = before.feeds.of_point[p], &now = after.feeds.of_point[p];
    if (was.standing == now.standing && breakers_of(was) == breakers_of(now)) continue;
    items.push_back(point_name(house, house.points[p].id) + ": was " + feed_words(house, was) + ", now " + feed_words(house, now));
  }
  Lines lines;
  if (items.empty()) say(lines, LineKind::answer, "It changes no feed; it counts with what was seen before and comes after.");
  else say(lines, LineKind::answer, "That changes:", at_most(items, kMostListed));
  return lines;
}

Lines words_of_contradictions(const House& house, const std::vector<Contradiction>& contradictions) {
  std::vector<std::string> items;
  for (const Contradiction& contradiction : contradictions)
    items.push_back(point_name(house, house.points[contradiction.point].id) + ": " + sights_words(house, contradiction.against) +
                    rest_words(house, contradiction));
  Lines lines;
  if (!items.empty()) say(lines, LineKind::answer, "What was seen contradicts itself:", items);
  return lines;
}

}  // namespace ohmstead
