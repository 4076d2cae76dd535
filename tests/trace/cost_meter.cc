#include "tests/trace/cost_meter.h"

#include <algorithm>
#include <stdexcept>

namespace ohmstead::test {

void Tally::add(const Tally& other) {
  seconds += other.seconds, wrong += other.wrong, unresolved += other.unresolved, looks += other.looks, opened += other.opened;
  panel_visits += other.panel_visits, broken_rules += other.broken_rules;
  slowest_step_ms = std::max(slowest_step_ms, other.slowest_step_ms);
}

CostMeter::CostMeter(const World& world, const Manner& manner, const House& house)
    : world_(world), manner_(manner), at_(static_cast<std::size_t>(world.panel_room)) {
  for (std::size_t p = 0; p < house.points.size(); ++p) point_at_.emplace(house.points[p].id, p);
  for (std::size_t b = 0; b < house.breakers.size(); ++b) breaker_at_.emplace(house.breakers[b].id.value, b);
}

void CostMeter::take(const Step& step) {
  std::vector<std::size_t> breakers;
  if (step.kind == StepKind::open || step.kind == StepKind::close)
    for (const HandleRef& handle : step.handles) breakers.push_back(breaker_at_.at(handle.id));
  switch (step.kind) {
    case StepKind::open: return open(breakers);
    case StepKind::close: return close(breakers);
    case StepKind::look: return step.from_door ? look_from_door(point_at_.at(step.point)) : look(point_at_.at(step.point));
    case StepKind::put_lamp: return put_lamp(point_at_.at(step.point));
    case StepKind::take_lamp: return take_lamp(point_at_.at(step.point));
    case StepKind::ask_dead: return repair(point_at_.at(step.point)), look(point_at_.at(step.point));
    case StepKind::caution:
    case StepKind::done: return;
  }
}

void CostMeter::open(std::span<const std::size_t> breakers) {
  move_handles(breakers);
  tally.seconds += kNuisanceCost * static_cast<double>(breakers.size());
  tally.opened += static_cast<int>(breakers.size());
  for (const std::size_t b : breakers) off_[b] = {tally.seconds, false};
  hold_against_rules();
}

void CostMeter::close(std::span<const std::size_t> breakers) {
  move_handles(breakers);
  hold_against_rules();
  for (const std::size_t b : breakers) off_.erase(b);
}

void CostMeter::move_handles(std::span<const std::size_t> breakers) {
  for (const std::size_t b : breakers) {
    if (manner_.helper) {
      tally.seconds += kTalkCost + kHandleCost;
      continue;
    }
    const auto panel = static_cast<std::size_t>(panel_room_of(world_, static_cast<int>(b)));
    if (!at_panel_ || at_ != panel) ++tally.panel_visits;
    walk_to(panel);
    at_panel_ = true;
    tally.seconds += kHandleCost;
  }
}

/// Each breaker breaks a rule at most once while it is off.
void CostMeter::hold_against_rules() {
  for (auto& [b, off] : off_) {
    if (!world_.breakers[b].only_alone || off.broke_a_rule) continue;
    off.broke_a_rule = off_.size() > 1 || tally.seconds - off.since > kAloneLimit;
    tally.broken_rules += off.broke_a_rule ? 1 : 0;
  }
}

void CostMeter::walk_to(std::size_t room) {
  tally.seconds += world_.walk_s[at_][room];
  at_ = room;
  in_room_ = at_panel_ = false;
  standing_at_.reset();
}

void CostMeter::go_into(std::size_t room) {
  if (in_room_ && at_ == room) return;
  walk_to(room);
  tally.seconds += kEnterCost;
  in_room_ = true;
}

void CostMeter::look(std::size_t point) {
  go_into(room_of(point));
  ++tally.looks;
  tally.seconds += manner_.helper && standing_at_ == point ? kSamePointCost : world_.points[point].check_s;
  standing_at_ = point;
}

void CostMeter::repair(std::size_t point) {
  go_into(room_of(point));
  tally.seconds += kRepairCost;
}

void CostMeter::put_lamp(std::size_t point) {
  if (static_cast<int>(lamps_in_.size()) >= manner_.lamps) throw std::logic_error("no lamp is left to put in");
  go_into(room_of(point));
  tally.seconds += kLampCost;
  lamps_in_.insert(point);
}

void CostMeter::take_lamp(std::size_t point) {
  go_into(room_of(point));
  tally.seconds += kLampCost;
  lamps_in_.erase(point);
}

void CostMeter::look_from_door(std::size_t point) {
  if (!lamps_in_.contains(point)) throw std::logic_error("there is no lamp to be seen from the door");
  if (at_ != room_of(point) || at_panel_) walk_to(room_of(point));
  ++tally.looks;
  tally.seconds += kLampFromDoorCost;
}

}  // namespace ohmstead::test
