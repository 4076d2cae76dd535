#pragma once
// What the outage board never puts on the source, and how far the wiring of the transfer device was proved.

#include "backup/outage_gear.h"

namespace ohmstead {

/// A unit whose circuits share a neutral, with a source whose legs are in phase or that has one: the shared neutral would
/// carry the sum of both (the plan leaves such circuits out, too).
void bar_shared_neutrals(const House& house, OutageGear& gear);

/// Sets gear.wiring; bars what proving found wrong: the unit, or all positions where the source reaches the panel.
void bar_by_proof(const House& house, const Feeds& feeds, OutageGear& gear);

}  // namespace ohmstead
