#include "backup/outage_now.h"

#include <algorithm>
#include <utility>

#include "backup/outage_target.h"
#include "house/index.h"

namespace ohmstead {

namespace {

using enum OutageEventKind;

class Reader {
 public:
  Reader(const House& house, const OutageGear& gear) : house_(house), gear_(gear) { restart(); }

  OutageNow read(std::size_t lines) {
    for (const std::size_t line : outage_lines(house_))
      if (lines-- == 0) break;
      else if (!house_.outage_events[line].withdrawn) take(house_.outage_events[line]);
    return std::move(now_);
  }

 private:
  void restart() {
    now_ = {};
    now_.state = usual_state(gear_.graph);
    now_.loads.assign(house_.loads.size(), LoadStands::not_said);
  }

  void set_live(std::size_t source, bool live) {
    std::uint8_t legs = 0;
    for (const Terminal& terminal : gear_.graph.terminals)
      if (live && terminal.source == static_cast<int>(source)) legs = static_cast<std::uint8_t>(legs | 1 << (terminal.leg - 1));
    now_.state.live_legs[source] = legs;
  }

  void take(const OutageEvent& event) {
    switch (event.kind) {
      case utility_lost: return take_lost(event);
      case utility_back:
        if (now_.phase == OutagePhase::none) return;
        now_.phase = OutagePhase::back;
        now_.back_at = event.at;
        now_.cooled = now_.asked_back = now_.to_refuel = false;
        return set_live(0, true);
      case ended: now_.phase = OutagePhase::none; return;
      case source_started: return take_started(event);
      case source_stopped:
        if (is_ours(event.source)) stop();
        return;
      case moved: return take_moved(event);
      case load_on:
      case load_off: return take_load(event);
      case overload: return take_overload(event);
      case note: return take_note(event);
    }
  }

  void take_lost(const OutageEvent& event) {
    if (now_.phase == OutagePhase::none) {
      restart();
      now_.began = event.at;
    }
    now_.phase = OutagePhase::lost;
    now_.asked_away = now_.asked_away && now_.running;
    set_live(0, false);
  }

  [[nodiscard]] bool is_ours(Id<Source> source) const { return house_.sources[gear_.source].id == source; }

  void take_started(const OutageEvent& event) {
    if (!is_ours(event.source)) return;
    if (!now_.running) {
      now_.warm = now_.cooled = false;
      now_.started_at = event.at;
    }
    if (event.running_watts == 0 || !now_.running) now_.to_refuel = false;
    now_.running = true;
    now_.asked_away = true;
    now_.will_not_start = false;
    if (event.running_watts > 0) now_.most_watts = event.running_watts;
    set_live(gear_.source + 1, true);
  }

  void stop() {
    now_.running = now_.warm = now_.look_over = now_.try_again = false;
    now_.dark_in_a_row = 0;
    now_.dark_loads.clear();
    set_live(gear_.source + 1, false);
  }

  void take_moved(const OutageEvent& event) {
    const auto found = std::ranges::find(gear_.graph.handles, event.handle, &GraphHandle::ref);
    if (!event.handle || found == gear_.graph.handles.end() || event.stands >= found->throws) return;
    move_handle(gear_.graph, now_.state, found->group, static_cast<Throw>(event.stands));
    now_.last_moved = found->group;
    std::erase(now_.stuck, found->group);
    std::erase(now_.dark, found->group);
    const int unit = gear_.unit_of(found->group);
    if (unit >= 0 && event.stands != kOff)
      for (const std::size_t load : gear_.units[static_cast<std::size_t>(unit)].loads)  // its handle was its switch
        if (gear_.loads[load].by_handle && now_.loads[load] == LoadStands::off_for_a_while) now_.loads[load] = LoadStands::not_said;
    if (unit < 0 || event.stands != gear_.units[static_cast<std::size_t>(unit)].on) return;
    std::erase(now_.left_out, found->group);
    came_on();
    for (const std::size_t load : gear_.units[static_cast<std::size_t>(unit)].loads)  // closed on purpose: what was left out runs now
      if (now_.loads[load] == LoadStands::left_out) now_.loads[load] = LoadStands::not_said;
  }

  /// Until the note says otherwise.
  void came_on() { row_before_ = std::exchange(now_.dark_in_a_row, 0); }

  void nothing_came_on() {
    now_.dark_in_a_row = row_before_ + 1;
    now_.look_over = true;
    now_.try_again = false;
  }

  void try_again() {
    now_.look_over = now_.will_not_start = false;
    now_.dark_in_a_row = 0;
    now_.try_again = now_.running && !now_.dark.empty();
    for (const std::size_t load : now_.dark_loads) now_.loads[load] = LoadStands::off_for_room;
    now_.dark_loads.clear();
  }

  void take_load(const OutageEvent& event) {
    const bool on = event.kind == load_on;
    if (event.load) {
      const auto load = std::ranges::find(house_.loads, event.load, &Load::id);
      if (load == house_.loads.end()) return;
      const auto at = static_cast<std::size_t>(load - house_.loads.begin());
      std::erase(now_.dark_loads, at);
      if (on) came_on();
      const int unit = gear_.loads[at].unit;
      if (on && unit >= 0) std::erase(now_.left_out, gear_.units[static_cast<std::size_t>(unit)].handle);
      const bool room = event.text.starts_with(outage_log::kToMakeRoom), a_while = event.text.starts_with(outage_log::kForAWhile);
      now_.loads[at] = on ? LoadStands::on : room ? LoadStands::off_for_room : a_while ? LoadStands::off_for_a_while : LoadStands::off;
      if (a_while && gear_.loads[at].by_handle) move_handle(gear_.graph, now_.state, gear_.units[static_cast<std::size_t>(unit)].handle, kOff);
      return;
    }
    std::erase_if(now_.guests, [&](const GuestThing& guest) { return guest.text == event.text; });
    const auto point = std::ranges::find(house_.points, event.point, &Point::id);
    if (on && point != house_.points.end())
      now_.guests.push_back({event.text, static_cast<std::size_t>(point - house_.points.begin()), event.running_watts,
                             std::max(event.running_watts, event.starting_watts), event.at});
  }

  void take_overload(const OutageEvent& event) {
    stop();
    if (event.handle) {
      const auto found = std::ranges::find(gear_.graph.handles, event.handle, &GraphHandle::ref);
      if (found != gear_.graph.handles.end()) now_.left_out.push_back(found->group);
    } else if (event.load) {
      const auto load = std::ranges::find(house_.loads, event.load, &Load::id);
      if (load != house_.loads.end()) now_.loads[static_cast<std::size_t>(load - house_.loads.begin())] = LoadStands::left_out;
    } else if (!event.text.empty()) {
      std::erase_if(now_.guests, [&](const GuestThing& guest) { return guest.text == event.text; });
    }
  }

  void take_note(const OutageEvent& event) {
    using namespace outage_log;
    const auto says = [&](std::string_view word) { return event.text.starts_with(word); };
    if (event.source && is_ours(event.source)) {
      if (says(kPlaced)) now_.placed = true;
      else if (says(kConnected)) now_.connected = true;
      else if (says(kWarm)) now_.warm = true;
      else if (says(kCooled)) now_.cooled = true;
      else if (says(kNotByItself)) now_.asked_away = true;
      else if (says(kNotBack)) now_.asked_back = true;
      else if (says(kWillNotStart)) now_.will_not_start = true;
      else if (says(kTryAgain)) try_again();
      else if (says(kToRefuel)) now_.to_refuel = now_.phase == OutagePhase::lost;
      else if (says(kRefuelled) || says(kNotRefuelled)) now_.to_refuel = false;
      else if (says(kLeftDark)) now_.look_over = false, now_.dark_in_a_row = 0;
    } else if (event.handle && says(kDidNotComeOn)) {
      const auto found = std::ranges::find(gear_.graph.handles, event.handle, &GraphHandle::ref);
      const int unit = found == gear_.graph.handles.end() ? -1 : gear_.unit_of(found->group);
      if (unit < 0 || !is_on(gear_, now_, static_cast<std::size_t>(unit)) || now_.is_dark(found->group)) return;
      now_.dark.push_back(found->group);
      nothing_came_on();
    } else if (event.load && says(kDidNotComeOn)) {
      const auto load = std::ranges::find(house_.loads, event.load, &Load::id);
      if (load == house_.loads.end()) return;
      now_.dark_loads.push_back(static_cast<std::size_t>(load - house_.loads.begin()));
      nothing_came_on();
    } else if (event.handle && says(kCannotMove)) {
      const auto found = std::ranges::find(gear_.graph.handles, event.handle, &GraphHandle::ref);
      if (found != gear_.graph.handles.end() && !now_.is_stuck(found->group)) now_.stuck.push_back(found->group);
    } else if (event.load && says(kCannotSwitchOff)) {
      const auto load = std::ranges::find(house_.loads, event.load, &Load::id);
      if (load != house_.loads.end()) now_.loads[static_cast<std::size_t>(load - house_.loads.begin())] = LoadStands::cannot_be_off;
    }
  }

  const House& house_;
  const OutageGear& gear_;
  OutageNow now_;
  int row_before_ = 0;
};

}  // namespace

bool OutageNow::is_stuck(std::uint32_t group) const { return std::ranges::find(stuck, group) != stuck.end(); }

bool OutageNow::is_dark(std::uint32_t group) const { return std::ranges::find(dark, group) != dark.end(); }

std::vector<std::size_t> outage_lines(const House& house) {
  std::size_t first = house.outage_events.size();
  bool under_way = false;
  for (std::size_t i = 0; i < house.outage_events.size(); ++i) {
    const OutageEvent& event = house.outage_events[i];
    if (event.withdrawn) continue;
    if (event.kind == utility_lost && !under_way) first = i;
    if (event.kind == utility_lost) under_way = true;
    if (event.kind == ended) under_way = false;
  }
  std::vector<std::size_t> lines;
  for (std::size_t i = first; i < house.outage_events.size(); ++i) lines.push_back(i);
  return lines;
}

OutageNow outage_now(const House& house, const OutageGear& gear, std::size_t lines) { return Reader(house, gear).read(lines); }

Id<Source> source_of_outage(const House& house) {
  const auto lines = outage_lines(house);
  if (lines.empty()) return {};
  const bool over = std::ranges::any_of(lines, [&](std::size_t i) { return house.outage_events[i].kind == ended && !house.outage_events[i].withdrawn; });
  return over ? Id<Source>{} : house.outage_events[lines.front()].source;
}

PlanSource limits_now(const OutageGear& gear, const OutageNow& now) {
  PlanSource limits = gear.limits;
  if (now.most_watts <= 0 || now.most_watts >= gear.rated_watts) return limits;
  const auto part = [&](int watts) { return static_cast<int>(std::int64_t{watts} * now.most_watts / gear.rated_watts); };
  limits.running = std::min(limits.running, now.most_watts);
  limits.starting = part(limits.starting);
  for (std::size_t leg = 0; leg < kMostPoles; ++leg) {
    limits.leg_running[leg] = part(limits.leg_running[leg]);
    limits.leg_starting[leg] = part(limits.leg_starting[leg]);
  }
  return limits;
}

}  // namespace ohmstead
