#pragma once
// A small sound house that the tests of src/house break in one place at a time.

#include "house/house.h"

namespace ohmstead {

// Places in its tables.
inline constexpr std::size_t kMain = 0, kSub = 1;                                  ///< panels
inline constexpr std::size_t kOnePole = 0, kNeighbour = 1, kFeeder = 2, kInlet = 3,  ///< breakers: 1, 3, 2-4, 6-8,
    kTandemA = 4, kTandemB = 5, kSubOne = 6;                                       ///< 10a, 10b, and 1 of the subpanel

/// Two panels (a 2-pole feeder between them), a tied multiwire pair, a tandem, an interlocked backfed
/// breaker, a transfer device with a tied pair and a single position, a GFCI receptacle with one
/// receptacle downstream, a 3-way light, a split receptacle and a 240 V pump.
[[nodiscard]] House example_house();

}  // namespace ohmstead
