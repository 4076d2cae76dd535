#include "backup/may_i.h"

#include <algorithm>
#include <numeric>

namespace ohmstead {

namespace {

/// More sets than this are not tried; the smallest found by leaving things on one by one is then taken.
constexpr int kMostTries = 200'000;

int watts(const Consumer& one) { return std::accumulate(one.draw.running.begin(), one.draw.running.end(), 0); }

class RoomFinder {
 public:
  RoomFinder(const OutageView& view, Consumer asked) : gear_(view.gear), limits_(limits_now(view.gear, view.now)), asked_(std::move(asked)) {
    for (const Consumer& one : consumers_now(gear_, view.now)) {
      if (!one.on || (asked_.load >= 0 && one.load == asked_.load)) continue;
      (one.forced || one.life() ? stay_ : may_go_).push_back(one);
    }
    std::ranges::stable_sort(may_go_, {}, [](const Consumer& one) { return std::pair(one.worth, watts(one)); });
  }

  /// What goes off; nothing if no set is enough.
  std::optional<std::vector<Consumer>> find() {
    for (std::size_t most = 0; most <= may_go_.size(); most = end_of_worth(most)) {
      if (fits_without(std::vector<bool>(may_go_.size(), false), most)) return fewest(most);
      if (most == may_go_.size()) break;
    }
    return std::nullopt;
  }

 private:
  /// The place behind the last one that is worth as much as that at `from`.
  [[nodiscard]] std::size_t end_of_worth(std::size_t from) const {
    std::size_t end = from;
    while (end < may_go_.size() && may_go_[end].worth == may_go_[from].worth) ++end;
    return end;
  }

  /// Does it fit when those before `all_off` go off, but for those that stay?
  [[nodiscard]] bool fits_without(const std::vector<bool>& stays, std::size_t all_off) const {
    std::vector<Consumer> on = stay_;
    for (std::size_t i = 0; i < may_go_.size(); ++i)
      if (i >= all_off || stays[i]) on.push_back(may_go_[i]);
    return fits(on);
  }

  [[nodiscard]] bool fits(std::vector<Consumer> on) const {
    std::vector<StartLoad> draws;
    for (const Consumer& one : on) draws.push_back(one.draw);
    if (!may_start(limits_, draws, asked_.draw)) return false;
    on.push_back(asked_);
    return within_limits(gear_, limits_, on);
  }

  std::vector<Consumer> fewest(std::size_t among) {
    for (std::size_t count = 0; count <= among; ++count) {
      best_.clear(), best_watts_ = -1;
      std::vector<std::size_t> chosen;
      if (!choose(among, count, 0, chosen)) return by_leaving_on(among);
      if (best_watts_ >= 0) return best_;
    }
    return {};
  }

  /// Tries all sets of `count` more; false when there were too many.
  bool choose(std::size_t among, std::size_t count, std::size_t from, std::vector<std::size_t>& chosen) {
    if (count == 0) {
      if (++tries_ > kMostTries) return false;
      std::vector<bool> stays(may_go_.size(), true);
      int sum = 0;
      for (const std::size_t i : chosen) stays[i] = false, sum += watts(may_go_[i]);
      if ((best_watts_ >= 0 && sum >= best_watts_) || !fits_without(stays, among)) return true;
      best_.clear(), best_watts_ = sum;
      for (const std::size_t i : chosen) best_.push_back(may_go_[i]);
      return true;
    }
    for (std::size_t i = from; i + count <= among; ++i) {
      chosen.push_back(i);
      const bool go_on = choose(among, count - 1, i + 1, chosen);
      chosen.pop_back();
      if (!go_on) return false;
    }
    return true;
  }

  std::vector<Consumer> by_leaving_on(std::size_t among) const {
    std::vector<bool> stays(may_go_.size(), false);
    std::vector<Consumer> off;
    for (std::size_t i = among; i-- > 0;) {
      stays[i] = true;
      if (!fits_without(stays, among)) stays[i] = false, off.push_back(may_go_[i]);
    }
    std::ranges::reverse(off);
    return off;
  }

  const OutageGear& gear_;
  PlanSource limits_;
  Consumer asked_;
  std::vector<Consumer> stay_, may_go_;
  std::vector<Consumer> best_;
  int best_watts_ = -1, tries_ = 0;
};

/// Has the point power from the source now?
bool has_power(const OutageView& view, std::size_t point) {
  const Liveness live = liveness(view.gear.graph, view.now.state);
  if (state_by_record(view.gear.graph, live, point) != PointState::working) return false;
  return view.gear.graph.terminals[live.label[view.gear.graph.point_hots[point][0]] - 1U].source == static_cast<int>(view.gear.source) + 1;
}

bool feed_known(const OutageGear& gear, std::size_t point) {
  for (int hot = 0; hot < gear.graph.point_hot_count[point]; ++hot)
    if (gear.graph.point_hots[point][static_cast<std::size_t>(hot)] == kNoNode) return false;
  return true;
}

/// Alone on its circuit, does it pass what the circuit's small breaker carries?
bool too_much_for_circuit(const OutageGear& gear, const Consumer& asked, MayI& answer) {
  if (asked.unit < 0) return false;
  for (std::size_t leg = 0; leg < kMostPoles; ++leg) {
    const int most = gear.units[static_cast<std::size_t>(asked.unit)].leg_watts[leg];
    if (most == 0 || asked.draw.running[leg] <= most) continue;
    answer.circuit_watts = most;
    return true;
  }
  return false;
}

}  // namespace

MayI may_i(const OutageView& view, const AskedThing& asked) {
  MayI answer{.point = asked.point, .running = asked.running, .starting = std::max(asked.running, asked.starting), .off_first = {}};
  Consumer thing{.load = asked.load, .worth = kGuestWorth, .draw = {}};
  if (asked.load >= 0) {
    const OutageLoad& load = view.gear.loads[static_cast<std::size_t>(asked.load)];
    answer.point = load.point;
    answer.running = std::accumulate(load.draw.running.begin(), load.draw.running.end(), 0);
    answer.starting = std::accumulate(load.draw.starting.begin(), load.draw.starting.end(), 0);
  }
  if (view.now.phase == OutagePhase::none) return answer;
  const auto is = [&](MayIKind kind) { return answer.kind = kind, answer; };
  if (!feed_known(view.gear, answer.point)) return is(MayIKind::feed_not_known);
  thing.unit = answer.unit = view.gear.point_unit[answer.point];
  if (answer.unit >= 0 && view.gear.bar_of(view.gear.units[static_cast<std::size_t>(answer.unit)].handle) != nullptr) return is(MayIKind::barred);
  if (!has_power(view, answer.point)) {
    const bool later = view.gear.point_carried[answer.point] && (answer.unit < 0 || view.gear.units[static_cast<std::size_t>(answer.unit)].planned);
    return is(!later ? MayIKind::not_carried : view.now.running ? MayIKind::not_on_yet : MayIKind::no_source);
  }
  if (answer.running <= 0) return is(MayIKind::watts_not_known);
  const LoadStands stands = asked.load < 0 ? LoadStands::off : view.now.loads[static_cast<std::size_t>(asked.load)];
  if (stands == LoadStands::on || stands == LoadStands::cannot_be_off || (stands == LoadStands::not_said && asked.load >= 0 &&
      view.gear.loads[static_cast<std::size_t>(asked.load)].use == LoadUse::together)) return is(MayIKind::on_already);
  thing.draw = asked.load >= 0 ? view.gear.loads[static_cast<std::size_t>(asked.load)].draw : draw_at(view.gear, answer.point, answer.running, answer.starting);
  if (too_much_for_circuit(view.gear, thing, answer)) return is(MayIKind::too_much_here);
  const auto off = RoomFinder(view, thing).find();
  if (!off) return is(MayIKind::too_much);
  answer.off_first = *off;
  return is(off->empty() ? MayIKind::yes : MayIKind::after);
}

}  // namespace ohmstead
