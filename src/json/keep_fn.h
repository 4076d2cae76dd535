#pragma once
// How the sessions keep what was answered.

#include <functional>
#include <string>

#include "house/house.h"

namespace ohmstead {

/// Writes the house to where it is kept, or throws; `what` says what happened, for the history
/// ("Kitchen, receptacle 3 seen dead"). Called before the next step is shown.
using KeepFn = std::function<void(const std::string& what, const House& next)>;

}  // namespace ohmstead
