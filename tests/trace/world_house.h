#pragma once
// From an invented house to the house that a tracing session works on, and its truth.

#include "tests/trace/simulated_house.h"
#include "tests/trace/world.h"

namespace ohmstead::test {

/// The house as somebody has written it down before tracing: panels with their feeders, breakers
/// with rating and old label, rooms with walking times (whole seconds), points by kind; and what
/// is really so. Breakers and points have the places that they have in the world.
[[nodiscard]] HouseMaker house_of(const World& world);

}  // namespace ohmstead::test
