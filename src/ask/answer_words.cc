#include "ask/answer_words.h"

#include <algorithm>

#include "house/index.h"
#include "house/numbering.h"

namespace ohmstead {

namespace {

void say(Lines& lines, LineKind kind, std::string text, std::vector<std::string> items = {}) {
  lines.push_back({kind, std::move(text), std::move(items)});
}

std::string counted(std::size_t n, const char* one, const char* many) {
  return std::to_string(n) + " " + (n == 1 ? one : many);
}

std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

std::string point_name(const House& house, std::size_t point) {
  const Room* room = find_row(house, house.points[point].room);
  return (room == nullptr ? "" : room->name + " ") + house.points[point].name;
}

/// Names of the loads at a point, "" if none is recorded under a name of its own.
std::string loads_at(const House& house, std::size_t point) {
  std::vector<std::string> names;
  for (const Load& load : house.loads)
    if (load.point == house.points[point].id && !load.name.empty()) names.push_back(load.name);
  return joined(names);
}

/// Splits points by whether their feed may be relied on.
std::pair<std::vector<std::size_t>, std::vector<std::size_t>> by_reliance(const Record& record,
                                                                          const std::vector<std::size_t>& points) {
  std::pair<std::vector<std::size_t>, std::vector<std::size_t>> split;
  for (const std::size_t p : points)
    (relied_on(record.feeds.of_point[p].standing) ? split.first : split.second).push_back(p);
  return split;
}

std::string terminal_words(const Record& record, int terminal) {
  const Terminal& t = record.graph.terminals[static_cast<std::size_t>(terminal)];
  const std::string source = t.source == 0 ? "the utility" : record.house.sources[static_cast<std::size_t>(t.source - 1)].name;
  return "leg " + std::to_string(t.leg) + " of " + source;
}

std::string closeness_words(const Record& record, const Names& names, const StaysLive& near) {
  const std::string live = names.name_of(near.live);
  const std::string gone = point_name(record.house, near.gone);
  switch (near.why) {
    case Closeness::same_box: return live + " is in the same box as " + gone + " and stays live.";
    case Closeness::passing: return "A conductor of " + live + " passes through the box of " + gone + " and stays live.";
    case Closeness::shared_neutral: break;
  }
  return capital(live) + " shares a neutral with " + gone + " and stays live: the neutral may carry current.";
}

/// Loads hurt by the loss: those that somebody depends on first.
void say_hurt(const Record& record, const OffAnswer& answer, Lines& lines) {
  const auto depended_on = [&](std::size_t p) {
    return std::ranges::any_of(record.house.loads, [&](const Load& load) {
      return load.point == record.house.points[p].id && load.importance == Importance::life_safety && load.hurt_by_power_loss;
    });
  };
  std::vector<std::size_t> points = answer.hurt;
  std::ranges::stable_partition(points, depended_on);
  for (const std::size_t p : points) {
    const std::string load = loads_at(record.house, p), place = point_name(record.house, p);
    const std::string what = load.empty() || place.ends_with(load) ? place : capital(load) + " (" + place + ")";
    say(lines, LineKind::danger, capital(what) + (depended_on(p) ? " goes off, and somebody depends on it. Ask that person, and have the other supply ready, before you move a handle."
                                                                 : " goes off, and losing power hurts it. See to it first."));
  }
}

void say_dangers(const Record& record, const Names& names, const OffAnswer& answer, Lines& lines) {
  for (const auto& pair : answer.broken_interlocks)
    say(lines, LineKind::danger, "Do not do this: " + names.name_of(record.graph.handles[pair.first].ref) + " and " +
                                     names.name_of(record.graph.handles[pair.second].ref) + " must never be on together.");
  for (const auto& [a, b] : answer.change.joined)
    say(lines, LineKind::danger, "Do not do this: it would join " + terminal_words(record, a) + " and " + terminal_words(record, b) + ".");
  for (const HandleRef& handle : answer.stays_fed)
    say(lines, LineKind::danger, "Turning off " + names.name_of(handle) + " does not make its circuit dead: it STAYS LIVE from another side.");
  say_hurt(record, answer, lines);
  for (const std::size_t p : answer.change.part_live) {
    const bool stops = std::ranges::binary_search(answer.change.off, p);
    say(lines, LineKind::danger, capital(point_name(record.house, p)) + (stops ? " stops working but part of it STAYS LIVE." : " does not work, and part of it BECOMES LIVE."));
  }
  if (std::ranges::any_of(answer.moved, [](const HandleRef& handle) { return handle.kind == HandleKind::main; }))
    say(lines, LineKind::danger, "The line side of a main stays live when it is off.");
  for (const Id<TransferDevice> device : answer.will_move)
    say(lines, LineKind::danger, capital(names.name_of(ThingRef{ThingKind::transfer_device, device.value})) +
                                     " moves by itself when it loses the utility: what it carries can come back on at any moment.");
  std::vector<std::string> said;
  for (const StaysLive& near : answer.change.stays_live) {
    const std::string text = capital(closeness_words(record, names, near));
    if (std::ranges::find(said, text) == said.end()) say(lines, LineKind::danger, text), said.push_back(text);
  }
  for (const auto& [gone, near] : answer.not_known_near)
    say(lines, LineKind::danger, capital(names.name_of(near)) + " is in the same box as " + point_name(record.house, gone) +
                                     ", and what feeds it is not traced: it may stay live.");
}

}  // namespace

Lines words_of_answer(const Record& record, const Names& names, const OffAnswer& answer) {
  Lines lines;
  std::vector<std::string> handles;
  for (const HandleRef& handle : answer.moved) handles.push_back(names.name_of(handle));
  const std::string moved = capital(joined(handles)) + (answer.supplied.source == 0 ? "" : ", while " +
      record.house.sources[static_cast<std::size_t>(answer.supplied.source - 1)].name + " carries the house") + ": ";
  say_dangers(record, names, answer, lines);
  const auto [sure, probable] = by_reliance(record, answer.change.off);
  if (answer.change.off.empty())
    say(lines, LineKind::answer, moved + "nothing that has been traced goes off.");
  if (!sure.empty())
    say(lines, LineKind::answer, moved + counted(sure.size(), "point goes off.", "points go off."), points_by_room(record.house, sure));
  if (!probable.empty())
    say(lines, LineKind::answer, (sure.empty() ? moved : "") + "Probably " + counted(probable.size(), "point goes off, not proved.", "points go off, not proved."),
        points_by_room(record.house, probable));
  if (!answer.change.on.empty())
    say(lines, LineKind::answer, "Comes on:", points_by_room(record.house, answer.change.on));
  if (!answer.change.unknown.empty())
    say(lines, LineKind::detail, counted(answer.change.unknown.size(), "point is", "points are") + " not traced yet and may go off too. `ohmstead status` lists them.");
  if (!answer.change.off.empty())
    say(lines, LineKind::caution, "Before touching a conductor, test the tester on something live, test, and test the tester again.");
  return lines;
}

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
  for (const Id<Device> device : answer.behind)
    say(lines, LineKind::detail, "On the way stands " + names.name_of(ThingRef{ThingKind::device, device.value}) + "; it must be on (or reset).");
  for (const Id<Panel> panel : answer.panels)
    if (const Panel* row = find_row(house, panel); row != nullptr && row->supply == Supply::breaker)
      say(lines, LineKind::detail, "Panel " + row->name + " is fed by " + names.name_of(HandleRef{HandleKind::breaker, row->feeder.value}) + ".");
  std::vector<std::string> positions;
  for (const Id<Position> position : answer.positions) positions.push_back(names.name_of(HandleRef{HandleKind::position, position.value}));
  if (!positions.empty()) say(lines, LineKind::answer, "In an outage " + joined(positions) + (positions.size() == 1 ? " carries it." : " carry it."));
  else if (!answer.feed.taps.empty() && !house.sources.empty() && house.interlocks.empty())
    say(lines, LineKind::answer, "In an outage nothing carries it: its circuit is on no transfer position.");
  for (const std::size_t l : answer.loads) {
    const Load& load = house.loads[l];
    std::string text = capital(load.name.empty() ? "load" : load.name);
    if (load.running_watts) text += ": " + std::to_string(*load.running_watts) + " W running";
    if (load.starting_watts) text += ", " + std::to_string(*load.starting_watts) + " W starting";
    say(lines, LineKind::detail, text + basis_words(load) + (load.hurt_by_power_loss ? "; losing power hurts it or somebody." : "."));
  }
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
