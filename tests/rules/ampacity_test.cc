// What a conductor may carry where it lies.
#include "rules/ampacity.h"

#include <gmock/gmock.h>

#include "house/error.h"

namespace ohmstead {
namespace {

AmpacityAnswer of(const char* size, auto change) {
  AmpacityCase given{wire_size(size)};
  change(given);
  return ampacity(given);
}
constexpr auto kAsIs = [](AmpacityCase&) {};

TEST(Ampacity, unmarked_terminals_take_60_c_up_to_1_awg_and_75_c_above) {
  EXPECT_EQ(of("6", kAsIs).amps, 55);
  EXPECT_EQ(of("6", [](AmpacityCase& c) { c.terminals_c = 75; }).amps, 65);
  EXPECT_EQ(of("1", kAsIs).amps, 110);
  EXPECT_EQ(of("1/0", kAsIs).amps, 150);
}

TEST(Ampacity, ninety_degrees_are_a_start_for_correction_and_never_the_end) {
  const auto hot = [](AmpacityCase& c) { c.insulation_c = 90, c.terminals_c = 75; };
  EXPECT_EQ(of("8", hot).amps, 50);  // not 55
  const auto attic = [&](AmpacityCase& c) { hot(c), c.ambient_c = 50, c.conductors = 6; };
  EXPECT_NEAR(of("8", attic).amps, 55 * 0.82 * 0.8, 1e-9);
  const auto cable = [](AmpacityCase& c) { c.nm_cable = true, c.terminals_c = 75; };
  EXPECT_EQ(of("8", cable).amps, 40);  // 334.80
  EXPECT_NEAR(of("12", [&](AmpacityCase& c) { cable(c), c.ambient_c = 45, c.conductors = 9; }).amps, 30 * 0.87 * 0.7, 1e-9);
}

TEST(Ampacity, the_breaker_goes_by_small_conductors_and_standard_ratings) {
  for (const auto& [size, breaker] : {std::pair{"14", 15}, {"12", 20}, {"10", 30}, {"8", 40}, {"6", 60}, {"4", 70}}) EXPECT_EQ(of(size, kAsIs).breaker_amps, breaker) << size;
  EXPECT_EQ(of("6", [](AmpacityCase& c) { c.receptacles = true; }).breaker_amps, 50);  // 55 A: rounded up only where receptacles are not many
  EXPECT_EQ(of("12", [](AmpacityCase& c) { c.terminals_c = 75; }).breaker_amps, 20);
  EXPECT_EQ(of("12", [](AmpacityCase& c) { c.terminals_c = 75, c.motor = true; }).breaker_amps, 25);
  EXPECT_EQ(of("12", [](AmpacityCase& c) { c.metal = WireMaterial::aluminium; }).breaker_amps, 15);
  EXPECT_EQ(of("14", [](AmpacityCase& c) { c.edition = 2008; }).breaker_amps, 15);
  EXPECT_EQ(of("14", [](AmpacityCase& c) { c.edition = 2008; }).amps, 20);  // the table as it stood
  EXPECT_DOUBLE_EQ(of("12", kAsIs).continuous_amps, 16);
}

TEST(Ampacity, every_step_is_shown_and_the_last_note_says_who_decides) {
  const Calculation made = of("12", [](AmpacityCase& c) { c.nm_cable = true, c.ambient_c = 40; }).calculation;
  std::string all;
  for (const WorkedStep& step : made.steps) all += step.what + ": " + step.how + " = " + value_text(step) + "\n";
  EXPECT_THAT(all, testing::HasSubstr("Corrected and adjusted: 30 A x 0.91 x 1.00 = 27.3 A"));
  EXPECT_THAT(all, testing::HasSubstr("Standard breaker: the ampacity, or the next standard rating above it = 20 A"));
  EXPECT_EQ(made.notes.back(), kLocalCodeDecides);
}

TEST(Ampacity, what_no_table_has_is_refused) {
  EXPECT_THROW(of("14", [](AmpacityCase& c) { c.metal = WireMaterial::aluminium; }), Error);
  EXPECT_THROW(of("18", kAsIs), Error);
  EXPECT_THROW(of("12", [](AmpacityCase& c) { c.insulation_c = 60, c.ambient_c = 58; }), Error);
  EXPECT_THROW(of("12", [](AmpacityCase& c) { c.insulation_c = 105; }), Error);
  EXPECT_THROW(of("12", [](AmpacityCase& c) { c.terminals_c = 90; }), Error);
  EXPECT_THROW(of("12", [](AmpacityCase& c) { c.edition = 2010; }), Error);
}

}  // namespace
}  // namespace ohmstead
