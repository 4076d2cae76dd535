#pragma once
// What the outage board asks for, and what can be answered. Plain values that carry ids only; the sentences
// for people are in ask/outage_words.h.

#include <string>
#include <vector>

#include "house/enum_text.h"
#include "house/house.h"

namespace ohmstead {

enum class OutageStepKind {
  no_outage,      ///< nothing is wrong; takes no answer
  ask_away,       ///< has the automatic device moved, and is its source running? `done`, or `no`
  move,           ///< move these handles to `to`, one after another; `done`, or `no`: one cannot be moved
  place_source,   ///< take it outdoors; `done`
  connect_source, ///< cord in; `done`
  start_source,   ///< `done`, or `no`: it will not start
  warm_up,        ///< let it run without load; `done`
  switch_off,     ///< these things, by hand; `done`, or `no`: a load cannot be switched off (a guest's thing is unplugged)
  switch_on,      ///< this thing; `done`, `no`: it is not wanted any more, or `no_effect`
  look_over,      ///< nothing came on with what is in `handles` and `loads`: look at the source; `done`: try again, `no`: leave it
  running,        ///< all is done that can be; takes no answer
  no_source,      ///< the source will not start: what now; `done`: try again
  no_safe_way,    ///< the source cannot be let in without joining it to the utility, or `handles` bar the way home; takes no answer
  ask_back,       ///< has the automatic device gone back, and did its source stop? `done`, or `no`
  cool_down,      ///< let it run without load; `done`
  stop_source,    ///< `done`
  end,            ///< everything is on the utility; `done` closes the outage
  refuel,         ///< it stands still: let it cool and fill it; `done`: it is full, `no`: go on without
};
OHMSTEAD_WORDS(OutageStepKind, "no_outage", "ask_away", "move", "place_source", "connect_source", "start_source", "warm_up",
               "switch_off", "switch_on", "look_over", "running", "no_source", "no_safe_way", "ask_back", "cool_down", "stop_source", "end",
               "refuel")

/// Why this step comes now.
enum class OutageReason {
  none,
  put_right,     ///< as it stands two sources can meet: this is first
  clear,         ///< nothing may draw when the source starts
  part,          ///< parts the house from the utility
  let_in,        ///< lets the source into the panel
  in_order,      ///< next in the starting order
  before_close,  ///< it would start with the handle that is closed next
  make_room,     ///< the source cannot carry it with what matters more
  for_a_start,   ///< for a while, so that something larger can start
  way_home,      ///< back to where it stands on an ordinary day
  barred,        ///< it may never be on this source (OutageGear::bars)
  try_again,     ///< nothing came on with it: it is closed again in its turn
  not_planned,   ///< the source comes onto the panel by itself, and the plan does not carry this
  refuel,        ///< the source is stopped to be refuelled
};
OHMSTEAD_WORDS(OutageReason, "none", "put_right", "clear", "part", "let_in", "in_order", "before_close", "make_room",
               "for_a_start", "way_home", "barred", "try_again", "not_planned", "refuel")

struct OutageStep {
  OutageStepKind kind = OutageStepKind::no_outage;
  OutageReason reason = OutageReason::none;
  std::vector<HandleRef> handles;   ///< move: first of each group; switch_off before_close: the one closed next
  int to = 0;                       ///< throw of all of them
  std::vector<Id<Load>> loads;      ///< switch_off, switch_on; move to on or backup: what starts with it
  std::vector<std::string> guests;  ///< switch_off without loads: one thing in no record
  bool operator==(const OutageStep&) const = default;
};

enum class OutageAnswerKind { done, no, no_effect };
OHMSTEAD_WORDS(OutageAnswerKind, "done", "no", "no_effect")

struct OutageAnswer {
  OutageAnswerKind kind = OutageAnswerKind::done;
  std::string at;   ///< UTC now, `2026-11-25T09:30:00Z`
  std::string who;  ///< may be empty
  /// `no` to several handles: the one that cannot be moved; none: the first. The others were moved.
  HandleRef handle{};
};

/// May this step be answered so?
[[nodiscard]] inline bool fits(const OutageStep& step, OutageAnswerKind answer) {
  using enum OutageStepKind;
  switch (step.kind) {
    case no_outage:
    case running:
    case no_safe_way: return false;
    case ask_away:
    case ask_back:
    case start_source: return answer != OutageAnswerKind::no_effect;
    case switch_off: return answer == OutageAnswerKind::done || (answer == OutageAnswerKind::no && !step.loads.empty());
    case move:  // on the way home: the power from the street is not good yet
      return answer != OutageAnswerKind::no_effect || step.reason == OutageReason::in_order || (step.reason == OutageReason::way_home && step.to != 0);
    case look_over:
    case refuel: return answer != OutageAnswerKind::no_effect;
    case switch_on: return true;
    case place_source:
    case connect_source:
    case warm_up:
    case no_source:
    case cool_down:
    case stop_source:
    case end: break;
  }
  return answer == OutageAnswerKind::done;
}

/// Is this a step at which nothing is left to do for now?
[[nodiscard]] inline bool is_settled(OutageStepKind kind) {
  return kind == OutageStepKind::no_outage || kind == OutageStepKind::running || kind == OutageStepKind::no_source || kind == OutageStepKind::no_safe_way;
}

}  // namespace ohmstead
