#pragma once
// What a load takes from a source: running and starting, as a range with its source. Published starting
// watts of one appliance differ by two to four times, so a table gives a range and never a point.

#include <string>
#include <string_view>

#include "house/house.h"

namespace ohmstead {

/// Watts from the least to the most that is to be reckoned with.
struct WattRange {
  int low = 0, high = 0;
  bool operator==(const WattRange&) const = default;
};

struct LoadFigures {
  WattRange running, starting;   ///< starting is never below running
  double power_factor = 1;       ///< 0 < pf <= 1; 1 where it is not known
  FigureBasis running_basis = FigureBasis::guess, starting_basis = FigureBasis::guess;
  std::string running_source, starting_source;  ///< "nameplate", "measured", or who published it; "common practice, no source"
  bool motor = false;            ///< it starts with more than it runs with
  bool known = false;            ///< false: nothing is known of it, and it counts as nothing
  bool operator==(const LoadFigures&) const = default;
};

/// Figures of a load. Running: watts that were measured or read from the nameplate; else the nameplate's full-load amperes; else watts
/// that somebody guessed; else the horsepower by the table of motors; else the table of typical loads (typical_loads.h) by its name.
/// Starting: watts as entered; else by horsepower and code letter; else the usual letter of a motor of that size; else as many times the
/// running watts as in the table of typical loads, or three to five times for a motor that is not in it; else the running watts.
/// Watts that the survey filled in (basis table) count only where the table of typical loads has no such name.
[[nodiscard]] LoadFigures figures_of(const House& house, const Load& load);

/// The same for a thing that is in no record: a guest's "hair dryer". Not known if the table has no such name.
[[nodiscard]] LoadFigures typical_figures(std::string_view name);

/// What a plan counts: the most of the range, in voltamperes where the power factor is known. Starting figures of motors are
/// voltamperes as they are published and are not divided by the power factor; they count at least as much as running.
[[nodiscard]] int planned_running(const LoadFigures& figures);
[[nodiscard]] int planned_starting(const LoadFigures& figures);

/// Is the load wanted in an outage, and how? `together` or `on_demand`, or `not_wanted`. Smoke
/// and CO alarms have a battery of their own for outages (common practice, no source): they are wanted only if somebody says so.
[[nodiscard]] LoadUse wanted_use(const Load& load);
/// Does it start by itself (as entered, or as its kind does: refrigerator, freezer, pump, furnace)?
[[nodiscard]] bool starts_itself(const Load& load);
/// Share of the time it runs, percent: as entered, else of its kind, else 100.
[[nodiscard]] int duty_percent(const Load& load);

}  // namespace ohmstead
