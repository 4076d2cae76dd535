#pragma once
// Conductors: sizes, geometry, resistance and ampacity, as plain tables. Each table says where its numbers are from
// ("secondary": a published copy was read, not the standard; "from memory": to be confirmed before anything rests on it).
// Sizes: AWG 18 to 4/0 and 250 to 500 kcmil. Metric sizes and those in between are in none of these tables.

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "house/panel.h"

namespace ohmstead {

struct WireSize {
  std::string_view name;     ///< as the trade writes it: "14", "2/0", "250"
  bool kcmil = false;
  double circular_mils = 0;  ///< AWG: by the formula of ASTM B258, d = 0.005 in x 92^((36 - n) / 39); kcmil: by definition
  double area_mm2 = 0;
  double diameter_mm = 0;    ///< of a solid conductor of that area
};

/// "14", "14 AWG", "#14", "2/0", "250 kcmil"; nothing for what is no size of these tables.
[[nodiscard]] std::optional<WireSize> find_wire_size(std::string_view text);
/// The same; throws Error{invalid_input} that says what sizes there are.
[[nodiscard]] WireSize wire_size(std::string_view text);
/// "12 AWG", "250 kcmil"
[[nodiscard]] std::string size_text(const WireSize& size);
/// All sizes, smallest first.
[[nodiscard]] std::span<const WireSize> wire_sizes();

/// "copper", "aluminum", "copper-clad aluminum". Of a metal that is not known copper is taken, and callers say so.
[[nodiscard]] std::string metal_text(WireMaterial metal);
[[nodiscard]] bool is_aluminum(WireMaterial metal);

/// Resistance by resistivity and temperature, in ohm per km, of a solid conductor of that area. Annealed copper: 1/58 ohm mm2/m and
/// 0.00393/K at 20 C (IEC 60028, secondary); aluminum: 0.028264 ohm mm2/m (IEC 60889, secondary) and 0.00403/K (from memory).
[[nodiscard]] double resistance_ohm_km(const WireSize& size, WireMaterial metal, double celsius);

enum class Make { solid, stranded };

/// Direct-current resistance at 75 C in ohm per 1000 ft, uncoated (NFPA 70 chapter 9 table 8; solid sizes and from 6 AWG up
/// secondary, stranded 14 to 8 AWG and kcmil from memory). Nothing where the table has no such conductor.
[[nodiscard]] std::optional<double> table_8_ohm_kft(const WireSize& size, WireMaterial metal, Make make);
/// R2 = R1 (1 + a (T - 75)), a = 0.00323 copper, 0.00330 aluminum (table 8 note 2, from memory; agrees with resistance_ohm_km).
[[nodiscard]] double from_75_c(double at_75_c, WireMaterial metal, double celsius);

enum class Conduit { pvc, aluminum, steel };

struct Impedance {
  double r = 0, x = 0;  ///< ohm per 1000 ft, alternating current, 60 Hz, 75 C
};
/// NFPA 70 chapter 9 table 9 (secondary; 1/0 copper in aluminum conduit is 0.13 from memory, a published copy has 0.12).
[[nodiscard]] std::optional<Impedance> table_9_ohm_kft(const WireSize& size, WireMaterial metal, Conduit conduit);

/// Ampacity at 30 C with at most three conductors that carry current: NFPA 70 table 310.16 (2011 to 2017: 310.15(B)(16)). Secondary;
/// kcmil, and from which edition the numbers changed (2011), from memory. 0: not in the table. `column` is 60, 75 or 90.
[[nodiscard]] int table_310_16_amps(const WireSize& size, WireMaterial metal, int column, int edition);

/// Correction for the air around it: by the bands of the table (secondary), 0 where the insulation is not good for it.
/// Throws Error{invalid_input} outside of -40 to 60 C.
[[nodiscard]] double ambient_factor(int column, double ambient_c);
/// Adjustment for conductors that carry current in one cable or raceway (secondary): 1, 0.80, 0.70, 0.50, 0.45, 0.40, 0.35.
[[nodiscard]] double bundle_factor(int conductors);

/// Most amperes of the breaker before a small conductor, NFPA 70 240.4(D) (secondary; copper-clad 14 AWG of 2023 from memory). 0: the
/// rule says nothing of that size. Circuits of motors and compressors may have more (240.4(G)).
[[nodiscard]] int small_conductor_amps(const WireSize& size, WireMaterial metal, int edition);

/// Standard ratings of breakers to 400 A, NFPA 70 240.6(A) (from memory); 2023 has 10 A too.
[[nodiscard]] std::span<const int> standard_ratings(int edition);
/// The smallest standard rating that is not below `amps`; 0: above 400 A.
[[nodiscard]] int standard_rating_from(double amps, int edition);

}  // namespace ohmstead
