#pragma once
// How much of the tank or the battery is left in an outage, by what was drawn since it was full, and when it will be empty.

#include <optional>
#include <string>

#include "backup/fuel.h"
#include "backup/outage_target.h"

namespace ohmstead {

/// An engine is to be refuelled when it has so long left at least. Common practice, no source: time enough to fetch fuel, and to go
/// through the steps, before it stops by itself with everything on.
inline constexpr double kRefuelSoonHours = 1, kRefuelNowHours = 0.5;
/// While it stands still it is to be filled from this share on.
inline constexpr double kWorthFilling = 0.5;

struct FuelLeft {
  Range share;        ///< of a full tank or battery, 0..1
  Range hours;        ///< from now, if what is drawn now goes on; both 0 while the source stands still
  std::string full_at;  ///< UTC: it was said then that it is full; empty: it counts as full when the outage began
};

/// At `at`, UTC. Nothing where hours_on_tank (fuel.h) knows nothing: at a steady load both say the same.
[[nodiscard]] std::optional<FuelLeft> fuel_left(const OutageView& view, const std::string& at);

/// Watts that are drawn from the source as things stand.
[[nodiscard]] int drawn_watts(const OutageGear& gear, const OutageNow& now);

}  // namespace ohmstead
