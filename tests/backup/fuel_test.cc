#include "backup/fuel.h"

#include <gmock/gmock.h>

#include <random>

#include "house/error.h"

namespace ohmstead {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

Source set_of(Fuel fuel, int watts = 5000) { return {.running_watts = watts, .fuel = fuel, .tank_ml = 20'000}; }

Source with_points(int at_25, int at_50, int at_75, int at_100) {
  Source source = set_of(Fuel::gasoline, 4000);
  source.use_25_ml_h = at_25, source.use_50_ml_h = at_50, source.use_75_ml_h = at_75, source.use_100_ml_h = at_100;
  return source;
}

double use(const Source& source, int watts) {
  const Range range = fuel_use(source, watts).value().liters_per_hour;
  EXPECT_NEAR(range.low, range.high, 1e-12);
  return range.high;
}

// US Energy Information Administration: Btu in a gallon or cubic foot, and at 3412 Btu per kWh the kilowatt hours (computed).
TEST(Fuel, heat_contents_agree_with_the_published_ones) {
  const std::tuple<Fuel, int, int, double> published[] = {{Fuel::gasoline, 120'238, 2021, 35.24}, {Fuel::diesel, 137'381, 2021, 40.26}, {Fuel::propane, 91'333, 2018, 26.77}};
  for (const auto& [fuel, btu, year, kwh] : published) {
    const HeatContent content = heat_content(fuel).value();
    EXPECT_EQ(content.btu, btu);
    EXPECT_EQ(content.year, year);
    EXPECT_NEAR(content.kwh_per_liter * kLitersPerGallon, kwh, 0.005);
  }
  EXPECT_NEAR(heat_content(Fuel::natural_gas).value().kwh_per_liter * kLitersPerCubicFoot, 0.3045, 0.00005);
  EXPECT_FALSE(heat_content(Fuel::not_known));
  // A 20 lb cylinder of propane: 20 / 4.24 = 4.7 gal, about 126 kWh (computed).
  EXPECT_NEAR(heat_content(Fuel::propane)->kwh_per_liter * 20 / 4.24 * kLitersPerGallon, 126, 0.5);
}

// Computed: 0.15 gal/kWh of gasoline is 18.9 %, 0.20 is 14.2 %, 0.26 is 10.9 %.
TEST(Fuel, efficiency_of_the_worked_cases) {
  EXPECT_NEAR(efficiency(Fuel::gasoline, 0.15 * kLitersPerGallon, 1).value(), 0.189, 0.0005);
  EXPECT_NEAR(efficiency(Fuel::gasoline, 0.20 * kLitersPerGallon, 1).value(), 0.142, 0.0005);
  EXPECT_NEAR(efficiency(Fuel::gasoline, 0.26 * kLitersPerGallon, 1).value(), 0.109, 0.0005);
  EXPECT_NEAR(efficiency(Fuel::propane, 0.97 * kLitersPerGallon, 5).value(), 0.19, 0.005);
  EXPECT_FALSE(efficiency(Fuel::not_known, 1, 1));
  EXPECT_FALSE(efficiency(Fuel::gasoline, 0, 1));
  EXPECT_FALSE(efficiency(Fuel::gasoline, 1, 0));
}

TEST(Fuel, entered_points_are_met_and_joined_straight) {
  const Source source = with_points(1000, 1400, 1800, 2400);
  EXPECT_NEAR(use(source, 1000), 1.0, 1e-12);
  EXPECT_NEAR(use(source, 2000), 1.4, 1e-12);
  EXPECT_NEAR(use(source, 3000), 1.8, 1e-12);
  EXPECT_NEAR(use(source, 4000), 2.4, 1e-12);
  EXPECT_NEAR(use(source, 1500), 1.2, 1e-12);
  EXPECT_NEAR(use(source, 3500), 2.1, 1e-12);
  EXPECT_NEAR(use(source, 0), 0.6, 1e-12);     // the first stretch goes on
  EXPECT_NEAR(use(source, 5000), 3.0, 1e-12);  // the last stretch goes on
  EXPECT_FALSE(fuel_use(source, 0)->typical);
}

TEST(Fuel, points_that_are_not_entered_are_bridged) {
  EXPECT_NEAR(use(with_points(0, 1400, 0, 2400), 3000), 1.9, 1e-12);
  EXPECT_NEAR(use(with_points(0, 1400, 0, 2400), 0), 0.4, 1e-12);
  EXPECT_NEAR(use(with_points(1000, 0, 0, 6000), 0), 0, 1e-12);  // straight on it would be below 0
}

TEST(Fuel, one_point_alone_makes_a_range_by_the_no_load_share) {
  const FuelUse at_half = fuel_use(with_points(0, 1400, 0, 0), 2000).value();
  EXPECT_NEAR(at_half.liters_per_hour.low, 1.4, 1e-12);
  EXPECT_NEAR(at_half.liters_per_hour.high, 1.4, 1e-12);
  const FuelUse idle = fuel_use(with_points(0, 0, 0, 2000), 0).value();
  EXPECT_NEAR(idle.liters_per_hour.low, 0.6, 1e-12);   // 30 % of the full-load fuel
  EXPECT_NEAR(idle.liters_per_hour.high, 1.2, 1e-12);  // 60 %
  EXPECT_THAT(idle.source, HasSubstr("secondary"));
}

TEST(Fuel, figures_from_memory_say_so) {
  for (const Fuel fuel : {Fuel::gasoline, Fuel::diesel, Fuel::propane, Fuel::natural_gas}) {
    const FuelUse typical = fuel_use(set_of(fuel), 2500).value();
    EXPECT_TRUE(typical.typical);
    EXPECT_THAT(typical.source, HasSubstr("from memory"));
    EXPECT_LT(typical.liters_per_hour.low, typical.liters_per_hour.high);
  }
}

TEST(Fuel, typical_ranges_hold_what_was_published) {
  const auto holds = [](const Source& source, int watts, double liters) {
    const Range range = fuel_use(source, watts).value().liters_per_hour;
    EXPECT_LE(range.low, liters + 1e-9);
    EXPECT_GE(range.high, liters - 1e-9);
  };
  // A contractor's page (weak): 5 kW gasoline at half load 0.65 gal/h, 10 kW propane at half load 0.97 gal/h.
  holds(set_of(Fuel::gasoline), 2500, 0.65 * kLitersPerGallon);
  holds(set_of(Fuel::propane, 10'000), 5000, 0.97 * kLitersPerGallon);
  // A private measurement (secondary): about 1 kW, 0.0739 gal/h + 0.127 gal/kWh.
  for (const int watts : {250, 500, 750, 1000}) holds(set_of(Fuel::gasoline, 1000), watts, (0.0739 + 0.127 * watts / 1000) * kLitersPerGallon);
  // A rule of thumb (weak): 10 cubic feet of natural gas for a kWh at full load.
  holds(set_of(Fuel::natural_gas), 5000, 50 * kLitersPerCubicFoot);
  // Remote-power literature (from memory): 0.246 P + 0.084 P_rated liters an hour of diesel.
  holds(set_of(Fuel::diesel, 8000), 4000, 0.246 * 4 + 0.083 * 8);
}

TEST(Fuel, a_straight_line_uses_less_for_each_kilowatt_hour_the_higher_the_load) {
  std::vector<Source> sets{with_points(1000, 1400, 1800, 2200)};
  for (const Fuel fuel : {Fuel::gasoline, Fuel::diesel, Fuel::propane, Fuel::natural_gas}) sets.push_back(set_of(fuel));
  sets.push_back(with_points(0, 1400, 0, 0));
  for (const Source& source : sets)
    for (int watts = source.running_watts / 20; watts + 100 <= source.running_watts; watts += 100) {
      const Range now = fuel_use(source, watts)->liters_per_hour, more = fuel_use(source, watts + 100)->liters_per_hour;
      EXPECT_LT(now.low, more.low);
      EXPECT_GT(now.low / watts, more.low / (watts + 100));
      EXPECT_GT(now.high / watts, more.high / (watts + 100));
    }
}

TEST(Fuel, half_the_load_lasts_less_than_twice_as_long) {
  std::mt19937 random(7);
  for (int trial = 0; trial < 500; ++trial) {
    const int idle = std::uniform_int_distribution(50, 900)(random), slope = std::uniform_int_distribution(100, 900)(random);
    const Source source = with_points(idle + slope, idle + 2 * slope, idle + 3 * slope, idle + 4 * slope);
    const double full = hours_on_tank(source, std::vector<LoadTime>{{4000, 1}})->high, half = hours_on_tank(source, std::vector<LoadTime>{{2000, 1}})->high;
    EXPECT_GT(half, full);
    EXPECT_LT(half, 2 * full);
  }
}

TEST(Fuel, hours_on_a_tank_and_fuel_for_three_days) {
  const Source source = with_points(1000, 1400, 1800, 2200);
  const std::vector<LoadTime> steady{{2000, kOutageHours}};
  EXPECT_NEAR(fuel_for(source, steady)->high, 1.4 * 72, 1e-9);
  EXPECT_NEAR(hours_on_tank(source, steady)->high, 20 / 1.4, 1e-9);
  // A third of the time 3 kW, otherwise idling: (1.8 + 2 x 0.6) / 3 = 1 liter an hour.
  EXPECT_NEAR(hours_on_tank(source, std::vector<LoadTime>{{3000, 1}, {0, 2}})->high, 20, 1e-9);
  const Range typical = hours_on_tank(set_of(Fuel::gasoline), std::vector<LoadTime>{{2500, 1}}).value();
  EXPECT_LT(typical.low, typical.high);
}

TEST(Fuel, a_battery_lasts_its_watt_hours) {
  Source battery{.kind = SourceKind::battery_inverter, .running_watts = 3000, .capacity_wh = 4000};
  const Range hours = hours_on_tank(battery, std::vector<LoadTime>{{500, 1}}).value();
  EXPECT_NEAR(hours.high, 8, 1e-9);
  EXPECT_NEAR(hours.low, 6.8, 1e-9);
  EXPECT_FALSE(hours_on_tank(battery, std::vector<LoadTime>{{0, 1}}));
  EXPECT_FALSE(fuel_use(battery, 500));
  battery.capacity_wh = 0;
  EXPECT_FALSE(hours_on_tank(battery, std::vector<LoadTime>{{500, 1}}));
}

TEST(Fuel, what_is_not_known_is_not_made_up) {
  EXPECT_FALSE(fuel_use(set_of(Fuel::not_known), 100));
  EXPECT_FALSE(fuel_use(set_of(Fuel::gasoline, 0), 100));
  Source piped = set_of(Fuel::natural_gas), no_tank = set_of(Fuel::gasoline);
  no_tank.tank_ml = 0;
  const std::vector<LoadTime> load{{1000, 1}};
  EXPECT_FALSE(hours_on_tank(piped, load));
  EXPECT_FALSE(hours_on_tank(no_tank, load));
  EXPECT_TRUE(fuel_for(piped, load));
  EXPECT_THROW((void)fuel_use(set_of(Fuel::gasoline), -1), Error);
}

TEST(Fuel, piped_gas_is_entered_in_liters_of_gas) {
  Source source = set_of(Fuel::natural_gas, 10'000);
  source.use_50_ml_h = 2500, source.use_100_ml_h = 4000;
  EXPECT_NEAR(fuel_use(source, 5000)->liters_per_hour.high, 2500, 1e-9);
}

TEST(Fuel, points_that_cannot_be_are_named) {
  EXPECT_THAT(doubtful_points(with_points(1000, 1400, 1800, 2200)), IsEmpty());
  EXPECT_THAT(doubtful_points(with_points(0, 140, 0, 2200)), ElementsAre(50));   // more than the fuel holds
  EXPECT_THAT(doubtful_points(with_points(5000, 0, 0, 0)), ElementsAre(25));     // 2 %
  Source not_known = with_points(1, 2, 3, 4);
  not_known.fuel = Fuel::not_known;
  EXPECT_THAT(doubtful_points(not_known), IsEmpty());
}

}  // namespace
}  // namespace ohmstead
