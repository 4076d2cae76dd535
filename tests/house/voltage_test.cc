#include "house/voltage.h"

#include <gtest/gtest.h>

#include <vector>

#include "house/error.h"

namespace ohmstead {
namespace {

struct NeutralCase {
  VoltageSystem system;
  std::vector<LegCurrent> loads;
  double amps;
};

constexpr auto kSplit = VoltageSystem::split_phase_120_240;
constexpr auto kTwo = VoltageSystem::wye_120_208;
constexpr auto kThree = VoltageSystem::wye_120_208_3;

// Worked cases: split phase and power factors computed from the textbook phasor sum; wye with two
// legs and 10/15/20 from published worked examples (trade-facts B6). A widely copied forum answer of
// 15.1 A for 10/8/6 lost its minus signs; 3.46 A is right.
TEST(NeutralAmps, worked_cases_come_out_to_the_hundredth) {
  const NeutralCase cases[] = {
      {kSplit, {{15, 1}, {10, 2}}, 5},          {kSplit, {{10, 1}, {10, 2}}, 0},
      {kSplit, {{10, 1}, {10, 2, 0.8}}, 6.32},  {kSplit, {{12, 1, 0.9}, {8, 2}}, 5.93},
      {kSplit, {{15, 1}, {15, 1}}, 30},         {kTwo, {{10, 1}, {10, 2}}, 10},
      {kTwo, {{20, 1}, {10, 2}}, 17.32},        {kTwo, {{16, 1}, {12, 2}}, 14.42},
      {kTwo, {{15, 1}, {0, 2}}, 15},            {kThree, {{10, 1}, {15, 2}, {20, 3}}, 8.66},
      {kThree, {{10, 1}, {10, 2}, {10, 3}}, 0}, {kThree, {{10, 1}, {8, 2}, {6, 3}}, 3.46},
  };
  for (const NeutralCase& c : cases) EXPECT_NEAR(neutral_amps(c.system, c.loads), c.amps, 0.005);
}

TEST(NeutralAmps, refuses_legs_and_factors_that_do_not_exist) {
  const auto refused = [](LegCurrent load) {
    EXPECT_THROW((void)neutral_amps(kSplit, std::vector{load}), Error);
  };
  refused({10, 3}), refused({10, 0}), refused({-1, 1}), refused({10, 1, 0}), refused({10, 1, 1.1});
}

TEST(VoltageSystem, volts_between_legs_are_the_phasor_difference) {
  EXPECT_EQ(volts_between_legs(kSplit), 240);
  EXPECT_EQ(volts_between_legs(kTwo), 208);
  EXPECT_EQ(volts_between_legs(VoltageSystem::single_230), 0);
  EXPECT_EQ(volts_to_neutral(VoltageSystem::single_230), 230);
}

}  // namespace
}  // namespace ohmstead
