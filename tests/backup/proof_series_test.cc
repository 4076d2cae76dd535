// The series of rounds against all others there are.

#include "backup/proof_series.h"

#include <gmock/gmock.h>

#include <algorithm>
#include <bit>
#include <random>

namespace ohmstead {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

/// Everything in one room: a round costs `round` and a handle, a look costs `look`.
SeriesCosts costs_of(int round) { return {.walk = {{0}}, .device_room = 0, .handle_seconds = 0, .round_seconds = round}; }
std::vector<SeriesUnit> units_of(std::size_t count, int look) { return std::vector<SeriesUnit>(count, SeriesUnit{.rooms = {0}, .look_seconds = look}); }

/// Least cost of any series whatever, by trying every set of at most `n` rounds, and for each circuit every set of looks. The
/// circuits are told apart each for itself, so that the least is the sum of each one's least.
int least_of_all(std::size_t n, int round_cost, int look_cost) {
  const unsigned all_off_sets = (1U << n) - 1U;
  int best = 1'000'000;
  const auto looks_needed = [&](const std::vector<unsigned>& rounds, std::size_t mine) {
    int least = 1'000;  // rounds.size() stands for the round with everything on, which costs nothing to set up
    for (unsigned looks = 1; looks < 1U << (rounds.size() + 1); ++looks) {
      const auto pattern = [&](auto dead_in) {
        unsigned bits = 0;
        for (std::size_t r = 0; r <= rounds.size(); ++r)
          if ((looks >> r & 1U) != 0 && dead_in(r < rounds.size() ? rounds[r] : 0U)) bits |= 1U << r;
        return bits;
      };
      const unsigned right = pattern([&](unsigned off) { return (off >> mine & 1U) != 0; });
      bool told = right != pattern([](unsigned) { return false; }) && right != pattern([](unsigned) { return true; });
      for (std::size_t other = 0; other < n && told; ++other)
        told = other == mine || right != pattern([&](unsigned off) { return (off >> other & 1U) != 0; });
      if (told) least = std::min(least, std::popcount(looks));
    }
    return least;
  };
  std::vector<unsigned> rounds;
  const auto choose = [&](auto&& self, unsigned from) -> void {
    int looks = 0;
    for (std::size_t unit = 0; unit < n; ++unit) looks += looks_needed(rounds, unit);
    if (looks < 1'000) best = std::min(best, static_cast<int>(rounds.size()) * round_cost + looks * look_cost);
    if (rounds.size() == n) return;
    for (unsigned off = from; off <= all_off_sets; ++off) {
      rounds.push_back(off);
      self(self, off + 1);
      rounds.pop_back();
    }
  };
  choose(choose, 1);
  return best;
}

TEST(ProofSeries, no_series_of_any_kind_is_cheaper_for_up_to_four_positions) {
  for (std::size_t n = 1; n <= 4; ++n)
    for (const auto& [round, look] : {std::pair{1, 1}, {1, 10}, {2, 1}, {5, 1}, {10, 1}, {100, 1}, {3, 2}}) {
      const auto units = units_of(n, look);
      const Series series = cheapest_series(units, costs_of(round));
      EXPECT_TRUE(proves(series, n));
      EXPECT_EQ(seconds_of(series, units, costs_of(round)), least_of_all(n, round, look)) << n << " positions, " << round << ":" << look;
    }
}

TEST(ProofSeries, walking_far_to_the_device_makes_codes_and_walking_far_to_the_points_makes_one_at_a_time) {
  SeriesCosts costs{.walk = {{0, 200}, {200, 0}}, .device_room = 0};
  std::vector<SeriesUnit> far(7, SeriesUnit{.rooms = {1}, .look_seconds = 4});
  const Series codes = cheapest_series(far, costs);
  EXPECT_EQ(codes.size(), 4U);  // one with everything on and ceil(log2(8)) = 3
  EXPECT_LT(seconds_of(codes, far, costs), seconds_of(one_at_a_time(far), far, costs));
  std::vector<SeriesUnit> slow(7, SeriesUnit{.rooms = {0}, .look_seconds = 60});
  EXPECT_EQ(cheapest_series(slow, costs).size(), 8U);
}

TEST(ProofSeries, one_at_a_time_needs_two_looks_a_position_and_a_code_of_three_seven_in_all) {
  const auto looks = [](const Series& series) {
    std::size_t sum = 0;
    for (const SeriesRound& round : series) sum += round.looks.size();
    return sum;
  };
  EXPECT_EQ(looks(one_at_a_time(units_of(3, 1))), 6U);
  const Series code = in_codes(units_of(3, 1), {3});
  EXPECT_EQ(code.size(), 3U);
  EXPECT_EQ(looks(code), 7U);
  EXPECT_TRUE(proves(code, 3));
}

TEST(ProofSeries, what_must_be_alone_is_never_off_with_another) {
  std::mt19937 random(3);
  for (int i = 0; i < 300; ++i) {
    const std::size_t n = 1 + random() % 16, rooms = 1 + random() % 6;
    SeriesCosts costs{.walk = std::vector(rooms, std::vector<int>(rooms, 0)), .device_room = random() % rooms};
    for (std::size_t a = 0; a < rooms; ++a)
      for (std::size_t b = 0; b < a; ++b) costs.walk[a][b] = costs.walk[b][a] = static_cast<int>(random() % 60);
    std::vector<SeriesUnit> units(n);
    for (SeriesUnit& unit : units) unit = {random() % 4 == 0, {random() % rooms}, static_cast<int>(4 + random() % 20)};
    const Series series = cheapest_series(units, costs);
    ASSERT_TRUE(proves(series, n));
    EXPECT_LE(seconds_of(series, units, costs), seconds_of(one_at_a_time(units), units, costs));
    for (const SeriesRound& round : series)
      for (const std::size_t unit : round.off) EXPECT_TRUE(!units[unit].alone || round.off.size() == 1);
  }
}

TEST(ProofSeries, a_look_left_out_proves_no_longer) {
  for (const auto& blocks : std::vector<std::vector<std::size_t>>{{}, {3}, {5}, {7}, {3, 3}, {15}}) {
    const std::size_t n = 15;
    const Series series = in_codes(units_of(n, 1), blocks);
    ASSERT_TRUE(proves(series, n));
    for (std::size_t r = 0; r < series.size(); ++r)
      for (std::size_t i = 0; i < series[r].looks.size(); ++i) {
        Series less = series;
        less[r].looks.erase(less[r].looks.begin() + static_cast<long>(i));
        EXPECT_FALSE(proves(less, n));
      }
  }
}

TEST(ProofSeries, the_first_round_is_an_ordinary_day) {
  EXPECT_THAT(one_at_a_time(units_of(2, 1))[0].off, IsEmpty());
  EXPECT_THAT(one_at_a_time(units_of(2, 1))[0].looks, ElementsAre(0U, 1U));
}

}  // namespace
}  // namespace ohmstead
