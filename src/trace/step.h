#pragma once
// What a tracing session asks for, and what can be answered. Plain values that carry ids only;
// the sentences for people are in trace/step_text.h.

#include <string>
#include <vector>

#include "house/enum_text.h"
#include "house/house.h"

namespace ohmstead {

enum class StepKind {
  caution,   ///< read this before a hand moves; answered `done`
  open,      ///< open these handles; `done`, or `skip`: cannot or may not be opened
  look,      ///< is this point live or dead? `live`, `dead`, `not_sure`, `skip`
  close,     ///< close these handles again; `done`, or `skip`: it will not close and stays off
  ask_dead,  ///< dead with nothing open: try its wall switch, its GFCI, another bulb; then as `look`
  put_lamp,  ///< put a plug-in lamp that is switched on into this receptacle; `done`, or `skip`: it cannot stay there
  take_lamp, ///< take that lamp along again; `done`, or `skip`: it is gone
  done,      ///< nothing useful is left to ask; takes no answer
};
OHMSTEAD_WORDS(StepKind, "caution", "open", "look", "close", "ask_dead", "put_lamp", "take_lamp", "done")

/// Why this step comes now.
enum class StepReason {
  start,          ///< first caution of a house
  load_at_risk,   ///< a load hurt by a power loss may go off with the next breaker
  most_expected,  ///< open: most is expected from this breaker for the time it takes
  may_be_fed,     ///< look: this breaker may feed the point
  look_again,     ///< look: one reading can be wrong
  live_when_closed,  ///< look: it was seen dead, now it must be seen live with its breaker closed
  dead_whatever,  ///< look, ask_dead: it looks dead whatever is open
  tour_over,      ///< close: all points of this tour were looked at
  time_over,      ///< close: this breaker may be off for a short time only
  load_is_off,    ///< close: a load that keeps somebody alive went off
  next_set,       ///< close: these are on while the next ones are tried; the others stay off
  seen_from_door, ///< put_lamp: it will be looked at often, and a lamp can be seen from the door
  lamp_not_needed,///< take_lamp: this receptacle is settled
  finished,       ///< done: everything is settled, or no look would settle it
  nothing_listed, ///< done: there are no breakers or no points yet
  fed_by_two,     ///< open, look: no breaker by itself makes it dead; perhaps two do
  transfer,       ///< caution: the handle asked about is a position of a transfer device
};
OHMSTEAD_WORDS(StepReason, "start", "load_at_risk", "most_expected", "may_be_fed", "look_again", "live_when_closed",
               "dead_whatever", "tour_over", "time_over", "load_is_off", "next_set", "seen_from_door", "lamp_not_needed", "finished", "nothing_listed", "fed_by_two", "transfer")

struct Step {
  StepKind kind = StepKind::done;
  StepReason reason = StepReason::finished;
  std::vector<HandleRef> handles;  ///< open, close: what to move; look: what is open now
  Id<Point> point;                 ///< look, ask_dead, put_lamp, take_lamp
  std::vector<Id<Load>> loads;     ///< caution: loads hurt by a power loss that are not known to be elsewhere
  bool briefly = false;            ///< open: for kBriefSeconds at most
  bool by_helper = false;          ///< open, close: called out to the helper, who moves the handles
  bool from_door = false;          ///< look: a plug-in lamp is in it; a glance from the door is enough
  bool operator==(const Step&) const = default;
};

/// Longest time, in seconds, that a breaker marked `briefly_alone` stays off.
inline constexpr int kBriefSeconds = 300;

enum class AnswerKind { done, live, dead, not_sure, skip };
OHMSTEAD_WORDS(AnswerKind, "done", "live", "dead", "not_sure", "skip")

struct Answer {
  AnswerKind kind = AnswerKind::done;
  Method method = Method::look;
  std::string at;   ///< UTC now, `2026-11-25T09:30:00Z`
  std::string who;  ///< may be empty
  /// skip of an open or close step of several handles: the one that is meant; none: the first. The
  /// others were not moved (open), or were closed (close).
  HandleRef handle{};
};

/// May this step be answered so?
[[nodiscard]] inline bool fits(StepKind step, AnswerKind answer) {
  switch (step) {
    case StepKind::caution: return answer == AnswerKind::done;
    case StepKind::open:
    case StepKind::close:
    case StepKind::put_lamp:
    case StepKind::take_lamp: return answer == AnswerKind::done || answer == AnswerKind::skip;
    case StepKind::look:
    case StepKind::ask_dead: return answer != AnswerKind::done;
    case StepKind::done: break;
  }
  return false;
}

}  // namespace ohmstead
