#include "trace/behind_text.h"

#include <algorithm>
#include <cmath>

#include "house/index.h"
#include "house/walking.h"
#include "trace/board.h"
#include "trace/step_text.h"

namespace ohmstead {

namespace {

constexpr double kWorthNaming = 0.05;  ///< belief from which a point that is open is named one by one

/// The device that a handle belongs to; null for other handles.
const Device* device_of(const House& house, const HandleRef& handle) {
  const Handle* moved = handle.kind == HandleKind::device ? find_row(house, Id<Handle>{handle.id}) : nullptr;
  return moved == nullptr ? nullptr : find_row(house, moved->device);
}

bool is_one_of_a_group(const House& house, const Device& device) {
  return std::ranges::count(house.handles, device.id, &Handle::device) > 1;
}

/// A breaker that is tripped with its test button.
bool has_test_button(const House& house, const HandleRef& handle) {
  const Breaker* breaker = handle.kind == HandleKind::breaker ? find_row(house, Id<Breaker>{handle.id}) : nullptr;
  return breaker != nullptr && (breaker->protection == Protection::gfci || breaker->protection == Protection::dual);
}

std::string transfer_name(const House& house, const HandleRef& handle) {
  const Position* position = find_row(house, Id<Position>{handle.id});
  const TransferDevice* device = position == nullptr ? nullptr : find_row(house, position->device);
  return device == nullptr ? "a transfer device" : without_controls(device->name);
}

std::string position_number(const House& house, const HandleRef& handle) {
  const Position* position = find_row(house, Id<Position>{handle.id});
  return position == nullptr ? "?" : std::to_string(position->number);
}

std::string tied_positions(const House& house, const HandleRef& handle) {
  const Position* position = find_row(house, Id<Position>{handle.id});
  return position != nullptr && position->tie ? "\nThe handle tied to it moves with it." : "";
}

std::string list_of(const House& house, const std::vector<BehindPoint>& points, BehindStanding standing) {
  std::string list;
  for (std::size_t p = 0; p < points.size(); ++p)
    if (points[p].standing == standing) list += "- " + point_name(house, house.points[p].id) + "\n";
  return list;
}

}  // namespace

std::string words_to_open(const House& house, const HandleRef& handle) {
  const std::string name = handle_name(house, handle);
  if (handle.kind == HandleKind::position) return "Set position " + position_number(house, handle) + " of " + transfer_name(house, handle) + " to OFF." + tied_positions(house, handle);
  if (has_test_button(house, handle)) return "Press TEST on " + name + ". It trips.";
  const Device* device = device_of(house, handle);
  if (device == nullptr) return "Turn OFF " + name + ".";
  switch (device->kind) {
    case DeviceKind::gfci_receptacle: return "Press TEST on " + name + ". It must click off.";
    case DeviceKind::disconnect: return "Open " + name + ": turn it OFF or pull it out, with what it feeds switched off first.";
    case DeviceKind::wall_switch: break;
  }
  if (is_one_of_a_group(house, *device))
    return "Move " + name + " to its other place, and leave the other switches of its group as they are.\nBefore: turn on every light that they may work.";
  return "Switch off " + name + ".\nBefore: turn on every light and lamp that it may work.";
}

std::string words_to_close(const House& house, const HandleRef& handle) {
  const std::string name = handle_name(house, handle);
  if (handle.kind == HandleKind::position) return "Set position " + position_number(house, handle) + " of " + transfer_name(house, handle) + " back to UTILITY (on some: LINE)." + tied_positions(house, handle);
  if (has_test_button(house, handle)) return "Turn " + name + " fully OFF and then ON again.";
  const Device* device = device_of(house, handle);
  if (device == nullptr) return "Turn " + name + " ON again.";
  switch (device->kind) {
    case DeviceKind::gfci_receptacle: return "Press RESET on " + name + " until it clicks.";
    case DeviceKind::disconnect: return "Close " + name + " again.";
    case DeviceKind::wall_switch: break;
  }
  return is_one_of_a_group(house, *device) ? "Move " + name + " back to where it was." : "Switch " + name + " on again.";
}

bool has_own_words(const House& house, const Step& step) {
  if (step.reason == StepReason::transfer) return true;
  if (step.handles.size() != 1 || (step.kind != StepKind::open && step.kind != StepKind::close)) return false;
  const HandleRef& handle = step.handles.front();
  return handle.kind == HandleKind::device || handle.kind == HandleKind::position || (has_test_button(house, handle) && asked_behind(house) == handle);
}

std::string behind_step_text(const House& house, const Step& step) {
  const HandleRef& handle = step.handles.front();
  if (step.kind == StepKind::caution)
    return "Before position " + position_number(house, handle) + " of " + transfer_name(house, handle) +
           " is moved:\n"
           "- The utility must be on and the generator or battery off, so that OFF is the only change.\n"
           "- Move the handle on the front, all the way, as its maker says. Do not take its cover off: it holds conductors from two sources.\n"
           "- In OFF, what it carries has no power from either side: turn off computers and motors on it first.\n"
           "- If it is hot, buzzes or does not move freely, leave it. Work on a transfer device is for a licensed electrician; local code decides.";
  if (step.kind == StepKind::open) {
    std::string text = words_to_open(house, handle);
    if (step.briefly) text += "\nFor " + std::to_string(kBriefSeconds / 60) + " minutes at most, and nothing else off meanwhile.";
    return text;
  }
  std::string text = words_to_close(house, handle);
  if (step.reason == StepReason::load_is_off) text = "Now, at once: " + text + "\nIt feeds a load that keeps somebody alive.";
  if (step.reason == StepReason::time_over) text = "Time is up. " + text;
  const Device* device = device_of(house, handle);
  if (device != nullptr && device->kind == DeviceKind::gfci_receptacle) text += "\nIf it does not stay in, it may be worn out or have no supply: say so, and have it replaced.";
  return text;
}

std::string behind_why_text(const House& house, const Conclusions& conclusions, const HandleRef& handle, const Step& step) {
  const std::string name = handle_name(house, handle);
  const auto points = find_behind(BehindGround{house, conclusions, walking_seconds(house)}, handle);
  switch (step.kind) {
    case StepKind::caution: return "This is said once, before the hand moves.";
    case StepKind::open: {
      double expected = 0;
      for (const BehindPoint& point : points)
        if (point.standing == BehindStanding::open) expected += point.belief;
      return "You asked what " + name + " takes down. About " + std::to_string(std::max(1, static_cast<int>(std::lround(expected)))) + " points that are not settled are expected to go dead with it.";
    }
    case StepKind::close:
      if (step.reason == StepReason::time_over) return "It may be off for a few minutes only.";
      if (step.reason == StepReason::load_is_off) return "It is found well enough for now; the rest waits.";
      return "No other point is likely enough to hang on it to be worth the way.";
    case StepKind::ask_dead: return "It is dead although nothing is off. While it is, nothing can be told of it.";
    case StepKind::look: break;
    default: return "No further look would settle more.";
  }
  if (step.reason == StepReason::look_again) return "One reading can be wrong. A second one settles it.";
  if (step.reason == StepReason::live_when_closed) return "It was dead with " + name + " off. It counts as behind it once it is seen live with " + name + " on.";
  const auto at = static_cast<std::size_t>(std::max(0L, Index<Point>(house.points).at(step.point)));
  return "It may hang on " + name + " (" + std::to_string(static_cast<int>(std::lround(points[at].belief * 100))) + " % so far). Dead points to it, live rules it out.";
}

std::string behind_summary_text(const House& house, const Conclusions& conclusions, const HandleRef& handle) {
  const auto points = find_behind(BehindGround{house, conclusions, walking_seconds(house)}, handle);
  const std::string name = handle_name(house, handle);
  const std::string behind = list_of(house, points, BehindStanding::behind), not_behind = list_of(house, points, BehindStanding::not_behind);
  std::string text = behind.empty() ? "Nothing was found behind " + name + ".\n" : "Behind " + name + " (dead with it off, live with it on):\n" + behind;
  if (!not_behind.empty()) text += "Not behind it (live with it off):\n" + not_behind;
  const std::string disputed = list_of(house, points, BehindStanding::disputed);
  if (!disputed.empty()) text += "Disputed (seen dead and live with it off; look again):\n" + disputed;
  std::string open;
  int unlikely = 0;
  for (std::size_t p = 0; p < points.size(); ++p) {
    if (points[p].standing != BehindStanding::open) continue;
    if (points[p].belief < kWorthNaming) ++unlikely;
    else open += "- " + point_name(house, house.points[p].id) + (conclusions.readings.dead_anyway[p] ? ": dead for another reason" : points[p].dead > 0 ? ": dead with it off, not seen live with it on" : "") + "\n";
  }
  if (!open.empty()) text += "Still open:\n" + open;
  if (unlikely > 0) text += std::to_string(unlikely) + (unlikely == 1 ? " other point is" : " other points are") + " too unlikely to hang on it to be worth the way.\n";
  const std::string key = handle_key(handle);
  const auto is_set = [&](const char* prefix) { return std::ranges::find(house.settings, prefix + key, &Setting::name) != house.settings.end(); };
  if (is_set(kSkipPrefix)) text += "It was skipped: it was not moved.\n";
  if (is_set(kStaysOffPrefix)) text += "It did not go on again: everything behind it has no power now.\n";
  return text;
}

}  // namespace ohmstead
