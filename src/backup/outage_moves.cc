#include "backup/outage_advice.h"

namespace ohmstead {

namespace {

/// The panel or transfer device that a handle is in.
std::uint64_t owner_of(const House& house, const HandleRef& ref) {
  if (ref.kind == HandleKind::breaker)
    for (const Breaker& breaker : house.breakers)
      if (breaker.id.value == ref.id) return breaker.panel.value;
  if (ref.kind == HandleKind::position || ref.kind == HandleKind::position_breaker)
    for (const Position& position : house.positions)
      if (position.id.value == ref.id) return position.device.value;
  return ref.id;
}

}  // namespace

OutageStep move_step(const OutageView& view, OutageReason reason, const std::vector<std::uint32_t>& groups, Throw to) {
  OutageStep step{.kind = OutageStepKind::move, .reason = reason, .to = to};
  std::uint64_t owner = 0;
  for (const std::uint32_t group : groups) {
    const HandleRef ref = view.gear.graph.handles[group].ref;
    const std::uint64_t its = owner_of(view.house, ref);
    if (step.handles.empty()) owner = its;
    if (its == owner) step.handles.push_back(ref);
  }
  return step;
}

}  // namespace ohmstead
