// What goes off, in words: dangers first.

#include <algorithm>

#include "ask/printable.h"
#include "ask/sentence.h"
#include "rules/trips.h"

namespace ohmstead {

using sentence::by_reliance, sentence::capital, sentence::counted, sentence::point_name, sentence::say;

namespace {

/// Names of the loads at a point, "" if none is recorded under a name of its own.
std::string loads_at(const House& house, std::size_t point) {
  std::vector<std::string> names;
  for (const Load& load : house.loads)
    if (load.point == house.points[point].id && !load.name.empty()) names.push_back(load.name);
  return joined(names);
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

void sentence::say_often(Lines& lines, const House& house, const Names& names, const HandleRef& handle) {
  const std::string often = often_words(trips_of(house, handle));
  if (!often.empty()) say(lines, LineKind::caution, capital(names.name_of(handle)) + " " + terminal::printable(often) + ". " + kOftenWhy);
}

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
  for (const HandleRef& handle : answer.moved) sentence::say_often(lines, record.house, names, handle);
  if (!answer.change.on.empty())
    say(lines, LineKind::answer, "Comes on:", points_by_room(record.house, answer.change.on));
  if (!answer.change.unknown.empty())
    say(lines, LineKind::detail, counted(answer.change.unknown.size(), "point is", "points are") + " not traced yet and may go off too. `ohmstead status` lists them.");
  if (!answer.change.off.empty())
    say(lines, LineKind::caution, "Before touching a conductor, test the tester on something live, test, and test the tester again.");
  return lines;
}

}  // namespace ohmstead
