// Lines of the record beside the things themselves: who says so, declared feeds, passing
// conductors, notes.

#include <algorithm>

#include "house/index.h"
#include "survey/line_kinds.h"

namespace ohmstead::entry_detail {

namespace {

struct Named {
  std::vector<Id<Point>> points;
  Id<Device> device;
};

/// Points of the room whose name is `name`; "receptacles 1-3" are three. Empty when there is none.
std::vector<Id<Point>> points_named(const Draft& draft, Id<Room> room, const std::string& name) {
  std::vector<std::string> wanted{lower(name)};
  const std::size_t space = name.rfind(' ');
  const auto ends = split(space == std::string::npos ? "" : std::string_view(name).substr(space + 1), "-");
  if (const auto low = whole_number(ends.front()), high = whole_number(ends.back()); low && high && *low <= *high && *high - *low < 500) {
    std::string base = lower(name.substr(0, space));
    wanted.clear();
    for (const std::string& form : {base, base.ends_with('s') ? base.substr(0, base.size() - 1) : base})
      for (int number = *low; number <= *high; ++number) wanted.push_back(form + " " + std::to_string(number));
  }
  std::vector<Id<Point>> found;
  for (const Point& point : draft.house.points)
    if (point.room == room && std::ranges::find(wanted, lower(point.name)) != wanted.end()) found.push_back(point.id);
  return found;
}

/// "Kitchen receptacles 1-2", "Bath GFCI": the points, or the device, of a room.
Named named(const Draft& draft, const std::string& text) {
  const std::vector<Word> words = words_of(draft.line, text, "");
  std::size_t at = 0;
  const Id<Room> room = draft.room_at(words, at);
  const std::string name = joined(words, at, words.size());
  if (name.empty()) draft.fail("which point of " + shown(text) + "? Write its name behind the room, as in 'Kitchen dishwasher'.");
  Named result{points_named(draft, room, name), {}};
  if (result.points.empty()) result.device = draft.device(room, name);
  return result;
}

ThingRef thing(const Draft& draft, const std::string& text) {
  if (lower(text) == "house" || text.empty()) return {};
  if (draft.has_room(text)) return {ThingKind::room, draft.room(text).value};
  for (const Panel& panel : draft.house.panels)
    if (lower(panel.name) == lower(text)) return {ThingKind::panel, panel.id.value};
  for (const Source& source : draft.house.sources)
    if (lower(source.name) == lower(text)) return {ThingKind::source, source.id.value};
  for (const TransferDevice& device : draft.house.transfer_devices)
    if (lower(device.name) == lower(text)) return {ThingKind::transfer_device, device.id.value};
  const std::vector<Word> words = words_of(draft.line, text, "");
  const std::string panel = joined(words, 0, words.empty() ? 0 : words.size() - 1);
  if (std::ranges::any_of(draft.house.panels, [&](const Panel& p) { return lower(p.name) == lower(panel); }))
    return {ThingKind::breaker, draft.breaker(text).breaker.value};
  const Named found = named(draft, text);
  if (found.points.empty()) return {ThingKind::device, found.device.value};
  if (found.points.size() > 1) draft.fail(shown(text) + " are several points; a note is about one.");
  return {ThingKind::point, found.points.front().value};
}

}  // namespace

void enter_by(Draft& draft, const Line& line) {
  const std::vector<Word> words = words_of(line.number, "<- x " + line.text, "");
  const DeclaredSpec said = parse_declared(draft, words, 1);
  draft.who = said.who;
  draft.at = said.at;
}

void enter_feed(Draft& draft, const Line& line) {
  const std::size_t arrow = line.text.find("<-");
  const std::string left = trimmed(std::string_view(line.text).substr(0, arrow));
  const DeclaredSpec said = parse_declared(draft, words_of(line.number, line.text.substr(arrow), ""), 1);
  const Named what = named(draft, left);
  if (what.points.empty()) declare_feed(draft, {}, what.device, said);
  for (const Id<Point> point : what.points) declare_feed(draft, point, {}, said);
  draft.said.push_back(left + " is fed by " + said.breaker + ", says " + said.who + ".");
}

void enter_through(Draft& draft, const Line& line) {
  const std::size_t colon = line.text.find(':');
  if (colon == std::string::npos) draft.fail("write 'Through ROOM POINT: BREAKER', as in 'Through Kitchen receptacle 1: Main 3'.");
  const std::string left = trimmed(std::string_view(line.text).substr(7, colon - 7));
  const std::vector<Word> words = words_of(line.number, left, "");
  std::size_t at = 0;
  const Id<Room> room = draft.room_at(words, at);
  const std::string name = joined(words, at, words.size());
  Id<Box> box;
  for (const Box& known : draft.house.boxes)
    if (known.room == room && lower(known.name) == lower(name)) box = known.id;
  for (const Id<Point> point : points_named(draft, room, name))
    if (!box) box = row(draft.house, point).box;
  if (!box) draft.fail("there is no box or point " + shown(name) + " in " + shown(draft.name_of(room)) + ".");
  for (const std::string& part : split(std::string_view(line.text).substr(colon + 1), ",\n")) {
    const BreakerAt from = draft.breaker(part);
    const int poles = row(draft.house, from.breaker).poles;
    for (int pole = from.pole == 0 ? 1 : from.pole; pole <= (from.pole == 0 ? poles : from.pole); ++pole)
      draft.house.passings.push_back({Id<Passing>::fresh(), box, from.breaker, pole});
  }
  draft.said.push_back("Through the box of " + left + " passes " + trimmed(std::string_view(line.text).substr(colon + 1)) + ".");
}

void enter_rated(Draft& draft, const Line& line) {
  const std::size_t colon = line.text.find(':');
  if (colon == std::string::npos) draft.fail("write 'Rated ROOM RECEPTACLES: AMPERES', as in 'Rated Kitchen receptacles 1-4: 20 A'.");
  const std::string left = trimmed(std::string_view(line.text).substr(5, colon - 5)), typed = trimmed(std::string_view(line.text).substr(colon + 1));
  std::string number = lower(typed);
  if (number.ends_with('a')) number = trimmed(std::string_view(number).substr(0, number.size() - 1));
  const auto amps = whole_number(number);
  if (!amps || !is_receptacle_rating(*amps)) draft.fail(shown(typed) + " is not a rating of a receptacle; expected is 15 A, 20 A, 30 A, 50 A or 60 A.");
  const Named what = named(draft, left);
  if (what.points.empty()) draft.fail(shown(left) + " is a device; only receptacles are rated here.");
  for (Point& point : draft.house.points) {
    if (std::ranges::find(what.points, point.id) == what.points.end()) continue;
    if (point.kind != PointKind::receptacle) draft.fail(shown(point.name) + " is no receptacle; only receptacles are rated here.");
    point.rating_amps = *amps;
  }
  draft.said.push_back(left + ": " + std::to_string(*amps) + " A stands on it.");
}

void enter_note(Draft& draft, const Line& line) {
  const std::size_t colon = line.text.find(':');
  if (colon == std::string::npos) draft.fail("write 'Note THING: words', as in 'Note Kitchen: the box is crowded'.");
  const bool is_private = lower(line.text).starts_with("private");
  const std::size_t skip = is_private ? lower(line.text).find("note") + 4 : 4;
  const std::string about = trimmed(std::string_view(line.text).substr(std::min(skip, colon), colon - std::min(skip, colon)));
  const std::string text = trimmed(std::string_view(line.text).substr(colon + 1));
  if (text.empty()) draft.fail("the words of the note are missing behind ':'.");
  draft.house.notes.push_back({.id = Id<Note>::fresh(), .about = thing(draft, about), .text = text,
                               .is_private = is_private, .who = draft.who, .at = draft.at});
  draft.said.push_back("Noted about " + (about.empty() ? std::string("the house") : about) + ".");
}

}  // namespace ohmstead::entry_detail
