// The tables of conductors, as the code prints them. Where each is from: the header.

#include <algorithm>
#include <array>
#include <cmath>

#include "house/error.h"
#include "rules/calculation.h"
#include "rules/conductor.h"

namespace ohmstead {

namespace {

/// One size in every table. 0: the table has no such cell.
struct TableRow {
  std::string_view name;
  std::array<int, 3> copper_amps, aluminum_amps;              // 60, 75, 90 C
  std::array<double, 2> copper_dc, aluminum_dc;               // solid, stranded
  std::array<double, 2> x;                                    // PVC or aluminum conduit, steel
  std::array<double, 3> copper_ac, aluminum_ac;               // PVC, aluminum, steel
};

constexpr TableRow kRows[] = {
    {"18", {0, 0, 14}, {}, {7.77, 7.95}, {}, {}, {}, {}},
    {"16", {0, 0, 18}, {}, {4.89, 4.99}, {}, {}, {}, {}},
    {"14", {15, 20, 25}, {}, {3.07, 3.14}, {5.06, 5.17}, {0.058, 0.073}, {3.1, 3.1, 3.1}, {}},
    {"12", {20, 25, 30}, {15, 20, 25}, {1.93, 1.98}, {3.18, 3.25}, {0.054, 0.068}, {2.0, 2.0, 2.0}, {3.2, 3.2, 3.2}},
    {"10", {30, 35, 40}, {25, 30, 35}, {1.21, 1.24}, {2.00, 2.04}, {0.050, 0.063}, {1.2, 1.2, 1.2}, {2.0, 2.0, 2.0}},
    {"8", {40, 50, 55}, {35, 40, 45}, {0.764, 0.778}, {1.26, 1.28}, {0.052, 0.065}, {0.78, 0.78, 0.78}, {1.3, 1.3, 1.3}},
    {"6", {55, 65, 75}, {40, 50, 55}, {0, 0.491}, {0, 0.808}, {0.051, 0.064}, {0.49, 0.49, 0.49}, {0.81, 0.81, 0.81}},
    {"4", {70, 85, 95}, {55, 65, 75}, {0, 0.308}, {0, 0.508}, {0.048, 0.060}, {0.31, 0.31, 0.31}, {0.51, 0.51, 0.51}},
    {"3", {85, 100, 115}, {65, 75, 85}, {0, 0.245}, {0, 0.403}, {0.047, 0.059}, {0.25, 0.25, 0.25}, {0.40, 0.41, 0.40}},
    {"2", {95, 115, 130}, {75, 90, 100}, {0, 0.194}, {0, 0.319}, {0.045, 0.057}, {0.19, 0.20, 0.20}, {0.32, 0.32, 0.32}},
    {"1", {110, 130, 145}, {85, 100, 115}, {0, 0.154}, {0, 0.253}, {0.046, 0.057}, {0.15, 0.16, 0.16}, {0.25, 0.26, 0.25}},
    {"1/0", {125, 150, 170}, {100, 120, 135}, {0, 0.122}, {0, 0.201}, {0.044, 0.055}, {0.12, 0.13, 0.12}, {0.20, 0.21, 0.20}},
    {"2/0", {145, 175, 195}, {115, 135, 150}, {0, 0.0967}, {0, 0.159}, {0.043, 0.054}, {0.10, 0.10, 0.10}, {0.16, 0.16, 0.16}},
    {"3/0", {165, 200, 225}, {130, 155, 175}, {0, 0.0766}, {0, 0.126}, {0.042, 0.052}, {0.077, 0.082, 0.079}, {0.13, 0.13, 0.13}},
    {"4/0", {195, 230, 260}, {150, 180, 205}, {0, 0.0608}, {0, 0.100}, {0.041, 0.051}, {0.062, 0.067, 0.063}, {0.10, 0.11, 0.10}},
    {"250", {215, 255, 290}, {170, 205, 230}, {0, 0.0515}, {0, 0.0847}, {}, {}, {}},
    {"300", {240, 285, 320}, {195, 230, 260}, {0, 0.0429}, {0, 0.0707}, {}, {}, {}},
    {"350", {260, 310, 350}, {210, 250, 280}, {0, 0.0367}, {0, 0.0605}, {}, {}, {}},
    {"400", {280, 335, 380}, {225, 270, 305}, {0, 0.0321}, {0, 0.0529}, {}, {}, {}},
    {"500", {320, 380, 430}, {260, 310, 350}, {0, 0.0258}, {0, 0.0424}, {}, {}, {}},
};
constexpr std::size_t kSizes = std::size(kRows);

/// Cells that read otherwise up to the edition of 2008.
struct OldAmps {
  std::string_view name;
  bool aluminum;
  std::array<int, 3> amps;
};
constexpr OldAmps kUpTo2008[] = {{"14", false, {20, 20, 25}}, {"12", false, {25, 25, 30}}, {"3", false, {85, 100, 110}}, {"1", false, {110, 130, 150}},
                                 {"12", true, {20, 20, 25}}, {"8", true, {30, 40, 45}}, {"6", true, {40, 50, 60}}};

const TableRow& row_of(const WireSize& size) { return *std::ranges::find(kRows, size.name, &TableRow::name); }

/// Gauge number for the formula: 0, -1, -2, -3 are 1/0, 2/0, 3/0, 4/0.
int gauge(std::string_view name) {
  if (name.find('/') != std::string_view::npos) return 1 - (name[0] - '0');
  int number = 0;
  for (const char c : name) number = number * 10 + (c - '0');
  return number;
}

WireSize made(std::string_view name) {
  constexpr double kMmInch = 25.4, kPi = 3.14159265358979323846;
  WireSize size{name, name.size() == 3 && name.find('/') == std::string_view::npos};
  const double mils = size.kcmil ? std::sqrt(gauge(name) * 1000.0) : 5.0 * std::pow(92.0, (36 - gauge(name)) / 39.0);
  size.circular_mils = mils * mils;
  size.diameter_mm = mils * kMmInch / 1000;
  size.area_mm2 = kPi / 4 * size.diameter_mm * size.diameter_mm;
  return size;
}

std::size_t column_place(int column) {
  if (column != 60 && column != 75 && column != 90)
    throw Error(ErrorKind::invalid_input, "Insulation and terminals are for 60, 75 or 90 C, not " + std::to_string(column) + " C.");
  return static_cast<std::size_t>((column - 60) / 15);
}

std::optional<double> cell(double value) { return value == 0 ? std::nullopt : std::optional(value); }

}  // namespace

std::span<const WireSize> wire_sizes() {
  static const auto sizes = [] {
    std::array<WireSize, kSizes> all{};
    std::ranges::transform(kRows, all.begin(), [](const TableRow& row) { return made(row.name); });
    return all;
  }();
  return sizes;
}

std::optional<double> table_8_ohm_kft(const WireSize& size, WireMaterial metal, Make make) {
  const TableRow& row = row_of(size);
  return cell((is_aluminum(metal) ? row.aluminum_dc : row.copper_dc)[make == Make::stranded ? 1 : 0]);
}

std::optional<Impedance> table_9_ohm_kft(const WireSize& size, WireMaterial metal, Conduit conduit) {
  const TableRow& row = row_of(size);
  const double r = (is_aluminum(metal) ? row.aluminum_ac : row.copper_ac)[static_cast<std::size_t>(conduit)];
  if (r == 0) return std::nullopt;
  return Impedance{r, row.x[conduit == Conduit::steel ? 1 : 0]};
}

int table_310_16_amps(const WireSize& size, WireMaterial metal, int column, int edition) {
  const std::size_t place = column_place(column);
  if (checked_edition(edition) <= 2008)
    for (const OldAmps& old : kUpTo2008)
      if (old.name == size.name && old.aluminum == is_aluminum(metal)) return old.amps[place];
  const TableRow& row = row_of(size);
  return (is_aluminum(metal) ? row.aluminum_amps : row.copper_amps)[place];
}

double ambient_factor(int column, double ambient_c) {
  constexpr double kFactors[11][3] = {{1.29, 1.20, 1.15}, {1.22, 1.15, 1.12}, {1.15, 1.11, 1.08}, {1.08, 1.05, 1.04}, {1.00, 1.00, 1.00}, {0.91, 0.94, 0.96},
                                      {0.82, 0.88, 0.91}, {0.71, 0.82, 0.87}, {0.58, 0.75, 0.82}, {0.41, 0.67, 0.76}, {0, 0.58, 0.71}};
  const std::size_t place = column_place(column);
  if (!(ambient_c >= -40 && ambient_c <= 60))
    throw Error(ErrorKind::invalid_input, "The correction for the air around a wire is tabled up to 60 C, and -40 C is the least taken here.");
  const int band = ambient_c <= 10 ? 0 : static_cast<int>(std::ceil((ambient_c - 10) / 5));
  return kFactors[band][place];
}

}  // namespace ohmstead
