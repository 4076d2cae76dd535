#pragma once
// The house as questions are answered from it: with the points behind its devices where looks have
// found them. The record itself is not changed; a look that is taken back takes its finding with it.

#include <vector>

#include "trace/behind.h"

namespace ohmstead {

/// A point found behind a device, or found not behind the one it was said to be behind.
struct FoundBehind {
  Id<Device> device;
  std::size_t point = 0;  ///< place in house.points
  bool is_behind = true;
  /// The house as found has it so. False where the record and other findings leave no place for it
  /// (behind two devices of which neither is behind the other; more hots than the device has poles).
  bool taken_up = true;
  bool operator==(const FoundBehind&) const = default;
};

struct HouseAsFound {
  House house;                      ///< sound if the one given was
  std::vector<FoundBehind> found;   ///< in the order of the devices, then of the points
};

/// Takes up what looks have proved (BehindStanding::behind) and refuted (not_behind). Looks outrank
/// words. Of two devices that take down the same point the one that takes down more stands nearer
/// to the breaker; of two that take down the same points, a GFCI. Where a point was declared to be on
/// a breaker and is behind a device now, the device is.
[[nodiscard]] HouseAsFound house_as_found(House house);

}  // namespace ohmstead
