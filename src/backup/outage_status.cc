#include "backup/outage_status.h"

#include <algorithm>
#include <map>
#include <numeric>

#include "backup/food_times.h"

#include "house/moment.h"

namespace ohmstead {

namespace {

/// Watts are said in steps of this: figures are no better.
constexpr int kWattStep = 50;

std::size_t at(int place) { return static_cast<std::size_t>(place); }

class StatusMaker {
 public:
  StatusMaker(const OutageView& view, const std::string& time) : view_(view), gear_(view.gear), now_(view.now), time_(time) {
    status_.at = time;
    status_.phase = now_.phase;
    status_.running = now_.running;
    status_.minutes = seconds_between(now_.began, time) / 60;
    status_.limits = limits_now(gear_, now_);
    consumers_ = consumers_now(gear_, now_);
  }

  OutageStatus make() {
    add_consumers();
    add_without_power();
    if (now_.running) add_left();
    const Source& source = view_.house.sources[gear_.source];
    const std::array<LoadTime, 1> steady{LoadTime{status_.drawn_in_all, 1}};
    if (now_.running) status_.tank_hours = hours_on_tank(source, steady);
    status_.fuel = fuel_left(view_, time_);
    return std::move(status_);
  }

 private:
  void add_consumers() {
    for (const Consumer& one : consumers_) {
      if (one.on) {
        for (std::size_t leg = 0; leg < kMostPoles; ++leg) status_.drawn[leg] += one.draw.running[leg];
        counted_.push_back(one);
        (one.dark ? status_.dark : status_.on).push_back(one);
      } else if (one.left_out) {
        continue;
      } else if (one.wanted && (one.unit < 0 || gear_.units[at(one.unit)].planned)) {
        status_.waiting.push_back(one);
      }
    }
    status_.drawn_in_all = std::accumulate(status_.drawn.begin(), status_.drawn.end(), 0);
    const auto worth = [](const Consumer& one) { return -one.worth; };
    std::ranges::stable_sort(status_.on, {}, worth);
    std::ranges::stable_sort(status_.waiting, {}, worth);
  }

  /// Has each load power, from any source, and is not switched off?
  [[nodiscard]] std::vector<bool> powered(const OutageNow& then) const {
    const Liveness live = liveness(gear_.graph, then.state);
    std::vector<bool> has;
    for (std::size_t l = 0; l < gear_.loads.size(); ++l) {
      const int unit = gear_.loads[l].unit;
      const bool dark = (unit >= 0 && then.is_dark(gear_.units[at(unit)].handle)) || std::ranges::find(then.dark_loads, l) != then.dark_loads.end();
      has.push_back(!dark && !is_off(then.loads[l]) && state_by_record(gear_.graph, live, gear_.loads[l].point) == PointState::working);
    }
    return has;
  }

  void add_without_power() {
    const auto lines = outage_lines(view_.house);
    std::vector<std::string> since(gear_.loads.size());
    std::vector<bool> had(gear_.loads.size(), true), has = had;
    for (std::size_t k = 1; k <= lines.size(); ++k) {
      if (view_.house.outage_events[lines[k - 1]].withdrawn) continue;
      has = powered(outage_now(view_.house, gear_, k));
      for (std::size_t l = 0; l < has.size(); ++l)
        if (had[l] && !has[l]) since[l] = view_.house.outage_events[lines[k - 1]].at;
      had = has;
    }
    for (std::size_t l = 0; l < has.size() && now_.phase != OutagePhase::none; ++l) {
      const Load& load = view_.house.loads[l];
      if (has[l]) continue;
      if (is_left_out(l)) status_.left_out.push_back({l, since[l], seconds_between(since[l], time_) / 60, longest_off_min(load).value_or(0)});
      if (gear_.loads[l].use == LoadUse::not_wanted) continue;
      if (gear_.loads[l].unit < 0 && gear_.loads[l].use == LoadUse::together) status_.not_carried.push_back(l);
      if (load.importance == Importance::life_safety) status_.life_without_power.push_back(l);
      const auto longest = longest_off_min(load);
      if (longest && *longest > 0) status_.off_loads.push_back({l, since[l], seconds_between(since[l], time_) / 60, *longest});
    }
    std::ranges::stable_sort(status_.off_loads, {}, [](const OffLoad& off) { return off.left(); });
  }

  [[nodiscard]] bool is_left_out(std::size_t load) const {
    return std::ranges::any_of(consumers_, [&](const Consumer& one) { return one.load == static_cast<int>(load) && one.left_out; });
  }

  /// What may still be switched on, on each leg, by the source as a whole.
  [[nodiscard]] PerPole left_on_legs() const {
    PerPole extra{}, left{};
    int extra_in_all = 0;
    for (const Consumer& one : counted_) {
      if (!one.draw.starts_itself) continue;
      int surge = 0;
      for (std::size_t leg = 0; leg < kMostPoles; ++leg) {
        const int more = one.draw.starting[leg] - one.draw.running[leg];
        extra[leg] = std::max(extra[leg], more), surge += more;
      }
      extra_in_all = std::max(extra_in_all, surge);
    }
    const PlanSource& most = status_.limits;
    const int in_all = std::min(most.running, most.starting - extra_in_all) - status_.drawn_in_all;
    for (std::size_t leg = 0; leg < at(most.legs); ++leg)
      left[leg] = std::min(in_all, std::min(most.leg_running[leg], most.leg_starting[leg] - extra[leg]) - status_.drawn[leg]);
    return left;
  }

  /// Of a unit's own breaker.
  [[nodiscard]] int left_on_unit(int unit, std::size_t leg) const {
    if (unit < 0 || gear_.units[at(unit)].leg_watts[leg] == 0) return status_.limits.running;
    int left = gear_.units[at(unit)].leg_watts[leg];
    for (const Consumer& one : counted_)
      if (one.unit == unit) left -= one.draw.running[leg];
    return left;
  }

  void add_left() {
    const PerPole legs = left_on_legs();
    const Liveness live = liveness(gear_.graph, now_.state);
    std::map<int, std::vector<std::size_t>, std::greater<>> by_watts;
    for (std::size_t p = 0; p < gear_.point_carried.size(); ++p) {
      const PointKind kind = view_.house.points[p].kind;
      if (kind != PointKind::receptacle || state_by_record(gear_.graph, live, p) != PointState::working) continue;
      const Terminal& terminal = gear_.graph.terminals[live.label[gear_.graph.point_hots[p][0]] - 1U];
      if (terminal.source != static_cast<int>(gear_.source) + 1) continue;
      const auto leg = at(std::clamp(terminal.leg, 1, status_.limits.legs) - 1);
      const int watts = std::max(0, std::min(legs[leg], left_on_unit(gear_.point_unit[p], leg)));
      by_watts[watts / kWattStep * kWattStep].push_back(p);
    }
    for (const auto& [watts, points] : by_watts) status_.left.push_back({watts, points});
  }

  const OutageView& view_;
  const OutageGear& gear_;
  const OutageNow& now_;
  std::string time_;
  OutageStatus status_;
  std::vector<Consumer> consumers_;
  std::vector<Consumer> counted_;  ///< those on, and those that can come on at any time
};

}  // namespace

OutageStatus outage_status(const OutageView& view, const std::string& at) { return StatusMaker(view, at).make(); }

}  // namespace ohmstead
