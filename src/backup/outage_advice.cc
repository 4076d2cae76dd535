#include "backup/outage_advice.h"

#include <algorithm>
#include <numeric>

#include "backup/outage_lawful.h"
#include "backup/way_home.h"

namespace ohmstead {

namespace {

using Groups = std::vector<std::uint32_t>;

/// So often in a row nothing came on: it is not the circuits then.
constexpr int kLookOverAfter = 2;

OutageStep plain(OutageStepKind kind, OutageReason reason = OutageReason::none) { return {.kind = kind, .reason = reason}; }

class Advice {
 public:
  explicit Advice(const OutageView& view) : view_(view), gear_(view.gear), now_(view.now) {}

  OutageStep step() const {
    if (now_.phase == OutagePhase::none) return plain(OutageStepKind::no_outage);
    if (outage_faults(gear_, now_.state) > 0) return put_right();
    if (now_.phase == OutagePhase::back && way_is_stuck()) return stay_on_source();
    if (now_.phase == OutagePhase::back) return way_home_step(view_);
    if (now_.to_refuel) return refuel();
    return now_.running ? while_it_runs() : before_it_runs();
  }

 private:
  [[nodiscard]] Throw stands(std::uint32_t group) const { return now_.state.throws[group]; }
  [[nodiscard]] bool is_engine() const { return view_.house.sources[gear_.source].kind == SourceKind::generator; }
  [[nodiscard]] bool can_move(std::uint32_t group) const { return !now_.is_stuck(group); }

  /// A backfed breaker or whole-house position cannot be moved home: the panel cannot be given back to the utility.
  [[nodiscard]] bool way_is_stuck() const {
    return std::ranges::any_of(gear_.ways, [&](const Move& way) {
      return now_.is_stuck(way.handle) && stands(way.handle) == way.to && gear_.graph.handles[way.handle].usual != way.to;
    });
  }

  /// As in the outage, until somebody has mended it.
  [[nodiscard]] OutageStep stay_on_source() const {
    OutageStep step = now_.running ? while_it_runs() : before_it_runs();
    if (step.kind != OutageStepKind::running) return step;
    step = plain(OutageStepKind::no_safe_way, OutageReason::way_home);
    for (const Move& way : gear_.ways)
      if (now_.is_stuck(way.handle)) step.handles.push_back(gear_.graph.handles[way.handle].ref);
    return step;
  }

  /// A handle to open that takes a fault away: one that stands against what is wanted first, then the last one moved.
  OutageStep put_right() const {
    const std::size_t faults = outage_faults(gear_, now_.state);
    std::uint32_t best = 0;
    int best_rank = 0;
    for (std::uint32_t h = 1; h < gear_.graph.handles.size(); ++h) {
      const GraphHandle& handle = gear_.graph.handles[h];
      if (handle.group != h || stands(h) == kOff || handle.ref.kind == HandleKind::device || !can_move(h)) continue;
      const bool lets_in = stands(h) == kBackupSide || lets_source_in(h);
      const bool helps = outage_faults(gear_, after_move(gear_, now_, h, kOff).state) < faults;
      if (!helps && !lets_in) continue;
      const bool wrong = now_.phase == OutagePhase::back ? lets_in : !lets_in;
      const int rank = (helps ? 8 : 0) + (wrong ? 4 : 0) + (h == now_.last_moved ? 2 : 0) + 1;
      if (rank > best_rank) best = h, best_rank = rank;
    }
    if (best != 0) return move_step(view_, OutageReason::put_right, {best}, kOff);
    return plain(now_.running ? OutageStepKind::stop_source : OutageStepKind::no_safe_way, OutageReason::put_right);
  }

  [[nodiscard]] bool lets_source_in(std::uint32_t group) const {
    return std::ranges::any_of(gear_.graph.handles, [&](const GraphHandle& handle) {
      if (handle.group != group || handle.ref.kind != HandleKind::breaker) return false;
      const auto breaker = std::ranges::find(view_.house.breakers, Id<Breaker>{handle.ref.id}, &Breaker::id);
      return breaker != view_.house.breakers.end() && bool(breaker->backfed_from);
    });
  }

  /// Everything off, stop, fill; then it goes on as if it had stopped by itself.
  [[nodiscard]] OutageStep refuel() const {
    if (!now_.running) return plain(OutageStepKind::refuel, OutageReason::refuel);
    if (const Groups groups = closed_units(true); !groups.empty()) return move_step(view_, OutageReason::refuel, groups, kOff);
    OutageStep stop = plain(OutageStepKind::stop_source, OutageReason::refuel);
    for (const Consumer& one : consumers_now(gear_, now_))  // what cannot be parted from it
      if (one.on && one.load >= 0) stop.loads.push_back(view_.house.loads[static_cast<std::size_t>(one.load)].id);
    return stop;
  }

  /// Breakers that the plan does not carry, where the source comes onto their panel by itself.
  [[nodiscard]] Groups not_planned() const {
    Groups groups;
    for (const OutageUnit& unit : gear_.units)
      if (unit.on == kOn && !unit.planned && stands(unit.handle) == kOn && can_move(unit.handle)) groups.push_back(unit.handle);
    return view_.house.planned.empty() ? Groups{} : groups;
  }

  OutageStep before_it_runs() const {
    if (now_.will_not_start) return plain(OutageStepKind::no_source);
    if (gear_.reaches_panel && (gear_.ways.empty() || no_positions())) return plain(OutageStepKind::no_safe_way);
    if (const Groups groups = not_planned(); gear_.automatic && !now_.asked_away && !groups.empty()) return move_step(view_, OutageReason::not_planned, groups, kOff);
    if (gear_.automatic && !now_.asked_away) return plain(OutageStepKind::ask_away);
    if (const Groups groups = closed_units(true); !groups.empty()) return move_step(view_, OutageReason::clear, groups, kOff);
    if (const Groups groups = to_part(); !groups.empty()) return move_step(view_, OutageReason::part, groups, kOff);
    if (!gear_.ways.empty() && !can_let_in(gear_, now_) && no_positions()) return plain(OutageStepKind::no_safe_way);
    OutageNow started = now_;
    started.running = true;
    for (const Terminal& terminal : gear_.graph.terminals)
      if (terminal.source == static_cast<int>(gear_.source) + 1)
        started.state.live_legs[gear_.source + 1] = static_cast<std::uint8_t>(started.state.live_legs[gear_.source + 1] | 1 << (terminal.leg - 1));
    if (!carries_start(gear_, now_, started)) {
      OutageStep off = switch_off(comes_on(gear_, now_, started), OutageReason::clear);
      return off.loads.empty() && off.guests.empty() ? plain(OutageStepKind::no_safe_way) : off;
    }
    if (is_engine() && !gear_.automatic && !now_.placed) return plain(OutageStepKind::place_source);
    if (is_engine() && !gear_.automatic && !now_.connected) return plain(OutageStepKind::connect_source);
    return plain(OutageStepKind::start_source);
  }

  [[nodiscard]] bool no_positions() const {
    return std::ranges::none_of(gear_.units, [](const OutageUnit& unit) { return unit.on == kBackupSide; });
  }

  /// Units that stand closed and could be opened; with `all` false only breakers.
  [[nodiscard]] Groups closed_units(bool all) const {
    Groups groups;
    for (const OutageUnit& unit : gear_.units)
      if (stands(unit.handle) == unit.on && can_move(unit.handle) && (all || unit.on == kOn)) groups.push_back(unit.handle);
    return groups;
  }

  [[nodiscard]] Groups to_part() const {
    if (!can_let_in(gear_, now_)) return {};
    for (const Move& main : gear_.off_first)
      if (stands(main.handle) != kOff) return {main.handle};
    return {};
  }

  OutageStep while_it_runs() const {
    if (const Groups groups = barred_on(); !groups.empty()) return move_step(view_, OutageReason::barred, groups, kOff);
    const std::optional<OutageStep> in = let_in();
    const OutageTarget target = outage_target(gear_, now_, in || all_let_in());
    const bool drawn = std::ranges::any_of(target.consumers, &Consumer::on);
    if (is_engine() && !now_.warm && !drawn && !gear_.automatic) return plain(OutageStepKind::warm_up);
    if (const int shed = to_shed(target, false); shed >= 0) return shed_step(target, static_cast<std::size_t>(shed), OutageReason::make_room);
    if (const auto again = try_again()) return *again;
    if (now_.look_over && (now_.dark_in_a_row >= kLookOverAfter || life_is_dark(target))) return look_over(target);
    if (in) return *in;
    if (!target.order) {
      const int shed = to_shed(target, true);
      if (shed >= 0) return shed_step(target, static_cast<std::size_t>(shed), OutageReason::for_a_start);
    } else {
      for (const StartStep& start : *target.order)
        if (const auto step = start_step(target, start)) return *step;
    }
    if (const OutageStep look = look_over(target); now_.look_over && (!look.handles.empty() || !look.loads.empty())) return look;
    return plain(OutageStepKind::running);
  }

  [[nodiscard]] Groups barred_on() const {
    Groups groups;
    for (const OutageUnit& unit : gear_.units)
      if (gear_.bar_of(unit.handle) != nullptr && stands(unit.handle) == unit.on && can_move(unit.handle)) groups.push_back(unit.handle);
    return groups;
  }

  [[nodiscard]] static bool life_is_dark(const OutageTarget& target) {
    return std::ranges::any_of(target.consumers, [](const Consumer& one) { return one.dark && one.life(); });
  }

  /// What did not come on is opened, so that it is closed again in its turn.
  [[nodiscard]] std::optional<OutageStep> try_again() const {
    Groups groups;
    for (const std::uint32_t group : now_.dark)
      if (now_.try_again && can_move(group) && stands(group) != kOff) groups.push_back(group);
    if (groups.empty()) return std::nullopt;
    return move_step(view_, OutageReason::try_again, groups, kOff);
  }

  [[nodiscard]] OutageStep look_over(const OutageTarget& target) const {
    OutageStep step = plain(OutageStepKind::look_over);
    for (const std::uint32_t group : now_.dark) step.handles.push_back(gear_.graph.handles[group].ref);
    for (const Consumer& one : target.consumers)
      if (one.dark && one.load >= 0) step.loads.push_back(view_.house.loads[static_cast<std::size_t>(one.load)].id);
    return step;
  }

  /// What is on and is to go off, least worth first; with `running` among what is to run.
  [[nodiscard]] int to_shed(const OutageTarget& target, bool running) const {
    int best = -1;
    for (std::size_t c = 0; c < target.consumers.size(); ++c) {
      const Consumer& one = target.consumers[c];
      if (!one.on || one.forced || one.life() || target.runs[c] != running) continue;
      if (best < 0 || one.worth < target.consumers[static_cast<std::size_t>(best)].worth) best = static_cast<int>(c);
    }
    return best;
  }

  OutageStep shed_step(const OutageTarget& target, std::size_t which, OutageReason reason) const {
    const Consumer& one = target.consumers[which];
    const auto stays = [&](std::size_t c) {
      const Consumer& other = target.consumers[c];
      return other.unit == one.unit && other.on && c != which && (other.life() || other.forced || (target.runs[c] && reason == OutageReason::make_room));
    };
    bool alone = one.unit >= 0 && can_move(gear_.units[static_cast<std::size_t>(one.unit)].handle) && one.load >= 0 &&
                 gear_.loads[static_cast<std::size_t>(one.load)].use == LoadUse::together;
    for (std::size_t c = 0; c < target.consumers.size(); ++c) alone = alone && !stays(c);
    if (!alone) return switch_off({one}, reason);
    OutageStep step = move_step(view_, reason, {gear_.units[static_cast<std::size_t>(one.unit)].handle}, kOff);
    for (const Consumer& other : target.consumers)
      if (other.on && other.unit == one.unit && other.load >= 0) step.loads.push_back(view_.house.loads[static_cast<std::size_t>(other.load)].id);
    return step;
  }

  /// Loads in one step, then each guest's thing in one of its own.
  OutageStep switch_off(const std::vector<Consumer>& things, OutageReason reason) const {
    OutageStep step = plain(OutageStepKind::switch_off, reason);
    for (const Consumer& one : things) {
      if (one.forced) continue;
      if (one.load >= 0) step.loads.push_back(view_.house.loads[static_cast<std::size_t>(one.load)].id);
      else if (step.guests.empty()) step.guests.push_back(now_.guests[static_cast<std::size_t>(one.guest)].text);
    }
    if (!step.loads.empty()) step.guests.clear();
    return step;
  }

  /// Towards closing the ways, if one is still open and can be closed.
  [[nodiscard]] std::optional<OutageStep> let_in() const {
    const auto open = std::ranges::find_if(gear_.ways, [&](const Move& way) { return stands(way.handle) != way.to; });
    if (open == gear_.ways.end() || !can_let_in(gear_, now_)) return std::nullopt;
    if (const Groups groups = closed_units(false); !groups.empty() && none_let_in()) return move_step(view_, OutageReason::clear, groups, kOff);
    if (const Groups groups = to_part(); !groups.empty()) return move_step(view_, OutageReason::part, groups, kOff);
    const OutageNow next = after_move(gear_, now_, open->handle, open->to);
    if (outage_faults(gear_, next.state) > 0) return std::nullopt;
    if (carries_start(gear_, now_, next)) return move_step(view_, OutageReason::let_in, {open->handle}, open->to);
    OutageStep off = switch_off(comes_on(gear_, now_, next), OutageReason::before_close);
    if (off.loads.empty() && off.guests.empty()) return std::nullopt;
    off.handles = {gear_.graph.handles[open->handle].ref};
    return off;
  }

  [[nodiscard]] bool none_let_in() const {
    return std::ranges::none_of(gear_.ways, [&](const Move& way) { return stands(way.handle) == way.to; });
  }

  [[nodiscard]] bool all_let_in() const {
    return std::ranges::all_of(gear_.ways, [&](const Move& way) { return stands(way.handle) == way.to; });
  }

  [[nodiscard]] std::optional<OutageStep> start_step(const OutageTarget& target, const StartStep& start) const {
    if (start.consumer >= 0) {
      const Consumer& one = target.consumers[static_cast<std::size_t>(start.consumer)];
      if (one.load < 0 || one.would_start) return std::nullopt;
      OutageNow next = now_;
      next.loads[static_cast<std::size_t>(one.load)] = LoadStands::on;
      if (comes_on(gear_, now_, next).empty() || !carries_start(gear_, now_, next)) return std::nullopt;
      OutageStep step = plain(OutageStepKind::switch_on, OutageReason::in_order);
      step.loads = {view_.house.loads[static_cast<std::size_t>(one.load)].id};
      return step;
    }
    const OutageUnit& unit = gear_.units[static_cast<std::size_t>(start.unit)];
    std::vector<Consumer> off_before;
    for (std::size_t c = 0; c < target.consumers.size(); ++c) {
      const Consumer& one = target.consumers[c];
      const bool starts = target.runs[c] && !target.apart[c];
      const bool draws = std::accumulate(one.draw.starting.begin(), one.draw.starting.end(), 0) > 0;
      if (one.unit == start.unit && one.would_start && !one.forced && !starts && draws) off_before.push_back(one);
    }
    if (!off_before.empty()) {
      OutageStep step = switch_off(off_before, OutageReason::before_close);
      step.handles = {gear_.graph.handles[unit.handle].ref};
      step.to = unit.on;
      return step;
    }
    const OutageNow next = after_move(gear_, now_, unit.handle, unit.on);
    if (outage_faults(gear_, next.state) > 0 || !carries_start(gear_, now_, next)) return std::nullopt;
    OutageStep step = move_step(view_, OutageReason::in_order, {unit.handle}, unit.on);
    for (const Consumer& one : comes_on(gear_, now_, next))
      if (one.load >= 0) step.loads.push_back(view_.house.loads[static_cast<std::size_t>(one.load)].id);
    return step;
  }

  const OutageView& view_;
  const OutageGear& gear_;
  const OutageNow& now_;
};

}  // namespace

OutageStep next_outage_step(const OutageView& view) { return Advice(view).step(); }

}  // namespace ohmstead
