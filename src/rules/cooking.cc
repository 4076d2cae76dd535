#include "rules/cooking.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "house/error.h"
#include "rules/calculation.h"

namespace ohmstead {

namespace {

constexpr std::size_t kMostAppliances = 10;
constexpr int kColumnA[kMostAppliances] = {80, 75, 70, 66, 62, 59, 56, 53, 51, 49};  // percent, under 3.5 kW
constexpr int kColumnB[kMostAppliances] = {80, 65, 55, 50, 45, 43, 40, 36, 35, 34};  // percent, 3.5 to 8.75 kW
constexpr int kColumnC[kMostAppliances] = {8, 11, 14, 17, 20, 21, 22, 23, 24, 25};   // kW, up to 12 kW each

struct Way {
  double kw = 0;
  std::string how;
};

std::string kw_text(double kw) { return plain_number(kw) + " kW"; }

/// Column C, raised by 5 % for each kW, or major fraction, that the average is above 12 (notes 1 and 2).
Way by_column_c(const std::vector<double>& kw) {
  const int base = kColumnC[kw.size() - 1];
  double sum = 0;
  for (const double one : kw) sum += std::max(one, 12.0);
  const double over = sum / static_cast<double>(kw.size()) - 12;
  const int steps = static_cast<int>(std::floor(over + 0.5 + 1e-9));
  Way way{base * (1 + 0.05 * steps), std::to_string(kw.size()) + " in column C: " + kw_text(base)};
  if (steps > 0) way.how += ", and 5 % for each of " + std::to_string(steps) + " kW above 12 (notes 1 and 2)";
  return way;
}

/// Columns A and B, each with its own count (note 3).
std::optional<Way> by_columns_a_and_b(const std::vector<double>& kw) {
  if (std::ranges::any_of(kw, [](double one) { return one > 8.75; })) return std::nullopt;
  Way way;
  const auto add = [&](bool small, const int* percents, const char* column) {
    double sum = 0;
    std::size_t count = 0;
    for (const double one : kw)
      if ((one < 3.5) == small) sum += one, ++count;
    if (count == 0) return;
    way.kw += sum * percents[count - 1] / 100;
    way.how += (way.how.empty() ? "" : ", and ") + kw_text(sum) + " x " + std::to_string(percents[count - 1]) + " % (" + std::to_string(count) + " in column " + column + ", note 3)";
  };
  add(true, kColumnA, "A");
  add(false, kColumnB, "B");
  return way;
}

}  // namespace

CookingDemand cooking_demand(std::span<const double> ratings_va) {
  if (ratings_va.empty() || ratings_va.size() > kMostAppliances)
    throw Error(ErrorKind::invalid_input, "The table of cooking appliances is used here for one to ten of them.");
  std::vector<double> kw;
  for (const double va : ratings_va) {
    if (!(va > 1750 && va <= 27'000))
      throw Error(ErrorKind::invalid_input, "The table of cooking appliances is for nameplates above 1.75 kW and up to 27 kW, not " + kw_text(va / 1000) + ".");
    kw.push_back(va / 1000);
  }
  Way way = by_column_c(kw);
  if (const auto other = by_columns_a_and_b(kw); other && other->kw < way.kw) way = *other;
  return {std::floor(way.kw * 10 + 0.5 + 1e-9) * 100, way.how};
}

}  // namespace ohmstead
