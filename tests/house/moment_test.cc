#include "house/moment.h"

#include <gtest/gtest.h>

namespace ohmstead {
namespace {

TEST(Moment, counts_seconds_since_1970) {
  EXPECT_EQ(seconds_since_1970("1970-01-01T00:00:00Z"), 0);
  EXPECT_EQ(seconds_since_1970("2000-03-01T00:00:00Z"), 951868800);  // as `date -u -d 2000-03-01 +%s` has it
  EXPECT_EQ(seconds_since_1970("2026-11-25T09:30:00Z"), 1795599000);
}

TEST(Moment, is_written_as_it_is_read) {
  for (const char* text : {"1970-01-01T00:00:00Z", "2000-02-29T23:59:59Z", "2026-11-25T09:30:00Z", "9999-12-31T23:59:59Z"})
    EXPECT_EQ(moment_at(seconds_since_1970(text)), text);
}

TEST(Moment, what_is_none_is_minus_one) {
  for (const char* text : {"", "2026-11-25", "2026-02-29T00:00:00Z", "2026-13-01T00:00:00Z", "2026-11-25 09:30:00Z", "2026-11-25T09:30:0xZ"})
    EXPECT_EQ(seconds_since_1970(text), -1) << text;
}

TEST(Moment, the_time_between_two_is_0_where_one_is_none) {
  EXPECT_EQ(seconds_between("2026-12-31T23:59:00Z", "2027-01-01T00:01:00Z"), 120);
  EXPECT_EQ(seconds_between("2027-01-01T00:01:00Z", "2026-12-31T23:59:00Z"), -120);
  EXPECT_EQ(seconds_between("never", "2026-12-31T23:59:00Z"), 0);
}

}  // namespace
}  // namespace ohmstead
