#include "house/check.h"

#include <algorithm>

#include "house/utf8.h"

namespace ohmstead::house_detail {

namespace {

/// For each place: does following `next` (a place, or -1 for the end) from it come round in a circle?
template <class Next>
std::vector<bool> in_circle(std::size_t count, const Next& next) {
  enum : char { kNew, kOnWay, kEnds, kCircles };
  std::vector<char> state(count, kNew);
  for (std::size_t start = 0; start < count; ++start) {
    std::vector<std::size_t> way;
    long at = static_cast<long>(start);
    while (at >= 0 && state[static_cast<std::size_t>(at)] == kNew) {
      state[static_cast<std::size_t>(at)] = kOnWay;
      way.push_back(static_cast<std::size_t>(at));
      at = next(static_cast<std::size_t>(at));
    }
    const bool ends = at < 0 || state[static_cast<std::size_t>(at)] == kEnds;
    for (const std::size_t place : way) state[place] = ends ? kEnds : kCircles;
  }
  std::vector<bool> circles(count);
  for (std::size_t i = 0; i < count; ++i) circles[i] = state[i] == kCircles;
  return circles;
}

bool is_control(char c) { return c == '\x7f' || (c >= 0 && c < ' ' && c != '\t' && c != '\n'); }

}  // namespace

Report::Report(const House& house)
    : house_(house),
      rows_(house.floors, house.rooms, house.walks, house.boxes, house.sources, house.panels, house.breakers,
            house.circuits, house.transfer_devices, house.positions, house.interlocks, house.devices, house.handles,
            house.points, house.loads, house.passings, house.declared_feeds, house.rounds, house.opened,
            house.observations, house.notes, house.photos, house.settings, house.planned, house.pins, house.ticks,
            house.outage_events, house.printed, house.trips, house.diagnoses, house.diagnosis_looks) {
  for (const Handle& handle : house.handles) ++handles_of_device_[handle.device.value];
  for (const Position& position : house.positions) ++positions_of_tie_[position.tie.value];
  circular_panels_ = in_circle(house.panels.size(), [&](std::size_t i) { return panel_above(house.panels[i]); });
  circular_devices_ = in_circle(house.devices.size(), [&](std::size_t i) {
    return std::get<Index<Device>>(rows_).at(house.devices[i].behind);
  });
}

long Report::panel_above(const Panel& panel) const {
  Id<Breaker> feeder = panel.supply == Supply::breaker ? panel.feeder : Id<Breaker>{};
  if (panel.supply == Supply::position)
    if (const Position* position = find(panel.position)) feeder = position->breaker;
  const Breaker* breaker = find(feeder);
  return breaker == nullptr ? -1 : std::get<Index<Panel>>(rows_).at(breaker->panel);
}

int Report::handle_count(Id<Device> device) const {
  const auto found = handles_of_device_.find(device.value);
  return found == handles_of_device_.end() ? 0 : found->second;
}

int Report::legs(const Panel& panel) const {
  const int all = leg_count(house_.dwelling.system);
  if (panel.supply == Supply::breaker) {
    const Breaker* feeder = find(panel.feeder);
    return feeder == nullptr ? all : std::min(all, feeder->poles);
  }
  if (panel.supply == Supply::position) {
    const Position* position = find(panel.position);
    return position == nullptr || !position->tie ? 1 : std::min(all, positions_of_tie_.at(position->tie.value));
  }
  return all;
}

bool Report::has(const HandleRef& ref) const {
  switch (ref.kind) {
    case HandleKind::main: return find(Id<Panel>{ref.id}) != nullptr;
    case HandleKind::breaker: return find(Id<Breaker>{ref.id}) != nullptr;
    case HandleKind::position:
    case HandleKind::position_breaker: return find(Id<Position>{ref.id}) != nullptr;
    case HandleKind::device: return find(Id<Handle>{ref.id}) != nullptr;
    case HandleKind::none: break;
  }
  return false;
}

bool Report::has(const ThingRef& ref) const {
  switch (ref.kind) {
    case ThingKind::house: return true;
    case ThingKind::floor: return find(Id<Floor>{ref.id}) != nullptr;
    case ThingKind::room: return find(Id<Room>{ref.id}) != nullptr;
    case ThingKind::box: return find(Id<Box>{ref.id}) != nullptr;
    case ThingKind::point: return find(Id<Point>{ref.id}) != nullptr;
    case ThingKind::load: return find(Id<Load>{ref.id}) != nullptr;
    case ThingKind::panel: return find(Id<Panel>{ref.id}) != nullptr;
    case ThingKind::breaker: return find(Id<Breaker>{ref.id}) != nullptr;
    case ThingKind::circuit: return find(Id<Circuit>{ref.id}) != nullptr;
    case ThingKind::device: return find(Id<Device>{ref.id}) != nullptr;
    case ThingKind::handle: return find(Id<Handle>{ref.id}) != nullptr;
    case ThingKind::source: return find(Id<Source>{ref.id}) != nullptr;
    case ThingKind::transfer_device: return find(Id<TransferDevice>{ref.id}) != nullptr;
    case ThingKind::position: return find(Id<Position>{ref.id}) != nullptr;
  }
  return false;
}

void Report::add(const std::string& field, const std::string& message) {
  const std::string path = table_ == nullptr ? "dwelling" : std::string(table_) + "[" + std::to_string(index_) + "]";
  problems_.push_back({field.empty() ? path : path + "." + field, message});
}

void FieldCheck::operator()(const char* name, const std::string& text) {
  if (text.size() > longest)
    report.add(name, "The text is " + std::to_string(text.size()) + " bytes long; at most " + std::to_string(longest) +
                         " are kept.");
  if (!is_utf8(text)) report.add(name, "The text is not UTF-8.");
  if (std::ranges::any_of(text, is_control))
    report.add(name, "The text holds a control character; only tabs and new lines may be in it.");
}

void FieldCheck::operator()(const char* name, const HandleRef& ref) {
  if (ref && !report.has(ref))
    report.add(name, "It names a handle that is not in the house.");
}

void FieldCheck::operator()(const char* name, const ThingRef& ref) {
  if (!report.has(ref))
    report.add(name, "It names a thing that is not in the house.");
}

void check_range(Report& report, const char* field, int value, int low, int high) {
  if (value < low || value > high)
    report.add(field, std::string(field) + " is " + std::to_string(value) + "; it must be from " + std::to_string(low) +
                          " to " + std::to_string(high) + ".");
}

void check_name(Report& report, const std::string& name) {
  if (name.empty()) report.add("name", "A name is missing.");
}

}  // namespace ohmstead::house_detail
