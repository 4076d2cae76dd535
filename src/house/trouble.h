#pragma once
// What went wrong in the house: breakers that tripped, and sessions that asked why something is dead. A look of such a session is no
// evidence of what feeds what, for nobody knows where the handles stood.

#include <string>

#include "house/enum_text.h"
#include "house/id.h"
#include "house/refs.h"

namespace ohmstead {

struct Point;
struct Round;
struct Source;

/// A breaker, main or GFCI that tripped by itself.
struct Trip {
  static constexpr const char* kTable = "trip";
  Id<Trip> id;
  HandleRef handle;  ///< the first of a tie
  std::string at;    ///< UTC
  std::string who;   ///< who told it; may be empty
  std::string cause; ///< as told: "hair dryer and heater at once"; empty: not known
  Id<Round> round;   ///< told together with what was dead then; none: found by a diagnosis
  bool withdrawn = false;  ///< taken back: it did not happen
  bool operator==(const Trip&) const = default;
  template <class Self, class F>
  static void fields(Self& s, F&& f) {
    f("id", s.id), f("handle", s.handle), f("at", s.at), f("who", s.who), f("cause", s.cause), f("round", s.round), f("withdrawn", s.withdrawn);
  }
};

/// What happened before something was dead.
enum class Before { not_known, storm, appliance_started, work_done, to_backup };
OHMSTEAD_WORDS(Before, "not_known", "storm", "appliance_started", "work_done", "to_backup")

/// One session that asks why something is dead. Not finished: it goes on where it was.
struct Diagnosis {
  static constexpr const char* kTable = "diagnosis";
  Id<Diagnosis> id;
  std::string at, who;  ///< UTC; may be empty
  Before before = Before::not_known;
  Id<Source> source;    ///< what carries the house, by who asks; none: the utility
  bool meter = false;   ///< somebody is there who owns a meter and knows how to use it at a receptacle
  bool finished = false;
  std::string came_to;  ///< which cause it was (cause_key in trace/causes.h); empty: none was found
  bool operator==(const Diagnosis&) const = default;
  template <class Self, class F>
  static void fields(Self& s, F&& f) {
    f("id", s.id), f("at", s.at), f("who", s.who), f("before", s.before), f("source", s.source), f("meter", s.meter), f("finished", s.finished),
        f("came_to", s.came_to);
  }
};

/// What was looked at.
enum class LookAt {
  complaint,   ///< `point` is dead: that is why it is asked
  point,       ///< does it work?
  other_lamp,  ///< does something else work at `point`, that works elsewhere: another bulb, another lamp?
  handle,      ///< how does `handle` stand?
  neighbors,   ///< do the neighbors have power?
  source,      ///< does `source` run?
  caution,     ///< a caution was read, or a danger dealt with; `handle` none
  cure,        ///< what brings it back was tried: the moves of `handle`, or something to do for `point`
};
OHMSTEAD_WORDS(LookAt, "complaint", "point", "other_lamp", "handle", "neighbors", "source", "caution", "cure")

enum class LookSaw {
  dead, dim, live, bright,     ///< of a point
  off, tripped, on, backup,    ///< of a handle; `on` is also the utility side of a position; `tripped`: between on and off, a button out
  yes, no,                     ///< of neighbors and sources
  works, still_dead, trips_again,  ///< of a cure
  done, not_sure, skip,
};
OHMSTEAD_WORDS(LookSaw, "dead", "dim", "live", "bright", "off", "tripped", "on", "backup", "yes", "no", "works", "still_dead",
               "trips_again", "done", "not_sure", "skip")

/// One answer of such a session.
struct DiagnosisLook {
  static constexpr const char* kTable = "diagnosis_look";
  Id<DiagnosisLook> id;
  Id<Diagnosis> diagnosis;
  LookAt what = LookAt::point;
  Id<Point> point;
  HandleRef handle;
  Id<Source> source;
  LookSaw saw = LookSaw::not_sure;
  int volts = 0;  ///< with a meter; 0: without
  std::string at;  ///< UTC
  bool withdrawn = false;
  bool operator==(const DiagnosisLook&) const = default;
  template <class Self, class F>
  static void fields(Self& s, F&& f) {
    f("id", s.id), f("diagnosis", s.diagnosis), f("what", s.what), f("point", s.point), f("handle", s.handle), f("source", s.source),
        f("saw", s.saw), f("volts", s.volts), f("at", s.at), f("withdrawn", s.withdrawn);
  }
};

}  // namespace ohmstead
