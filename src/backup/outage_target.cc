#include "backup/outage_target.h"

#include <algorithm>
#include <numeric>

namespace ohmstead {

namespace {

std::size_t at(int place) { return static_cast<std::size_t>(place); }

int total(const PerPole& legs) { return std::accumulate(legs.begin(), legs.end(), 0); }

/// A start step with what it draws and how much it is worth.
struct Start {
  StartStep step;
  std::vector<Consumer> members;
  int worth = 0;
};

class TargetBuilder {
 public:
  TargetBuilder(const OutageGear& gear, const OutageNow& now, bool ways) : gear_(gear), now_(now), limits_(limits_now(gear, now)), ways_(ways) {
    target_.consumers = consumers_now(gear, now);
    target_.runs.assign(target_.consumers.size(), false);
    target_.apart.assign(target_.consumers.size(), false);
    for (std::size_t u = 0; u < gear.units.size(); ++u) target_.unit_on.push_back(is_on(gear, now, u));
  }

  OutageTarget build() {
    for (const std::size_t c : sorted()) add(c);
    target_.order = order_from(false);
    return std::move(target_);
  }

 private:
  [[nodiscard]] const Consumer& consumer(std::size_t c) const { return target_.consumers[c]; }
  [[nodiscard]] bool unit_planned(int unit) const { return unit >= 0 && gear_.units[at(unit)].planned; }

  std::vector<std::size_t> sorted() const {
    std::vector<std::size_t> places;
    for (std::size_t c = 0; c < target_.consumers.size(); ++c)
      if (consumer(c).wanted || (consumer(c).forced && consumer(c).on)) places.push_back(c);
    const auto key = [&](std::size_t c) {
      const Consumer& one = consumer(c);
      const bool held = one.on && (one.forced || one.life());
      return std::tuple(!held, -one.worth, !unit_planned(one.unit), -total(one.draw.starting), c);
    };
    std::ranges::sort(places, {}, key);
    return places;
  }

  /// May the unit be closed at all?
  [[nodiscard]] bool can_close(int unit) const {
    if (unit < 0 || target_.unit_on[at(unit)]) return true;
    const OutageUnit& one = gear_.units[at(unit)];
    return one.planned && gear_.bar_of(one.handle) == nullptr && (one.on == kBackupSide || ways_) && !now_.is_stuck(one.handle) && std::ranges::find(now_.left_out, one.handle) == now_.left_out.end();
  }

  void add(std::size_t c) {
    if (consumer(c).on && (consumer(c).forced || consumer(c).life())) {
      target_.runs[c] = true;
      return;
    }
    if (!can_close(consumer(c).unit)) return;
    std::vector<std::size_t> added{c};
    for (std::size_t other = 0; other < target_.consumers.size(); ++other)  // what starts with the unit, whatever one does
      if (consumer(other).forced && !consumer(other).on && consumer(other).unit == consumer(c).unit && !target_.runs[other] && other != c)
        added.push_back(other);
    for (const std::size_t one : added) target_.runs[one] = true;
    target_.apart[c] = !consumer(c).on && !consumer(c).would_start;
    if (feasible()) return;
    if (!consumer(c).forced) {
      target_.apart[c] = true;
      if (feasible()) return;
    }
    for (const std::size_t one : added) target_.runs[one] = false;
    target_.apart[c] = false;
  }

  [[nodiscard]] bool feasible() const {
    std::vector<Consumer> chosen;
    for (std::size_t c = 0; c < target_.consumers.size(); ++c)
      if (target_.runs[c]) chosen.push_back(consumer(c));
    return within_limits(gear_, limits_, chosen) && (order_from(false) || order_from(true));
  }

  /// Order from what runs now, or (afresh) from what keeps somebody alive and runs now.
  [[nodiscard]] std::optional<std::vector<StartStep>> order_from(bool afresh) const {
    std::vector<bool> running(target_.consumers.size(), false), unit_on = target_.unit_on;
    if (afresh) unit_on.assign(unit_on.size(), false);
    for (std::size_t c = 0; c < target_.consumers.size(); ++c) {
      const Consumer& one = consumer(c);
      running[c] = target_.runs[c] && one.on && (!afresh || one.life() || one.forced);
      if (running[c] && one.unit >= 0) unit_on[at(one.unit)] = true;
    }
    std::vector<Start> starts = starts_of(running, unit_on);
    std::vector<StartStep> order;
    while (!starts.empty()) {
      const auto last = last_of(starts, running);
      if (last == starts.end()) return std::nullopt;
      order.push_back(last->step);
      starts.erase(last);
    }
    std::ranges::reverse(order);
    return order;
  }

  [[nodiscard]] std::vector<Start> starts_of(const std::vector<bool>& running, const std::vector<bool>& unit_on) const {
    std::vector<Start> starts;
    std::vector<bool> to_close(gear_.units.size(), false);
    for (std::size_t c = 0; c < target_.consumers.size(); ++c) {
      if (!target_.runs[c] || running[c]) continue;
      const Consumer& one = consumer(c);
      const bool closed = one.unit < 0 || unit_on[at(one.unit)];
      if (!closed) to_close[at(one.unit)] = true;
      if (closed || target_.apart[c]) starts.push_back({{one.unit, static_cast<int>(c)}, {one}, one.worth});
    }
    for (std::size_t u = 0; u < gear_.units.size(); ++u)
      if (to_close[u] || (!unit_on[u] && is_plain(static_cast<int>(u)))) starts.push_back(closing(static_cast<int>(u), running));
    return starts;
  }

  /// A planned unit on which nothing is wanted all the time: lights, or things on demand.
  [[nodiscard]] bool is_plain(int unit) const {
    if (!gear_.units[at(unit)].planned || !can_close(unit)) return false;
    return std::ranges::none_of(target_.consumers, [&](const Consumer& one) { return one.unit == unit && (one.wanted || one.forced || one.left_out); });
  }

  [[nodiscard]] Start closing(int unit, const std::vector<bool>& running) const {
    Start start{{unit, -1}, {}, 0};
    for (std::size_t c = 0; c < target_.consumers.size(); ++c) {
      if (!target_.runs[c] || running[c] || consumer(c).unit != unit) continue;
      start.worth = std::max(start.worth, consumer(c).worth);
      if (!target_.apart[c]) start.members.push_back(consumer(c));
    }
    return start;
  }

  /// The start that may come after all the others, least worth first: what may be last can always be put last.
  [[nodiscard]] std::vector<Start>::iterator last_of(std::vector<Start>& starts, const std::vector<bool>& running) const {
    auto best = starts.end();
    for (auto one = starts.begin(); one != starts.end(); ++one) {
      const auto key = [](const Start& start) { return std::pair(start.worth, total(started_together(start.members).starting)); };
      if (best != starts.end() && key(*best) <= key(*one)) continue;
      if (may_be_last(starts, *one, running)) best = one;
    }
    return best;
  }

  [[nodiscard]] bool may_be_last(const std::vector<Start>& starts, const Start& last, const std::vector<bool>& running) const {
    std::vector<StartLoad> on;
    for (std::size_t c = 0; c < running.size(); ++c)
      if (running[c]) on.push_back(consumer(c).draw);
    for (const Start& other : starts) {
      if (other.step == last.step) continue;
      if (last.step.consumer < 0 && other.step.unit == last.step.unit) return false;  // it needs its unit closed
      for (const Consumer& member : other.members) on.push_back(member.draw);
    }
    return may_start(limits_, on, started_together(last.members));
  }

  const OutageGear& gear_;
  const OutageNow& now_;
  PlanSource limits_;
  bool ways_;  ///< the source can be let into the panels behind it
  OutageTarget target_;
};

}  // namespace

bool is_on(const OutageGear& gear, const OutageNow& now, std::size_t unit) {
  return now.state.throws[gear.units[unit].handle] == gear.units[unit].on;
}

std::vector<Consumer> consumers_now(const OutageGear& gear, const OutageNow& now) {
  const Liveness live = liveness(gear.graph, now.state);
  const auto has_power = [&](std::size_t point) {
    if (state_by_record(gear.graph, live, point) != PointState::working) return false;
    const Node hot = gear.graph.point_hots[point][0];
    return hot != kNoNode && gear.graph.terminals[live.label[hot] - 1U].source == static_cast<int>(gear.source) + 1;
  };
  std::vector<Consumer> all;
  for (std::size_t l = 0; l < gear.loads.size(); ++l) {
    const OutageLoad& load = gear.loads[l];
    if (load.point >= gear.point_carried.size() || !gear.point_carried[load.point]) continue;
    const LoadStands stands = now.loads[l];
    const bool switched_on = !is_off(stands);
    Consumer one{.load = static_cast<int>(l), .unit = load.unit, .worth = load.worth, .draw = load.draw};
    const bool power = has_power(load.point), closed = load.unit >= 0 && is_on(gear, now, at(load.unit));
    one.on = switched_on && power;
    one.forced = stands == LoadStands::cannot_be_off;
    if (stands == LoadStands::off_for_a_while && !one.life()) one.worth = 1;  // it makes nobody switch off what it made room for
    // Where its unit is closed and it has no power all the same, something else is off: a GFCI, the position's own breaker.
    one.left_out = stands == LoadStands::left_out || (load.unit >= 0 && !closed && std::ranges::find(now.left_out, gear.units[at(load.unit)].handle) != now.left_out.end());
    one.dark = one.on && ((closed && now.is_dark(gear.units[at(load.unit)].handle)) || std::ranges::find(now.dark_loads, l) != now.dark_loads.end());
    one.wanted = one.on || (load.use == LoadUse::together && stands != LoadStands::off && stands != LoadStands::left_out && (!closed || power));
    const bool by_handle = load.by_handle && stands == LoadStands::off_for_a_while && !closed;  // it starts when that is moved back
    one.would_start = (switched_on || by_handle) && !one.on;
    all.push_back(one);
  }
  for (std::size_t g = 0; g < now.guests.size(); ++g) {
    const GuestThing& guest = now.guests[g];
    Consumer one{.guest = static_cast<int>(g), .unit = gear.point_unit[guest.point], .worth = kGuestWorth, .draw = {}};
    one.draw = draw_at(gear, guest.point, guest.running, guest.starting);
    one.on = one.wanted = has_power(guest.point);
    one.dark = one.on && one.unit >= 0 && now.is_dark(gear.units[at(one.unit)].handle);
    one.would_start = !one.on;
    all.push_back(one);
  }
  return all;
}

StartLoad started_together(const std::vector<Consumer>& consumers) {
  StartLoad sum;
  for (const Consumer& one : consumers) {
    for (std::size_t leg = 0; leg < kMostPoles; ++leg) sum.running[leg] += one.draw.running[leg], sum.starting[leg] += one.draw.starting[leg];
    sum.starts_itself = sum.starts_itself || one.draw.starts_itself;
  }
  return sum;
}

bool within_limits(const OutageGear& gear, const PlanSource& limits, const std::vector<Consumer>& on) {
  PerPole running{}, extra{};
  int extra_in_all = 0;
  std::vector<PerPole> on_unit(gear.units.size(), PerPole{});
  for (const Consumer& one : on) {
    int surge = 0;
    for (std::size_t leg = 0; leg < kMostPoles; ++leg) {
      running[leg] += one.draw.running[leg];
      if (one.unit >= 0) on_unit[at(one.unit)][leg] += one.draw.running[leg];
      if (!one.draw.starts_itself) continue;
      const int more = one.draw.starting[leg] - one.draw.running[leg];
      extra[leg] = std::max(extra[leg], more), surge += more;
    }
    extra_in_all = std::max(extra_in_all, surge);
  }
  for (std::size_t leg = 0; leg < at(limits.legs); ++leg)
    if (running[leg] > limits.leg_running[leg] || running[leg] + extra[leg] > limits.leg_starting[leg]) return false;
  if (total(running) > limits.running || total(running) + extra_in_all > limits.starting) return false;
  for (std::size_t u = 0; u < gear.units.size(); ++u)
    for (std::size_t leg = 0; leg < kMostPoles; ++leg) {
      const int most = gear.units[u].leg_watts[leg];
      if (most > 0 && on_unit[u][leg] > most) return false;
    }
  return true;
}

OutageTarget outage_target(const OutageGear& gear, const OutageNow& now, bool ways) { return TargetBuilder(gear, now, ways).build(); }

}  // namespace ohmstead
