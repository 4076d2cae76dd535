#pragma once
// The belief of trace/behind.h: some cases of how the house may be wired, and for each how likely a
// point is taken down by the handle. Within one case the points are independent; across the cases a
// look at one point tells about the others. The sum over the cases is exact.

#include <span>
#include <vector>

#include "trace/behind.h"

namespace ohmstead {

/// One way the house may be wired.
struct BehindCase {
  double weight = 0;          ///< prior, in any scale
  std::vector<double> takes;  ///< of the points: chance that the handle takes it down, 0..1
};

/// Looks at one point with the handle open.
struct BehindLooks {
  int dead = 0, live = 0;
};

/// For each point the belief that the handle takes it down. One reading is wrong with the chance
/// kReadingError. Precondition: at least one case, none of which has a weight of 0.
[[nodiscard]] std::vector<double> behind_beliefs(std::span<const BehindCase> cases, std::span<const BehindLooks> looks);

/// The cases of a handle: on which breaker it stands, how far it reaches, what it takes along.
/// Domain experience without a source; it decides what is asked first and how many looks a proof
/// takes. Empty for a handle that is not in the house.
[[nodiscard]] std::vector<BehindCase> behind_cases(const BehindGround& ground, const HandleRef& handle);

}  // namespace ohmstead
