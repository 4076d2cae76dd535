#include "trace/step_text.h"

#include <algorithm>
#include <cmath>

#include "house/index.h"
#include "house/numbering.h"
#include "trace/unexplained.h"

namespace ohmstead {

namespace {

std::string breaker_name(const House& house, const Breaker& breaker) {
  const Panel* panel = find_row(house, breaker.panel);
  if (panel == nullptr) return "a breaker";
  return "breaker " + breaker_number(*panel, breaker) + " in " + without_controls(panel->name);
}

std::string device_name(const House& house, Id<Handle> id) {
  const Handle* handle = find_row(house, id);
  const Device* device = handle == nullptr ? nullptr : find_row(house, handle->device);
  return device == nullptr ? "a switching device" : without_controls(device->name);
}

std::string listed(const std::vector<std::string>& names) {
  std::string text;
  for (std::size_t i = 0; i < names.size(); ++i) text += (i == 0 ? "" : i + 1 == names.size() ? " and " : ", ") + names[i];
  return text;
}

std::string handles_text(const House& house, const std::vector<HandleRef>& handles) {
  std::vector<std::string> names;
  for (const HandleRef& handle : handles) names.push_back(handle_name(house, handle));
  return listed(names);
}

/// "refrigerator (Kitchen)", "oxygen concentrator (Bedroom, receptacle 4)".
std::string load_names(const House& house, const std::vector<Id<Load>>& loads) {
  std::vector<std::string> names;
  for (const Id<Load> id : loads) {
    const Load* load = find_row(house, id);
    if (load == nullptr) continue;
    const Point* point = find_row(house, load->point);
    const Room* room = point == nullptr || point->name != load->name ? nullptr : find_row(house, point->room);
    const std::string where = room == nullptr ? point_name(house, load->point) : without_controls(room->name);
    names.push_back(without_controls(load->name) + " (" + where + ")");
  }
  return listed(names);
}

std::string caution_text(const House& house, const Step& step) {
  if (step.reason == StepReason::load_at_risk)
    return "Before " + handles_text(house, step.handles) + " goes off: it may feed " + load_names(house, step.loads) +
           ".\nWhoever depends on it must be ready for the power to go: wait for them, or move it to a supply you know.";
  std::string text =
      "Before you start:\n"
      "- Only work the handles on the front. Do not take the cover off: the line side of the main stays live even when the main is off.\n"
      "- Before you trust 'dead': test the tester on something live, test the point, test the tester again.\n"
      "- Tell everybody in the house that the power will go off here and there.\n"
      "- Finding out what a breaker feeds makes nothing safe to work on. Local code and a licensed electrician decide.";
  if (!step.loads.empty())
    text += "\n- Until their breaker is found, any breaker may feed: " + load_names(house, step.loads) +
            ". Have their other supply ready (a cylinder, a battery, a cooler), and wait for the person who depends on it.";
  return text;
}

std::string open_text(const House& house, const Step& step) {
  std::string text = "Turn OFF " + handles_text(house, step.handles) + ".";
  const Breaker* breaker = find_row(house, Id<Breaker>{step.handles.front().id});
  if (breaker != nullptr && breaker->old_label.find_first_not_of("? ") != std::string::npos)
    text += "\nThe old label says: \"" + without_controls(breaker->old_label) + "\".";
  if (breaker != nullptr && breaker->tie) text += "\nThe handle tied to it goes off with it.";
  if (step.briefly)
    text += "\nFor " + std::to_string(kBriefSeconds / 60) + " minutes at most, and nothing else off meanwhile.";
  return text;
}

const char* what_to_check(PointKind kind) {
  switch (kind) {
    case PointKind::receptacle: return "Test it, or plug in a lamp that works.";
    case PointKind::light: return "Turn it on at its switch.";
    case PointKind::fan: return "Turn it on at its switch.";
    case PointKind::alarm: return "Look at the light that shows house power, not at the battery.";
    case PointKind::appliance: return "Look at its display, or turn it on for a moment.";
    case PointKind::other: break;
  }
  return "Try whether it works.";
}

bool something_stays_off(const House& house) {
  return std::ranges::any_of(house.settings, [](const Setting& setting) { return setting.name.starts_with(kStaysOffPrefix); });
}

std::string look_text(const House& house, const Step& step) {
  const std::string name = point_name(house, step.point);
  const Point& point = row(house, step.point);
  std::string text;
  if (step.handles.empty()) text = something_stays_off(house) ? "With everything on that will come on: " : "With everything on again: ";
  text += step.reason == StepReason::look_again ? "Once more: " + name + "." : "Go to: " + name + ".";
  text += point.hots > 1 ? "\nIs it live (both hot conductors, so that it works as it should)?" : "\nIs it live?";
  text += std::string(" ") + what_to_check(point.kind);
  if (step.reason == StepReason::look_again) text += " Test the tester on something live first.";
  if (point.half != ReceptacleHalf::both)
    text += std::string("\nOnly the ") + (point.half == ReceptacleHalf::upper ? "upper" : "lower") + " half counts.";
  if (!step.handles.empty()) text += "\n(Off now: " + handles_text(house, step.handles) + ".)";
  return text;
}

std::string ask_dead_text(const House& house, const Step& step) {
  const Point& point = row(house, step.point);
  std::string text = point_name(house, step.point) + " is dead although nothing is off.\nTry what fits: ";
  if (point.kind == PointKind::light) text += "every wall switch that could work it; another bulb that works.";
  else if (point.kind == PointKind::receptacle) text += "a wall switch; the reset button of a GFCI near by (bath, kitchen, garage, outdoors); another lamp.";
  else text += "its own switch; a wall switch; the reset button of a GFCI near by; its plug.";
  return text + "\nIs it live now?";
}

std::string close_text(const House& house, const Step& step) {
  std::string text = "Turn " + handles_text(house, step.handles) + " ON again.";
  if (step.reason == StepReason::load_is_off) text = "Now, at once: " + text + "\nIt feeds a load that keeps somebody alive.";
  if (step.reason == StepReason::time_over) text = "Time is up. " + text;
  return text + "\nIf it trips again, leave it off and say so.";
}

std::string percent(double belief) { return std::to_string(static_cast<int>(std::lround(belief * 100))) + " %"; }

/// Points of units that may hang on the breaker, likely ones counted.
std::string why_open(const House& house, const Conclusions& conclusions, const Step& step) {
  if (step.reason == StepReason::fed_by_two && step.handles.size() == 1) return "No two-pole breaker makes it dead. Perhaps its two hots are on two breakers; this may be one of them.";
  if (step.reason == StepReason::fed_by_two) return "Something stayed live with each breaker off by itself. Perhaps two feed it at once: then it is dead only while both are off.";
  double expected_points = 0;
  int possible = 0;
  for (std::size_t w = 0; w < conclusions.ways.size(); ++w) {
    if (house.breakers[conclusions.ways[w].breakers[0]].id.value != step.handles.front().id) continue;
    for (std::size_t u = 0; u < conclusions.units.size(); ++u) {
      if (conclusions.units[u].feed.standing == Standing::proved) continue;
      const auto points = static_cast<double>(conclusions.readings.units[u].points.size());
      const double belief = belief_in(conclusions.units[u], w);
      expected_points += belief * points;
      if (belief >= 0.01) possible += static_cast<int>(points);
    }
  }
  return std::to_string(possible) + " points that are not settled could hang on it, about " +
         std::to_string(std::max(1, static_cast<int>(std::lround(expected_points)))) +
         " of them are expected to. No other breaker promises more for the walk it takes.";
}

std::string why_look(const House& house, const Conclusions& conclusions, const Step& step) {
  const auto point = static_cast<std::size_t>(Index<Point>(house.points).at(step.point));
  const UnitConclusion& unit = conclusions.units[conclusions.readings.unit_of_point[point]];
  switch (step.reason) {
    case StepReason::look_again: return "One reading can be wrong. A second one settles it.";
    case StepReason::live_when_closed: return "It was seen dead with its breaker off. It counts as proved once it is seen live with that breaker on.";
    case StepReason::dead_whatever: return "It was dead whatever was off. Perhaps no breaker is the reason: a switch, a GFCI or a bulb.";
    case StepReason::fed_by_two:
      if (house.points[point].hots > 1) return "No two-pole breaker makes it dead. If it is dead now, one of its hots is on a breaker that is off.";
      return "No breaker by itself makes it dead. If it is dead now, two of those that are off feed it at once.";
    default: break;
  }
  for (std::size_t w = 0; w < conclusions.ways.size(); ++w)
    if (!step.handles.empty() && house.breakers[conclusions.ways[w].breakers[0]].id.value == step.handles.front().id)
      return "The breaker that is off may feed it (" + percent(belief_in(unit, w)) + " so far). Live rules it out, dead points to it.";
  return "Its breaker is not settled yet.";
}

}  // namespace

std::string without_controls(std::string_view text) {
  std::string plain;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto byte = static_cast<unsigned char>(text[i]);
    const bool c1 = byte == 0xC2 && i + 1 < text.size() && static_cast<unsigned char>(text[i + 1]) < 0xA0;
    if (c1) ++i;
    plain += byte < 0x20 || byte == 0x7F || c1 ? ' ' : text[i];
  }
  return plain;
}

std::string handle_name(const House& house, const HandleRef& handle) {
  switch (handle.kind) {
    case HandleKind::main:
      if (const Panel* panel = find_row(house, Id<Panel>{handle.id})) return "the main breaker of " + without_controls(panel->name);
      break;
    case HandleKind::breaker:
      if (const Breaker* breaker = find_row(house, Id<Breaker>{handle.id})) return breaker_name(house, *breaker);
      break;
    case HandleKind::position:
    case HandleKind::position_breaker:
      if (const Position* position = find_row(house, Id<Position>{handle.id})) return "transfer position " + std::to_string(position->number);
      break;
    case HandleKind::device: return device_name(house, Id<Handle>{handle.id});
    case HandleKind::none: break;
  }
  return "a handle";
}

std::string point_name(const House& house, Id<Point> id) {
  const Point* point = find_row(house, id);
  if (point == nullptr) return "a point";
  const Room* room = find_row(house, point->room);
  std::string text = (room == nullptr ? "" : without_controls(room->name) + ", ") + without_controls(point->name);
  if (!point->place.empty()) text += " (" + without_controls(point->place) + ")";
  return text;
}

std::string step_text(const House& house, const Step& step) {
  switch (step.kind) {
    case StepKind::caution: return caution_text(house, step);
    case StepKind::open: return open_text(house, step);
    case StepKind::look: return look_text(house, step);
    case StepKind::close: return close_text(house, step);
    case StepKind::ask_dead: return ask_dead_text(house, step);
    case StepKind::put_lamp:
      return "Put a plug-in lamp, switched on, into " + point_name(house, step.point) + ". From now on a glance from the door will do.";
    case StepKind::take_lamp: return "Take the plug-in lamp out of " + point_name(house, step.point) + " and carry it along.";
    case StepKind::done: break;
  }
  if (step.reason != StepReason::nothing_listed) return "There is nothing left to ask. Every handle you moved should be on again.";
  return house.breakers.empty() ? "No breakers are written down yet. Write down the panel first, then trace."
                                : "No points are written down yet. Write down the rooms first, then trace.";
}

std::string why_text(const House& house, const Conclusions& conclusions, const Step& step) {
  switch (step.kind) {
    case StepKind::caution: return "This is said once, before the hand moves.";
    case StepKind::open: return why_open(house, conclusions, step);
    case StepKind::look:
    case StepKind::ask_dead: return why_look(house, conclusions, step);
    case StepKind::close:
      if (step.reason == StepReason::time_over) return "This breaker may be off for a few minutes only; the rest is asked about another time.";
      if (step.reason == StepReason::load_is_off) return "Its breaker is found well enough for now; the rest waits.";
      return "Every point that it may well feed was looked at.";
    case StepKind::put_lamp: return "This receptacle will be looked at again and again until its breaker is found. A lamp saves going in.";
    case StepKind::take_lamp: return "This receptacle has been seen dead with its breaker off. The lamp is of more use elsewhere.";
    case StepKind::done: break;
  }
  return step.reason == StepReason::nothing_listed ? "There is nothing to trace yet." : "No further look would settle more.";
}

std::string progress_text(const Progress& progress) {
  std::string text = std::to_string(progress.settled) + " of " + std::to_string(progress.total) + " points settled";
  if (progress.minutes_left > 0)
    text += ", about " + std::to_string(progress.minutes_left) + (progress.minutes_left == 1 ? " minute" : " minutes") + " left";
  return text + ".";
}

std::string summary_text(const House& house, const Conclusions& conclusions) {
  std::string settled, other;
  int count = 0;
  for (std::size_t p = 0; p < house.points.size(); ++p) {
    const UnitConclusion& unit = conclusions.units[conclusions.readings.unit_of_point[p]];
    if (unit.feed.standing == Standing::proved) {
      ++count;
      continue;
    }
    if (unit.unexplained && !unit.dead_anyway) continue;
    const char* state = unit.dead_anyway                                ? "dead for another reason than a breaker"
                        : unit.feed.standing == Standing::disputed      ? "disputed: what was seen contradicts itself; check it again"
                        : unit.feed.standing == Standing::likely        ? "likely, not proved"
                        : unit.feed.standing == Standing::declared      ? "declared, not checked"
                                                                        : "still open";
    other += "- " + point_name(house, house.points[p].id) + ": " + state + ".\n";
  }
  for (const std::string& line : unexplained_lines(house, conclusions)) other += "- " + line + "\n";
  for (const Breaker& breaker : house.breakers) {
    if (count > 0 && seems_spare(house, conclusions, breaker.id)) other += "- " + breaker_name(house, breaker) + " seems to feed nothing.\n";
    if (std::ranges::find(house.settings, kSkipPrefix + breaker.id.text(), &Setting::name) != house.settings.end())
      other += "- " + breaker_name(house, breaker) + " was skipped.\n";
    if (std::ranges::find(house.settings, kStaysOffPrefix + breaker.id.text(), &Setting::name) != house.settings.end())
      other += "- " + breaker_name(house, breaker) + " would not come on again and counts as off.\n";
    if (breaker.open_rule == OpenRule::never && count < static_cast<int>(house.points.size()))
      other += "- " + breaker_name(house, breaker) + " was left on, as it must never be off.\n";
  }
  return std::to_string(count) + " of " + std::to_string(house.points.size()) + " points are settled.\n" + other;
}

}  // namespace ohmstead
