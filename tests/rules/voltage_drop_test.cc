// Voltage drop against worked values.
#include "rules/voltage_drop.h"

#include <gmock/gmock.h>

#include <cmath>

#include "house/error.h"

namespace ohmstead {
namespace {

// Computed from NFPA 70 chapter 9 table 8, direct current, 75 C. A web article says that the third drops "6 %+": it meant volts.
TEST(VoltageDrop, worked_values_by_the_resistance_table) {
  struct Row {
    const char* size;
    Make make;
    double amps, feet, volts, drop, percent;
  };
  constexpr Row kRows[] = {{"14", Make::solid, 12, 50, 120, 3.684, 3.07},    {"14", Make::stranded, 12, 50, 120, 3.768, 3.14},  {"12", Make::solid, 16, 100, 120, 6.176, 5.15},
                           {"12", Make::stranded, 16, 100, 120, 6.336, 5.28}, {"10", Make::stranded, 24, 100, 240, 5.952, 2.48}, {"6", Make::stranded, 40, 150, 240, 5.892, 2.46}};
  for (const Row& row : kRows) {
    const DropAnswer answer = voltage_drop({.size = wire_size(row.size), .length_ft = row.feet, .amps = row.amps, .volts = row.volts, .make = row.make});
    EXPECT_NEAR(answer.volts, row.drop, 0.0005) << row.size;
    EXPECT_NEAR(answer.percent, row.percent, 0.005) << row.size;
    EXPECT_NEAR(answer.formula_volts / answer.volts, row.make == Make::solid ? 1.0 : 0.98, 0.012) << row.size;
    EXPECT_NEAR(answer.longest_ft * answer.percent, row.feet * 3, 1e-6) << row.size;
  }
}

TEST(VoltageDrop, temperature_of_the_conductor_and_three_phases) {
  DropCase given{.size = wire_size("12"), .length_ft = 100, .amps = 16, .conductor_c = 20};
  EXPECT_NEAR(voltage_drop(given).volts, 6.176 * 0.8224, 0.002);  // a cold wire: about 18 % less
  given.conductor_c = 75, given.phases = 3, given.volts = 208;
  EXPECT_NEAR(voltage_drop(given).volts, 6.176 / 2 * std::sqrt(3.0), 0.0005);
}

TEST(VoltageDrop, effective_impedance_with_conduit_and_power_factor) {
  // 0.85: 14 AWG in PVC 3.1 x 0.85 + 0.058 x 0.527 = 2.67 (table 2.7), 12 AWG 1.73 (table 1.7): computed.
  for (const auto& [size, z] : {std::pair{"14", 2.67}, {"12", 1.73}}) {
    const DropAnswer answer = voltage_drop({.size = wire_size(size), .length_ft = 500, .amps = 1, .conduit = Conduit::pvc, .power_factor = 0.85});
    EXPECT_NEAR(answer.volts, z, 0.005) << size;
  }
}

TEST(VoltageDrop, the_size_that_is_enough) {
  DropCase given{.size = wire_size("12"), .length_ft = 100, .amps = 16};
  EXPECT_EQ(voltage_drop(given).size_enough, "8 AWG");  // 10 AWG drops 3.2 %
  given.length_ft = 40;
  EXPECT_EQ(voltage_drop(given).size_enough, "12 AWG");
  given.length_ft = 50'000;
  EXPECT_EQ(voltage_drop(given).size_enough, "");
  EXPECT_EQ(voltage_drop(given).calculation.notes.back(), kLocalCodeDecides);
}

TEST(VoltageDrop, what_makes_no_sense_is_refused) {
  const auto refused = [](auto change) {
    DropCase given{.size = wire_size("12"), .length_ft = 100, .amps = 16};
    change(given);
    EXPECT_THROW((void)voltage_drop(given), Error);
  };
  refused([](DropCase& c) { c.length_ft = 0; });
  refused([](DropCase& c) { c.length_ft = std::nan(""); });
  refused([](DropCase& c) { c.amps = -1; });
  refused([](DropCase& c) { c.volts = 0; });
  refused([](DropCase& c) { c.phases = 2; });
  refused([](DropCase& c) { c.power_factor = 1.2; });
  refused([](DropCase& c) { c.conductor_c = 200; });
  refused([](DropCase& c) { c.size = wire_size("6"), c.make = Make::solid; });
  refused([](DropCase& c) { c.size = wire_size("250"), c.conduit = Conduit::steel; });
}

}  // namespace
}  // namespace ohmstead
