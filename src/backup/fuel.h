#pragma once
// Fuel: how much an hour at a load, how long a tank or a battery lasts, how much for three days. Everything is a range: from
// its lower to its upper end where the set's own figures are not entered. Method and sources: docs/backup.md.

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "house/house.h"

namespace ohmstead {

/// Liters, or hours, from the least to the most that is to be reckoned with. Piped gas: liters of gas.
struct Range {
  double low = 0, high = 0;
};

inline constexpr double kLitersPerGallon = 3.785411784;      ///< US gallon, by definition
inline constexpr double kLitersPerCubicFoot = 28.316846592;  ///< by definition
inline constexpr int kOutageHours = 72;                      ///< three days

/// Heat in a fuel (higher heating value), with the year of the figure: the agency changes it yearly.
struct HeatContent {
  Fuel fuel = Fuel::not_known;
  int btu = 0;                ///< in a US gallon, or in a cubic foot of piped gas
  int year = 0;
  double kwh_per_liter = 0;   ///< at 3412 Btu per kWh
};
/// US Energy Information Administration. Nothing for a fuel that is not known.
[[nodiscard]] std::optional<HeatContent> heat_content(Fuel fuel);

/// Share of a fuel's heat that comes out as electricity, 0..1. Nothing if the fuel is not known or either number is not above 0.
[[nodiscard]] std::optional<double> efficiency(Fuel fuel, double liters, double kwh);

struct FuelUse {
  Range liters_per_hour;
  bool typical = false;  ///< no figures of this set are entered: a typical line for its fuel and size
  std::string source;    ///< whose figures; "from memory" where they are
};

/// Fuel an hour of a generator at a steady load of so many watts (0: idling). Between entered points straight; below the first and above
/// the last the nearest stretch goes on, never below 0; one point alone: the usual no-load share makes a range of it. Nothing for a battery, or
/// if running watts or the fuel are not known. Throws Error{invalid_input} for watts below 0.
[[nodiscard]] std::optional<FuelUse> fuel_use(const Source& source, int watts);

/// So many watts for so many hours.
struct LoadTime {
  int watts = 0;
  double hours = 0;
};

/// Liters for all of these times together. Nothing as in fuel_use.
[[nodiscard]] std::optional<Range> fuel_for(const Source& source, std::span<const LoadTime> times);

/// Hours on a full tank, or a full battery, if `cycle` is repeated until it is empty; one LoadTime: a steady load. Nothing for piped gas, if
/// the tank or battery is not known, or if nothing is used up. A battery: its usable watt hours, the lower end less what an inverter loses.
[[nodiscard]] std::optional<Range> hours_on_tank(const Source& source, std::span<const LoadTime> cycle);

/// Entered points of a set that cannot be: more electricity than an engine makes of that much fuel, or hardly any. Percent of
/// the load (25, 50, 75, 100) of each; often liters were meant and gallons entered.
[[nodiscard]] std::vector<int> doubtful_points(const Source& source);

}  // namespace ohmstead
