// What to do about each cause: dangers first, then what a hand in the house may do, then whom to call.

#include <algorithm>

#include "ask/diagnosis_words.h"
#include "ask/sentence.h"
#include "trace/conclude.h"
#include "trace/step_text.h"

namespace ohmstead {

using sentence::capital, sentence::say;

namespace {

constexpr const char* kWhoDecides = "Local code and a licensed electrician decide.";

/// Breakers that share a neutral with this one, itself too.
std::string neutral_breakers(const House& house, const HandleRef& handle) {
  std::vector<std::string> names{handle_name(house, handle)};
  for (const std::size_t b : neutral_partners(house, Id<Breaker>{handle.id})) names.push_back(handle_name(house, {HandleKind::breaker, house.breakers[b].id.value}));
  return joined(names);
}

void say_call_utility(Lines& lines, const char* say_to_them) {
  say(lines, LineKind::danger, "Turn the main OFF and leave it off: what is on gets too few volts or too many, and motors and electronics burn up.");
  say(lines, LineKind::answer, std::string("Call the utility, at any hour, and say '") + say_to_them + "'. If they find nothing on their side, it is for an electrician. Nobody in the house opens the panel or the meter for this.");
}

void say_open(const DiagnosisSession& session, Lines& lines) {
  if (session.step().end == DiagnosisEnd::cured) {
    say(lines, LineKind::answer, "If it goes off again, there is a reason: leave it off and find that first. `ohmstead saw ... tripped --cause` keeps each time and why.");
    return;
  }
  say(lines, LineKind::answer, "Put it back where it belongs when it is known why it is not: `ohmstead restore` says in which order. If it trips at once, leave it off.");
}

void say_nothing_out(const House& house, const HandleRef& handle, Lines& lines) {
  const std::string name = handle_name(house, handle);
  if (handle.kind == HandleKind::device) {
    say(lines, LineKind::answer, capital(name) + ": a GFCI that does not reset, and a switch or disconnect that gives nothing, is worn out or has a loose wire. Turn its breaker off, and leave its box closed for an electrician.");
    return;
  }
  say(lines, LineKind::danger, "Turn " + name + " off and leave it off: a loose wire at a breaker gets hot.");
  say(lines, LineKind::answer, "It is for an electrician. Behind the cover of a panel parts stay live with everything off: it stays closed.");
}

/// What is dead and what is live on the circuit, as seen.
void say_loose(const DiagnosisSession& session, const Cause& cause, Lines& lines) {
  const House& house = session.house();
  say(lines, LineKind::answer, "First press RESET on every GFCI receptacle in the house: bath, kitchen, garage, cellar, outside. One of them may feed it though the record does not say so.");
  say(lines, LineKind::danger, "If that does not bring it back, turn " + handle_name(house, cause.handle) + " off and leave it off: a loose connection gets hot.");
  say(lines, LineKind::answer, "An electrician then opens the box of the last thing that works and of the first that does not; the fault is in one of the two, as a rule (common practice, no source). " + std::string(kWhoDecides));
}

void say_source(const DiagnosisSession& session, const Cause& cause, Lines& lines) {
  if (cause.kind == CauseKind::utility_gone) {
    say(lines, LineKind::answer, "Report it and wait. `ohmstead outage` goes through it step by step. Switch off what should not start by itself when it comes back.");
  } else if (cause.kind == CauseKind::service_lost) {
    say_call_utility(lines, "no power, the neighbors have it");
    say(lines, LineKind::danger, "Stay away from wires that hang down, and keep others away.");
  } else if (cause.source > 0) {
    const House& house = session.house();
    say(lines, LineKind::answer, without_controls(house.sources[static_cast<std::size_t>(cause.source - 1)].name) + ": look at its fuel, its own breaker and its cord. `ohmstead outage` says in which order it is started and joined.");
    say(lines, LineKind::caution, "A generator runs outdoors, 20 ft (6 m) or more from windows, doors and vents (CPSC).");
  } else {
    say_call_utility(lines, "one leg is lost");
  }
}

void say_itself(const House& house, std::size_t point, Lines& lines) {
  const PointKind kind = house.points[point].kind;
  say(lines, LineKind::answer, kind == PointKind::light        ? "Put in another bulb. If that does not help, the fixture is for an electrician, its breaker off."
                               : kind == PointKind::receptacle ? "Try what is plugged in at another receptacle, and another lamp in this one. A receptacle in which nothing works, or that is warm or brown, is for an electrician, its breaker off."
                                                               : "Look at its own switch, plug, fuse and reset button. If it has power and does not work, it needs a repair.");
}

}  // namespace

Lines advice_on_tripping(const House& house, const HandleRef& handle) {
  const Record record = make_record(house);
  const CarriesAnswer carries = what_does_it_carry(record, handle);
  Lines lines;
  say(lines, LineKind::danger, "Leave it off. Trying again and again can start a fire.");
  if (!carries.points.empty()) say(lines, LineKind::answer, "On it hang these. Unplug what can be unplugged and switch off the rest, the newest and largest things first:", points_by_room(record.house, carries.points));
  say(lines, LineKind::answer, "With everything unplugged it may be tried once more. If it trips again, the fault is in the wires: it stays off until an electrician has seen it. If it holds, what was plugged in last is the suspect: leave that out.");
  return lines;
}

Lines advice_on(const DiagnosisSession& session, const Cause& cause) {
  const House& house = session.house();
  Lines lines;
  switch (cause.kind) {
    case CauseKind::handle_open: say_open(session, lines); break;
    case CauseKind::nothing_out: say_nothing_out(house, cause.handle, lines); break;
    case CauseKind::pole_lost:
      say(lines, LineKind::danger, "Turn " + handle_name(house, cause.handle) + " off and leave it off: 240 V things burn up on one leg, and a loose pole gets hot.");
      say(lines, LineKind::answer, "It is for an electrician. The cover of the panel stays closed.");
      break;
    case CauseKind::leg_lost:
    case CauseKind::utility_gone:
    case CauseKind::service_lost:
    case CauseKind::source_stopped: say_source(session, cause, lines); break;
    case CauseKind::neutral_of_service: say_call_utility(lines, "open neutral"); break;
    case CauseKind::neutral_shared:
      say(lines, LineKind::danger, "Turn " + neutral_breakers(house, cause.handle) + " off and leave them off: what is on them gets too few volts or too many.");
      say(lines, LineKind::answer, "It is for an electrician: a neutral that two circuits share is open.");
      break;
    case CauseKind::loose_on_circuit: say_loose(session, cause, lines); break;
    case CauseKind::itself: say_itself(house, cause.point, lines); break;
    case CauseKind::not_recorded:
      say(lines, LineKind::answer, "Look for a breaker between on and off and for a GFCI whose button is out. When it works again, find out what feeds it: `ohmstead trace`.");
      break;
    case CauseKind::two_faults:
      for (const std::size_t part : cause.both)
        for (Line& line : advice_on(session, session.singles()[part].cause)) lines.push_back(std::move(line));
      break;
  }
  return lines;
}

}  // namespace ohmstead
