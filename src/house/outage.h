#pragma once
// The plan for an outage that was kept, what the household wants of it, how far its wiring is, and the outage log.

#include <string>

#include "house/enum_text.h"
#include "house/id.h"
#include "house/refs.h"

namespace ohmstead {

struct Breaker;
struct Load;
struct Point;
struct Position;
struct Source;

/// A pole of a breaker that is to be carried in an outage: the plan that was kept.
struct Planned {
  static constexpr const char* kTable = "planned";
  Id<Planned> id;
  Id<Breaker> breaker;
  int pole = 1;           ///< 1-based
  Id<Position> position;  ///< none: it stays where it is and is left on (interlock, subpanel)
  bool operator==(const Planned&) const = default;
  template <class Self, class F>
  static void fields(Self& s, F&& f) {
    f("id", s.id), f("breaker", s.breaker), f("pole", s.pole), f("position", s.position);
  }
};

/// What the household wants of every plan: 'freezer on 3', 'never the range'. One a breaker.
struct Pin {
  static constexpr const char* kTable = "pin";
  Id<Pin> id;
  Id<Breaker> breaker;
  bool never = false;     ///< it gets no place; else it must get one
  Id<Position> position;  ///< its first pole must be on this one; none: on any
  bool operator==(const Pin&) const = default;
  template <class Self, class F>
  static void fields(Self& s, F&& f) {
    f("id", s.id), f("breaker", s.breaker), f("never", s.never), f("position", s.position);
  }
};

/// A step of the connecting worksheet that was done.
struct Tick {
  static constexpr const char* kTable = "tick";
  Id<Tick> id;
  std::string step;  ///< which step (backup/worksheet.h)
  std::string at;    ///< UTC
  std::string who;   ///< may be empty
  bool operator==(const Tick&) const = default;
  template <class Self, class F>
  static void fields(Self& s, F&& f) {
    f("id", s.id), f("step", s.step), f("at", s.at), f("who", s.who);
  }
};

enum class OutageEventKind {
  utility_lost,    ///< an outage begins
  utility_back,    ///< somebody saw that the utility is back; the house is still on its source
  ended,           ///< the way home is done: everything is on the utility again
  source_started, source_stopped,  ///< `source`, by a hand or by itself
  moved,           ///< `handle` now stands in `stands`
  load_on, load_off,  ///< `load`, or a guest's thing: `text`, `watts`, at `point`
  overload,        ///< the source (or its breaker) gave up
  note,            ///< free words
};
OHMSTEAD_WORDS(OutageEventKind, "utility_lost", "utility_back", "ended", "source_started", "source_stopped", "moved",
               "load_on", "load_off", "overload", "note")

/// One line of the outage log. Where things stand follows from the lines since the outage began (backup/outage_now.h).
struct OutageEvent {
  static constexpr const char* kTable = "outage_event";
  Id<OutageEvent> id;
  OutageEventKind kind = OutageEventKind::note;
  std::string at;   ///< UTC
  std::string who;  ///< may be empty
  Id<Source> source;
  HandleRef handle;
  int stands = 0;   ///< throw of the handle: 0 off, 1 on or utility, 2 backup
  Id<Load> load;
  Id<Point> point;
  int running_watts = 0, starting_watts = 0;  ///< of a guest's thing
  std::string text;
  bool withdrawn = false;  ///< taken back: it did not happen
  bool operator==(const OutageEvent&) const = default;
  template <class Self, class F>
  static void fields(Self& s, F&& f) {
    f("id", s.id), f("kind", s.kind), f("at", s.at), f("who", s.who), f("source", s.source), f("handle", s.handle),
        f("stands", s.stands), f("load", s.load), f("point", s.point), f("running_watts", s.running_watts),
        f("starting_watts", s.starting_watts), f("text", s.text), f("withdrawn", s.withdrawn);
  }
};

}  // namespace ohmstead
