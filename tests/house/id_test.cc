#include "house/id.h"

#include <gtest/gtest.h>

#include <set>

#include "house/house.h"

namespace ohmstead {
namespace {

constexpr std::uint64_t kLargest = (std::uint64_t{1} << 60) - 1;

TEST(IdText, twelve_characters_of_base_32) {
  EXPECT_EQ(id_text(1), "000000000001");
  EXPECT_EQ(id_text(32), "000000000010");
  EXPECT_EQ(id_text(31), "00000000000z");
  EXPECT_EQ(id_text(kLargest), "zzzzzzzzzzzz");
}

TEST(ParseId, reads_what_id_text_writes) {
  for (std::uint64_t value = 1; value <= kLargest / 3; value *= 3) EXPECT_EQ(parse_id(id_text(value)), value);
  EXPECT_EQ(parse_id("zzzzzzzzzzzz"), kLargest);
}

TEST(ParseId, refuses_everything_else) {
  for (const char* text : {"", "0", "000000000000", "00000000001", "0000000000001", "00000000000i", "00000000000l",
                           "00000000000o", "00000000000u", "00000000000A", "00000000000-", "           1",
                           "00000000000\xc3"})
    EXPECT_EQ(parse_id(text), std::nullopt) << text;
}

TEST(NewIdValue, stays_in_range_and_does_not_repeat) {
  std::set<std::uint64_t> seen;
  std::uint64_t any = 0, all = kLargest;
  for (int i = 0; i < 10'000; ++i) {
    const std::uint64_t value = new_id_value();
    ASSERT_GE(value, 1U);
    ASSERT_LE(value, kLargest);
    EXPECT_TRUE(seen.insert(value).second);
    any |= value, all &= value;
  }
  EXPECT_EQ(any, kLargest) << "some bit is never set";
  EXPECT_EQ(all, 0U) << "some bit is always set";
}

TEST(Id, nothing_has_no_text) {
  EXPECT_EQ(Id<Room>{}.text(), "");
  EXPECT_FALSE(Id<Room>{});
  EXPECT_EQ(Id<Room>{33}.text(), "000000000011");
  EXPECT_TRUE(Id<Room>::fresh());
}

}  // namespace
}  // namespace ohmstead
