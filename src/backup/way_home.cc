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
    for (const auto part : {&WayHome::unit_back, &WayHome::clear, &WayHome::shut_way, &WayHome::main_on, &WayHome::others_back}) {
      const std::vector<std::uint32_t> groups = (this->*part)();
      if (!groups.empty()) return moved_home(groups);
    }
    if (now_.running) return source_off();
    if (way_stays_closed()) return {.kind = OutageStepKind::no_safe_way, .reason = OutageReason::way_home};
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

  /// A transfer position, what matters least first.
  [[nodiscard]] std::vector<std::uint32_t> unit_back() const {
    const OutageUnit* next = nullptr;
    for (const OutageUnit& unit : gear_.units)
      if (unit.on == kBackupSide && !is_home(unit.handle) && (next == nullptr || worth(unit) < worth(*next))) next = &unit;
    return next == nullptr ? std::vector<std::uint32_t>{} : std::vector{next->handle};
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
      if (gear_.graph.handles[h].group != h || is_home(h) || (!groups.empty() && usual(groups.front()) != usual(h))) continue;
      State next = state;
      move_handle(gear_.graph, next, h, usual(h));
      if (outage_faults(gear_, next) != 0) continue;
      state = next;
      groups.push_back(h);
    }
    return groups;
  }

  [[nodiscard]] OutageStep moved_home(const std::vector<std::uint32_t>& groups) const {
    const bool clearing = usual(groups.front()) == stands(groups.front());
    return move_step(view_, clearing ? OutageReason::clear : OutageReason::way_home, groups, clearing ? kOff : usual(groups.front()));
  }

  [[nodiscard]] OutageStep source_off() const {
    const bool engine = view_.house.sources[gear_.source].kind == SourceKind::generator;
    const auto kind = engine && !now_.cooled ? OutageStepKind::cool_down : OutageStepKind::stop_source;
    return {.kind = kind, .reason = OutageReason::way_home};
  }

  const OutageView& view_;
  const OutageGear& gear_;
  const OutageNow& now_;
};

}  // namespace

OutageStep way_home_step(const OutageView& view) { return WayHome(view).step(); }

}  // namespace ohmstead
