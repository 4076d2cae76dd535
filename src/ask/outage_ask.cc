#include "ask/outage_ask.h"

#include <algorithm>
#include <charconv>
#include <cctype>
#include <optional>

#include "ask/outage_words.h"
#include "ask/printable.h"
#include "ask/sentence.h"
#include "ask/watts.h"
#include "ask/words.h"
#include "backup/figures.h"
#include "backup/outage_now.h"
#include "house/error.h"
#include "house/index.h"

namespace ohmstead {

namespace {

using sentence::point_name;

constexpr int kMostWatts = 100'000;

std::string trimmed(std::string_view text) {
  const auto first = text.find_first_not_of(" \t"), last = text.find_last_not_of(" \t.");
  return first == std::string_view::npos ? std::string() : std::string(text.substr(first, last - first + 1));
}

/// Number at the end of `text`, which it loses; commas between digits are read over.
std::optional<int> take_number(std::string& text) {
  std::size_t from = text.size();
  while (from > 0 && (std::isdigit(static_cast<unsigned char>(text[from - 1])) != 0 || text[from - 1] == ',')) --from;
  std::string digits = text.substr(from);
  std::erase(digits, ',');
  int number = 0;
  const auto [end, fault] = std::from_chars(digits.data(), digits.data() + digits.size(), number);
  if (digits.empty() || fault != std::errc{} || end != digits.data() + digits.size() || number > kMostWatts) return std::nullopt;
  text.resize(from);
  return number;
}

struct Watts {
  int running = 0, starting = 0;
};

/// "kettle 1500 W" loses its watts; nothing if there are none.
std::optional<Watts> take_watts(std::string& words) {
  std::string text = trimmed(words);
  if (text.ends_with(" watts")) text.resize(text.size() - 6);
  else if (text.ends_with('W') || text.ends_with('w')) text.pop_back();
  else return std::nullopt;
  text = trimmed(text);
  auto last = take_number(text);
  if (!last) return std::nullopt;
  Watts watts{*last, *last};
  if (text.ends_with('/')) {
    text.pop_back();
    const auto running = take_number(text);
    if (!running) return std::nullopt;
    watts.running = *running;
  }
  words = trimmed(text);
  return watts;
}

std::string quoted(std::string_view words) { return "'" + terminal::printable(words.substr(0, 60)) + "'"; }

/// The receptacle that is meant by a place.
std::size_t point_at(const OutageView& view, const Names& names, std::string_view at) {
  const ThingRef thing = names.one(at, {ThingKind::point, ThingKind::room});
  const auto place = [&](std::uint64_t id) { return static_cast<std::size_t>(std::ranges::find(view.house.points, Id<Point>{id}, &Point::id) - view.house.points.begin()); };
  if (thing.kind == ThingKind::point) return place(thing.id);
  std::vector<std::size_t> points;
  for (std::size_t p = 0; p < view.house.points.size(); ++p)
    if (view.house.points[p].room.value == thing.id && view.house.points[p].kind == PointKind::receptacle) points.push_back(p);
  if (points.empty()) throw Error(ErrorKind::not_found, "No receptacle of " + names.name_of(thing) + " is written down; say another place.");
  const auto alike = [&](std::size_t p) {  // the same circuit, the same leg
    const StartLoad one = draw_at(view.gear, p, 100, 100), first = draw_at(view.gear, points.front(), 100, 100);
    return view.gear.point_unit[p] == view.gear.point_unit[points.front()] && view.gear.point_carried[p] == view.gear.point_carried[points.front()] &&
           one.running == first.running;
  };
  std::vector<std::size_t> carried;  // the others have no power in this outage: they are not meant
  for (const std::size_t p : points)
    if (view.gear.point_carried[p]) carried.push_back(p);
  if (!carried.empty()) points = std::move(carried);
  if (std::ranges::all_of(points, alike)) return points.front();
  std::string list;
  for (const std::size_t p : points) list += (list.empty() ? "" : "; ") + terminal::printable(point_name(view.house, p));
  throw Error(ErrorKind::ambiguous, "The receptacles of " + names.name_of(thing) + " are on different circuits; say which one: " + list + ".");
}

/// The one load that the screens call so: "television", "television (Living room)". -1: none, or several.
int load_shown_as(const House& house, std::string_view words) {
  int found = -1, count = 0;
  for (std::size_t l = 0; l < house.loads.size(); ++l) {
    const std::string shown = folded(load_text(house, house.loads[l])), plain = shown.substr(0, shown.rfind(" ("));
    if (folded(words) == shown || folded(words) == plain) found = static_cast<int>(l), ++count;
  }
  return count == 1 ? found : -1;
}

/// The load of the record that is meant: by its own name, or the only one at a point. -1: none.
int load_called(const OutageView& view, const Names& names, std::string_view words) {
  if (const int shown = load_shown_as(view.house, words); shown >= 0) return shown;
  const auto best = names.find(words, {ThingKind::load, ThingKind::point}).best;
  if (best.empty() || (best.front().rank >= 40 && typical_figures(words).known)) return -1;
  const ThingRef thing = names.one(words, {ThingKind::load, ThingKind::point});
  int found = -1, count = 0;
  for (std::size_t l = 0; l < view.house.loads.size(); ++l) {
    const Load& load = view.house.loads[l];
    if (thing.kind == ThingKind::load ? load.id.value == thing.id : load.point.value == thing.id) found = static_cast<int>(l), ++count;
  }
  return count == 1 ? found : -1;
}

}  // namespace

OutageEvent told_in_words(const OutageView& view, const Names& names, std::string_view what, const std::string& words, const std::string& at) {
  using enum OutageEventKind;
  if (what == "on" || what == "off") return switched_in_words(view, names, what == "on", words, at);
  if (what == "moved") return moved_in_words(view, names, words);
  if (what == "gone") return {.kind = utility_lost};
  if (what == "back") return {.kind = utility_back};
  if (what == "gave-up") return {.kind = overload};
  if (what == "stopped") return {.kind = source_stopped};
  if (what == "gives") return {.kind = source_started, .running_watts = watts_in_words(words)};
  if (what == "refuel" || what == "refuelled")
    return {.kind = note, .source = view.house.sources[view.gear.source].id, .text = std::string(what == "refuel" ? outage_log::kToRefuel : outage_log::kRefuelled)};
  if (what == "note") return {.kind = note, .text = words};
  std::string known;
  for (const std::string_view one : kOutageTold) known += (known.empty() ? "" : ", ") + std::string(one);
  throw Error(ErrorKind::invalid_input, "Told can be one of " + known + "; not '" + terminal::printable(std::string(what.substr(0, 40))) + "'.");
}

int watts_in_words(std::string_view words) {
  std::string text = trimmed(words);
  if (text.ends_with('W') || text.ends_with('w')) text = trimmed(std::string_view(text).substr(0, text.size() - 1));
  const auto watts = take_number(text);
  if (!watts || *watts <= 0 || !trimmed(text).empty())
    throw Error(ErrorKind::invalid_input, quoted(words) + " are no watts; give a number from 1 to 100,000, such as 2000.");
  return *watts;
}

AskedInWords asked_in_words(const OutageView& view, const Names& names, std::string_view words, std::string_view at) {
  std::string name = trimmed(words);
  const auto watts = take_watts(name);
  AskedInWords asked{.thing = {}, .name = name.empty() ? "that" : terminal::printable(name)};
  if (at.empty() && !name.empty()) {
    asked.thing.load = load_called(view, names, name);
    if (asked.thing.load >= 0 && watts) {  // other watts than the record has: as a thing at the same place
      asked.thing.point = view.gear.loads[static_cast<std::size_t>(asked.thing.load)].point;
      asked.thing.load = -1;
      asked.thing.running = watts->running, asked.thing.starting = watts->starting;
      return asked;
    }
    if (asked.thing.load >= 0) return asked;
  }
  if (at.empty())
    throw Error(ErrorKind::invalid_input, (name.empty() ? "It" : quoted(name)) + " is not in the record; say where it is plugged in, such as 'upper hall receptacle'.");
  asked.thing.point = point_at(view, names, at);
  const LoadFigures typical = typical_figures(name);
  asked.thing.running = watts ? watts->running : typical.known ? planned_running(typical) : 0;
  asked.thing.starting = watts ? watts->starting : typical.known ? planned_starting(typical) : 0;
  return asked;
}

bool is_in_record(const OutageView& view, const Names& names, std::string_view words) {
  return load_shown_as(view.house, trimmed(words)) >= 0 || !names.find(words, {ThingKind::load, ThingKind::point}).best.empty();
}

OutageEvent switched_in_words(const OutageView& view, const Names& names, bool on, std::string_view words, std::string_view at) {
  OutageEvent event{.kind = on ? OutageEventKind::load_on : OutageEventKind::load_off};
  const std::string name = trimmed(words);
  if (!on)
    for (const GuestThing& guest : view.now.guests)
      if (folded(guest.text) == folded(name)) {
        event.text = guest.text;
        return event;
      }
  const AskedInWords asked = asked_in_words(view, names, words, on ? at : std::string_view());
  if (asked.thing.load >= 0) {
    event.load = view.house.loads[static_cast<std::size_t>(asked.thing.load)].id;
    return event;
  }
  if (!on) throw Error(ErrorKind::not_found, quoted(name) + " was not switched on in this outage.");
  event.text = asked.name;
  event.point = view.house.points[asked.thing.point].id;
  event.running_watts = asked.thing.running;
  event.starting_watts = std::max(asked.thing.running, asked.thing.starting);
  return event;
}

namespace {

/// The number of a handle alone or of all that are tied, perhaps with its device, as the screens have it: "5 and 6 on T (tied together)", "5+6".
/// None: nothing is called so, or things of several devices are.
HandleRef handle_shown_as(const OutageView& view, const Names& names, std::string_view words) {
  std::string text;
  const auto digit_at = [&](std::size_t i) { return i < words.size() && std::isdigit(static_cast<unsigned char>(words[i])) != 0; };
  for (std::size_t i = 0; i < words.size(); ++i) {
    const bool between = (words[i] == '+' || words[i] == '-') && i > 0 && digit_at(i - 1) && digit_at(i + 1);
    text += between ? " and " : std::string(1, words[i]);
  }
  HandleRef found;
  std::string called;
  for (const Position& position : view.house.positions) {
    const HandleRef ref{HandleKind::position, position.id.value};
    std::string shown = folded(outage_handle_text(view.house, names, ref));
    shown.erase(0, shown.find(' ') + 1);  // "handle", "handles"
    const std::string untied = shown.substr(0, shown.find(" (tied")), numbers = untied.substr(0, untied.find(" on "));
    if ((text != shown && text != untied && text != numbers) || called == shown) continue;
    if (!called.empty()) return {};
    found = ref, called = shown;
  }
  return found;
}

/// "3", "5 and 6", "5+6"
bool is_number_of_handles(std::string text) {
  for (std::size_t at = text.find(" and "); at != std::string::npos; at = text.find(" and ")) text.replace(at, 5, "+");
  return !text.empty() && text.find_first_not_of("0123456789+-") == std::string::npos;
}

/// A position's handle of "handle 3", "handles 5 and 6 on T", "5+6"; one at a time, or all that are tied.
HandleRef position_called(const OutageView& view, const Names& names, const std::string& text, const std::string& number) {
  const HandleRef shown = handle_shown_as(view, names, number);
  if (shown) return shown;
  if (number.find(" and ") != std::string::npos || number.find_first_of("+,") != std::string::npos)
    throw Error(ErrorKind::invalid_input, "'" + terminal::printable(text.substr(0, 60)) +
                                          "' are not tied together; say one handle after the other, such as 'T3 backup'.");
  return names.one_handle("position " + number);
}

}  // namespace

OutageEvent moved_in_words(const OutageView& view, const Names& names, std::string_view words) {
  std::string text = folded(words);
  const auto space = text.rfind(' ');
  const std::string last = space == std::string::npos ? "" : text.substr(space + 1);
  int to = last == "off" ? kOff : last == "on" || last == "utility" ? kOn : last == "backup" ? kBackupSide : -1;
  if (to < 0) throw Error(ErrorKind::invalid_input, "Say the handle and where it stands now, such as 'T3 backup', 'T3 off', '12 on' or 'main off'.");
  text.resize(space);
  for (const std::string_view loose : {" to", " is", " turned", " moved"})
    if (text.ends_with(loose)) text.resize(text.size() - loose.size());
  std::string number = (last == "backup" || last == "utility") && is_number_of_handles(text) ? text : "";
  for (const std::string_view said : {"handles ", "handle ", "positions ", "position "})
    if (text.starts_with(said)) number = text.substr(said.size());
  const HandleRef handle = number.empty() ? names.one_handle(text) : position_called(view, names, text, number);
  OutageEvent event{.kind = OutageEventKind::moved, .handle = handle, .stands = to};
  const bool position = event.handle.kind == HandleKind::position;
  if (position ? last == "on" : last == "utility" || last == "backup")
    throw Error(ErrorKind::invalid_input, position ? "A transfer position stands at utility, off or backup." : "A breaker stands on or off.");
  return event;
}

}  // namespace ohmstead
