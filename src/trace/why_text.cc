#include <algorithm>
#include <cmath>

#include "house/index.h"
#include "trace/behind_text.h"
#include "trace/step_text.h"

namespace ohmstead {

namespace {

std::string percent(double belief) { return std::to_string(static_cast<int>(std::lround(belief * 100))) + " %"; }

/// Belief that a unit hangs on one of the handles.
double belief_in_any(const House& house, const Conclusions& conclusions, std::size_t unit, const std::vector<HandleRef>& handles) {
  double belief = 0;
  for (std::size_t w = 0; w < conclusions.ways.size(); ++w)
    for (const HandleRef& handle : handles)
      if (house.breakers[conclusions.ways[w].breakers[0]].id.value == handle.id) belief += belief_in(conclusions.units[unit], w);
  return std::min(1.0, belief);
}

/// Points of units that may hang on what is to be opened, likely ones counted.
std::string why_open(const House& house, const Conclusions& conclusions, const Step& step) {
  if (step.reason == StepReason::fed_by_two && step.handles.size() == 1) return "No two-pole breaker makes it dead. Perhaps its two hots are on two breakers; this may be one of them.";
  if (step.reason == StepReason::fed_by_two) return "Something stayed live with each breaker off by itself. Perhaps two feed it at once: then it is dead only while both are off.";
  double expected_points = 0;
  int possible = 0;
  for (std::size_t u = 0; u < conclusions.units.size(); ++u) {
    if (conclusions.units[u].feed.standing == Standing::proved) continue;
    const auto points = static_cast<double>(conclusions.readings.units[u].points.size());
    const double belief = belief_in_any(house, conclusions, u, step.handles);
    expected_points += belief * points;
    if (belief >= 0.01) possible += static_cast<int>(points);
  }
  const bool several = step.handles.size() > 1;
  return std::to_string(possible) + " points that are not settled could hang on " + (several ? "them" : "it") + ", about " +
         std::to_string(std::max(1, static_cast<int>(std::lround(expected_points)))) +
         " of them are expected to. Nothing else promises more for the walk it takes.";
}

std::string why_look(const House& house, const Conclusions& conclusions, const Step& step) {
  const auto point = static_cast<std::size_t>(Index<Point>(house.points).at(step.point));
  switch (step.reason) {
    case StepReason::look_again: return "One reading can be wrong. A second one settles it.";
    case StepReason::live_when_closed: return "It was seen dead with its breaker off. It counts as proved once it is seen live with that breaker on.";
    case StepReason::dead_whatever: return "It was dead whatever was off. Perhaps no breaker is the reason: a switch, a GFCI or a bulb.";
    case StepReason::fed_by_two:
      if (house.points[point].hots > 1) return "No two-pole breaker makes it dead. If it is dead now, one of its hots is on a breaker that is off.";
      return "No breaker by itself makes it dead. If it is dead now, two of those that are off feed it at once.";
    default: break;
  }
  if (step.handles.empty()) return "Its breaker is not settled yet.";
  const double belief = belief_in_any(house, conclusions, conclusions.readings.unit_of_point[point], step.handles);
  return std::string(step.handles.size() > 1 ? "One of the breakers that are off" : "The breaker that is off") + " may feed it (" + percent(belief) +
         " so far). Live rules that out, dead points to it.";
}

}  // namespace

std::string why_text(const House& house, const Conclusions& conclusions, const Step& step) {
  if (const HandleRef asked = asked_behind(house)) return behind_why_text(house, conclusions, asked, step);
  switch (step.kind) {
    case StepKind::caution: return "This is said once, before the hand moves.";
    case StepKind::open: return why_open(house, conclusions, step);
    case StepKind::look:
    case StepKind::ask_dead: return why_look(house, conclusions, step);
    case StepKind::close:
      if (step.reason == StepReason::time_over) return "This breaker may be off for a few minutes only; the rest is asked about another time.";
      if (step.reason == StepReason::load_is_off) return "Its breaker is found well enough for now; the rest waits.";
      if (step.reason == StepReason::next_set) return "The next walk tells more with these on and the others off.";
      return "Every point that it may well feed was looked at.";
    case StepKind::put_lamp: return "This receptacle will be looked at again and again until its breaker is found. A lamp saves going in.";
    case StepKind::take_lamp: return "This receptacle need not be seen from the door any more. The lamp is of more use elsewhere, or its work is done.";
    case StepKind::done: break;
  }
  return step.reason == StepReason::nothing_listed ? "There is nothing to trace yet." : "No further look would settle more.";
}

}  // namespace ohmstead
