#include "backup/rotation.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <numeric>
#include <string>

#include "backup/food_times.h"
#include "backup/rotation_search.h"
#include "backup/typical_loads.h"
#include "house/error.h"

namespace ohmstead {

namespace {

using rotation_detail::Need;
using rotation_detail::Search;

using Set = std::uint32_t;

/// How long what has no published time is usually left off. Common practice, no source.
constexpr std::pair<std::string_view, int> kHabits[] = {{"furnace", 120},   {"boiler", 120},        {"boiler circulator", 120}, {"air handler", 120}, {"heat pump", 120},
                                                        {"heater", 120},    {"well pump", 240},     {"room air conditioner", 240}, {"air conditioner", 240},
                                                        {"dehumidifier", 480}, {"water heater", 720}};

constexpr RotationTime kUsualTimes[] = {{120, 15}, {120, 30}, {180, 15}, {180, 30}, {240, 15}, {240, 30}, {360, 30}, {480, 30}};

constexpr bool in(Set set, std::size_t load) { return ((set >> load) & 1U) != 0; }

int total(const PerPole& legs) { return std::accumulate(legs.begin(), legs.end(), 0); }

void check(const std::vector<RotationLoad>& loads, RotationTime time) {
  const auto refuse = [](const std::string& why) { throw Error(ErrorKind::invalid_input, why); };
  if (time.slot_min <= 0 || time.cycle_min <= 0 || time.cycle_min % time.slot_min != 0 || time.cycle_min / time.slot_min > kMostRotationSlots)
    refuse("A rotation's cycle is 1 to " + std::to_string(kMostRotationSlots) + " equal slots; choose a slot that divides it.");
  if (loads.size() > kMostRotationLoads)
    refuse("At most " + std::to_string(kMostRotationLoads) + " loads take turns; leave some on or off all the time.");
  for (const RotationLoad& load : loads)
    if (load.share_percent < 0 || load.share_percent > 100 || load.longest_off_min < 0)
      refuse("A load of a rotation is on 0 to 100 % of the time and off for 0 minutes or more; correct its duty.");
}

class Rotating {
 public:
  Rotating(const PlanSource& source, const std::vector<RotationLoad>& loads, RotationTime time) : source_(source), loads_(loads) {
    made_.time = time;
    sort_hardest_first();
  }

  Rotation make(std::uint64_t most_nodes) {
    for (std::size_t i = 0; i < loads_.size(); ++i)
      if (!may_be_on(Set{1} << i)) made_.never_fits.push_back(i);
    if (!made_.never_fits.empty()) return made_;
    Search search(allowed_sets(), needs(), slots(), most_nodes);
    const auto masks = search.best();
    made_.nodes = search.nodes();
    made_.end = search.stopped() ? RotationEnd::stopped : masks ? RotationEnd::found : RotationEnd::impossible;
    if (masks) keep(*masks);
    return made_;
  }

 private:
  int slots() const { return made_.time.cycle_min / made_.time.slot_min; }

  Need need_of(std::size_t load) const {
    const RotationLoad& wanted = loads_[load];
    static_assert(kMostPoles == 3 && rotation_detail::kMeasures == 5);
    const int parts = wanted.share_percent * slots();
    return {std::max(1, (parts + 99) / 100), wanted.longest_off_min / made_.time.slot_min,
            {wanted.draw.running[0], wanted.draw.running[1], wanted.draw.running[2], total(wanted.draw.running), 1}};
  }

  /// What may be off for the shortest time stands first in the search, then what needs the most watts times slots.
  void sort_hardest_first() {
    by_hardness_.resize(loads_.size());
    std::iota(by_hardness_.begin(), by_hardness_.end(), std::size_t{0});
    const auto hardness = [&](std::size_t i) { return std::pair{-need_of(i).longest_off, need_of(i).slots * static_cast<long long>(total(loads_[i].draw.running))}; };
    std::ranges::stable_sort(by_hardness_, [&](std::size_t a, std::size_t b) { return hardness(a) > hardness(b); });
  }

  std::vector<Need> needs() const {
    std::vector<Need> made;
    for (const std::size_t i : by_hardness_) made.push_back(need_of(i));
    return made;
  }

  std::vector<StartLoad> draws(Set set) const {
    std::vector<StartLoad> made;
    for (std::size_t i = 0; i < loads_.size(); ++i)
      if (in(set, i)) made.push_back(loads_[i].draw);
    return made;
  }

  bool may_be_on(Set set) const { return start_order(source_, draws(set)).has_value(); }

  /// In the order of the search.
  std::vector<bool> allowed_sets() const {
    std::vector<bool> allowed(std::size_t{1} << loads_.size());
    for (std::size_t code = 0; code < allowed.size(); ++code) {
      bool smaller = true;  // of an allowed set every smaller one is allowed
      Set set = 0;
      for (std::size_t k = 0; k < by_hardness_.size(); ++k)
        if ((code >> k) & 1U) set |= Set{1} << by_hardness_[k], smaller = smaller && allowed[code & ~(std::size_t{1} << k)];
      allowed[code] = smaller && may_be_on(set);
    }
    return allowed;
  }

  Set on_in(int slot) const {
    Set set = 0;
    for (std::size_t i = 0; i < made_.on.size(); ++i)
      if ((made_.on[i] >> slot) & 1U) set |= Set{1} << i;
    return set;
  }

  void keep(const std::vector<std::uint32_t>& masks) {
    made_.on.resize(loads_.size());
    for (std::size_t k = 0; k < masks.size(); ++k) {
      made_.on[by_hardness_[k]] = masks[k];
      made_.switchings += rotation_detail::blocks_of(masks[k], slots());
    }
    made_.begin = step(0, on_in(0), 0).on;
    for (int slot = 0; slot < slots(); ++slot) {
      const Set before = on_in((slot + slots() - 1) % slots()), now = on_in(slot);
      if (before != now) made_.steps.push_back(step(before, now, slot * made_.time.slot_min));
    }
  }

  /// From `before` to `now`: as few as possible of those that stay on are stopped for a moment.
  RotationStep step(Set before, Set now, int at_min) const {
    const Set both = before & now;
    for (int stopped = 0; stopped <= std::popcount(both); ++stopped)
      for (Set kept = both;; kept = (kept - 1) & both) {
        if (std::popcount(both & ~kept) == stopped)
          if (const auto order = start_order(source_, draws(now & ~kept), draws(kept))) return {at_min, places(before & ~kept), named(now & ~kept, *order)};
        if (kept == 0) break;
      }
    throw Error(ErrorKind::invalid_input, "A slot of the rotation cannot be started.");  // cannot be: each slot's set starts from nothing
  }

  std::vector<std::size_t> places(Set set) const {
    std::vector<std::size_t> made;
    for (std::size_t i = 0; i < loads_.size(); ++i)
      if (in(set, i)) made.push_back(i);
    return made;
  }

  std::vector<std::size_t> named(Set set, const std::vector<std::size_t>& order) const {
    const std::vector<std::size_t> all = places(set);
    std::vector<std::size_t> made;
    for (const std::size_t place : order) made.push_back(all[place]);
    return made;
  }

  const PlanSource& source_;
  const std::vector<RotationLoad>& loads_;
  std::vector<std::size_t> by_hardness_;
  Rotation made_;
};

}  // namespace

RotationNeed rotation_need(const Load& load) {
  RotationNeed need{.share_percent = duty_percent(load)};
  if (const auto published = longest_off_min(load)) {
    need.longest_off_min = *published;
    return need;
  }
  need.assumed = true;
  const TypicalMatch match = find_typical_load(load.name);
  for (const auto& [name, minutes] : kHabits)
    if (match.row != nullptr && match.row->name == name) need.longest_off_min = minutes;
  return need;
}

std::span<const RotationTime> usual_rotation_times() { return kUsualTimes; }

Rotation rotation(const PlanSource& source, const std::vector<RotationLoad>& loads, RotationTime time, std::uint64_t most_nodes) {
  check(loads, time);
  return Rotating(source, loads, time).make(most_nodes);
}

Rotation best_rotation(const PlanSource& source, const std::vector<RotationLoad>& loads, std::span<const RotationTime> times) {
  // A timetable is worth more than none; to have been cut off says less than 'impossible' and must not be hidden by it.
  const auto worth_more = [](const Rotation& a, const Rotation& b) {
    if (a.on.empty() || b.on.empty()) return !a.on.empty() || (b.on.empty() && b.end == RotationEnd::impossible && a.end == RotationEnd::stopped);
    return a.switchings * b.time.cycle_min < b.switchings * a.time.cycle_min;
  };
  std::optional<Rotation> best;
  for (const RotationTime time : times) {
    Rotation next = rotation(source, loads, time);
    if (!best || worth_more(next, *best)) best = std::move(next);
  }
  return best.value_or(Rotation{});
}

std::vector<LoadTime> rotation_times(const Rotation& rotation, const std::vector<RotationLoad>& loads) {
  if (rotation.on.empty()) return {};
  const int slots = rotation.time.cycle_min / rotation.time.slot_min;
  std::vector<LoadTime> times(static_cast<std::size_t>(slots), LoadTime{0, rotation.time.slot_min / 60.0});
  for (std::size_t i = 0; i < rotation.on.size(); ++i) {
    const double on_percent = 100.0 * std::popcount(rotation.on[i]) / slots;
    const double share = std::min(1.0, loads[i].share_percent / on_percent);
    for (std::size_t k = 0; k < times.size(); ++k)
      if ((rotation.on[i] >> k) & 1U) times[k].watts += static_cast<int>(std::lround(total(loads[i].draw.running) * share));
  }
  return times;
}

}  // namespace ohmstead
