#pragma once
// The way back to the utility: circuits one by one, what matters least first, so that a bad line is found out with
// a lamp; never two sources joined; the source last, after it has cooled down.

#include "backup/outage_step.h"
#include "backup/outage_target.h"

namespace ohmstead {

/// The next step home. Precondition: nothing must be put right, and the utility is back.
[[nodiscard]] OutageStep way_home_step(const OutageView& view);

}  // namespace ohmstead
