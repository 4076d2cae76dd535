// Sentences of answers that take several points, or tell of the record itself.

#include <algorithm>
#include <map>

#include "ask/ask_parts.h"
#include "ask/sentence.h"
#include "house/numbering.h"

namespace ohmstead::ask_detail {

using sentence::capital, sentence::counted, sentence::point_name, sentence::say;

namespace {

/// "Main panel breaker 19"; "not traced yet" for a feed without taps.
std::string breakers_of(const Names& names, const Feed& feed) {
  std::vector<std::string> breakers;
  for (const Tap& tap : feed.taps)
    if (const std::string name = names.name_of(HandleRef{HandleKind::breaker, tap.breaker.value});
        std::ranges::find(breakers, name) == breakers.end())
      breakers.push_back(name);
  return breakers.empty() ? "not traced yet" : joined(breakers);
}

/// Points by what is said of them, in the order in which that first comes.
template <class F>
void say_grouped(Lines& lines, const House& house, const std::vector<std::size_t>& points, const F& said_of) {
  std::vector<std::string> order;
  std::map<std::string, std::vector<std::size_t>> groups;
  for (const std::size_t p : points) {
    const std::string said = said_of(p);
    if (!groups.contains(said)) order.push_back(said);
    groups[said].push_back(p);
  }
  for (const std::string& said : order) say(lines, LineKind::answer, capital(said) + ":", points_by_room(house, groups[said]));
}

std::string positions_of(const Names& names, const WhereAnswer& where) {
  std::vector<std::string> positions;
  for (const Id<Position> position : where.positions) positions.push_back(names.name_of(HandleRef{HandleKind::position, position.value}));
  return joined(positions);
}

std::string floor_words(const House& house, Id<Room> id) {
  const Room* room = find_row(house, id);
  if (room == nullptr) return "";
  const Floor* floor = find_row(house, room->floor);
  if (floor == nullptr) return room->name;
  return room->name + (floor->name.empty() || floor->name == room->name
                           ? ""
                           : " (floor " + floor->name + (floor->building.empty() ? "" : ", building " + floor->building) + ")");
}

}  // namespace

Lines feeds_lines(const AskFrom& from, const std::vector<std::size_t>& points) {
  Lines lines;
  if (points.size() == 1) return words_of_answer(from.record, from.names, where_is(from.record, points.front()));
  say_grouped(lines, from.record.house, points, [&](std::size_t p) {
    const Feed& feed = from.record.feeds.of_point[p];
    return feed.taps.empty() ? std::string("not traced yet") : breakers_of(from.names, feed) + ", " + standing_words(from.record.house, p, feed);
  });
  return lines;
}

Lines backup_lines(const AskFrom& from, const std::vector<std::size_t>& points) {
  const House& house = from.record.house;
  Lines lines;
  if (house.sources.empty()) {
    say(lines, LineKind::answer, "This house has no source besides the utility in the record: nothing is carried in an outage.");
    return lines;
  }
  std::vector<std::size_t> asked = points;
  for (std::size_t p = 0; p < house.points.size() && points.empty(); ++p)
    if (!where_is(from.record, p).positions.empty()) asked.push_back(p);
  if (asked.empty()) say(lines, LineKind::answer, "No transfer position carries anything that has been traced.");
  say_grouped(lines, house, asked, [&](std::size_t p) {
    const WhereAnswer where = where_is(from.record, p);
    if (where.feed.taps.empty()) return std::string("it is not traced yet, so there is no telling");
    if (where.positions.empty() && !house.interlocks.empty())
      return std::string("it can be carried through the main panel, as far as the source is large enough");
    if (where.positions.empty()) return std::string("in an outage nothing carries it: its circuit is on no transfer position");
    return "in an outage " + positions_of(from.names, where) + (where.positions.size() == 1 ? " carries" : " carry") +
           (relied_on(where.feed.standing) ? "" : ", not proved");
  });
  if (!points.empty() && points.size() <= 3)
    say(lines, LineKind::detail, "Whether it also fits beside all else that runs: `ohmstead plan --kept`; in an outage: `ohmstead outage --may`.");
  return lines;
}

namespace {

/// "Ana saw it dead on 2026-03-02"
std::string look_text(const House& house, const Observation& seen) {
  const Round* round = find_row(house, seen.round);
  const std::string who = round == nullptr || round->who.empty() ? "Somebody" : round->who;
  const std::string how = round != nullptr && round->kind == RoundKind::daily_life ? " in daily life"
                          : round != nullptr && round->kind == RoundKind::proof    ? " while proving"
                                                                                   : "";
  return who + " saw it " + std::string(seen.seen == Seen::dead ? "dead" : "live") + how + " on " + seen.at.substr(0, 10);
}

}  // namespace

Lines traced_lines(const AskFrom& from, const std::vector<std::size_t>& points) {
  constexpr std::size_t kMostLooks = 6;
  const House& house = from.record.house;
  Lines lines;
  for (const std::size_t p : points) {
    const Feed& feed = from.record.feeds.of_point[p];
    say(lines, LineKind::answer,
        capital(point_name(house, p)) + ": " +
            (feed.taps.empty() ? std::string("what feeds it is not known") : "fed by " + breakers_of(from.names, feed)) + ", " +
            standing_words(house, p, feed) + ".");
    std::vector<std::string> looks;
    for (const Observation& seen : house.observations)
      if (seen.point == house.points[p].id && !seen.withdrawn && (seen.seen == Seen::dead || seen.seen == Seen::live))
        looks.push_back(look_text(house, seen));
    std::ranges::reverse(looks);
    looks.erase(std::unique(looks.begin(), looks.end()), looks.end());
    const std::size_t more = looks.size() > kMostLooks ? looks.size() - kMostLooks : 0;
    looks.resize(looks.size() - more);
    if (more > 0) looks.push_back("and " + counted(more, "look", "looks") + " before");
    if (looks.empty())
      say(lines, LineKind::detail, "It was never looked at while tracing.");
    else
      say(lines, LineKind::detail, "Looks, newest first:", looks);
  }
  return lines;
}

Lines place_lines(const AskFrom& from, const ThingRef& thing) {
  const House& house = from.record.house;
  Lines lines;
  std::string where = "where it is was not written down", name = from.names.name_of(thing);
  const auto of_panel = [&](Id<Panel> id) {
    const Panel* panel = find_row(house, id);
    const std::string place = panel == nullptr ? "" : floor_words(house, panel->room);
    return place.empty() ? std::string() : (thing.kind == ThingKind::panel ? "in " : "in panel " + panel->name + ", in ") + place;
  };
  std::string found;
  if (thing.kind == ThingKind::panel) found = of_panel({thing.id});
  if (thing.kind == ThingKind::breaker) found = of_panel(row(house, Id<Breaker>{thing.id}).panel);
  if (thing.kind == ThingKind::transfer_device) found = floor_words(house, row(house, Id<TransferDevice>{thing.id}).room);
  if (thing.kind == ThingKind::room) found = floor_words(house, {thing.id});
  if (thing.kind == ThingKind::device || thing.kind == ThingKind::handle) {
    const Device& device = row(house, thing.kind == ThingKind::device ? Id<Device>{thing.id} : row(house, Id<Handle>{thing.id}).device);
    const Point* at = find_row(house, device.at_point);
    for (const Handle& handle : house.handles)
      if (const Box* box = find_row(house, handle.box); box != nullptr && (handle.id.value == thing.id || handle.device.value == thing.id))
        found = "in " + floor_words(house, box->room);
    if (found.empty() && at != nullptr) found = "in " + floor_words(house, at->room);
  }
  if (thing.kind == ThingKind::point) {
    const Point& point = row(house, Id<Point>{thing.id});
    found = "in " + floor_words(house, point.room) + (point.place.empty() ? "" : ", " + point.place);
  }
  say(lines, LineKind::answer, capital(name) + ": " + (found.empty() ? where : found) + ".");
  return lines;
}

}  // namespace ohmstead::ask_detail
