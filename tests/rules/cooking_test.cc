// Table 220.55 of NFPA 70 and its notes.
#include "rules/cooking.h"

#include <gmock/gmock.h>

#include <vector>

#include "house/error.h"

namespace ohmstead {
namespace {

double of(const std::vector<double>& ratings) { return cooking_demand(ratings).va; }

TEST(Cooking, published_cases) {
  EXPECT_EQ(of({12'000}), 8000);                          // C1, annex D1(a), text
  EXPECT_EQ(of({14'000}), 8800);                          // 8 x 1.10, secondary
  EXPECT_EQ(of(std::vector<double>(10, 14'000)), 27'500); // 25 x 1.10, code quiz of a trade magazine, text
  EXPECT_EQ(of(std::vector<double>(10, 12'000)), 25'000); // C10
  EXPECT_EQ(of(std::vector<double>(8, 12'000)), 23'000);  // C8
  EXPECT_EQ(of({3000}), 2400);                            // A1 = 80 %, secondary
  EXPECT_EQ(of({4000, 4000, 5100}), 7200);                // annex D2(b): 13.1 kVA x 55 % = 7,205, printed 7,200
}

TEST(Cooking, notes_1_to_3) {
  EXPECT_EQ(of({12'400}), 8000);   // less than half a kW above 12
  EXPECT_EQ(of({12'500}), 8400);   // a major fraction counts as a whole
  EXPECT_EQ(of({8000, 16'000}), 12'100);  // unequal: those under 12 count as 12, average 14: 11 x 1.10
  EXPECT_EQ(of({3000, 5000}), 6400);      // 3 x 80 % and 5 x 80 %, each column by its own count
  EXPECT_EQ(of({8750}), 7000);            // column B
  EXPECT_EQ(of({8800}), 8000);            // column C alone
  EXPECT_EQ(of(std::vector<double>(3, 8750)), 14'000);  // column C is less than 55 % of 26.25
}

TEST(Cooking, what_the_table_does_not_have_is_refused) {
  EXPECT_THROW((void)of({}), Error);
  EXPECT_THROW((void)of({1750}), Error);
  EXPECT_THROW((void)of({27'001}), Error);
  EXPECT_THROW((void)of(std::vector<double>(11, 12'000)), Error);
}

}  // namespace
}  // namespace ohmstead
