#include "ask/outage_words.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "ask/fuel_words.h"
#include "ask/outage_parts.h"
#include "ask/printable.h"
#include "ask/sentence.h"
#include "ask/watts.h"
#include "backup/food_times.h"
#include "house/moment.h"

namespace ohmstead {

using namespace sentence;

namespace outage_words {

std::vector<std::string> load_names(const House& house, const std::vector<Id<Load>>& loads) {
  std::vector<std::string> names;
  for (const Id<Load> id : loads)
    if (const Load* load = find_row(house, id)) names.push_back(load_text(house, *load));
  return names;
}

std::string source_name(const OutageView& view) {
  const std::string name = terminal::printable(view.house.sources[view.gear.source].name);
  return is_engine(view) ? (name == "Generator" ? "the generator" : "generator " + name) : (name == "Battery" ? "the battery" : "battery " + name);
}

bool is_engine(const OutageView& view) { return view.house.sources[view.gear.source].kind == SourceKind::generator; }

std::string consumer_name(const OutageView& view, const Consumer& one) {
  if (one.load >= 0) return load_text(view.house, view.house.loads[static_cast<std::size_t>(one.load)]);
  const GuestThing& guest = view.now.guests[static_cast<std::size_t>(one.guest)];
  return terminal::printable(guest.text) + " (" + terminal::printable(point_name(view.house, guest.point)) + ")";
}

std::string minutes_text(long minutes) {
  const long hours = minutes / 60, rest = minutes % 60;
  if (hours == 0) return std::to_string(rest) + " min";
  return std::to_string(hours) + " h" + (rest == 0 ? "" : " " + std::to_string(rest) + " min");
}

void say_life(const OutageView& view, const std::vector<std::size_t>& loads, Lines& lines) {
  if (loads.empty() || view.now.phase == OutagePhase::none) return;
  std::vector<std::string> names;
  for (const std::size_t load : loads) names.push_back(load_text(view.house, view.house.loads[load]));
  const bool first = !view.now.running && !view.now.to_refuel && (!view.now.placed || !view.now.started_at.empty() || view.now.will_not_start);  // at the start, and when the source dies
  say(lines, LineKind::danger, "NO POWER: " + joined(names) + ". " +
                                   (first ? "Change to its battery or cylinder now, as its written plan says. No plan, or not enough: call its supplier or the emergency number."
                                          : "Keep it on its battery or cylinder."));
}

std::vector<std::string> comes_on_items(const OutageView& view, int unit) {
  std::vector<std::string> items;
  if (unit < 0) return items;
  const OutageUnit& one = view.gear.units[static_cast<std::size_t>(unit)];
  std::vector<std::size_t> others = one.points;
  for (const std::size_t l : one.loads) {
    std::erase(others, view.gear.loads[l].point);
    if (!is_off(view.now.loads[l]) || (view.gear.loads[l].by_handle && view.now.loads[l] == LoadStands::off_for_a_while)) items.push_back(load_text(view.house, view.house.loads[l]));
  }
  for (const std::string& room : points_by_room(view.house, others)) items.push_back(room);
  return items;
}

}  // namespace outage_words

namespace {

using namespace outage_words;

/// Loads that are asked for soon: within an hour, or the last quarter of what they may be off.
bool is_near(const OffLoad& off) { return off.left() <= std::max(60, off.longest_min / 4); }

void say_off_loads(const OutageView& view, const OutageStatus& status, Lines& lines) {
  for (const OffLoad& off : status.off_loads) {
    const std::string name = capital(load_text(view.house, view.house.loads[off.load]));
    if (off.left() <= 0)
      say(lines, LineKind::danger, name + " has been without power for " + minutes_text(off.minutes) + ", longer than the " + minutes_text(off.longest_min) + " it may be.");
    else if (is_near(off))
      say(lines, LineKind::caution, name + " has been without power for " + minutes_text(off.minutes) + "; it may be so for " + minutes_text(off.left()) + " more. Keep its door shut.");
  }
}

/// Rooms whose receptacles with power all have the same left by name alone; of others the receptacles.
std::string places_text(const OutageView& view, const OutageStatus& status, const RoomLeft& left) {
  std::vector<std::string> rooms;
  std::vector<std::size_t> single;
  const auto room_of = [&](std::size_t point) { return view.house.points[point].room; };
  for (const std::size_t p : left.points) {
    const bool whole = std::ranges::none_of(status.left, [&](const RoomLeft& other) {
      return other.watts != left.watts && std::ranges::any_of(other.points, [&](std::size_t q) { return room_of(q) == room_of(p); });
    });
    const Room* room = find_row(view.house, room_of(p));
    if (!whole || room == nullptr) single.push_back(p);
    else if (std::ranges::find(rooms, room->name) == rooms.end()) rooms.push_back(room->name);
  }
  for (const std::string& room : points_by_room(view.house, single)) rooms.push_back(room);
  std::string text;
  for (const std::string& room : rooms) text += (text.empty() ? "" : single.empty() ? ", " : "; ") + room;
  return text;
}

void say_left(const OutageView& view, const OutageStatus& status, Lines& lines) {
  std::vector<std::string> items;
  for (const RoomLeft& left : status.left) {
    items.push_back((left.watts > 0 ? "about " + watts_text(left.watts) : "nothing more") + ": " + places_text(view, status, left));
  }
  if (!items.empty()) say(lines, LineKind::answer, "Still to be had, at one receptacle of these (one thing at a time):", items);
}

void say_not_carried(const OutageView& view, const OutageStatus& status, Lines& lines) {
  std::vector<std::string> elsewhere, not_known;
  for (const std::size_t load : status.not_carried) {
    const std::size_t point = view.gear.loads[load].point;
    const bool known = view.gear.graph.point_hots[point][0] != kNoNode;
    (known ? elsewhere : not_known).push_back(load_text(view.house, view.house.loads[load]));
  }
  if (!elsewhere.empty()) say(lines, LineKind::detail, "Wanted, but on circuits that " + source_name(view) + " does not carry:", elsewhere);
  if (!not_known.empty()) say(lines, LineKind::detail, "Wanted, but nobody has found out which breaker feeds it:", not_known);
}

bool is_shared(const OutageView& view, int unit) {
  const OutageBar* bar = unit < 0 ? nullptr : view.gear.bar_of(view.gear.units[static_cast<std::size_t>(unit)].handle);
  return bar != nullptr && bar->kind == OutageBarKind::shared_neutral;
}

/// What keeps somebody alive on the same circuit: whoever trips its breaker takes its power.
void say_life_beside(const OutageView& view, const MayI& answer, Lines& lines) {
  if (answer.unit < 0 || (answer.kind != MayIKind::yes && answer.kind != MayIKind::after)) return;
  std::vector<std::string> names;
  for (const std::size_t load : view.gear.units[static_cast<std::size_t>(answer.unit)].loads)
    if (view.gear.loads[load].worth >= kLifeWorth && view.gear.loads[load].point != answer.point) names.push_back(load_text(view.house, view.house.loads[load]));
  if (!names.empty()) say(lines, LineKind::caution, capital(joined(names)) + " hangs on the same breaker: better elsewhere.");
}

/// Life safety that this source does not carry, and what is too much for it though nothing else is left.
void say_life_limits(const OutageView& view, const OutageStatus& status, Lines& lines) {
  for (const std::size_t load : status.not_carried)
    if (view.house.loads[load].importance == Importance::life_safety)
      say(lines, LineKind::danger, capital(load_text(view.house, view.house.loads[load])) + " is not carried by " + source_name(view) + ".");
  int life = 0;
  for (const Consumer& one : status.on)
    if (one.life()) life += std::accumulate(one.draw.running.begin(), one.draw.running.end(), 0);
  if (life > status.limits.running && status.running)
    say(lines, LineKind::danger, "What keeps somebody alive draws " + watts_text(life) + ", more than the " + watts_text(status.limits.running) + " that " + source_name(view) +
                                     " gives now: it can stop at any moment. Have the battery or cylinder at hand, and change to it.");
}

/// " on Saturday 2026-11-28" where it is not today.
std::string day_if_not_today(const std::string& now, const std::string& then, const LocalTime& local) {
  const std::string day = day_text(then, local);
  return day == day_text(now, local) ? "" : " on " + day;
}

/// "at about 02:10", "between 23:10 and 02:10 on Saturday 2026-11-28"
std::string when_text(const std::string& now, const Range& hours, const LocalTime& local) {
  const auto later = [&](double h) { return moment_at(seconds_since_1970(now) + std::lround(h * 3600)); };
  const std::string from = later(hours.low), to = later(hours.high);
  const std::string first = clock_text(from, local), last = clock_text(to, local), day = day_if_not_today(now, to, local);
  if (first + day_text(from, local) == last + day_text(to, local)) return "at about " + last + day;
  const std::string first_day = day_if_not_today(now, from, local);
  return "between " + first + (first_day == day ? "" : first_day) + " and " + last + day;
}

std::string share_text(const Range& share) {
  const auto percent = [](double part) { return std::to_string(std::lround(part * 100)); };
  return percent(share.low) + (percent(share.low) == percent(share.high) ? "" : " to " + percent(share.high)) + " %";
}

std::string counted_from(const OutageView& view, const OutageStatus& status, const LocalTime& local) {
  if (!status.fuel->full_at.empty()) return "counted from " + clock_text(status.fuel->full_at, local) + ", when it was said to be full";
  return "if " + std::string(is_engine(view) ? "the tank" : "the battery") + " was full when the outage began";
}

/// When the tank will be empty, in time.
void say_fuel_left(const OutageView& view, const OutageStatus& status, const LocalTime& local, Lines& lines) {
  if (!status.fuel || seconds_since_1970(status.at) < 0) return;
  const FuelLeft& fuel = *status.fuel;
  const std::string what = is_engine(view) ? "The tank of " + source_name(view) : capital(source_name(view));
  const std::string who = is_engine(view) ? " Refuel in time (key f)." : "";
  if (!status.running) {
    if (is_engine(view) && fuel.share.low < kWorthFilling && status.phase == OutagePhase::lost)
      say(lines, LineKind::caution, what + " is about " + share_text(fuel.share) + " full (" + counted_from(view, status, local) + "): fill it now, while it stands still and is cold (key f).");
    return;
  }
  if (!(fuel.hours.high > 0) && fuel.share.high > 0) return;  // nothing draws
  const std::string empty = what + (fuel.hours.low > 0    ? " will be empty " + when_text(status.at, fuel.hours, local)
                                    : fuel.hours.high <= 0 ? " should be empty by now"
                                                           : " may be empty now, and will be " + when_text(status.at, {fuel.hours.high, fuel.hours.high}, local) + " at the latest") +
                            ", if what runs now goes on (" + counted_from(view, status, local) + ").";
  const bool soon = fuel.hours.low <= kRefuelSoonHours;
  say(lines, fuel.hours.low <= kRefuelNowHours ? LineKind::danger : soon ? LineKind::caution : LineKind::detail, empty + (soon ? who : ""));
}

std::string watts_of(const Consumer& one) {
  int sum = 0;
  for (const int watts : one.draw.running) sum += watts;
  return sum > 0 ? ", " + watts_text(sum) : "";
}

}  // namespace

std::string outage_handle_text(const House& house, const Names& names, const HandleRef& handle) {
  if (handle.kind == HandleKind::main) {
    const Panel* panel = find_row(house, Id<Panel>{handle.id});
    return "the main breaker of " + (panel == nullptr ? "the panel" : terminal::printable(panel->name));
  }
  if (handle.kind != HandleKind::position) return names.name_of(handle);
  const Position* position = find_row(house, Id<Position>{handle.id});
  if (position == nullptr) return "nothing";
  std::vector<std::string> numbers;
  for (const Position& other : house.positions)
    if (other.id == position->id || (position->tie && other.tie == position->tie)) numbers.push_back(std::to_string(other.number));
  const TransferDevice* device = find_row(house, position->device);
  return (numbers.size() > 1 ? "handles " : "handle ") + joined(numbers) + (device == nullptr ? "" : " on " + terminal::printable(device->name)) +
         (numbers.size() > 1 ? " (tied together)" : "");
}

Lines words_of_outage_status(const OutageView& view, const OutageStatus& status, const LocalTime& local) {
  Lines lines;
  if (status.phase == OutagePhase::none) {
    say(lines, LineKind::answer, "No outage is under way.");
    return lines;
  }
  say_life(view, status.life_without_power, lines);
  say_life_limits(view, status, lines);
  say_off_loads(view, status, lines);
  Lines fuel;
  say_fuel_left(view, status, local, fuel);
  const bool fuel_first = !fuel.empty() && fuel.front().kind != LineKind::detail;
  if (fuel_first) lines.push_back(fuel.front());
  const std::string since = "The power has been gone for " + minutes_text(status.minutes) + ". ";
  say(lines, LineKind::answer, (status.phase == OutagePhase::back ? "The power from the street is back; the way home is not finished. " : since) +
                                   capital(source_name(view)) + (status.running ? " runs." : " is not running."));
  std::vector<std::string> on, waiting;
  for (const Consumer& one : status.on) on.push_back(consumer_name(view, one) + watts_of(one));
  for (const Consumer& one : status.waiting) waiting.push_back(consumer_name(view, one));
  if (!on.empty()) say(lines, LineKind::answer, "On now, " + watts_text(status.drawn_in_all) + " of " + watts_text(status.limits.running) + ":", on);
  std::vector<std::string> dark;
  const std::vector<std::string> left_out = left_out_texts(view, status);
  for (const Consumer& one : status.dark) dark.push_back(consumer_name(view, one) + watts_of(one));
  if (!dark.empty()) say(lines, LineKind::caution, "Nothing came on, so it counts as without power (room is kept for it, for it can come on at any time):", dark);
  if (!left_out.empty()) say(lines, LineKind::caution, "Left out since the overload; its handle stays off. To try it again, move that back and say so (key h):", left_out);
  if (!waiting.empty()) say(lines, LineKind::detail, "Not on, and wanted:", waiting);
  say_left(view, status, lines);
  say_not_carried(view, status, lines);
  if (!fuel.empty() && !fuel_first) lines.push_back(fuel.front());
  if (status.tank_hours && status.drawn_in_all > 0)
    say(lines, LineKind::detail, "Like this a full " + std::string(is_engine(view) ? "tank" : "battery") + " lasts about " + hours_text(*status.tank_hours) + "; longer where motors rest in between.");
  return lines;
}

Lines words_of_may_i(const OutageView& view, const Names& names, const std::string& name, const MayI& answer) {
  Lines lines;
  const std::string thing = capital(name), place = terminal::printable(point_name(view.house, answer.point));
  const std::string reckoned = " (" + watts_text(answer.running) + " at most" + (answer.starting > answer.running ? ", " + watts_text(answer.starting) + " to start" : "") + ")";
  const std::string handle = answer.unit < 0 ? "" : outage_handle_text(view.house, names, view.gear.graph.handles[view.gear.units[static_cast<std::size_t>(answer.unit)].handle].ref);
  const std::string less = "A lower setting may do: read its watts, and ask again with them, such as '" + name + " 900 W'.";
  const auto tell = [&](LineKind kind, const std::string& text) { say(lines, kind, text); };
  switch (answer.kind) {
    case MayIKind::yes:
      tell(LineKind::answer, "Yes. " + thing + reckoned + " may be switched on at " + place + ".");
      tell(LineKind::detail, "One such thing at a time: ask again before the next.");
      break;
    case MayIKind::after: {
      std::vector<std::string> off;
      for (const Consumer& one : answer.off_first) off.push_back(switch_off_text(view, names, one));
      say(lines, LineKind::answer, "Not yet. " + std::string(off.size() > 1 ? "First all of this" : "First this") + ", then " + name + reckoned + " may be switched on:", off);
      break;
    }
    case MayIKind::on_already: tell(LineKind::answer, thing + " is on already, by what was said; it is counted."); break;
    case MayIKind::too_much:
      tell(LineKind::answer, "No. " + thing + reckoned + " is more than " + source_name(view) + " can carry there, even with everything off that may be off.");
      tell(LineKind::detail, less);
      break;
    case MayIKind::too_much_here:
      tell(LineKind::answer, "No, not at " + place + ": the small breaker of its circuit carries " + watts_text(answer.circuit_watts) + ", and " + name + reckoned + " is more.");
      tell(LineKind::detail, less);
      break;
    case MayIKind::not_carried: tell(LineKind::answer, "No. It has no power in this outage: the circuit of " + place + " is not carried by " + source_name(view) + "."); say_left(view, outage_status(view, view.now.began), lines); break;
    case MayIKind::not_on_yet: tell(LineKind::answer, "Not yet. " + capital(place) + " has no power now" + (handle.empty() ? "." : "; it comes on with " + handle + ".")); break;
    case MayIKind::no_source: tell(LineKind::answer, "No. " + capital(source_name(view)) + " is not running, so nothing at " + place + " has power."); break;
    case MayIKind::feed_not_known: tell(LineKind::answer, "It cannot be said: nobody has found out which breaker feeds " + place + ". Leave it off, or use another receptacle."); break;
    case MayIKind::watts_not_known: tell(LineKind::answer, "It cannot be said how much " + name + " draws. Read the watts from its nameplate, and ask again with them: '" + name + " 900 W'."); break;
    case MayIKind::barred: tell(LineKind::answer, "No. " + capital(handle) + " may never be on " + source_name(view) + (is_shared(view, answer.unit) ? ": its circuits share a neutral, which would carry the sum of both." : ": proving found its wiring wrong, and a licensed electrician must look first.")); break;
    case MayIKind::no_outage: tell(LineKind::answer, "No outage is under way; nothing has to be asked."); break;
  }
  say_life_beside(view, answer, lines);
  return lines;
}

}  // namespace ohmstead
