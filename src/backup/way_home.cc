#include "backup/way_home.h"

#include <algorithm>

#include "backup/outage_advice.h"
#include "backup/outage_lawful.h"

namespace ohmstead {

namespace {

class WayHome {
 public:
  explicit WayHome(const OutageView& view) : view_(view), gear_(view.gear), now_(view.now) {}

  OutageStep step() const {
    if (gear_.automatic && !now_.asked_back && some_on_backup()) return {.kind = OutageStepKind::ask_back, .reason = OutageReason::way_home};
    for (const auto part : {&WayHome::street_first, &WayHome::unit_back, &WayHome::clear, &WayHome::shut_way, &WayHome::main_on, &WayHome::others_back}) {
      const std::vector<std::uint32_t> groups = (this->*part)();
      if (!groups.empty()) return moved_home(groups);
    }
    const std::vector<std::uint32_t> held = held_units();
    if (now_.running) return source_off(held);
    if (!held.empty()) return barred(held);
    return {.kind = OutageStepKind::end, .reason = OutageReason::way_home};
  }

 private:
  [[nodiscard]] Throw usual(std::uint32_t group) const { return gear_.graph.handles[group].usual; }
  [[nodiscard]] Throw stands(std::uint32_t group) const { return now_.state.throws[group]; }
  [[nodiscard]] bool is_home(std::uint32_t group) const { return stands(group) == usual(group) || now_.is_stuck(group); }

  [[nodiscard]] bool some_on_backup() const {
    for (std::uint32_t h = 1; h < gear_.graph.handles.size(); ++h)
      if (gear_.graph.handles[h].ref.kind == HandleKind::position && stands(h) == kBackupSide) return true;
    return false;
  }
  [[nodiscard]] bool way_closed() const {
    return std::ranges::any_of(gear_.ways, [&](const Move& way) { return stands(way.handle) == way.to; });
  }
  [[nodiscard]] bool way_stays_closed() const {
    return std::ranges::any_of(gear_.ways, [&](const Move& way) { return stands(way.handle) == way.to && now_.is_stuck(way.handle); });
  }

  [[nodiscard]] int worth(const OutageUnit& unit) const {
    int most = 0;
    for (const std::size_t load : unit.loads) most = std::max(most, gear_.loads[load].worth);
    return most;
  }

  /// Has all that hangs on this unit the street's power once it is moved home?
  [[nodiscard]] bool street_reaches(const OutageUnit& unit) const {
    const Liveness live = liveness(gear_.graph, after_move(gear_, now_, unit.handle, usual(unit.handle)).state);
    return std::ranges::all_of(unit.points, [&](std::size_t point) {
      const Node hot = gear_.graph.point_hots[point][0];
      return state_by_record(gear_.graph, live, point) == PointState::working && gear_.graph.terminals[live.label[hot] - 1U].source == 0;
    });
  }

  /// Mains, and breakers that the positions hang on, that were turned off: they come before the positions that they
  /// feed, where the source is not on them.
  [[nodiscard]] std::vector<std::uint32_t> street_first() const {
    for (std::uint32_t h = 1; h < gear_.graph.handles.size(); ++h) {
      const GraphHandle& handle = gear_.graph.handles[h];
      const bool feeds = handle.ref.kind == HandleKind::main || (handle.ref.kind == HandleKind::breaker && gear_.ways.empty());
      if (handle.group != h || !feeds || is_home(h) || usual(h) != kOn || gear_.is_way(h) || !lawful_home(h)) continue;
      if (comes_on(gear_, now_, after_move(gear_, now_, h, usual(h))).empty()) return {h};
    }
    return {};
  }

  /// A transfer position: what matters least first, for all has power; while the source stands still, what matters most.
  /// One that would be without power at home stays on the source that runs.
  [[nodiscard]] std::vector<std::uint32_t> unit_back() const {
    const OutageUnit* next = nullptr;
    for (const OutageUnit& unit : gear_.units) {
      if (unit.on != kBackupSide || is_home(unit.handle) || (now_.running && stands(unit.handle) == kBackupSide && !street_reaches(unit))) continue;
      const bool before = next == nullptr || (now_.running ? worth(unit) < worth(*next) : worth(unit) > worth(*next));
      if (before) next = &unit;
    }
    return next == nullptr ? std::vector<std::uint32_t>{} : std::vector{next->handle};
  }

  /// Positions that stay on the source: they cannot be moved, or the street's power does not reach what hangs on them.
  [[nodiscard]] std::vector<std::uint32_t> held_units() const {
    std::vector<std::uint32_t> groups;
    for (const OutageUnit& unit : gear_.units)
      if (unit.on == kBackupSide && stands(unit.handle) == kBackupSide && usual(unit.handle) != kBackupSide) groups.push_back(unit.handle);
    for (const Move& way : gear_.ways)
      if (stands(way.handle) == way.to && usual(way.handle) != way.to) groups.push_back(way.handle);
    return groups;
  }

  [[nodiscard]] OutageStep barred(const std::vector<std::uint32_t>& held) const {
    OutageStep step{.kind = OutageStepKind::no_safe_way, .reason = OutageReason::way_home};
    for (const std::uint32_t group : held) step.handles.push_back(gear_.graph.handles[group].ref);
    return step;
  }

  /// Breakers behind a way that is still closed: nothing is moved under load.
  [[nodiscard]] std::vector<std::uint32_t> clear() const {
    std::vector<std::uint32_t> groups;
    if (!way_closed()) return groups;
    for (const OutageUnit& unit : gear_.units)
      if (unit.on == kOn && stands(unit.handle) == kOn && !now_.is_stuck(unit.handle)) groups.push_back(unit.handle);
    return groups;
  }

  [[nodiscard]] std::vector<std::uint32_t> shut_way() const {
    for (const Move& way : gear_.ways)
      if (!is_home(way.handle)) return {way.handle};
    return {};
  }

  [[nodiscard]] bool lawful_home(std::uint32_t group) const {
    return outage_faults(gear_, after_move(gear_, now_, group, usual(group)).state) == 0;
  }

  [[nodiscard]] std::vector<std::uint32_t> main_on() const {
    for (const Move& main : gear_.off_first)
      if (!is_home(main.handle) && lawful_home(main.handle)) return {main.handle};
    return {};
  }

  [[nodiscard]] std::vector<std::uint32_t> others_back() const {
    std::vector<std::uint32_t> groups;
    if (way_stays_closed()) return groups;
    State state = now_.state;
    for (std::uint32_t h = 1; h < gear_.graph.handles.size(); ++h) {
      if (gear_.graph.handles[h].group != h || is_home(h) || held_position(h) || (!groups.empty() && usual(groups.front()) != usual(h))) continue;
      State next = state;
      move_handle(gear_.graph, next, h, usual(h));
      if (outage_faults(gear_, next) != 0) continue;
      state = next;
      groups.push_back(h);
    }
    return groups;
  }

  /// A unit that unit_back() left on the source.
  [[nodiscard]] bool held_position(std::uint32_t group) const {
    const int unit = gear_.unit_of(group);
    return now_.running && unit >= 0 && gear_.units[static_cast<std::size_t>(unit)].on == kBackupSide && stands(group) == kBackupSide;
  }

  [[nodiscard]] OutageStep moved_home(const std::vector<std::uint32_t>& groups) const {
    const bool clearing = usual(groups.front()) == stands(groups.front());
    return move_step(view_, clearing ? OutageReason::clear : OutageReason::way_home, groups, clearing ? kOff : usual(groups.front()));
  }

  /// With `held` it still carries something: nothing cools down then, and what hangs on it is said before it stops.
  [[nodiscard]] OutageStep source_off(const std::vector<std::uint32_t>& held) const {
    const bool engine = view_.house.sources[gear_.source].kind == SourceKind::generator;
    OutageStep step = barred(held);
    step.kind = engine && !now_.cooled && held.empty() ? OutageStepKind::cool_down : OutageStepKind::stop_source;
    for (const Consumer& one : consumers_now(gear_, now_))
      if (one.on && one.load >= 0) step.loads.push_back(view_.house.loads[static_cast<std::size_t>(one.load)].id);
    return step;
  }

  const OutageView& view_;
  const OutageGear& gear_;
  const OutageNow& now_;
};

}  // namespace

OutageStep way_home_step(const OutageView& view) { return WayHome(view).step(); }

}  // namespace ohmstead
