// Neutral currents against published and computed cases.
#include "rules/neutral_current.h"

#include <gmock/gmock.h>

#include <cmath>

#include "house/error.h"

namespace ohmstead {
namespace {

using enum VoltageSystem;

TEST(NeutralCurrent, worked_cases) {
  struct Case {
    VoltageSystem system;
    std::vector<LegCurrent> loads;
    double amps;
  };
  const Case cases[] = {{split_phase_120_240, {{15, 1}, {10, 2}}, 5},          {split_phase_120_240, {{10, 1}, {10, 2}}, 0},         {split_phase_120_240, {{10, 1}, {10, 2, 0.8}}, 6.32},
                        {split_phase_120_240, {{12, 1, 0.9}, {8, 2}}, 5.93},   {split_phase_120_240, {{15, 1}, {15, 1}}, 30},        {wye_120_208, {{10, 1}, {10, 2}}, 10},
                        {wye_120_208, {{20, 1}, {10, 2}}, 17.32},              {wye_120_208, {{16, 1}, {12, 2}}, 14.42},             {wye_120_208_3, {{10, 1}, {15, 2}, {20, 3}}, 8.66},
                        {wye_120_208_3, {{10, 1}, {8, 2}, {6, 3}}, 3.46}};  // a widely copied 15.1 A lost its minus signs
  for (const Case& one : cases) {
    const NeutralAnswer answer = neutral_current({one.system, one.loads});
    EXPECT_NEAR(answer.amps, one.amps, 0.005);
    const auto& steps = answer.calculation.steps;
    EXPECT_NEAR(std::hypot(steps[steps.size() - 3].value, steps[steps.size() - 2].value), answer.amps, 1e-9);  // the steps lead to the result
    EXPECT_EQ(answer.calculation.notes.back(), kLocalCodeDecides);
  }
  EXPECT_NEAR(neutral_current({split_phase_120_240, {{15, 1}, {15, 2}}}).same_leg_amps, 30, 1e-9);
  EXPECT_THAT(neutral_current({split_phase_120_240, {{10, 2, 0.8}}}).calculation.steps[0].how, testing::HasSubstr("143.1 degrees"));  // it lags behind 180
}

TEST(NeutralCurrent, what_makes_no_sense_is_refused) {
  for (const std::vector<LegCurrent>& loads : {std::vector<LegCurrent>{}, {{10, 3}}, {{-1, 1}}, {{10, 1, 0}}, {{10, 1, 1.5}}})
    EXPECT_THROW((void)neutral_current({split_phase_120_240, loads}), Error);
}

}  // namespace
}  // namespace ohmstead
