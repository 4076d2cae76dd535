#include "rules/conductor.h"

#include <algorithm>

#include "house/error.h"
#include "rules/calculation.h"

namespace ohmstead {

namespace {

constexpr int kRatings[] = {10, 15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300, 350, 400};

/// The size without what people write around it.
std::string_view bare(std::string_view text) {
  constexpr std::string_view kAround[] = {" awg", "awg", " kcmil", "kcmil", " mcm", "mcm"};
  const auto blank = [](char c) { return c == ' ' || c == '\t'; };
  while (!text.empty() && (blank(text.front()) || text.front() == '#')) text.remove_prefix(1);
  while (!text.empty() && blank(text.back())) text.remove_suffix(1);
  for (const std::string_view end : kAround) {
    if (text.size() <= end.size()) continue;
    const bool same = std::ranges::equal(text.substr(text.size() - end.size()), end, {}, [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
    if (same) return text.substr(0, text.size() - end.size());
  }
  return text;
}

}  // namespace

std::optional<WireSize> find_wire_size(std::string_view text) {
  const auto sizes = wire_sizes();
  const auto found = std::ranges::find(sizes, bare(text), &WireSize::name);
  return found == sizes.end() ? std::nullopt : std::optional(*found);
}

WireSize wire_size(std::string_view text) {
  if (const auto size = find_wire_size(text)) return *size;
  std::string shown;
  for (const char c : text.substr(0, 30)) shown += c >= ' ' && c <= '~' ? c : '?';
  throw Error(ErrorKind::invalid_input, "There is no wire of the size '" + shown + "' in these tables; they have 18 to 1 AWG, 1/0 to 4/0 AWG and 250 to 500 kcmil, such as 14, 12, 10, 8, 6, 4, 2/0, 250.");
}

std::string size_text(const WireSize& size) { return std::string(size.name) + (size.kcmil ? " kcmil" : " AWG"); }

std::string metal_text(WireMaterial metal) {
  return metal == WireMaterial::aluminium ? "aluminum" : metal == WireMaterial::copper_clad_aluminium ? "copper-clad aluminum" : "copper";
}

bool is_aluminum(WireMaterial metal) { return metal == WireMaterial::aluminium || metal == WireMaterial::copper_clad_aluminium; }

double resistance_ohm_km(const WireSize& size, WireMaterial metal, double celsius) {
  const double ohm_mm2_m = is_aluminum(metal) ? 0.028264 : 1.0 / 58;
  const double per_kelvin = is_aluminum(metal) ? 0.00403 : 0.00393;
  return ohm_mm2_m / size.area_mm2 * 1000 * (1 + per_kelvin * (celsius - 20));
}

double from_75_c(double at_75_c, WireMaterial metal, double celsius) {
  return at_75_c * (1 + (is_aluminum(metal) ? 0.00330 : 0.00323) * (celsius - 75));
}

double bundle_factor(int conductors) {
  if (conductors < 1 || conductors > 1000)
    throw Error(ErrorKind::invalid_input, "The number of conductors that carry current is from 1 to 1000.");
  if (conductors <= 3) return 1;
  if (conductors <= 6) return 0.80;
  if (conductors <= 9) return 0.70;
  if (conductors <= 20) return 0.50;
  if (conductors <= 30) return 0.45;
  return conductors <= 40 ? 0.40 : 0.35;
}

int small_conductor_amps(const WireSize& size, WireMaterial metal, int edition) {
  const bool aluminum = is_aluminum(metal);
  if (size.name == "18") return aluminum ? 0 : 7;
  if (size.name == "16") return aluminum ? 0 : 10;
  if (size.name == "14") return !aluminum ? 15 : metal == WireMaterial::copper_clad_aluminium && edition >= 2023 ? 10 : 0;
  if (size.name == "12") return aluminum ? 15 : 20;
  if (size.name == "10") return aluminum ? 25 : 30;
  return 0;
}

std::span<const int> standard_ratings(int edition) {
  return std::span(kRatings).subspan(checked_edition(edition) >= 2023 ? 0 : 1);
}

int standard_rating_from(double amps, int edition) {
  for (const int rating : standard_ratings(edition))
    if (rating >= amps) return rating;
  return 0;
}

}  // namespace ohmstead
