#pragma once
// What families must know in an outage: how long food keeps, where a generator stands, water, pumps, medical devices.
// Each fact is one sentence with who says so, for screen and paper alike. What is from memory says that too.

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "house/point.h"

namespace ohmstead {

enum class Fact {
  // food
  refrigerator_shut, freezer_full, freezer_half, cold_enough, throw_out, refreeze, dry_ice, never_taste,
  // generator
  placement, never_inside, windows_shut, carbon_monoxide_alarms, no_backfeed, refuel_cold, largest_first, loads_off_first,
  // water and waste water
  drinking_water, well_pump, sump_pump, septic_reserve, septic_return, pump_chamber,
  // people
  medical_plan, oxygen, insulin, pipes,
};

enum class FactStatus {
  text,             ///< the publisher's own text was read
  secondary,        ///< restated elsewhere, and that was read
  from_memory,
  common_practice,  ///< a habit without a source
};

struct OutageFact {
  Fact fact = Fact::refrigerator_shut;
  std::string_view sentence;
  std::string_view source;  ///< who says so; empty with common_practice
  FactStatus status = FactStatus::text;
};

[[nodiscard]] std::span<const OutageFact> outage_facts();
[[nodiscard]] const OutageFact& outage_fact(Fact fact);

/// The sentence with its citation, as screen and paper show it: "... (US Department of Agriculture, FSIS)", "... (from memory: ...)".
[[nodiscard]] std::string cited(Fact fact);

// The numbers of the sentences above that programs reckon with.
inline constexpr int kRefrigeratorShutHours = 4;
inline constexpr int kFullFreezerHours = 48;
inline constexpr int kHalfFreezerHours = 24;
inline constexpr int kGeneratorFeet = 20;
inline constexpr int kSepticReserveHours = 24;

/// Longest time in minutes that a load may be without power: as entered; else by what it is: a refrigerator 4 hours, a freezer as if
/// half full, a sewage pump its tank's reserve, a life-safety load never (0). Nothing where nobody says.
[[nodiscard]] std::optional<int> longest_off_min(const Load& load);

}  // namespace ohmstead
