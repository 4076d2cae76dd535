#include "db/shards.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <numeric>
#include <random>

#include "house/error.h"
#include "tests/db/paper_copy_by_hand.h"

namespace ohmstead {
namespace {

std::string some_bytes(std::size_t length, unsigned seed) {
  std::mt19937 random(seed);
  std::string bytes;
  for (std::size_t i = 0; i < length; ++i) bytes += static_cast<char>(random());
  return bytes;
}

TEST(Shards, there_are_three_in_ten_more_and_at_least_three) {
  for (const auto& [k, m] : {std::pair{1, 3}, {10, 3}, {11, 4}, {13, 4}, {20, 6}, {21, 7}, {196, 59}}) EXPECT_EQ(recovery_shards(k), m) << k;
}

TEST(Shards, the_data_come_first_filled_up_with_zero_bytes) {
  const std::vector<std::string> shards = make_shards("abcdefg", 3, 3);
  ASSERT_EQ(shards.size(), 6u);
  EXPECT_EQ(shards[0] + shards[1] + shards[2], std::string("abcdefg\0\0", 9));
}

TEST(Shards, recovery_is_the_sum_that_is_documented) {
  const int k = 7, m = 3;
  const std::vector<std::string> shards = make_shards(some_bytes(70, 1), k, m);
  const auto at = [&](int shard, std::size_t place) { return static_cast<unsigned>(static_cast<unsigned char>(shards[static_cast<std::size_t>(shard)][place])); };
  for (int p = 0; p < m; ++p)
    for (std::size_t place = 0; place < 10; ++place) {
      unsigned sum = 0;
      for (int j = 0; j < k; ++j) {
        unsigned inverse = 1;
        while (test::product_by_hand(inverse, static_cast<unsigned>((k + p) ^ j)) != 1) ++inverse;
        sum ^= test::product_by_hand(inverse, at(j, place));
      }
      EXPECT_EQ(at(k + p, place), sum);
    }
}

TEST(Shards, any_k_of_them_are_enough) {
  std::mt19937 random(3);
  for (const auto& [k, m] : {std::pair{1, 3}, {2, 3}, {5, 3}, {13, 4}, {42, 13}, {196, 59}}) {
    const std::string data = some_bytes(static_cast<std::size_t>(k) * 40, 9);
    const std::vector<std::string> shards = make_shards(data, k, m);
    std::vector<int> order(shards.size());
    std::iota(order.begin(), order.end(), 0);
    for (int round = 0; round < 20; ++round) {
      std::ranges::shuffle(order, random);
      std::map<int, std::string> some;
      for (int i = 0; i < k; ++i) some[order[static_cast<std::size_t>(i)]] = shards[static_cast<std::size_t>(order[static_cast<std::size_t>(i)])];
      EXPECT_EQ(data_of_shards(some, k), data) << k << " of " << k + m;
      some.erase(some.begin());
      EXPECT_THROW((void)data_of_shards(some, k), Error);
    }
  }
}

}  // namespace
}  // namespace ohmstead
