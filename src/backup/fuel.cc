#include "backup/fuel.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "house/error.h"

namespace ohmstead {

namespace {

constexpr double kBtuPerKwh = 3412;  // EIA

// EIA: gasoline 2021, diesel 2018-2021, propane 2018, natural gas 2021.
constexpr HeatContent kHeat[] = {{Fuel::gasoline, 120'238, 2021}, {Fuel::diesel, 137'381, 2021}, {Fuel::propane, 91'333, 2018}, {Fuel::natural_gas, 1'039, 2021}};

// Share of the full-load fuel that a set burns without load: 30 to 60 % (a private measurement of small sets, secondary).
constexpr double kLeastNoLoad = 0.3, kMostNoLoad = 0.6;
// What an inverter loses of a battery's energy at most. From memory.
constexpr double kInverterKeeps = 0.85;
// Electricity from an engine's fuel: above and below this somebody mistook a unit. From memory.
constexpr double kBestEfficiency = 0.45, kWorstEfficiency = 0.03;

/// Fuel at shares of the full load, straight between.
struct Line {
  std::vector<std::pair<double, double>> points;  ///< share, liters an hour; ascending

  double at(double share) const {
    std::size_t right = 1;
    while (right + 1 < points.size() && points[right].first < share) ++right;
    const auto& [x0, y0] = points[right - 1];
    const auto& [x1, y1] = points[right];
    return std::max(0.0, y0 + (y1 - y0) * (share - x0) / (x1 - x0));
  }
};

struct Lines {
  Line low, high;
  bool typical = false;
  std::string source;
};

constexpr std::array kShares{0.25, 0.5, 0.75, 1.0};

/// Gallons an hour at 25, 50, 75, 100 % for each kilowatt that a gasoline set is rated for. Low: 0.30, 0.20, 0.17, 0.15 gal/kWh, from memory;
/// high: 0.43, 0.28, 0.23, 0.21 gal/kWh, a measured set of about 1 kW (secondary, rounded up).
constexpr std::array kGasolineLow{0.075, 0.1, 0.1275, 0.15};
constexpr std::array kGasolineHigh{0.1075, 0.14, 0.1725, 0.21};

Line scaled(const std::array<double, 4>& gallons, double factor) {
  Line line;
  for (std::size_t i = 0; i < 4; ++i) line.points.emplace_back(kShares[i], gallons[i] * factor);
  return line;
}

double heat(Fuel fuel) { return heat_content(fuel)->kwh_per_liter; }

/// For a set of so many kilowatts whose own figures are not known.
Lines typical_lines(Fuel fuel, double kw) {
  const double gasoline = kw * kLitersPerGallon;
  const double by_heat = fuel == Fuel::not_known ? 1 : heat(Fuel::gasoline) / heat(fuel);  // as much heat in the other fuel
  switch (fuel) {
    case Fuel::diesel: {  // F = 0.246 P + 0.08415 P_rated; also printed with 0.08145 (Skarstein and Uhlen 1989)
      const auto line = [&](double idle) { return Line{{{0, idle * kw}, {1, (0.246 + idle) * kw}}}; };
      return {line(0.08145), line(0.08415), true, "straight line for diesel sets in remote-power literature, from memory"};
    }
    case Fuel::propane:  // a 10 kW set at half load: 0.97 gal/h, so 0.097 of a gallon for each kW it is rated for
      return {scaled(kGasolineLow, 0.97 * gasoline), scaled(kGasolineHigh, gasoline * by_heat), true,
              "low: a contractor's page, weak; high: a gasoline set's heat in propane, from memory"};
    case Fuel::natural_gas:  // 10 cubic feet a kWh at full load, where gasoline has 0.15 gal
      return {scaled(kGasolineLow, 10 / 0.15 * kw * kLitersPerCubicFoot), scaled(kGasolineHigh, gasoline * by_heat), true,
              "low: a rule of thumb, weak; high: a gasoline set's heat in gas, from memory"};
    case Fuel::gasoline:
    case Fuel::not_known: break;
  }
  return {scaled(kGasolineLow, gasoline), scaled(kGasolineHigh, gasoline), true, "small gasoline sets: from memory, and one measured set of about 1 kW"};
}

std::vector<std::pair<double, double>> entered_points(const Source& source) {
  std::vector<std::pair<double, double>> points;
  const int uses[] = {source.use_25_ml_h, source.use_50_ml_h, source.use_75_ml_h, source.use_100_ml_h};
  // Piped gas is entered in liters, other fuel in milliliters.
  const double unit = source.fuel == Fuel::natural_gas ? 1 : 0.001;
  for (std::size_t i = 0; i < 4; ++i)
    if (uses[i] > 0) points.emplace_back(kShares[i], uses[i] * unit);
  return points;
}

/// A line through one point with this share of the full-load fuel at no load.
Line through(const std::pair<double, double>& point, double no_load) {
  const double full = point.second / (no_load + (1 - no_load) * point.first);
  return {{{0, no_load * full}, {1, full}}};
}

std::optional<Lines> lines_of(const Source& source) {
  if (source.kind != SourceKind::generator || source.running_watts <= 0) return std::nullopt;
  const auto points = entered_points(source);
  if (points.size() >= 2) return Lines{{points}, {points}, false, "as entered for this set"};
  if (points.size() == 1)
    return Lines{through(points.front(), kLeastNoLoad), through(points.front(), kMostNoLoad), false,
                 "one point entered for this set; 30 to 60 % of the full-load fuel without load: a private measurement, secondary"};
  if (source.fuel == Fuel::not_known) return std::nullopt;
  return typical_lines(source.fuel, source.running_watts / 1000.0);
}

Range at(const Lines& lines, const Source& source, int watts) {
  if (watts < 0) throw Error(ErrorKind::invalid_input, "A load cannot be below 0 W; correct the load.");
  const double share = static_cast<double>(watts) / source.running_watts;
  const double first = lines.low.at(share), second = lines.high.at(share);
  return {std::min(first, second), std::max(first, second)};
}

double hours_of(std::span<const LoadTime> times) {
  double hours = 0;
  for (const LoadTime& time : times) hours += time.hours;
  return hours;
}

std::optional<Range> battery_hours(const Source& source, std::span<const LoadTime> cycle) {
  double watt_hours = 0;
  for (const LoadTime& time : cycle) watt_hours += time.watts * time.hours;
  if (source.capacity_wh <= 0 || watt_hours <= 0) return std::nullopt;
  const double hours = source.capacity_wh / watt_hours * hours_of(cycle);
  return Range{hours * kInverterKeeps, hours};
}

}  // namespace

std::optional<HeatContent> heat_content(Fuel fuel) {
  for (HeatContent known : kHeat) {
    if (known.fuel != fuel) continue;
    known.kwh_per_liter = known.btu / kBtuPerKwh / (fuel == Fuel::natural_gas ? kLitersPerCubicFoot : kLitersPerGallon);
    return known;
  }
  return std::nullopt;
}

std::optional<double> efficiency(Fuel fuel, double liters, double kwh) {
  const auto content = heat_content(fuel);
  if (!content || !(liters > 0) || !(kwh > 0)) return std::nullopt;
  return kwh / (liters * content->kwh_per_liter);
}

std::optional<FuelUse> fuel_use(const Source& source, int watts) {
  const auto lines = lines_of(source);
  if (!lines) return std::nullopt;
  return FuelUse{at(*lines, source, watts), lines->typical, lines->source};
}

std::optional<Range> fuel_for(const Source& source, std::span<const LoadTime> times) {
  const auto lines = lines_of(source);
  if (!lines) return std::nullopt;
  Range liters;
  for (const LoadTime& time : times) {
    const Range an_hour = at(*lines, source, time.watts);
    liters.low += an_hour.low * time.hours, liters.high += an_hour.high * time.hours;
  }
  return liters;
}

std::optional<Range> hours_on_tank(const Source& source, std::span<const LoadTime> cycle) {
  if (source.kind == SourceKind::battery_inverter) return battery_hours(source, cycle);
  const auto liters = fuel_for(source, cycle);
  if (!liters || source.tank_ml <= 0 || source.fuel == Fuel::natural_gas || !(liters->low > 0)) return std::nullopt;
  const double cycles_hours = hours_of(cycle) * source.tank_ml / 1000.0;
  return Range{cycles_hours / liters->high, cycles_hours / liters->low};
}

std::vector<int> doubtful_points(const Source& source) {
  std::vector<int> doubtful;
  for (const auto& [share, liters] : entered_points(source)) {
    const auto made = efficiency(source.fuel, liters, share * source.running_watts / 1000.0);
    if (made && (*made > kBestEfficiency || *made < kWorstEfficiency)) doubtful.push_back(static_cast<int>(std::lround(share * 100)));
  }
  return doubtful;
}

}  // namespace ohmstead
