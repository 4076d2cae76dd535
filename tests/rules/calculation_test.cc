// Numbers as they are shown, and editions.
#include "rules/calculation.h"

#include <gmock/gmock.h>

#include "house/error.h"

namespace ohmstead {
namespace {

TEST(Calculation, numbers_are_rounded_half_up_for_display_only) {
  EXPECT_EQ(number_text(14550), "14,550");
  EXPECT_EQ(number_text(77.5), "78");
  EXPECT_EQ(number_text(2.675, 2), "2.68");
  EXPECT_EQ(number_text(0.058, 3), "0.058");
  EXPECT_EQ(number_text(-0.2), "0");
  EXPECT_EQ(number_text(-1234.5, 1), "-1,234.5");
  EXPECT_EQ(plain_number(0.85), "0.85");
  EXPECT_EQ(plain_number(1500), "1,500");
  EXPECT_EQ(plain_number(0.00001), "0");
  EXPECT_EQ(value_text({"", "", 8000, "VA", 0, ""}), "8,000 VA");
  EXPECT_EQ(value_text({"", "", 0.91, "", 2, ""}), "0.91");
  EXPECT_EQ(whole_amps(77.5), 78);
  EXPECT_EQ(whole_amps(64.16), 64);
}

TEST(Calculation, editions_that_do_not_exist_are_refused_in_one_sentence) {
  for (const int year : kEditions) EXPECT_EQ(checked_edition(year), year);
  for (const int year : {0, 2004, 2006, 2016, 2024, 2026, -2020}) {
    try {
      checked_edition(year);
      ADD_FAILURE() << year;
    } catch (const Error& error) {
      EXPECT_EQ(error.kind, ErrorKind::invalid_input);
      EXPECT_THAT(error.what(), testing::HasSubstr("2005, 2008, 2011, 2014, 2017, 2020, 2023."));
      EXPECT_THAT(error.what(), testing::HasSubstr(year == 2026 ? "not confirmed" : "no edition"));
    }
  }
}

}  // namespace
}  // namespace ohmstead
