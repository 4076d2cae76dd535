#pragma once
// Tracing without a program, to compare with (common practice, no source). Neither way knows kinds
// or labels. Both leave the feeder of a subpanel alone: what it feeds is known.

#include "tests/trace/cost_meter.h"

namespace ohmstead::test {

/// One breaker off after another, each time one look at every point that has no breaker yet; a
/// dead one is given to the breaker that is off. One pass.
[[nodiscard]] Tally usual_way(const World& world, double error, const Manner& manner = {});

/// First a tour with everything on, in which what is dead is repaired if it can be; then the same as
/// above, but a dead reading is taken a second time, and a third time if the two differ; then a
/// second pass for what has no answer yet.
[[nodiscard]] Tally careful_way(const World& world, double error, const Manner& manner = {});

}  // namespace ohmstead::test
