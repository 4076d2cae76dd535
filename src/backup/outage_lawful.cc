#include "backup/outage_lawful.h"

#include <algorithm>

#include "feed/what_if.h"

namespace ohmstead {

std::size_t outage_faults(const OutageGear& gear, const State& state) {
  State all_live = state;
  all_live.live_legs.assign(all_live.live_legs.size(), 0xFF);
  std::size_t faults = broken_interlocks(gear.graph, state).size();
  for (const auto& pair : liveness(gear.graph, all_live).joined)
    if (std::ranges::find(gear.joined_anyway, pair) == gear.joined_anyway.end()) ++faults;
  return faults;
}

bool can_let_in(const OutageGear& gear, const OutageNow& now) {
  if (gear.ways.empty()) return false;
  State state = now.state;
  for (const auto* moves : {&gear.off_first, &gear.ways})
    for (const Move& move : *moves) {
      if (now.is_stuck(move.handle) && state.throws[move.handle] != move.to) return false;
      move_handle(gear.graph, state, move.handle, move.to);
    }
  return outage_faults(gear, state) == 0;
}

OutageNow after_move(const OutageGear& gear, OutageNow now, std::uint32_t group, Throw to) {
  move_handle(gear.graph, now.state, group, to);
  return now;
}

std::vector<Consumer> comes_on(const OutageGear& gear, const OutageNow& now, const OutageNow& next) {
  const std::vector<Consumer> before = consumers_now(gear, now), after = consumers_now(gear, next);
  std::vector<Consumer> more;
  for (const Consumer& one : after) {
    const auto was = std::ranges::find_if(before, [&](const Consumer& other) { return other.load == one.load && other.guest == one.guest; });
    if (one.on && (was == before.end() || !was->on)) more.push_back(one);
  }
  return more;
}

bool carries_start(const OutageGear& gear, const OutageNow& now, const OutageNow& next) {
  const std::vector<Consumer> more = comes_on(gear, now, next);
  std::vector<StartLoad> on;
  for (const Consumer& one : consumers_now(gear, now))
    if (one.on) on.push_back(one.draw);
  std::vector<Consumer> all;
  for (const Consumer& one : consumers_now(gear, next))
    if (one.on) all.push_back(one);
  const PlanSource limits = limits_now(gear, now);
  return more.empty() || (may_start(limits, on, started_together(more)) && within_limits(gear, limits, all));
}

}  // namespace ohmstead
