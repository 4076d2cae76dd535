#pragma once
// The next step of an outage, from where things stand.

#include "backup/outage_step.h"
#include "backup/outage_target.h"

namespace ohmstead {

/// What to do now. Every move it names keeps every interlock, joins no two sources (also if a dead one came back) and
/// passes no limit, or takes such a fault away. Following it always comes to a step that is_settled, or to the end.
[[nodiscard]] OutageStep next_outage_step(const OutageView& view);

/// One list of handles for one step: of one panel or transfer device, in the order in which they are given.
[[nodiscard]] OutageStep move_step(const OutageView& view, OutageReason reason, const std::vector<std::uint32_t>& groups, Throw to);

}  // namespace ohmstead
