#pragma once
// What may never be advised: breaking an interlock, joining two sources, passing a limit.

#include "backup/outage_target.h"

namespace ohmstead {

/// Faults of a state that an ordinary day does not have: interlocks broken, and sources joined, each source taken as
/// live, for a dead line can come back at any time and a generator joined to it feeds it.
[[nodiscard]] std::size_t outage_faults(const OutageGear& gear, const State& state);

/// Can the source be let into the panels behind it, after what must be off first is off?
[[nodiscard]] bool can_let_in(const OutageGear& gear, const OutageNow& now);

/// What comes on if things stood as `next`; those that are on now and stay on are left out.
[[nodiscard]] std::vector<Consumer> comes_on(const OutageGear& gear, const OutageNow& now, const OutageNow& next);

/// May the source start all that comes on at once, with what runs now?
[[nodiscard]] bool carries_start(const OutageGear& gear, const OutageNow& now, const OutageNow& next);

/// The same things after these moves.
[[nodiscard]] OutageNow after_move(const OutageGear& gear, OutageNow now, std::uint32_t group, Throw to);

}  // namespace ohmstead
