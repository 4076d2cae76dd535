#include "backup/fuel_left.h"

#include <gtest/gtest.h>

#include "backup/outage_status.h"
#include "outage_story.h"

namespace ohmstead {
namespace {

constexpr const char* kRest = "\nCellar: freezer 500 W !, heater 1000 W\nPanel Main in Cellar 20 spaces, 100 A main: 1 15; 3 15\nBy J.\nCellar freezer <- Main 1\n"
                              "Cellar heater <- Main 3\nTransfer T in Cellar 2 positions from G: 1 15 L1 <- Main 1; 2 15 L2 <- Main 3\n";
// Liters an hour at 25, 50, 75 and 100 % of 4000 W; straight between, and below the first.
constexpr const char* kEngine = "Generator G 4000/4500 W 120/240, gasoline, 10 L tank, uses 1/1.4/1.6/2 L/h";
constexpr const char* kBattery = "Battery G 4000/4500 W 120/240, 10 kWh";

struct FuelLeftTest : testing::Test {
  /// Runs from the hour 0 with what is on; `hour` and `minute` are of one day.
  void begin(const std::string& source) {
    story.emplace(source + kRest);
    story->board().begin(at(0));
    while (!is_settled(story->board().step().kind)) story->board().answer({.at = at(0)});
  }
  static std::string at(int hour, int minute = 0) {
    const auto two = [](int n) { return (n < 10 ? "0" : "") + std::to_string(n); };
    return "2026-11-27T" + two(hour) + ":" + two(minute) + ":00Z";
  }
  FuelLeft left(const std::string& when) {
    const auto fuel = fuel_left(story->board().view(), when);
    EXPECT_TRUE(fuel);
    return fuel.value_or(FuelLeft{});
  }
  void tell(OutageEvent event, const std::string& when) {
    event.at = when;
    story->board().tell(event);
  }
  [[nodiscard]] OutageEvent about_source(const std::string_view text) const { return {.kind = OutageEventKind::note, .source = story->house().sources[0].id, .text = std::string(text)}; }
  std::optional<OutageStory> story;
};

// 1500 W are 37.5 %: 1.2 l/h, so 10 l last 8.333 h; 500 W are 12.5 %: 1 - 0.5 * 0.4 = 0.8 l/h, 12.5 h.
constexpr double kWith1500 = 10 / 1.2, kWith500 = 12.5;

TEST_F(FuelLeftTest, a_steady_load_empties_the_tank_when_hours_on_tank_says) {
  begin(kEngine);
  ASSERT_EQ(drawn_watts(story->board().gear(), story->board().now()), 1500);
  const OutageStatus status = outage_status(story->board().view(), at(0));
  ASSERT_TRUE(status.tank_hours && status.fuel);
  EXPECT_NEAR(status.tank_hours->low, kWith1500, 1e-9);
  EXPECT_NEAR(status.fuel->hours.low, kWith1500, 1e-9);
  EXPECT_NEAR(left(at(3)).hours.high, kWith1500 - 3, 1e-9);
  EXPECT_NEAR(left(at(3)).share.low, 1 - 3 / kWith1500, 1e-9);
  EXPECT_EQ(left(at(9)).hours.high, 0) << "empty, not less than empty";
}

TEST_F(FuelLeftTest, what_was_drawn_before_counts_as_it_was_and_the_rest_as_it_is) {
  begin(kEngine);
  tell({.kind = OutageEventKind::load_off, .load = story->load("heater")}, at(4));
  EXPECT_NEAR(left(at(6)).share.low, 1 - 4 / kWith1500 - 2 / kWith500, 1e-9);
  EXPECT_NEAR(left(at(6)).hours.low, (1 - 4 / kWith1500 - 2 / kWith500) * kWith500, 1e-9);
}

TEST_F(FuelLeftTest, while_it_stands_still_nothing_is_used_and_refuelled_is_full) {
  begin(kEngine);
  tell({.kind = OutageEventKind::source_stopped}, at(4));
  EXPECT_NEAR(left(at(8)).share.low, 1 - 4 / kWith1500, 1e-9);
  EXPECT_EQ(left(at(8)).hours.high, 0);
  EXPECT_EQ(left(at(8)).full_at, "");
  tell(about_source(outage_log::kRefuelled), at(8));
  EXPECT_EQ(left(at(9)).share.low, 1);
  EXPECT_EQ(left(at(9)).full_at, at(8));
  ASSERT_TRUE(story->board().undo());
  EXPECT_LT(left(at(9)).share.low, 1) << "it was taken back";
  tell(about_source(outage_log::kNotRefuelled), at(8));
  EXPECT_LT(left(at(9)).share.low, 1);
}

TEST_F(FuelLeftTest, a_battery_is_between_its_watt_hours_and_those_less_what_an_inverter_loses) {
  begin(kBattery);
  const FuelLeft fuel = left(at(2));  // 10 kWh at 1.5 kW: 6.667 h; at 85 % of that: 5.667 h (from memory, fuel.cc)
  EXPECT_NEAR(fuel.hours.high, (1 - 2 / (10 / 1.5)) * (10 / 1.5), 1e-9);
  EXPECT_NEAR(fuel.hours.low, (1 - 2 / (8.5 / 1.5)) * (8.5 / 1.5), 1e-9);
}

TEST_F(FuelLeftTest, where_the_tank_is_not_known_nothing_is_said) {
  begin("Generator G 4000/4500 W 120/240, gasoline");
  EXPECT_FALSE(fuel_left(story->board().view(), at(1)));
  begin(kEngine);
  const House house = story->house();
  const OutageGear& gear = story->board().gear();
  OutageNow none = story->board().now();
  none.phase = OutagePhase::none;
  EXPECT_FALSE(fuel_left({house, gear, none}, at(1))) << "no outage";
}

}  // namespace
}  // namespace ohmstead
