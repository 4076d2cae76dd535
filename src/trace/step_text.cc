#include "trace/step_text.h"

#include <algorithm>

#include "house/index.h"
#include "house/numbering.h"
#include "trace/manner.h"
#include "trace/behind_text.h"

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
  if (device == nullptr) return "a switching device";
  const std::string name = without_controls(device->name);
  const Room* room = find_row(house, handle->room);  // there is a 'GFCI' in several rooms
  return room == nullptr || name.find(room->name) != std::string::npos ? name : name + " in " + without_controls(room->name);
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
      "- Switch every light on now: then a glance tells (in bright daylight look at the bulb itself). It will get dark: carry a flashlight.\n"
      "- Finding out what a breaker feeds makes nothing safe to work on. Local code and a licensed electrician decide.";
  if (!step.loads.empty())
    text += "\n- Until their breaker is found, any breaker may feed: " + load_names(house, step.loads) +
            ". Have their other supply ready (a cylinder, a battery, a cooler), and wait for the person who depends on it.";
  return text;
}

/// "Turn OFF breaker 5 in Main panel." or, of several, one a line; with a helper it is called out.
std::string move_text(const House& house, const Step& step, const char* how) {
  const bool several = step.handles.size() > 1;
  const std::string these = several ? "these " + std::to_string(step.handles.size()) + " breakers" : handle_name(house, step.handles.front());
  std::string text = step.by_helper ? "Call out to the panel: turn " + these + " " + how : "Turn " + these + " " + how;
  text += several ? ":" : ".";
  for (const HandleRef& handle : step.handles) {
    const Breaker* breaker = find_row(house, Id<Breaker>{handle.id});
    const bool labeled = breaker != nullptr && step.kind == StepKind::open && breaker->old_label.find_first_not_of("? ") != std::string::npos;
    const std::string label = labeled ? "\"" + without_controls(breaker->old_label) + "\"" : "";
    if (several) text += "\n- " + handle_name(house, handle) + (labeled ? "  " + label : "");
    else if (labeled) text += "\nThe old label says: " + label + ".";
    if (breaker != nullptr && breaker->tie) text += several ? ", with the handle tied to it" : "\nThe handle tied to it goes with it.";
  }
  if (step.by_helper) text += several ? "\nGo on when the helper says that all of them are." : "\nGo on when the helper says that it is.";
  return text;
}

std::string open_text(const House& house, const Step& step) {
  std::string text = move_text(house, step, "OFF");
  if (step.briefly)
    text += "\nFor " + std::to_string(kBriefSeconds / 60) + " minutes at most, and nothing else off meanwhile.";
  return text;
}

const char* how_to_test(Method method) {
  switch (method) {
    case Method::look: return "See whether what is plugged in there works.";
    case Method::lamp: return "Plug the lamp in, switched on.";
    case Method::non_contact: return "Hold the tester to its slots. A live cable close by can fool it.";
    case Method::listening: return "Plug in the tester that sounds, and listen.";
    case Method::tester:
    case Method::other: break;
  }
  return "Test it, or plug in a lamp that works.";
}

const char* what_to_check(const House& house, PointKind kind) {
  switch (kind) {
    case PointKind::receptacle: return how_to_test(manner_of(house).method);
    case PointKind::light: return "If it is dark, try its switch.";
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

constexpr std::size_t kNamedInALook = 3;  ///< more handles than these are only counted

std::string look_text(const House& house, const Step& step) {
  const std::string name = point_name(house, step.point);
  const Point& point = row(house, step.point);
  std::string text;
  if (step.handles.empty()) text = something_stays_off(house) ? "With everything on that will come on: " : "With everything on again: ";
  const bool again = step.reason == StepReason::look_again;
  if (step.from_door) text += (again ? "Once more from the door: " : "From the door: ") + name + ".\nIs the lamp in it lit (live) or dark (dead)?";
  else text += again ? "Once more: " + name + "." : "Go to: " + name + ".";
  if (!step.from_door) {
    text += point.hots > 1 ? "\nIs it live (both hot conductors, so that it works as it should)?" : "\nIs it live?";
    text += std::string(" ") + what_to_check(house, point.kind);
    if (again && point.kind == PointKind::receptacle) text += " Test the tester on something live first.";
  }
  if (point.half != ReceptacleHalf::both)
    text += std::string("\nOnly the ") + (point.half == ReceptacleHalf::upper ? "upper" : "lower") + " half counts.";
  if (step.handles.size() > kNamedInALook) text += "\n(" + std::to_string(step.handles.size()) + " breakers are off now.)";
  else if (!step.handles.empty()) text += "\n(Off now: " + handles_text(house, step.handles) + ".)";
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
  std::string text = move_text(house, step, "ON again");
  if (step.reason == StepReason::load_is_off) text = "At once! " + text + "\nA load that keeps somebody alive is off.";
  if (step.reason == StepReason::time_over) text = "Time is up. " + text;
  if (step.reason == StepReason::next_set) text += "\nThe others stay off.";
  return text + (step.handles.size() > 1 ? "\nIf one trips, or will not reset, leave it off and say so." : "\nIf it trips, or will not reset, leave it off and say so.");
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
  if (has_own_words(house, step)) return behind_step_text(house, step);
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

}  // namespace ohmstead
