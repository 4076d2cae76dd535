#include "backup/rotation_search.h"

#include <gmock/gmock.h>

#include <bit>

namespace ohmstead::rotation_detail {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

/// Rule of a need, slot by slot.
bool meets(std::uint32_t bits, Need need, int slots) {
  if (bits == 0 || std::popcount(bits) < need.slots) return false;
  int off = 0, longest = 0;
  for (int k = 0; k < 2 * slots; ++k) off = (bits >> (k % slots)) & 1U ? 0 : off + 1, longest = std::max(longest, off);
  return longest <= need.longest_off;
}

int blocks(std::uint32_t bits, int slots) {
  int count = 0;
  for (int k = 0; k < slots; ++k) count += ((bits >> k) & 1U) && !((bits >> ((k + slots - 1) % slots)) & 1U);
  return count;
}

std::vector<std::uint32_t> bits_of(const std::vector<Mask>& masks) {
  std::vector<std::uint32_t> bits;
  for (const Mask& mask : masks) bits.push_back(mask.bits);
  return bits;
}

TEST(RotationMasks, blocks_are_counted_around_the_cycle) {
  for (int slots = 1; slots <= 9; ++slots)
    for (std::uint32_t bits = 0; bits < (1U << slots); ++bits) ASSERT_EQ(blocks_of(bits, slots), blocks(bits, slots)) << bits << " of " << slots;
}

TEST(RotationMasks, one_slot_of_four_with_long_times_off_is_any_one_slot_or_always) {
  EXPECT_THAT(bits_of(masks_for({.slots = 1, .longest_off = 3}, 4)), ElementsAre(0b1111, 0b0001, 0b0010, 0b0100, 0b1000));
}

TEST(RotationMasks, what_may_never_be_off_is_always_on) { EXPECT_THAT(bits_of(masks_for({.slots = 1, .longest_off = 0}, 5)), ElementsAre(0b11111)); }

TEST(RotationMasks, more_slots_than_there_are_cannot_be) { EXPECT_THAT(masks_for({.slots = 5, .longest_off = 4}, 4), IsEmpty()); }

TEST(RotationMasks, every_way_that_meets_a_need_holds_one_of_the_list_with_no_more_blocks) {
  for (const int slots : {1, 2, 5, 8})
    for (int on = 1; on <= slots; ++on)
      for (int off = 0; off <= slots; ++off) {
        const Need need{.slots = on, .longest_off = off};
        const std::vector<Mask> masks = masks_for(need, slots);
        for (const Mask& mask : masks) ASSERT_TRUE(meets(mask.bits, need, slots) && mask.blocks == blocks(mask.bits, slots));
        for (std::uint32_t bits = 0; bits < (1U << slots); ++bits) {
          const bool held = std::ranges::any_of(masks, [&](const Mask& mask) { return (mask.bits & ~bits) == 0 && mask.blocks <= blocks(bits, slots); });
          ASSERT_TRUE(!meets(bits, need, slots) || held) << bits << ' ' << on << ' ' << off << ' ' << slots;
        }
      }
}

TEST(RotationSearch, two_that_exclude_each_other_take_turns) {
  const std::vector<bool> allowed{true, true, true, false};
  Search search(allowed, {{.slots = 2, .longest_off = 2}, {.slots = 2, .longest_off = 2}}, 4, 1000);
  const auto masks = search.best();
  ASSERT_TRUE(masks);
  EXPECT_EQ((*masks)[0] & (*masks)[1], 0U);
  EXPECT_EQ(blocks((*masks)[0], 4) + blocks((*masks)[1], 4), 2);
  EXPECT_FALSE(search.stopped());
}

TEST(RotationSearch, work_that_runs_out_is_said) {
  const std::vector<bool> allowed{true, true, true, false};
  Search search(allowed, {{.slots = 2, .longest_off = 2}, {.slots = 2, .longest_off = 2}}, 4, 0);
  EXPECT_FALSE(search.best());
  EXPECT_TRUE(search.stopped());
}

}  // namespace
}  // namespace ohmstead::rotation_detail
