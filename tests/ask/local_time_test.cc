#include "ask/local_time.h"

#include <gtest/gtest.h>

namespace ohmstead {
namespace {

const LocalTime kEast{[](long) { return 5 * 3600L + 30 * 60; }};
/// Clocks of New York at the end of daylight time, 2026-11-01T06:00:00Z (US Energy Policy Act of 2005: first Sunday of November).
const LocalTime kNewYork{[](long seconds) { return seconds < 1'793'512'800 ? -4 * 3600L : -5 * 3600L; }};

TEST(LocalTime, a_moment_is_what_the_clock_shows_with_its_day) {
  EXPECT_EQ(clock_text("2026-11-27T07:10:00Z", kNewYork), "02:10");
  EXPECT_EQ(day_text("2026-11-27T04:59:59Z", kNewYork), "Thursday 2026-11-26");
  EXPECT_EQ(day_text("2026-11-27T05:00:00Z", kNewYork), "Friday 2026-11-27");
  EXPECT_EQ(clock_text("2026-12-31T20:00:00Z", kEast), "01:30");
  EXPECT_EQ(day_text("2026-12-31T20:00:00Z", kEast), "Friday 2027-01-01");
  EXPECT_EQ(clock_text("2026-11-27T07:10:00Z", {}), "07:10");
}

TEST(LocalTime, the_zone_is_said_as_it_is_at_that_moment) {
  EXPECT_EQ(zone_text("2026-11-01T05:59:59Z", kNewYork), "UTC-4");
  EXPECT_EQ(zone_text("2026-11-01T06:00:00Z", kNewYork), "UTC-5");
  EXPECT_EQ(clock_text("2026-11-01T05:59:59Z", kNewYork), clock_text("2026-11-01T06:59:59Z", kNewYork)) << "an hour that is there twice";
  EXPECT_EQ(zone_text("2026-11-27T00:00:00Z", kEast), "UTC+5:30");
  EXPECT_EQ(zone_text("2026-11-27T00:00:00Z", {}), "UTC");
}

TEST(LocalTime, what_is_no_moment_comes_back_as_it_is) {
  EXPECT_EQ(clock_text("soon", kEast), "soon");
  EXPECT_EQ(day_text("\x1b[2J", kEast).find('\x1b'), std::string::npos) << "but never as a control character";
}

}  // namespace
}  // namespace ohmstead
