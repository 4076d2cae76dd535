#include "ask/diagnosis_words.h"

#include <algorithm>
#include <cmath>

#include "ask/sentence.h"
#include "trace/step_text.h"

namespace ohmstead {

using sentence::capital, sentence::say;

namespace {

const Device* device_of(const House& house, const HandleRef& handle) {
  if (handle.kind != HandleKind::device) return nullptr;
  const Handle* found = find_row(house, Id<Handle>{handle.id});
  return found == nullptr ? nullptr : find_row(house, found->device);
}

bool is_gfci(const House& house, const HandleRef& handle) {
  const Device* device = device_of(house, handle);
  return device != nullptr && device->kind == DeviceKind::gfci_receptacle;
}

/// "the utility", "Generator".
std::string source_words(const House& house, int source) {
  return source <= 0 ? "the utility" : without_controls(house.sources[static_cast<std::size_t>(source - 1)].name);
}

std::string open_words(const House& house, const HandleRef& handle) {
  const std::string name = handle_name(house, handle);
  if (handle.kind == HandleKind::position) return name + " stands on the wrong side";
  if (is_gfci(house, handle)) return name + " has tripped";
  const Device* device = device_of(house, handle);
  if (device == nullptr) return name + " has tripped, or is off";
  return name + (std::ranges::count(house.handles, device->id, &Handle::device) > 1 ? ", or another switch of its group, is off" : " is off");
}

std::string itself_words(const House& house, std::size_t point) {
  const Point& row = house.points[point];
  const std::string name = point_name(house, row.id);
  if (row.kind == PointKind::light) return "the bulb, or the fixture itself: " + name;
  return row.kind == PointKind::receptacle ? "what is plugged in, or the receptacle itself: " + name : "the thing itself, or its own switch or plug: " + name;
}

std::string look_at_point(const House& house, const DiagnosisStep& step) {
  const std::string name = point_name(house, step.point);
  if (step.what == LookAt::other_lamp) {
    const bool light = row(house, step.point).kind == PointKind::light;
    return (light ? "Put a bulb that works into " : "Plug a lamp that works into ") + name + (light ? ", and switch it on." : ".") + "\nTry it first where there is power. Does it work here?";
  }
  if (step.meter) return "Measure between the two slots of " + name + ", or plug in a lamp.\nOnly with a meter you know how to use, and only at the receptacle.";
  const PointKind kind = row(house, step.point).kind;
  if (kind == PointKind::light) return "Switch on " + name + ".\nDoes it work? Is it brighter or dimmer than usual?";
  if (kind == PointKind::receptacle) return "Plug a lamp that works into " + name + ".\nDoes it work? Is it brighter or dimmer than usual?";
  return "Look at " + name + ": has it power (a light, a display, a sound)?";
}

std::string look_at_handle(const House& house, const HandleRef& handle) {
  const std::string name = handle_name(house, handle);
  if (handle.kind == HandleKind::position) return "See where " + name + " stands: utility, off or backup.\nDo not move it yet.";
  if (is_gfci(house, handle)) return "See whether the button of " + name + " is out (or its light says tripped).\nDo not press it yet.";
  if (handle.kind == HandleKind::device) return "See how " + name + " stands: on or off.";
  return "See how the handle of " + name + " stands: on, off, or between the two (tripped).\nThe door of the panel may be opened, its cover never. Do not move it yet.";
}

std::string look_text(const House& house, const DiagnosisStep& step) {
  switch (step.what) {
    case LookAt::handle: return look_at_handle(house, step.handle);
    case LookAt::neighbors: return "Look out: do the neighbors, or the street lights, have power?";
    case LookAt::source: return "Does " + without_controls(row(house, step.source).name) + " run, outdoors, evenly?";
    default: break;
  }
  return look_at_point(house, step);
}

std::string move_words(const House& house, const DiagnosisMove& move) {
  const std::string name = handle_name(house, move.handle);
  if (move.handle.kind == HandleKind::position) return "Turn " + name + (move.to == kOff ? " off." : move.to == kUtilitySide ? " to utility." : " to backup.");
  if (is_gfci(house, move.handle)) return "Press RESET on " + name + ".";
  const Device* device = device_of(house, move.handle);
  if (device != nullptr && std::ranges::count(house.handles, device->id, &Handle::device) > 1) return "Flip " + name + " the other way.";
  if (device != nullptr || move.to == kOff) return "Turn " + name + (move.to == kOff ? " off." : " on.");
  return "Turn " + name + " fully OFF, then ON.";
}

std::string cure_text(const House& house, const DiagnosisStep& step) {
  std::string text;
  for (const DiagnosisMove& move : step.moves) text += (text.empty() ? "" : "\n") + move_words(house, move);
  return text + "\nBefore you touch it: ask whether somebody turned it off on purpose, to work. Stand dry, and touch the handle alone. "
                "If anything is wet, warm, crackles or smells burnt, leave it, get everybody out and call the fire department.\n"
                "Does " + point_name(house, step.point) + " work then?";
}

std::string end_text(const DiagnosisSession& session) {
  const Cause* cause = session.causes().empty() ? nullptr : &session.causes()[0].cause;
  const std::string words = cause == nullptr ? "" : cause_words(session, *cause);
  switch (session.step().end) {
    case DiagnosisEnd::cured: return "It works again. It was this: " + words + ".";
    case DiagnosisEnd::trips_again: return capital(handle_name(session.house(), session.step().handle)) + " trips again: leave it off.";
    case DiagnosisEnd::danger: return "Leave the main off. The neutral may be open: call the utility, then an electrician.";
    case DiagnosisEnd::not_found: return "Nothing in the record explains what was seen.";
    case DiagnosisEnd::told:
    case DiagnosisEnd::not_yet: break;
  }
  return capital("most likely " + words + ".");
}

constexpr const char* kItCanBe = "It can be, likeliest first:";

std::string percent(double belief) { return std::to_string(static_cast<int>(std::lround(belief * 100))) + " %"; }

}  // namespace

std::string cause_words(const DiagnosisSession& session, const Cause& cause) {
  const House& house = session.house();
  const std::string name = cause.handle ? handle_name(house, cause.handle) : "";
  switch (cause.kind) {
    case CauseKind::handle_open: return open_words(house, cause.handle);
    case CauseKind::nothing_out: return name + " is on, but nothing comes out of it: it failed, or a wire at it is loose";
    case CauseKind::pole_lost: return "a leg is lost at " + name + ": one of its poles gives nothing";
    case CauseKind::leg_lost: return "one leg of " + source_words(house, cause.source) + " is lost";
    case CauseKind::utility_gone: return "the utility is gone, for the neighbors too";
    case CauseKind::service_lost: return "nothing arrives from the utility, though the neighbors have power";
    case CauseKind::source_stopped: return source_words(house, cause.source) + " does not run";
    case CauseKind::neutral_of_service: return "the neutral of the service is open";
    case CauseKind::neutral_shared: return "the neutral that " + name + " shares with another circuit is open";
    case CauseKind::loose_on_circuit: return "a wire is loose in some box on " + name + ", or a GFCI that is not in the record has tripped";
    case CauseKind::itself: return itself_words(house, cause.point);
    case CauseKind::not_recorded: return "what feeds " + point_name(house, house.points[cause.point].id) + " is not known";
    case CauseKind::two_faults: break;
  }
  return cause_words(session, session.singles()[cause.both[0]].cause) + "; and at the same time " + cause_words(session, session.singles()[cause.both[1]].cause);
}

std::string diagnosis_step_text(const DiagnosisSession& session) {
  const DiagnosisStep& step = session.step();
  switch (step.kind) {
    case DiagnosisStepKind::danger: return kTooBright;
    case DiagnosisStepKind::look: return look_text(session.house(), step);
    case DiagnosisStepKind::cure: return cure_text(session.house(), step);
    case DiagnosisStepKind::done: break;
  }
  return end_text(session);
}

std::string diagnosis_why_text(const DiagnosisSession& session) {
  std::string text = kItCanBe;
  std::size_t shown = 0;
  for (const RankedCause& cause : session.causes()) {
    if (++shown > 6 || cause.belief < 0.005) break;
    text += "\n- " + percent(cause.belief) + "  " + cause_words(session, cause.cause);
  }
  if (session.step().kind == DiagnosisStepKind::look) text += "\nOf all that can be looked at, this tells most for the time it takes.";
  return text + "\nHow often each happens is common practice, no source; one look in ten may be wrong.";
}

Lines words_of_diagnosis(const DiagnosisSession& session) {
  Lines lines;
  const DiagnosisStep& step = session.step();
  if (step.kind != DiagnosisStepKind::done) {
    say(lines, LineKind::answer, kItCanBe);
    for (std::size_t c = 0; c < std::min<std::size_t>(session.causes().size(), 5) && session.causes()[c].belief >= 0.005; ++c)
      lines.back().items.push_back(percent(session.causes()[c].belief) + "  " + cause_words(session, session.causes()[c].cause));
    std::string next = diagnosis_step_text(session);
    std::ranges::replace(next, '\n', ' ');
    say(lines, LineKind::answer, "Next: " + next);
    return lines;
  }
  say(lines, step.end == DiagnosisEnd::danger || step.end == DiagnosisEnd::trips_again ? LineKind::danger : LineKind::answer, end_text(session));
  if (step.end == DiagnosisEnd::told) {
    const std::vector<RankedCause> settled = session.settled();
    for (std::size_t c = 1; c < settled.size(); ++c)
      say(lines, LineKind::answer, (c == 1 ? "What was looked at does not tell it from this: " : "Nor from this: ") + cause_words(session, settled[c].cause) + ".");
  }
  if (step.end == DiagnosisEnd::not_found)
    say(lines, LineKind::answer, "It may be fed otherwise than the record says, or be off by the way the house is supplied now. Look for a breaker between on and off and for a GFCI whose button is out; then trace it anew: `ohmstead trace --again`. Else an electrician.");
  else if (step.end == DiagnosisEnd::trips_again)
    for (Line& line : advice_on_tripping(session.house(), step.handle)) lines.push_back(std::move(line));
  else if (!session.causes().empty())
    for (Line& line : advice_on(session, session.causes()[0].cause)) lines.push_back(std::move(line));
  return lines;
}

std::string diagnosis_history_text(const DiagnosisSession& session, const DiagnosisAnswer& answer) {
  const DiagnosisStep& step = session.step();
  std::string what = "Diagnosis: ";
  if (step.kind == DiagnosisStepKind::danger) what += "bright lights, the main off";
  else if (step.kind == DiagnosisStepKind::cure) what += handle_name(session.house(), step.handle) + " put back";
  else if (step.what == LookAt::handle) what += handle_name(session.house(), step.handle);
  else if (step.what == LookAt::neighbors) what += "the neighbors have power";
  else if (step.what == LookAt::source) what += without_controls(row(session.house(), step.source).name) + " runs";
  else what += point_name(session.house(), step.point) + (step.what == LookAt::other_lamp ? " with another lamp" : "");
  std::string said(answer.volts > 0 ? std::to_string(answer.volts) + " V" : std::string(text_of(answer.saw)));
  std::ranges::replace(said, '_', ' ');
  return what + ": " + said;
}

}  // namespace ohmstead
