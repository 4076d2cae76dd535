#pragma once
// After an overload: what stays off, so that it does not happen again.

#include "backup/outage_now.h"

namespace ohmstead {

/// Puts into an overload line what is to stay off: what was switched on right before it, else what matters least of
/// all that was on. Never what keeps somebody alive; nothing if nothing else was on.
void blame(const OutageView& view, OutageEvent& overload);

}  // namespace ohmstead
