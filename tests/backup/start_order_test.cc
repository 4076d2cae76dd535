#include "backup/start_order.h"

#include <gmock/gmock.h>

#include <algorithm>
#include <numeric>
#include <random>

namespace ohmstead {
namespace {

using ::testing::ElementsAre;

StartLoad on_leg(int leg, int running, int starting, bool itself = false) {
  StartLoad load{.starts_itself = itself};
  load.running[static_cast<std::size_t>(leg - 1)] = running;
  load.starting[static_cast<std::size_t>(leg - 1)] = starting;
  return load;
}

constexpr PlanSource kSmall{.legs = 2, .running = 2000, .starting = 2600, .leg_running = {1000, 1000}, .leg_starting = {1300, 1300}};

/// The rule of start_order.h written out once more, number by number.
bool stays_within(const PlanSource& source, const std::vector<StartLoad>& loads, const std::vector<std::size_t>& order) {
  std::vector<std::size_t> on;
  for (const std::size_t next : order) {
    on.push_back(next);
    int total_running = 0;
    std::vector<int> legs(3, 0);
    for (const std::size_t i : on)
      for (std::size_t leg = 0; leg < 3; ++leg) legs[leg] += loads[i].running[leg], total_running += loads[i].running[leg];
    if (total_running > source.running) return false;
    for (std::size_t leg = 0; leg < 3; ++leg)
      if (legs[leg] > (leg < static_cast<std::size_t>(source.legs) ? source.leg_running[leg] : 0)) return false;
    for (const std::size_t i : on) {
      if (i != next && !loads[i].starts_itself) continue;
      int total_extra = 0;
      for (std::size_t leg = 0; leg < 3; ++leg) {
        const int extra = loads[i].starting[leg] - loads[i].running[leg];
        total_extra += extra;
        if (legs[leg] + extra > (leg < static_cast<std::size_t>(source.legs) ? source.leg_starting[leg] : 0)) return false;
      }
      if (total_running + total_extra > source.starting) return false;
    }
  }
  return true;
}

TEST(StartOrder, the_largest_start_comes_first) {
  const std::vector<StartLoad> loads{on_leg(1, 200, 300), on_leg(1, 300, 1250), on_leg(2, 500, 500)};
  const auto order = start_order(kSmall, loads);
  ASSERT_TRUE(order);
  EXPECT_THAT(*order, ElementsAre(1u, 0u, 2u));
}

TEST(StartOrder, rank_decides_where_there_is_a_choice_and_yields_where_there_is_none) {
  std::vector<StartLoad> loads{on_leg(1, 100, 100), on_leg(1, 100, 100), on_leg(1, 100, 100)};
  loads[0].rank = 3, loads[1].rank = 1, loads[2].rank = 2;
  EXPECT_THAT(start_order(kSmall, loads).value(), ElementsAre(1u, 2u, 0u));
  loads[0] = on_leg(1, 600, 1250), loads[0].rank = 3;  // matters least, but can only start first
  EXPECT_THAT(start_order(kSmall, loads).value(), ElementsAre(0u, 1u, 2u));
}

TEST(StartOrder, what_starts_by_itself_may_start_again_when_all_are_on) {
  EXPECT_TRUE(start_order(kSmall, {on_leg(1, 300, 1250), on_leg(1, 200, 200)}));
  EXPECT_FALSE(start_order(kSmall, {on_leg(1, 300, 1250, true), on_leg(1, 200, 200)}));
  EXPECT_TRUE(start_order(kSmall, {on_leg(1, 300, 1250, true), on_leg(1, 50, 50)}));
}

TEST(StartOrder, what_runs_already_counts_and_may_start_again) {
  const std::vector<StartLoad> next{on_leg(1, 200, 900)};
  EXPECT_TRUE(start_order(kSmall, next, {on_leg(1, 400, 400)}));
  EXPECT_FALSE(start_order(kSmall, next, {on_leg(1, 401, 401)})) << "401 + 900 on a leg that gives 1300";
  EXPECT_TRUE(start_order(kSmall, next, {on_leg(1, 300, 1200)}));
  EXPECT_FALSE(start_order(kSmall, next, {on_leg(1, 300, 1200, true)})) << "it starts by itself while the other runs";
}

TEST(StartOrder, nothing_to_switch_on_is_an_empty_order) { EXPECT_THAT(start_order(kSmall, {}).value(), ElementsAre()); }

TEST(StartOrder, a_leg_that_the_source_does_not_have_gives_nothing) {
  EXPECT_FALSE(start_order(kSmall, {on_leg(3, 1, 1)}));
  EXPECT_FALSE(may_start(kSmall, {}, on_leg(3, 1, 1)));
}

TEST(MayStart, each_limit_is_held_to_the_last_watt) {
  const std::vector<StartLoad> on{on_leg(1, 400, 400)};
  EXPECT_TRUE(may_start(kSmall, on, on_leg(1, 600, 600)));    // leg running 1000 of 1000
  EXPECT_FALSE(may_start(kSmall, on, on_leg(1, 601, 601)));
  EXPECT_TRUE(may_start(kSmall, on, on_leg(1, 100, 900)));    // leg starting 1300 of 1300
  EXPECT_FALSE(may_start(kSmall, on, on_leg(1, 100, 901)));
  PlanSource source = kSmall;
  source.leg_running = source.leg_starting = {9000, 9000};
  EXPECT_TRUE(may_start(source, on, on_leg(2, 1600, 2200)));  // in all 2000 of 2000 and 2600 of 2600
  EXPECT_FALSE(may_start(source, on, on_leg(2, 1601, 1601)));
  EXPECT_FALSE(may_start(source, on, on_leg(2, 1600, 2201)));
}

TEST(MayStart, what_is_on_and_starts_itself_is_counted_the_rest_is_not) {
  EXPECT_TRUE(may_start(kSmall, {on_leg(1, 100, 1000)}, on_leg(1, 500, 500)));
  EXPECT_FALSE(may_start(kSmall, {on_leg(1, 100, 1000, true)}, on_leg(1, 500, 500)));
  EXPECT_TRUE(may_start(kSmall, {on_leg(1, 100, 1000, true)}, on_leg(1, 300, 300)));
  EXPECT_TRUE(may_start(kSmall, {on_leg(1, 100, 1000, true)}, on_leg(2, 500, 500)));
}

struct RandomCase {
  PlanSource source;
  std::vector<StartLoad> loads;
};

/// Limits near what all of them need, so that the order matters.
RandomCase random_case(std::mt19937& random, std::size_t most_loads) {
  const auto number = [&](int low, int high) { return std::uniform_int_distribution(low, high)(random); };
  RandomCase made;
  made.source.legs = number(1, 3);
  made.loads.resize(static_cast<std::size_t>(number(0, static_cast<int>(most_loads))));
  PerPole running{}, extra{};
  int total = 0, total_extra = 0;
  for (StartLoad& load : made.loads) {
    int its_extra = 0;
    for (std::size_t leg = 0; leg < static_cast<std::size_t>(made.source.legs); ++leg) {
      if (number(0, 2) == 0) continue;
      load.running[leg] = number(0, 20);
      const int more = number(0, 3) == 0 ? 0 : number(0, 40);
      load.starting[leg] = load.running[leg] + more;
      running[leg] += load.running[leg], total += load.running[leg], its_extra += more;
      extra[leg] = std::max(extra[leg], more);
    }
    total_extra = std::max(total_extra, its_extra);
    load.starts_itself = number(0, 5) == 0;
    load.rank = number(0, 3);
  }
  for (std::size_t leg = 0; leg < 3; ++leg) {
    made.source.leg_running[leg] = std::max(0, running[leg] + number(-1, 20));
    made.source.leg_starting[leg] = std::max(0, running[leg] + extra[leg] - number(0, 15) + number(0, 8));
  }
  made.source.running = std::max(0, total + number(-1, 20));
  made.source.starting = std::max(0, total + total_extra - number(0, 25) + number(0, 15));
  return made;
}

TEST(StartOrder, agrees_with_trying_all_orders_of_up_to_seven_loads) {
  std::mt19937 random(20251127);
  int found = 0, none = 0, matters = 0;
  for (int trial = 0; trial < 3000; ++trial) {
    const RandomCase test = random_case(random, 7);
    const auto order = start_order(test.source, test.loads);
    std::vector<std::size_t> tried(test.loads.size());
    std::iota(tried.begin(), tried.end(), std::size_t{0});
    bool any = false, all = true;
    do {
      (stays_within(test.source, test.loads, tried) ? any : all) = stays_within(test.source, test.loads, tried);
      if (any && !all) break;
    } while (std::next_permutation(tried.begin(), tried.end()));
    ASSERT_EQ(order.has_value(), any) << trial;
    if (order) {
      ASSERT_THAT(*order, ::testing::SizeIs(test.loads.size()));
      ASSERT_TRUE(std::is_permutation(order->begin(), order->end(), tried.begin()));
      ASSERT_TRUE(stays_within(test.source, test.loads, *order)) << trial;
    }
    (any ? found : none)++;
    if (any && !all) ++matters;
  }
  EXPECT_GT(found, 300);
  EXPECT_GT(none, 300);
  EXPECT_GT(matters, 300);  // cases in which some orders pass a limit and others do not
}

TEST(StartOrder, agrees_with_trying_all_orders_of_eight_loads) {
  std::mt19937 random(8);
  for (int trial = 0; trial < 2000; ++trial) {
    RandomCase test = random_case(random, 8);
    while (test.loads.size() < 8) test = random_case(random, 8);
    std::vector<std::size_t> tried(8);
    std::iota(tried.begin(), tried.end(), std::size_t{0});
    bool any = false;
    do any = stays_within(test.source, test.loads, tried);
    while (!any && std::next_permutation(tried.begin(), tried.end()));
    const auto order = start_order(test.source, test.loads);
    ASSERT_EQ(order.has_value(), any) << trial;
    ASSERT_TRUE(!order || stays_within(test.source, test.loads, *order)) << trial;
  }
}

TEST(MayStart, agrees_with_the_rule_written_out_step_by_step) {
  std::mt19937 random(4);
  int yes = 0, no = 0;
  for (int trial = 0; trial < 5000; ++trial) {
    const RandomCase test = random_case(random, 6);
    if (test.loads.empty()) continue;
    std::vector<StartLoad> on(test.loads.begin(), test.loads.end() - 1);
    // The last step of an order in which those before it never pass a limit: give them room first.
    std::vector<std::size_t> order(test.loads.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    const bool may = may_start(test.source, on, test.loads.back());
    const bool so_far = stays_within(test.source, test.loads, {order.begin(), order.end() - 1});
    ASSERT_TRUE(!so_far || may == stays_within(test.source, test.loads, order)) << trial;
    (may ? yes : no)++;
  }
  EXPECT_GT(yes, 500);
  EXPECT_GT(no, 500);
}

}  // namespace
}  // namespace ohmstead
