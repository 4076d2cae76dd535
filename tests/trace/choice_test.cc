// What the choice of walks stands on: words of old labels, kin, rooms that are worth the way.

#include <gtest/gtest.h>

#include <algorithm>
#include <random>

#include "tests/trace/simulated_house.h"
#include "trace/label_words.h"
#include "trace/room_search.h"
#include "house/tour.h"

namespace ohmstead::test {
namespace {

TEST(LabelWords, name_the_rooms_that_are_meant) {
  HouseMaker made;  // room 0 is the hall
  for (const char* name : {"Bath 1", "Bath 2", "Family room", "Living room"}) made.add_room(name);
  const auto rooms = [&](const char* label) { return read_label(made.house, label).rooms; };
  EXPECT_EQ(rooms("Bath 2 outlets"), (std::set<std::size_t>{2}));
  EXPECT_EQ(rooms("BATH"), (std::set<std::size_t>{1, 2}));
  EXPECT_EQ(rooms("family room & hall"), (std::set<std::size_t>{0, 3}));
  EXPECT_TRUE(read_label(made.house, "old shed").nothing());
  EXPECT_TRUE(read_label(made.house, "lights").lights);
  EXPECT_TRUE(read_label(made.house, "dishwasher").names_a_thing);
}

/// Belief in each breaker for one point.
double belief(const House& house, std::size_t point, Id<Breaker> breaker) {
  const Conclusions all = conclude_units(house);
  const auto way = static_cast<std::size_t>(Index<Breaker>(house.breakers).at(breaker));  // no ties here
  return belief_in(all.units[all.readings.unit_of_point[point]], way);
}

TEST(Votes, kin_in_the_room_follow_what_was_seen_and_others_hardly) {
  HouseMaker made;
  std::vector<Id<Breaker>> breakers;
  for (int space = 1; space <= 10; ++space) breakers.push_back(made.add_breaker(space));
  const auto bedroom = made.add_room("Bedroom"), den = made.add_room("Den");
  const auto seen = made.add_point(bedroom, "receptacle 1", {});
  const auto kin = made.add_point(bedroom, "receptacle 2", {}), far = made.add_point(den, "receptacle", {});
  const double before = belief(made.house, kin, breakers[3]);
  made.see(seen, Seen::live, {HouseMaker::off(breakers[4])});
  EXPECT_LT(belief(made.house, kin, breakers[4]), 0.8 * before);
  for (int twice = 0; twice < 2; ++twice) made.see(seen, Seen::dead, {HouseMaker::off(breakers[3])});
  EXPECT_GT(belief(made.house, kin, breakers[3]), 0.5);
  EXPECT_LT(belief(made.house, far, breakers[3]), 0.2);
  made.see(kin, Seen::live, {HouseMaker::off(breakers[3])});
  made.see(kin, Seen::live, {HouseMaker::off(breakers[3])});
  EXPECT_LT(belief(made.house, kin, breakers[3]), 0.05) << "its own readings outweigh its neighbour";
}

TEST(RoomSearch, mostly_finds_the_walk_that_trying_all_finds) {
  int found = 0, total = 0;
  for (unsigned seed = 0; seed < 60; ++seed) {
    std::mt19937 random(seed);
    HouseMaker made;
    for (int i = 0; i < 6; ++i) made.add_room("Room " + std::to_string(i));
    const Conclusions all = conclude_units(made.house);
    Board board = read_board(made.house, all);
    std::vector<std::pair<int, int>> at;
    for (std::size_t r = 0; r < 7; ++r) at.emplace_back(random() % 20, random() % 20);
    for (std::size_t a = 0; a < 7; ++a)
      for (std::size_t b = 0; b < 7; ++b) board.walk[a][b] = std::abs(at[a].first - at[b].first) + std::abs(at[a].second - at[b].second);
    std::vector<double> worth;
    RoomSearch search(board, 0, 0, 1.0);
    for (std::size_t r = 0; r < 7; ++r) worth.push_back(static_cast<double>(random() % 30)), search.add(r, worth[r], 5);
    const auto net = [&](const std::vector<std::size_t>& rooms) {
      double sum = -walk_seconds(board.walk, 0, 0, rooms);
      for (const std::size_t r : rooms) sum += worth[r] - 5;
      return sum;
    };
    double best = 0;
    for (unsigned set = 0; set < 128; ++set) {
      std::vector<std::size_t> rooms;
      for (std::size_t r = 0; r < 7; ++r)
        if ((set >> r & 1U) != 0) rooms.push_back(r);
      do best = std::max(best, net(rooms));
      while (std::ranges::next_permutation(rooms).found);
    }
    const double mine = net(search.rooms());
    EXPECT_LE(mine, best + 1e-9) << "seed " << seed;
    EXPECT_GE(mine, 0) << "seed " << seed;
    ++total, found += mine >= best - 1e-9 ? 1 : 0;
  }
  EXPECT_GE(found, total * 8 / 10) << found << " of " << total;
}

}  // namespace
}  // namespace ohmstead::test
