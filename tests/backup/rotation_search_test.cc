#include "backup/rotation_search.h"

#include <gmock/gmock.h>

#include <bit>
#include <random>

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

/// All masks that meet a need, load by load; a branch that costs no less than the best so far is left.
class AllMasks {
 public:
  AllMasks(const std::vector<bool>& allowed, const std::vector<Need>& needs, int slots) : allowed_(allowed), needs_(needs), slots_(slots), on_(static_cast<std::size_t>(slots)) {}
  int fewest() { return place(0, 0), best_; }

 private:
  void place(std::size_t load, int cost) {
    if (best_ >= 0 && cost >= best_) return;
    if (load == needs_.size()) return void(best_ = cost);
    const std::vector<std::size_t> before = on_;
    for (std::uint32_t bits = 1; bits < (1U << slots_); ++bits) {
      if (!meets(bits, needs_[load], slots_)) continue;
      bool may = true;
      for (std::size_t k = 0; k < on_.size() && may; ++k)
        if ((bits >> k) & 1U) on_[k] |= std::size_t{1} << load, may = allowed_[on_[k]];
      if (may) place(load + 1, cost + blocks(bits, slots_));
      on_ = before;
    }
  }

  const std::vector<bool>& allowed_;
  const std::vector<Need>& needs_;
  int slots_, best_ = -1;
  std::vector<std::size_t> on_;
};

TEST(RotationSearch, agrees_with_all_masks_where_loads_exclude_each_other_at_random) {
  std::mt19937 random(31);
  const auto number = [&](int low, int high) { return std::uniform_int_distribution(low, high)(random); };
  int found = 0, none = 0, split = 0;
  for (int trial = 0; trial < 1500; ++trial) {
    const std::size_t loads = 4;
    const int slots = number(4, 6), most = number(7, 13);
    std::vector<int> takes;
    for (std::size_t i = 0; i < loads; ++i) takes.push_back(number(2, 7));
    const std::size_t apart = (std::size_t{1} << number(0, 3)) | (std::size_t{1} << number(0, 3));  // these two never together
    std::vector<bool> allowed;
    for (std::size_t set = 0; set < (std::size_t{1} << loads); ++set) {
      int sum = 0;
      for (std::size_t i = 0; i < loads; ++i) sum += (set >> i) & 1U ? takes[i] : 0;
      allowed.push_back(sum <= most && !(std::popcount(apart) == 2 && (set & apart) == apart));
    }
    std::vector<Need> needs;
    for (std::size_t i = 0; i < loads; ++i) needs.push_back({.slots = number(1, slots / 2 + 1), .longest_off = number(1, slots - 1), .takes = {takes[i], 0, 0, takes[i], 1}});
    Search search(allowed, needs, slots, 10'000'000);
    const auto masks = search.best();
    const int fewest = AllMasks(allowed, needs, slots).fewest();
    ASSERT_EQ(masks.has_value(), fewest >= 0) << trial;
    if (!masks) {
      ++none;
      continue;
    }
    int sum = 0;
    for (const std::uint32_t bits : *masks) sum += blocks(bits, slots);
    ASSERT_EQ(sum, fewest) << trial;
    ++found, split += fewest > static_cast<int>(loads);
  }
  EXPECT_GT(found, 100);
  EXPECT_GT(none, 20);
  EXPECT_GT(split, 10);
}

TEST(RotationSearch, work_that_runs_out_is_said) {
  const std::vector<bool> allowed{true, true, true, false};
  Search search(allowed, {{.slots = 2, .longest_off = 2}, {.slots = 2, .longest_off = 2}}, 4, 0);
  EXPECT_FALSE(search.best());
  EXPECT_TRUE(search.stopped());
}

}  // namespace
}  // namespace ohmstead::rotation_detail
