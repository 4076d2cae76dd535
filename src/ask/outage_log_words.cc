// The outage log, one line each.

#include "ask/outage_parts.h"
#include "ask/printable.h"
#include "ask/sentence.h"
#include "ask/watts.h"

namespace ohmstead {

namespace {

using namespace sentence;

std::string stands_text(const HandleRef& handle, int stands) {
  if (handle.kind == HandleKind::position) return stands == 2 ? "backup" : stands == 1 ? "utility" : "off";
  return stands == 1 ? "on" : "off";
}

/// Text of a line without the mark that it belongs to the one before.
std::string free_text(const OutageEvent& event) {
  std::string text = event.text;
  for (const std::string& mark : {"; " + std::string(outage_log::kWithBefore), std::string(outage_log::kWithBefore)})
    if ((event.load || event.handle || event.source) && text.ends_with(mark)) text.resize(text.size() - mark.size());
  return terminal::printable(text);
}

/// What a line is about: a load, a thing with where it is, or a handle.
std::string thing_text(const House& house, const Names& names, const OutageEvent& event) {
  if (const Load* load = find_row(house, event.load)) return load_text(house, *load);
  if (event.handle) return outage_handle_text(house, names, event.handle);
  if (event.source && event.kind == OutageEventKind::note) {
    const Source* source = find_row(house, event.source);
    return source == nullptr ? "" : terminal::printable(source->name);
  }
  std::string text = free_text(event);
  if (event.point) text += " at " + names.name_of(ThingRef{ThingKind::point, event.point.value});
  return text + (event.running_watts > 0 ? ", " + watts_text(event.running_watts) : "");
}

std::string what_happened(const House& house, const Names& names, const OutageEvent& event) {
  const Source* source = find_row(house, event.source);
  const std::string name = source == nullptr ? "the source" : terminal::printable(source->name), thing = thing_text(house, names, event);
  const std::string said = free_text(event);
  switch (event.kind) {
    case OutageEventKind::utility_lost: return "The power from the street is gone";
    case OutageEventKind::utility_back: return "The power from the street is back";
    case OutageEventKind::ended: return "The outage is over";
    case OutageEventKind::source_started:
      return event.running_watts > 0 ? name + " gives no more than " + watts_text(event.running_watts) : name + " runs";
    case OutageEventKind::source_stopped: return name + " stopped";
    case OutageEventKind::moved: return capital(thing) + " to " + stands_text(event.handle, event.stands);
    case OutageEventKind::load_on: return "On: " + thing;
    case OutageEventKind::load_off: return "Off: " + thing + (event.load && !said.empty() ? ", " + said : "");
    case OutageEventKind::overload: return "Overload" + (thing.empty() ? std::string() : "; stays off: " + thing);
    case OutageEventKind::note: break;
  }
  if (event.source || event.handle || event.load) return capital(thing) + ": " + said;
  return "Note: " + said;
}

}  // namespace

Lines words_of_outage_log(const House& house, const Names& names, const LocalTime& local, std::size_t from) {
  Lines lines;
  std::string day;
  for (std::size_t i = from; i < house.outage_events.size(); ++i) {
    const OutageEvent& event = house.outage_events[i];
    const std::string its = day_text(event.at, local) + " (times in " + zone_text(event.at, local) + "):";
    if (its != day) say(lines, LineKind::answer, day = its);
    lines.back().items.push_back(clock_text(event.at, local) + "  " + what_happened(house, names, event) +
                                 (event.who.empty() ? "" : " (" + terminal::printable(event.who) + ")") + (event.withdrawn ? " (taken back)" : ""));
  }
  if (lines.empty()) say(lines, LineKind::answer, "No outage has been written down.");
  return lines;
}

}  // namespace ohmstead
