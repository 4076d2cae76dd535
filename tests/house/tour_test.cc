// Walks against the shortest ones there are.

#include "house/tour.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <limits>
#include <numeric>
#include <random>

namespace ohmstead {
namespace {

using Matrix = std::vector<std::vector<int>>;

/// Seconds between places, the same both ways, never longer than through another place. Every second
/// house is a plane of points, the others are doors of any length, walked the shortest way.
Matrix random_walks(std::mt19937& random, std::size_t n, bool plane) {
  Matrix seconds(n, std::vector<int>(n, 0));
  std::vector<std::pair<int, int>> at;
  for (std::size_t i = 0; i < n; ++i) at.emplace_back(random() % 40, random() % 40);
  for (std::size_t a = 0; a < n; ++a)
    for (std::size_t b = 0; b < a; ++b)
      seconds[a][b] = seconds[b][a] = plane ? std::abs(at[a].first - at[b].first) + std::abs(at[a].second - at[b].second)
                                            : 1 + static_cast<int>(random() % 60);
  for (std::size_t k = 0; k < n; ++k)
    for (std::size_t a = 0; a < n; ++a)
      for (std::size_t b = 0; b < n; ++b) seconds[a][b] = std::min(seconds[a][b], seconds[a][k] + seconds[k][b]);
  return seconds;
}

/// Seconds of the shortest walk, after M. Held and R. M. Karp, "A dynamic programming approach to
/// sequencing problems", J. SIAM 10 (1962) 196-210 (cited from memory).
int shortest_walk(const Matrix& seconds, std::size_t from, std::size_t home, std::span<const std::size_t> rooms) {
  const std::size_t n = rooms.size();
  if (n == 0) return seconds[from][home];
  constexpr int kNever = std::numeric_limits<int>::max() / 2;
  std::vector<std::vector<int>> least(std::size_t{1} << n, std::vector<int>(n, kNever));  // rooms walked, the last of them
  for (std::size_t i = 0; i < n; ++i) least[std::size_t{1} << i][i] = seconds[from][rooms[i]];
  for (std::size_t walked = 1; walked < least.size(); ++walked)
    for (std::size_t i = 0; i < n; ++i)
      for (std::size_t next = 0; next < n && least[walked][i] < kNever; ++next) {
        if ((walked >> next & 1) != 0) continue;
        int& there = least[walked | std::size_t{1} << next][next];
        there = std::min(there, least[walked][i] + seconds[rooms[i]][rooms[next]]);
      }
  int best = kNever;
  for (std::size_t i = 0; i < n; ++i) best = std::min(best, least.back()[i] + seconds[rooms[i]][home]);
  return best;
}

int shortest_by_trying_all(const Matrix& seconds, std::size_t from, std::size_t home, std::vector<std::size_t> rooms) {
  std::ranges::sort(rooms);
  int best = std::numeric_limits<int>::max();
  do best = std::min(best, walk_seconds(seconds, from, home, rooms));
  while (std::ranges::next_permutation(rooms).found);
  return best;
}

TEST(ShortestWalk, is_the_shortest_of_all_orders) {
  std::mt19937 random(7);
  for (int i = 0; i < 40; ++i) {
    const std::size_t n = random() % 7;
    const Matrix seconds = random_walks(random, n + 2, i % 2 == 0);
    std::vector<std::size_t> rooms(n);
    std::iota(rooms.begin(), rooms.end(), 2);
    EXPECT_EQ(shortest_walk(seconds, 0, 1, rooms), shortest_by_trying_all(seconds, 0, 1, rooms));
  }
}

TEST(WalkingOrder, is_hardly_longer_than_the_shortest_walk) {
  std::mt19937 random(1);
  double sum = 0, worst = 1;
  int shortest = 0;
  constexpr int kHouses = 500;
  for (int i = 0; i < kHouses; ++i) {
    const std::size_t n = 1 + random() % 10;
    const Matrix seconds = random_walks(random, n + 2, i % 2 == 0);
    const std::size_t home = random() % 2;  // from the panel back to it, or from a room
    std::vector<std::size_t> rooms(n);
    std::iota(rooms.begin(), rooms.end(), 2);
    auto order = walking_order(seconds, 0, home, rooms);
    const int mine = walk_seconds(seconds, 0, home, order), least = shortest_walk(seconds, 0, home, rooms);
    ASSERT_GE(mine, least);
    std::ranges::sort(order);
    EXPECT_EQ(order, rooms) << "each room once";
    const double ratio = least == 0 ? 1 : static_cast<double>(mine) / least;
    sum += ratio, worst = std::max(worst, ratio);
    shortest += mine == least ? 1 : 0;
  }
  RecordProperty("mean", std::to_string(sum / kHouses)), RecordProperty("worst", std::to_string(worst));
  EXPECT_LE(sum / kHouses, 1.01) << "measured 1.006";
  EXPECT_LE(worst, 1.2) << "measured 1.150";
  EXPECT_GE(shortest, kHouses * 4 / 5) << "measured 433 of 500";
}

}  // namespace
}  // namespace ohmstead
