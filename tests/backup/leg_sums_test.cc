#include "backup/leg_sums.h"

#include <gmock/gmock.h>

#include "backup/plan_problem.h"
#include "house/error.h"

namespace ohmstead {
namespace {

using enum VoltageSystem;

LegLoad to_neutral(int leg, int running, int starting = 0, double power_factor = 1) {
  LegLoad load{.power_factor = power_factor};
  load.running[static_cast<std::size_t>(leg - 1)] = running;
  load.starting[static_cast<std::size_t>(leg - 1)] = std::max(running, starting);
  return load;
}

LegLoad between(int first, int second, int share) {
  LegLoad load{.between_legs = true};
  for (const int leg : {first, second}) load.running[static_cast<std::size_t>(leg - 1)] = load.starting[static_cast<std::size_t>(leg - 1)] = share;
  return load;
}

constexpr PlanSource kSource{.legs = 2, .running = 5000, .starting = 6250, .leg_running = {2500, 2500}, .leg_starting = {3125, 3125}};

double neutral(VoltageSystem system, std::vector<LegLoad> loads, bool in_phase = false) {
  PlanSource source{.legs = leg_count(system), .in_phase = in_phase, .running = 1, .starting = 1};
  return leg_sums(system, source, loads).neutral_amps;
}

TEST(LegSums, a_pencil_gives_the_same) {
  const LegSums sums = leg_sums(split_phase_120_240, kSource, std::vector<LegLoad>{to_neutral(1, 600, 1800), to_neutral(1, 120), to_neutral(2, 480, 700), between(1, 2, 360)});
  EXPECT_EQ(sums.legs, 2);
  EXPECT_EQ(sums.leg[0], (LegSum{.running = 1080, .starting = 2280, .running_watts = 1080, .left_running = 1420, .left_starting = 845}));
  EXPECT_EQ(sums.leg[1], (LegSum{.running = 840, .starting = 1060, .running_watts = 840, .left_running = 1660, .left_starting = 2065}));
  EXPECT_EQ(sums.whole, (LegSum{.running = 1920, .starting = 3120, .running_watts = 1920, .left_running = 3080, .left_starting = 3130}));
  EXPECT_NEAR(sums.amps[0].running, 9, 1e-9);
  EXPECT_NEAR(sums.amps[0].starting, 19, 1e-9);
  EXPECT_NEAR(sums.amps[1].running, 7, 1e-9);
  EXPECT_NEAR(sums.neutral_amps, 2, 1e-9);
  EXPECT_NEAR(sums.imbalance_percent, 100.0 * 240 / 1080, 1e-9);
}

TEST(LegSums, only_the_largest_start_counts_on_each_leg_and_in_all) {
  LegLoad pump = between(1, 2, 500);
  pump.starting = {900, 900};
  const LegSums sums = leg_sums(split_phase_120_240, kSource, std::vector<LegLoad>{pump, to_neutral(1, 100, 700)});
  EXPECT_EQ(sums.leg[0].starting, 600 + 600);  // the motor on leg 1, not the pump's 400 as well
  EXPECT_EQ(sums.leg[1].starting, 500 + 400);
  EXPECT_EQ(sums.whole.starting, 1100 + 800);  // the pump on both legs
  EXPECT_NEAR(sums.amps[1].starting, 500 / 120.0 + 800 / 240.0, 1e-9);
}

// Computed from the phasor sum: docs/standards.md.
TEST(LegSums, neutral_current_of_the_worked_cases) {
  EXPECT_NEAR(neutral(split_phase_120_240, {to_neutral(1, 1800), to_neutral(2, 1200)}), 5, 0.005);
  EXPECT_NEAR(neutral(split_phase_120_240, {to_neutral(1, 1200), to_neutral(2, 1200)}), 0, 1e-9);
  EXPECT_NEAR(neutral(split_phase_120_240, {to_neutral(1, 1200), to_neutral(2, 1200, 0, 0.8)}), 6.32, 0.005);
  EXPECT_NEAR(neutral(split_phase_120_240, {to_neutral(1, 1440, 0, 0.9), to_neutral(2, 960)}), 5.93, 0.005);
  EXPECT_NEAR(neutral(wye_120_208, {to_neutral(1, 1200), to_neutral(2, 1200)}), 10, 0.005);
  EXPECT_NEAR(neutral(wye_120_208, {to_neutral(1, 2400), to_neutral(2, 1200)}), 17.32, 0.005);
  EXPECT_NEAR(neutral(wye_120_208, {to_neutral(1, 1920), to_neutral(2, 1440)}), 14.42, 0.005);
  EXPECT_NEAR(neutral(wye_120_208_3, {to_neutral(1, 1200), to_neutral(2, 1800), to_neutral(3, 2400)}), 8.66, 0.005);
  EXPECT_NEAR(neutral(wye_120_208_3, {to_neutral(1, 1200), to_neutral(2, 960), to_neutral(3, 720)}), 3.46, 0.005);
}

// 15 + 15 A on the neutral of a 15 A circuit: no device trips (NFPA 70 710.15(C), from memory).
TEST(LegSums, a_source_in_phase_adds_up_in_the_neutral) {
  EXPECT_NEAR(neutral(split_phase_120_240, {to_neutral(1, 1800), to_neutral(2, 1800)}, true), 30, 0.005);
  EXPECT_NEAR(neutral(wye_120_208, {to_neutral(1, 2400), to_neutral(2, 2400)}, true), 40, 0.005);
  EXPECT_NEAR(neutral(single_230, {to_neutral(1, 2300), to_neutral(1, 2300)}), 20, 0.005);
}

TEST(LegSums, a_load_between_legs_draws_nothing_through_the_neutral) {
  EXPECT_NEAR(neutral(split_phase_120_240, {between(1, 2, 1800), to_neutral(1, 600)}), 5, 1e-9);
}

// Three loads of 14 A between the legs of a wye give 24.25 A on each (published worked example).
TEST(LegSums, line_current_of_loads_between_the_legs_of_a_wye) {
  const PlanSource source{.legs = 3, .running = 1, .starting = 1};
  const int share = static_cast<int>(std::lround(14 * 120 * std::sqrt(3) / 2));  // half of 14 A at 208 V on each leg
  const LegSums sums = leg_sums(wye_120_208_3, source, std::vector<LegLoad>{between(1, 2, share), between(2, 3, share), between(1, 3, share)});
  for (std::size_t i = 0; i < 3; ++i) EXPECT_NEAR(sums.amps[i].running, 24.25, 0.01);
  EXPECT_NEAR(sums.neutral_amps, 0, 1e-9);
}

// Rating / 240 V on each leg at the same time: 5000 W 20.8 A, 7200 W 30 A, 7500 W 31.25 A, 9600 W 40 A, 12 kW 50 A (computed).
TEST(LegSums, a_rating_is_so_many_amperes_on_each_leg) {
  for (const auto& [watts, amps] : {std::pair{5000, 20.83}, {7200, 30.0}, {7500, 31.25}, {9600, 40.0}, {12000, 50.0}}) {
    const LegSums sums = leg_sums(split_phase_120_240, kSource, std::vector<LegLoad>{between(1, 2, watts / 2)});
    EXPECT_NEAR(sums.amps[0].running, amps, 0.005);
    EXPECT_NEAR(sums.amps[1].running, amps, 0.005);
  }
}

TEST(LegSums, watts_are_voltamperes_times_the_power_factor) {
  const LegSums sums = leg_sums(split_phase_120_240, kSource, std::vector<LegLoad>{to_neutral(1, 1000, 0, 0.6)});
  EXPECT_EQ(sums.leg[0].running, 1000);
  EXPECT_EQ(sums.leg[0].running_watts, 600);
}

TEST(LegSums, one_leg_is_never_out_of_balance_and_nothing_is_balanced) {
  const PlanSource one{.legs = 1, .running = 2000, .starting = 2000, .leg_running = {2000}, .leg_starting = {2000}};
  EXPECT_EQ(leg_sums(split_phase_120_240, one, std::vector<LegLoad>{to_neutral(1, 900)}).imbalance_percent, 0);
  EXPECT_EQ(leg_sums(split_phase_120_240, kSource, {}).imbalance_percent, 0);
  EXPECT_EQ(leg_sums(split_phase_120_240, kSource, std::vector<LegLoad>{to_neutral(2, 900)}).imbalance_percent, 100);
}

TEST(LegSums, too_much_is_shown_as_less_than_nothing_left) {
  EXPECT_EQ(leg_sums(split_phase_120_240, kSource, std::vector<LegLoad>{to_neutral(1, 2600)}).leg[0].left_running, -100);
}

TEST(LegSums, what_cannot_be_is_refused) {
  const auto sum = [](LegLoad load, bool in_phase = false) {
    PlanSource source = kSource;
    source.in_phase = in_phase;
    return leg_sums(split_phase_120_240, source, std::vector<LegLoad>{load});
  };
  EXPECT_NO_THROW((void)sum(between(1, 2, 10)));
  EXPECT_THROW((void)sum(between(1, 2, 10), true), Error);
  EXPECT_THROW((void)sum(to_neutral(3, 10)), Error);
  EXPECT_THROW((void)sum(to_neutral(1, -1)), Error);
  EXPECT_THROW((void)sum(to_neutral(1, 10, 0, 0)), Error);
  EXPECT_THROW((void)sum(to_neutral(1, 10, 0, 1.01)), Error);
  LegLoad one_leg = to_neutral(1, 10);
  one_leg.between_legs = true;
  EXPECT_THROW((void)sum(one_leg), Error);
  LegLoad starts_low = to_neutral(1, 10);
  starts_low.starting = {};
  EXPECT_THROW((void)sum(starts_low), Error);
}

TEST(LegSums, loads_of_a_plan_stand_on_the_legs_of_its_positions) {
  BackupCase backup;
  backup.problem.positions = {{.leg = 2}, {.leg = 1}, {.leg = 2}};
  PlanLoad pump{.running = {400, 400}, .starting = {1000, 1000}}, fridge{.running = {300}, .starting = {900}}, kettle{.on_demand = true, .running = {1500}, .starting = {1500}};
  backup.problem.circuits = {{.poles = 1, .loads = {fridge, kettle}}, {.poles = 2, .loads = {pump}}, {.poles = 1, .loads = {fridge}, .own_leg = {1}}};
  backup.circuits.resize(3);
  backup.circuits[0].loads.resize(2), backup.circuits[1].loads.resize(1), backup.circuits[2].loads.resize(1);
  backup.circuits[0].loads[0].figures.power_factor = 0.5;
  Plan plan;
  plan.placed = {{.circuit = 0, .position = {0, -1, -1}, .served = {true, true}}, {.circuit = 1, .position = {1, 2, -1}, .served = {true}}, {.circuit = 2, .served = {true}}};
  const std::vector<LegLoad> loads = leg_loads(backup, plan);
  ASSERT_EQ(loads.size(), 3u);
  EXPECT_EQ(loads[0].running, (PerPole{0, 300}));
  EXPECT_EQ(loads[0].power_factor, 0.5);
  EXPECT_FALSE(loads[0].between_legs);
  EXPECT_EQ(loads[1].starting, (PerPole{1000, 1000}));
  EXPECT_TRUE(loads[1].between_legs);
  EXPECT_EQ(loads[2].running, (PerPole{300}));
}

}  // namespace
}  // namespace ohmstead
