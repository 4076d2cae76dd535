#include "ask/answer_words.h"

#include <algorithm>

#include "ask/sentence.h"
#include "house/numbering.h"
#include "rules/trips.h"

namespace ohmstead {

using sentence::by_reliance, sentence::capital, sentence::counted, sentence::point_name, sentence::say;

namespace {

/// " (measured)"; "" where no watts are recorded.
std::string basis_words(const Load& load) {
  if (!load.running_watts && !load.starting_watts) return "";
  switch (load.basis) {
    case FigureBasis::guess: return " (as entered)";
    case FigureBasis::table: return " (typical)";
    case FigureBasis::nameplate: return " (nameplate)";
    case FigureBasis::measured: break;
  }
  return " (measured)";
}

/// "2026-11-25T09:30:00Z" -> "2026-11-25 09:30 UTC"
std::string time_words(const std::string& at) { return at.size() == 20 ? at.substr(0, 10) + " " + at.substr(11, 5) + " UTC" : at; }

/// " (or 11, tied to it: switching cannot tell which)"; "" where nothing is tied or it was declared.
std::string tied_words(const House& house, const Feed& feed) {
  const Breaker* breaker = find_row(house, feed.taps.front().breaker);
  if (breaker == nullptr || !breaker->tie || feed.standing == Standing::declared) return "";
  std::vector<std::string> others;
  const Panel* panel = find_row(house, breaker->panel);
  for (const Breaker& other : house.breakers)
    if (other.tie == breaker->tie && other.id != breaker->id && panel != nullptr) others.push_back(breaker_number(*panel, other));
  return " (or " + joined(others) + ", tied to it: switching cannot tell which)";
}

bool was_found_behind(const Record& record, std::size_t point, Id<Device> device) {
  return std::ranges::find(record.found_behind, FoundBehind{device, point}) != record.found_behind.end();
}

void say_load(Lines& lines, const Load& load) {
  std::string text = capital(load.name.empty() ? "load" : load.name);
  if (load.running_watts) text += ": " + std::to_string(*load.running_watts) + " W running";
  if (load.starting_watts) text += ", " + std::to_string(*load.starting_watts) + " W starting";
  say(lines, LineKind::detail, text + basis_words(load) + (load.hurt_by_power_loss ? "; losing power hurts it or somebody." : "."));
}

/// Breakers and devices between a point and its panel.
std::vector<HandleRef> on_the_way(const House& house, const WhereAnswer& answer) {
  std::vector<HandleRef> handles;
  const auto add = [&](const HandleRef& handle) {
    if (std::ranges::find(handles, handle) == handles.end()) handles.push_back(handle);
  };
  for (const Tap& tap : answer.feed.taps) add(trips_of(house, {HandleKind::breaker, tap.breaker.value}).handle);
  for (const Handle& handle : house.handles)
    if (std::ranges::find(answer.behind, handle.device) != answer.behind.end()) add({HandleKind::device, handle.id.value});
  return handles;
}

}  // namespace

Lines words_of_answer(const Record& record, const Names& names, const WhereAnswer& answer) {
  const House& house = record.house;
  const Point& point = house.points[answer.point];
  Lines lines;
  std::string what = capital(point_name(house, answer.point)) + (point.place.empty() ? "" : " (" + point.place + ")");
  if (answer.feed.taps.empty()) {
    say(lines, LineKind::answer, what + ": what feeds it is " + standing_words(house, answer.point, answer.feed) + ".");
  } else {
    std::vector<std::string> breakers;
    for (const Tap& tap : answer.feed.taps) {
      const std::string words = names.name_of(HandleRef{HandleKind::breaker, tap.breaker.value});
      if (std::ranges::find(breakers, words) == breakers.end()) breakers.push_back(words);
    }
    say(lines, LineKind::answer, what + " is fed by " + joined(breakers) + tied_words(house, answer.feed) + ", " + standing_words(house, answer.point, answer.feed) + ".");
  }
  for (const HandleRef& handle : on_the_way(record.house, answer)) sentence::say_often(lines, record.house, names, handle);
  for (const Id<Device> device : answer.behind)
    say(lines, LineKind::detail, "On the way stands " + names.name_of(ThingRef{ThingKind::device, device.value}) + (was_found_behind(record, answer.point, device) ? ", found by looks" : "") + "; it must be on (or reset).");
  for (const Id<Panel> panel : answer.panels)
    if (const Panel* row = find_row(house, panel); row != nullptr && row->supply == Supply::breaker)
      say(lines, LineKind::detail, "Panel " + row->name + " is fed by " + names.name_of(HandleRef{HandleKind::breaker, row->feeder.value}) + ".");
  std::vector<std::string> positions;
  for (const Id<Position> position : answer.positions) positions.push_back(names.name_of(HandleRef{HandleKind::position, position.value}));
  if (!positions.empty()) say(lines, LineKind::answer, "In an outage " + joined(positions) + (positions.size() == 1 ? " carries it." : " carry it."));
  else if (!answer.feed.taps.empty() && !house.sources.empty() && house.interlocks.empty())
    say(lines, LineKind::answer, "In an outage nothing carries it: its circuit is on no transfer position.");
  for (const std::size_t l : answer.loads) say_load(lines, house.loads[l]);
  if (!answer.same_breaker.empty())
    say(lines, LineKind::detail, "On the same breaker:", points_by_room(house, answer.same_breaker));
  if (answer.last_seen.empty()) say(lines, LineKind::detail, "It was never looked at while tracing.");
  else
    say(lines, LineKind::detail, "Looked at while tracing: dead " + counted(answer.seen_dead, "time", "times") + ", live " +
                                     counted(answer.seen_live, "time", "times") + ", last " + time_words(answer.last_seen) + ".");
  return lines;
}

Lines words_of_answer(const Record& record, const Names& names, const CarriesAnswer& answer) {
  Lines lines;
  const std::string handle = capital(names.name_of(answer.handle));
  if (answer.points.empty()) say(lines, LineKind::answer, handle + " carries nothing that has been traced.");
  const auto [sure, probable] = by_reliance(record, answer.points);
  if (!sure.empty())
    say(lines, LineKind::answer, handle + " carries " + counted(sure.size(), "point:", "points:"), points_by_room(record.house, sure));
  if (!probable.empty())
    say(lines, LineKind::answer, handle + " probably carries, not proved:", points_by_room(record.house, probable));
  return lines;
}

Lines words_of_answer(const Record& record, const Names& names, const IsolateAnswer& answer) {
  Lines lines;
  const House& house = record.house;
  const std::string place = answer.box ? "the box '" + names.name_of(ThingRef{ThingKind::box, answer.box.value}) + "'"
                                       : answer.inside.points.empty() ? "it" : point_name(house, answer.inside.points[0]);
  if (!answer.isolation.not_established.empty())
    say(lines, LineKind::danger, "Not safe to rely on: what feeds " + points_in_line(house, answer.isolation.not_established) +
                                     " is not proved. Trace it first, or have an electrician open the main.");
  if (answer.unknown_supply)
    say(lines, LineKind::danger, "Not safe to rely on: something in " + place + " hangs on a panel or a switch whose supply is not traced, and it may stay live whatever is opened. Trace it first.");
  if (!answer.isolation.possible) {
    say(lines, LineKind::danger, "Nothing in this house can cut off " + place + ": it is on the supply side of every breaker. Leave it to the utility and a licensed electrician.");
    return lines;
  }
  std::vector<std::string> handles;
  for (const std::uint32_t h : answer.isolation.open)
    for (const GraphHandle& member : record.graph.handles)
      if (member.ref && member.group == h) handles.push_back(names.name_of(member.ref));
  if (handles.empty() && !answer.isolation.not_established.empty()) {
    // said above
  } else if (handles.empty()) {
    say(lines, LineKind::danger, "The record joins nothing in " + place + " to any source; that says nothing about what is really there.");
  } else {
    say(lines, LineKind::answer, "To work in " + place + ", open " + joined(handles) + "." + (answer.unknown_supply || !answer.isolation.not_established.empty() ? " Something in it may be live all the same." : " Then no conductor in it can be live from any source, whatever else is switched, if the record is right."));
  }
  for (const Id<Breaker> partner : answer.isolation.neutral_partners)
    say(lines, LineKind::answer, capital(names.name_of(HandleRef{HandleKind::breaker, partner.value})) + " shares a neutral with a circuit in it, so it is opened too.");
  if (!answer.isolation.goes_off.empty())
    say(lines, LineKind::detail, "Goes off with it:", points_by_room(house, answer.isolation.goes_off));
  if (!answer.box && !answer.inside.points.empty())
    say(lines, LineKind::detail, "Which box it is in is not recorded, so other conductors in that box are not counted.");
  say(lines, LineKind::caution, "Lock or tape the handles. Test the tester on something live, test every conductor, test the tester again. The line side of a main stays live. Local code and a licensed electrician decide.");
  return lines;
}

namespace {

/// What a hand can look at between a point and the service: devices, breaker, position, feeders.
std::vector<std::string> handles_on_the_way(const Record& record, const Names& names, std::size_t point) {
  const WhereAnswer where = where_is(record, point);
  std::vector<std::string> items;
  for (const Id<Device> device : where.behind) items.push_back(names.name_of(ThingRef{ThingKind::device, device.value}));
  for (const Tap& tap : where.feed.taps) {
    const std::string name = names.name_of(HandleRef{HandleKind::breaker, tap.breaker.value});
    if (std::ranges::find(items, name) == items.end()) items.push_back(name);
  }
  for (const Id<Position> position : where.positions) items.push_back(names.name_of(HandleRef{HandleKind::position, position.value}) + " (on utility)");
  for (const Id<Panel> id : where.panels)
    if (const Panel* panel = find_row(record.house, id); panel != nullptr && panel->supply == Supply::breaker)
      items.push_back(names.name_of(HandleRef{HandleKind::breaker, panel->feeder.value}));
  return items;
}

}  // namespace

Lines words_of_answer(const Record& record, const Names& names, const RestoreAnswer& answer) {
  const House& house = record.house;
  const std::string what = point_name(house, answer.point);
  const std::string source = answer.from.source == 0 ? "the utility" : house.sources[static_cast<std::size_t>(answer.from.source - 1)].name;
  Lines lines;
  if (answer.works_already) {
    say(lines, LineKind::answer, "By the record " + what + " has power now. If it does not work: look at its plug and at its own switch, then at these: turn them fully off and on again, or reset them.", handles_on_the_way(record, names, answer.point));
    return lines;
  }
  switch (answer.restoration.cannot) {
    case CannotRestore::none: break;
    case CannotRestore::feed_not_established: say(lines, LineKind::answer, "What feeds " + what + " is not traced yet, so there is no telling what brings it back."); return lines;
    case CannotRestore::source_dead: say(lines, LineKind::answer, capital(source) + " is not running."); return lines;
    case CannotRestore::no_way: say(lines, LineKind::answer, "Nothing that can be switched joins " + what + " to " + source + "."); return lines;
    case CannotRestore::not_lawful: say(lines, LineKind::answer, "Every way to bring back " + what + " from " + source + " would break an interlock or join two sources."); return lines;
    case CannotRestore::over_capacity: say(lines, LineKind::answer, capital(source) + " cannot carry " + what + ", even with everything else on it switched off."); return lines;
  }
  if (answer.from.source != 0 && house.sources[static_cast<std::size_t>(answer.from.source - 1)].kind == SourceKind::generator)
    say(lines, LineKind::caution, "The generator runs outdoors, 20 ft (6 m) or more from windows, doors and vents, with every breaker of its own off until it runs evenly.");
  std::size_t step = 0;
  for (const Move& move : answer.restoration.moves) {
    const GraphHandle& handle = record.graph.handles[move.handle];
    const char* throws[] = {" off", handle.ref.kind == HandleKind::position ? " to utility" : " on", " to backup"};
    ++step;
    const bool traveller = handle.throws == 2 && handle.ref.kind == HandleKind::device && handle.usual == kOff;
    say(lines, LineKind::answer, std::to_string(step) + ". Turn " + names.name_of(handle.ref) + (traveller ? " the other way" : throws[move.to]) +
                                     (step <= answer.restoration.shed_moves ? " (to make room on " + source + ")." : "."));
  }
  if (!answer.restoration.goes_off.empty())
    say(lines, LineKind::detail, "This turns off:", points_by_room(house, answer.restoration.goes_off));
  if (!relied_on(record.feeds.of_point[answer.point].standing))
    say(lines, LineKind::detail, "What feeds " + what + " is " + standing_words(house, answer.point, record.feeds.of_point[answer.point]) + ".");
  if (answer.from.source == 0)
    say(lines, LineKind::caution, "A breaker that trips again has a reason: leave it off and find that first.");
  return lines;
}

Lines words_of_answer(const Record& record, const Names&, const StandAnswer& answer) {
  const House& house = record.house;
  Lines lines;
  say(lines, LineKind::answer, counted(answer.rooms, "room", "rooms") + ", " + counted(answer.points, "point", "points") + ", " +
                                   counted(answer.breakers, "breaker", "breakers") + ", " + counted(answer.observations, "observation", "observations") + ".");
  say(lines, LineKind::answer, "Feeds: " + std::to_string(answer.proved.size()) + " proved, " + std::to_string(answer.declared.size()) + " declared, " +
                                   std::to_string(answer.likely.size()) + " likely, " + std::to_string(answer.open.size()) + " open, " +
                                   std::to_string(answer.disputed.size()) + " disputed.");
  if (!answer.disputed.empty()) say(lines, LineKind::answer, "Disputed:", points_by_room(house, answer.disputed));
  for (Line& line : words_of_contradictions(house, answer.contradictions)) lines.push_back(std::move(line));
  if (!answer.open.empty()) say(lines, LineKind::detail, "Not traced yet:", points_by_room(house, answer.open));
  if (!answer.likely.empty()) say(lines, LineKind::detail, "Only likely:", points_by_room(house, answer.likely));
  std::vector<std::string> idle;
  for (const Panel& panel : house.panels) {
    std::vector<std::string> numbers;
    for (const Breaker& breaker : house.breakers)
      if (breaker.panel == panel.id && std::ranges::find(answer.nothing_found, breaker.id) != answer.nothing_found.end())
        numbers.push_back(breaker_number(panel, breaker));
    if (!numbers.empty()) idle.push_back(panel.name + ": " + joined(numbers));
  }
  if (!idle.empty()) say(lines, LineKind::detail, "Breakers on which nothing was found yet:", idle);
  return lines;
}

}  // namespace ohmstead
