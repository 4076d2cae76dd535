#include "backup/overload.h"

#include <algorithm>
#include <numeric>

#include "backup/outage_target.h"

namespace ohmstead {

namespace {

int watts(const Consumer& one) { return std::accumulate(one.draw.starting.begin(), one.draw.starting.end(), 0); }

/// The line before: what was switched on or closed; null if it was something else.
const OutageEvent* switched_on_before(const House& house) {
  const auto lines = outage_lines(house);
  for (auto line = lines.rbegin(); line != lines.rend(); ++line) {
    const OutageEvent& event = house.outage_events[*line];
    if (event.withdrawn || event.kind == OutageEventKind::note) continue;
    const bool on = event.kind == OutageEventKind::load_on || (event.kind == OutageEventKind::moved && event.stands != 0);
    return on ? &event : nullptr;
  }
  return nullptr;
}

void name_it(const OutageView& view, const Consumer& one, OutageEvent& overload) {
  if (one.load >= 0) overload.load = view.house.loads[static_cast<std::size_t>(one.load)].id;
  else overload.text = view.now.guests[static_cast<std::size_t>(one.guest)].text;
}

void name_handle(const OutageView& view, int unit, OutageEvent& overload) {
  overload.handle = view.gear.graph.handles[view.gear.units[static_cast<std::size_t>(unit)].handle].ref;
}

}  // namespace

void blame(const OutageView& view, OutageEvent& overload) {
  const OutageEvent* last = switched_on_before(view.house);
  int unit = -1;
  if (last != nullptr && last->kind == OutageEventKind::moved) {
    const auto handle = std::ranges::find(view.gear.graph.handles, last->handle, &GraphHandle::ref);
    if (handle != view.gear.graph.handles.end()) unit = view.gear.unit_of(handle->group);
  }
  const Consumer* worst = nullptr;
  bool life = false;
  const std::vector<Consumer> all = consumers_now(view.gear, view.now);
  const auto is_last = [&](const Consumer& one) {
    if (last == nullptr) return false;
    if (one.load >= 0 && last->load && view.house.loads[static_cast<std::size_t>(one.load)].id == last->load) return true;
    if (one.guest >= 0 && !last->load && view.now.guests[static_cast<std::size_t>(one.guest)].text == last->text) return true;
    return unit >= 0 && one.unit == unit;
  };
  const auto key = [&](const Consumer& one) { return std::tuple(!is_last(one), one.worth, -watts(one)); };
  for (const Consumer& one : all) {
    if (!one.on) continue;
    life = life || (one.life() && one.unit == unit);
    if (!one.life() && (worst == nullptr || key(one) < key(*worst))) worst = &one;
  }
  if (worst == nullptr) return;
  if (unit >= 0 && worst->unit == unit && !life) return name_handle(view, unit, overload);
  // Alone on its circuit it is left out with its handle: nothing of it can start by itself.
  const bool shared = std::ranges::any_of(all, [&](const Consumer& one) { return one.unit == worst->unit && one.load != worst->load && (one.on || one.wanted); });
  if (worst->load >= 0 && worst->unit >= 0 && !shared && view.gear.loads[static_cast<std::size_t>(worst->load)].draw.starts_itself)
    name_handle(view, worst->unit, overload);
  else name_it(view, *worst, overload);
}

}  // namespace ohmstead
