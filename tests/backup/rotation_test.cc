#include "backup/rotation.h"

#include <gmock/gmock.h>

#include <algorithm>
#include <functional>
#include <map>
#include <numeric>
#include <random>

#include "house/error.h"

namespace ohmstead {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

constexpr PlanSource one_leg(int running, int starting) {
  return {.legs = 1, .running = running, .starting = starting, .leg_running = {running}, .leg_starting = {starting}};
}

RotationLoad taking(int running, int starting, int share_percent, int longest_off_min, bool itself = true) {
  return {.draw = {.running = {running}, .starting = {starting}, .starts_itself = itself}, .share_percent = share_percent, .longest_off_min = longest_off_min};
}

int slots_of(const Rotation& made) { return made.time.cycle_min / made.time.slot_min; }

bool on(const Rotation& made, std::size_t load, int slot) { return ((made.on[load] >> slot) & 1U) != 0; }

/// The promises of rotation.h, read once more with minutes instead of bits: shares, times off, and every start of the steps.
void check(const PlanSource& source, const std::vector<RotationLoad>& loads, const Rotation& made) {
  ASSERT_EQ(made.on.size(), loads.size());
  const int slots = slots_of(made);
  int switchings = 0;
  for (std::size_t i = 0; i < loads.size(); ++i) {
    int minutes = 0, off = 0, longest = 0;
    for (int k = 0; k < 3 * slots; ++k) {
      const bool now = on(made, i, k % slots);
      if (k < slots && now) minutes += made.time.slot_min;
      if (k < slots && now && !on(made, i, (k + slots - 1) % slots)) ++switchings;
      off = now ? 0 : off + made.time.slot_min;
      longest = std::max(longest, off);
    }
    EXPECT_GT(minutes, 0) << i;
    EXPECT_GE(100 * minutes, loads[i].share_percent * made.time.cycle_min) << i;
    EXPECT_LE(longest, loads[i].longest_off_min) << i;
  }
  EXPECT_EQ(made.switchings, switchings);
  // Two cycles as a person would do them.
  std::vector<std::size_t> running;
  const auto start = [&](std::size_t next) {
    std::vector<StartLoad> before;
    for (const std::size_t i : running) before.push_back(loads[i].draw);
    EXPECT_TRUE(may_start(source, before, loads[next].draw)) << next;
    running.push_back(next);
  };
  for (const std::size_t i : made.begin) start(i);
  for (int k = 0; k < 2 * slots; ++k) {
    const auto step = std::ranges::find(made.steps, (k % slots) * made.time.slot_min, &RotationStep::at_min);
    if (k > 0 && step != made.steps.end()) {
      for (const std::size_t i : step->off) EXPECT_EQ(std::erase(running, i), 1u);
      for (const std::size_t i : step->on) start(i);
    }
    for (std::size_t i = 0; i < loads.size(); ++i) EXPECT_EQ(std::ranges::count(running, i), on(made, i, k % slots) ? 1 : 0) << i << " in slot " << k;
  }
}

TEST(Rotation, two_that_do_not_fit_together_take_turns) {
  const PlanSource source = one_leg(1000, 2000);
  const std::vector<RotationLoad> loads{taking(600, 1500, 50, 120), taking(700, 1800, 40, 120)};
  const Rotation made = rotation(source, loads, {240, 30});
  ASSERT_EQ(made.end, RotationEnd::found);
  check(source, loads, made);
  EXPECT_EQ(made.switchings, 2);
  EXPECT_EQ(made.on[0] & made.on[1], 0U);
}

TEST(Rotation, what_fits_stays_on) {
  const std::vector<RotationLoad> loads{taking(100, 300, 10, 240), taking(200, 500, 10, 240)};
  const Rotation made = rotation(one_leg(1000, 2000), loads, {240, 30});
  ASSERT_EQ(made.end, RotationEnd::found);
  EXPECT_EQ(made.switchings, 0);
  EXPECT_THAT(made.steps, IsEmpty());
  EXPECT_THAT(made.begin, ElementsAre(1u, 0u));  // the larger start first
}

TEST(Rotation, a_short_time_off_splits_the_share) {
  // A is off for an hour at most, so in four hours it comes on twice, and B in between.
  const std::vector<RotationLoad> loads{taking(600, 600, 50, 60), taking(600, 600, 50, 240)};
  const Rotation made = rotation(one_leg(1000, 2000), loads, {240, 30});
  ASSERT_EQ(made.end, RotationEnd::found);
  check(one_leg(1000, 2000), loads, made);
  EXPECT_EQ(made.switchings, 4);
}

TEST(Rotation, more_than_the_whole_time_is_proven_impossible) {
  const Rotation made = rotation(one_leg(1000, 2000), {taking(600, 600, 60, 240), taking(600, 600, 50, 240)}, {240, 30});
  EXPECT_EQ(made.end, RotationEnd::impossible);
  EXPECT_THAT(made.on, IsEmpty());
  EXPECT_THAT(made.never_fits, IsEmpty());
}

TEST(Rotation, what_the_source_cannot_even_start_alone_is_named) {
  const Rotation made = rotation(one_leg(1000, 2000), {taking(100, 100, 50, 240), taking(600, 2001, 10, 240)}, {240, 30});
  EXPECT_EQ(made.end, RotationEnd::impossible);
  EXPECT_THAT(made.never_fits, ElementsAre(1u));
}

TEST(Rotation, what_may_never_be_off_is_never_off) {
  const std::vector<RotationLoad> loads{taking(350, 900, 100, 0), taking(500, 1500, 33, 240), taking(400, 1400, 33, 1440)};
  const PlanSource source = one_leg(1000, 1900);
  const Rotation made = rotation(source, loads, {240, 30});
  ASSERT_EQ(made.end, RotationEnd::found);
  check(source, loads, made);
  EXPECT_EQ(made.on[0], 0xFFU);
}

TEST(Rotation, one_that_stays_on_is_stopped_for_a_moment_if_another_cannot_start_beside_it) {
  // A with B needs A first: 400 + 1500 of B on top passes 1800, B alone first, then A.
  const PlanSource source = one_leg(900, 1800);
  const std::vector<RotationLoad> loads{taking(400, 400, 100, 0, false), taking(400, 1500, 50, 240, false), taking(500, 1400, 50, 240, false)};
  const Rotation made = rotation(source, loads, {240, 120});
  ASSERT_EQ(made.end, RotationEnd::found);
  check(source, loads, made);
  const bool restarts = std::ranges::any_of(made.steps, [](const RotationStep& step) { return std::ranges::count(step.off, 0u) == 1 && step.on.back() == 0; });
  EXPECT_TRUE(restarts);
}

TEST(Rotation, as_few_as_possible_are_stopped_for_a_moment) {
  // Beside 400 W the pump of 1000 W to start is 200 W too much: stopping the last load is enough, stopping the first two would be too.
  const PlanSource source = one_leg(2000, 1200);
  const std::vector<RotationLoad> loads{taking(100, 100, 100, 0, false), taking(100, 100, 100, 0, false), taking(200, 200, 100, 0, false), taking(300, 1000, 50, 240, false),
                                        taking(700, 800, 50, 240, false)};
  const Rotation made = rotation(source, loads, {240, 120});
  ASSERT_EQ(made.end, RotationEnd::found);
  check(source, loads, made);
  const auto starts = std::ranges::find_if(made.steps, [](const RotationStep& step) { return std::ranges::count(step.on, 3u) == 1; });
  ASSERT_NE(starts, made.steps.end());
  EXPECT_THAT(starts->off, ElementsAre(2u, 4u));
  EXPECT_THAT(starts->on, ElementsAre(3u, 2u));
}

TEST(Rotation, each_leg_has_its_own_limit) {
  PlanSource source{.legs = 2, .running = 2000, .starting = 4000, .leg_running = {1000, 1000}, .leg_starting = {2000, 2000}};
  std::vector<RotationLoad> loads{taking(600, 600, 60, 240), taking(600, 600, 60, 240)};
  EXPECT_EQ(rotation(source, loads, {240, 30}).end, RotationEnd::impossible);
  loads[1].draw.running = loads[1].draw.starting = {0, 600, 0};
  EXPECT_EQ(rotation(source, loads, {240, 30}).end, RotationEnd::found);
}

TEST(Rotation, the_cycle_with_the_fewest_switchings_a_day_is_taken) {
  const PlanSource source = one_leg(1000, 2000);
  const std::vector<RotationLoad> loads{taking(600, 1500, 50, 240), taking(700, 1800, 40, 240)};
  const std::vector<RotationTime> times{{120, 30}, {480, 30}, {240, 30}};
  EXPECT_EQ(best_rotation(source, loads, times).time.cycle_min, 480);
  std::vector<RotationLoad> short_off = loads;
  short_off[0].longest_off_min = short_off[1].longest_off_min = 60;
  EXPECT_EQ(best_rotation(source, short_off, times).switchings, 2);  // of two hours: an hour each
  std::vector<RotationLoad> too_much = loads;
  too_much[0].share_percent = 90;
  EXPECT_EQ(best_rotation(source, too_much, times).end, RotationEnd::impossible);
  EXPECT_EQ(best_rotation(source, loads, usual_rotation_times()).end, RotationEnd::found);
}

TEST(Rotation, work_that_runs_out_is_said) {
  EXPECT_EQ(rotation(one_leg(1000, 2000), {taking(600, 1500, 50, 120), taking(700, 1800, 40, 120)}, {240, 30}, 0).end, RotationEnd::stopped);
}

TEST(Rotation, what_makes_no_sense_is_refused) {
  const PlanSource source = one_leg(1000, 2000);
  EXPECT_NO_THROW((void)rotation(source, {}, {480, 30}));
  EXPECT_THROW((void)rotation(source, {}, {510, 30}), Error);   // 17 slots
  EXPECT_THROW((void)rotation(source, {}, {100, 30}), Error);   // does not divide
  EXPECT_THROW((void)rotation(source, {}, {0, 30}), Error);
  EXPECT_THROW((void)rotation(source, {}, {60, 0}), Error);
  EXPECT_THROW((void)rotation(source, {taking(1, 1, 101, 0)}, {60, 30}), Error);
  EXPECT_THROW((void)rotation(source, {taking(1, 1, -1, 0)}, {60, 30}), Error);
  EXPECT_THROW((void)rotation(source, std::vector<RotationLoad>(13, taking(1, 1, 1, 60)), {60, 30}), Error);
}

TEST(Rotation, a_house_load_needs_its_duty_and_its_time_off) {
  Load load;
  load.name = "refrigerator";
  EXPECT_EQ(rotation_need(load).share_percent, 33);
  EXPECT_EQ(rotation_need(load).longest_off_min, 240);  // USDA FSIS: 4 hours with the door shut
  EXPECT_FALSE(rotation_need(load).assumed);
  load.name = "furnace";
  EXPECT_EQ(rotation_need(load).longest_off_min, 120);  // common practice, no source
  EXPECT_TRUE(rotation_need(load).assumed);
  load.name = "kiln";
  EXPECT_EQ(rotation_need(load).longest_off_min, 0);
  EXPECT_TRUE(rotation_need(load).assumed);
}

TEST(Rotation, watts_of_the_slots_for_fuel) {
  const PlanSource source = one_leg(1000, 2000);
  const std::vector<RotationLoad> loads{taking(600, 1500, 50, 120), taking(700, 1800, 50, 120), taking(100, 100, 40, 240)};
  const Rotation made = rotation(source, loads, {240, 60});
  ASSERT_EQ(made.end, RotationEnd::found);
  double watt_hours = 0, hours = 0;
  for (const LoadTime& time : rotation_times(made, loads)) watt_hours += time.watts * time.hours, hours += time.hours;
  EXPECT_NEAR(hours, 4, 1e-9);
  EXPECT_NEAR(watt_hours, 600 * 2 + 700 * 2 + 100 * 1.6, 1);
}

/// Fewest switchings of all timetables, or -1 if there is none: all sequences of sets.
int fewest_by_trying(const PlanSource& source, const std::vector<RotationLoad>& loads, RotationTime time) {
  const int slots = time.cycle_min / time.slot_min, sets = 1 << loads.size();
  std::vector<bool> allowed;
  for (int set = 0; set < sets; ++set) {
    std::vector<std::size_t> members;
    for (std::size_t i = 0; i < loads.size(); ++i)
      if ((set >> i) & 1) members.push_back(i);
    bool any = false;
    do {
      bool all = true;
      std::vector<StartLoad> before;
      for (const std::size_t i : members) all = all && may_start(source, before, loads[i].draw), before.push_back(loads[i].draw);
      any = all;
    } while (!any && std::next_permutation(members.begin(), members.end()));
    allowed.push_back(any);
  }
  int fewest = -1;
  std::vector<int> sequence(static_cast<std::size_t>(slots));
  const std::function<void(int)> fill = [&](int slot) {
    if (slot < slots) {
      for (int set = 0; set < sets; ++set)
        if (allowed[static_cast<std::size_t>(set)]) sequence[static_cast<std::size_t>(slot)] = set, fill(slot + 1);
      return;
    }
    int switchings = 0;
    for (std::size_t i = 0; i < loads.size(); ++i) {
      int minutes = 0, off = 0, longest = 0;
      for (int k = 0; k < 2 * slots; ++k) {
        const bool now = (sequence[static_cast<std::size_t>(k % slots)] >> i) & 1, before = (sequence[static_cast<std::size_t>((k + slots - 1) % slots)] >> i) & 1;
        off = now ? 0 : off + time.slot_min;
        longest = std::max(longest, off);
        if (k < slots) minutes += now ? time.slot_min : 0, switchings += now && !before;
      }
      if (minutes == 0 || 100 * minutes < loads[i].share_percent * time.cycle_min || longest > loads[i].longest_off_min) return;
    }
    if (fewest < 0 || switchings < fewest) fewest = switchings;
  };
  fill(0);
  return fewest;
}

/// The same, load by load: all masks that meet a need, one after the other; what costs no less than the best so far is left.
class TryingMasks {
 public:
  TryingMasks(const PlanSource& source, const std::vector<RotationLoad>& loads, RotationTime time) : source_(source), loads_(loads), time_(time), slots_(time.cycle_min / time.slot_min) {
    on_.resize(static_cast<std::size_t>(slots_));
  }
  int fewest() { return place(0, 0), best_; }

 private:
  void place(std::size_t load, int switchings) {
    if (best_ >= 0 && switchings >= best_) return;
    if (load == loads_.size()) return void(best_ = switchings);
    for (int mask = 1; mask < 1 << slots_; ++mask) {
      int minutes = 0, off = 0, longest = 0, blocks = 0;
      for (int k = 0; k < 2 * slots_; ++k) {
        const bool now = (mask >> (k % slots_)) & 1;
        off = now ? 0 : off + time_.slot_min;
        longest = std::max(longest, off);
        if (k < slots_) minutes += now ? time_.slot_min : 0, blocks += now && !((mask >> ((k + slots_ - 1) % slots_)) & 1);
      }
      if (100 * minutes < loads_[load].share_percent * time_.cycle_min || longest > loads_[load].longest_off_min) continue;
      const auto saved = on_;
      bool may = true;
      for (int k = 0; k < slots_ && may; ++k) {
        if (!((mask >> k) & 1)) continue;
        auto& there = on_[static_cast<std::size_t>(k)];
        there.push_back(load);
        may = allowed(there);
      }
      if (may) place(load + 1, switchings + blocks);
      on_ = saved;
    }
  }

  bool allowed(const std::vector<std::size_t>& set) {
    const auto [at, fresh] = known_.emplace(set, false);
    if (!fresh) return at->second;
    std::vector<std::size_t> order = set;
    do {
      bool all = true;
      std::vector<StartLoad> before;
      for (const std::size_t i : order) all = all && may_start(source_, before, loads_[i].draw), before.push_back(loads_[i].draw);
      at->second = all;
    } while (!at->second && std::next_permutation(order.begin(), order.end()));
    return at->second;
  }

  const PlanSource& source_;
  const std::vector<RotationLoad>& loads_;
  RotationTime time_;
  int slots_, best_ = -1;
  std::vector<std::vector<std::size_t>> on_;
  std::map<std::vector<std::size_t>, bool> known_;
};

struct RandomRotation {
  PlanSource source;
  std::vector<RotationLoad> loads;
  RotationTime time;
};

RandomRotation random_rotation(std::mt19937& random, int most_loads, int slots) {
  const auto number = [&](int low, int high) { return std::uniform_int_distribution(low, high)(random); };
  RandomRotation made;
  made.time = {slots * 30, 30};
  made.source = {.legs = 2, .running = number(8, 20), .starting = number(15, 40), .leg_running = {number(6, 14), number(6, 14)}, .leg_starting = {number(10, 30), number(10, 30)}};
  made.loads.resize(static_cast<std::size_t>(number(1, most_loads)));
  for (RotationLoad& load : made.loads) {
    for (std::size_t leg = 0; leg < 2; ++leg) {
      if (number(0, 2) == 0) continue;
      load.draw.running[leg] = number(0, 7), load.draw.starting[leg] = load.draw.running[leg] + number(0, 8);
    }
    load.draw.starts_itself = number(0, 1) == 0;
    load.share_percent = number(0, 70), load.longest_off_min = number(0, slots) * 30 + number(0, 29);
  }
  return made;
}

void agrees(const RandomRotation& test, int& found, int& none) {
  const Rotation made = rotation(test.source, test.loads, test.time);
  const int fewest = fewest_by_trying(test.source, test.loads, test.time);
  ASSERT_EQ(made.end, fewest < 0 ? RotationEnd::impossible : RotationEnd::found);
  if (fewest < 0) return void(++none);
  ++found;
  ASSERT_EQ(made.switchings, fewest);
  check(test.source, test.loads, made);
}

TEST(Rotation, agrees_with_trying_all_timetables_of_small_cases) {
  std::mt19937 random(11);
  int found = 0, none = 0;
  for (int trial = 0; trial < 400 && !::testing::Test::HasFailure(); ++trial) agrees(random_rotation(random, 3, 1 + trial % 5), found, none);
  for (int trial = 0; trial < 60 && !::testing::Test::HasFailure(); ++trial) agrees(random_rotation(random, 4, 4), found, none);
  EXPECT_GT(found, 100);
  EXPECT_GT(none, 50);
}

TEST(Rotation, agrees_with_trying_all_masks_of_four_loads_in_six_slots) {
  std::mt19937 random(12);
  int found = 0, none = 0, split = 0;
  for (int trial = 0; trial < 40 && !::testing::Test::HasFailure(); ++trial) {
    RandomRotation test = random_rotation(random, 1, 6);
    while (test.loads.size() < 4) test.loads.push_back(random_rotation(random, 1, 6).loads.front());
    for (RotationLoad& load : test.loads) load.longest_off_min = std::max(load.longest_off_min, 30);
    const Rotation made = rotation(test.source, test.loads, test.time);
    const int fewest = TryingMasks(test.source, test.loads, test.time).fewest();
    ASSERT_EQ(made.end, fewest < 0 ? RotationEnd::impossible : RotationEnd::found) << trial;
    if (fewest < 0) {
      ++none;
      continue;
    }
    ASSERT_EQ(made.switchings, fewest) << trial;
    check(test.source, test.loads, made);
    ++found, split += fewest > static_cast<int>(test.loads.size());
  }
  EXPECT_GT(found, 10);
  EXPECT_GT(none, 5);
  EXPECT_GT(split, 0);
}

TEST(Rotation, timetables_of_a_dozen_loads_hold_and_are_proven) {
  std::mt19937 random(5);
  int found = 0, turns = 0;
  for (int trial = 0; trial < 60 && !::testing::Test::HasFailure(); ++trial) {
    RandomRotation test = random_rotation(random, 1, 8);
    while (test.loads.size() < 12) test.loads.push_back(random_rotation(random, 1, 8).loads.front());
    test.source.running = 30, test.source.starting = 60, test.source.leg_running = {18, 18}, test.source.leg_starting = {40, 40};
    for (RotationLoad& load : test.loads) load.share_percent = std::min(load.share_percent, 45), load.longest_off_min = std::max(load.longest_off_min, 60);
    const Rotation made = rotation(test.source, test.loads, test.time);
    ASSERT_NE(made.end, RotationEnd::stopped) << trial;
    if (made.end == RotationEnd::impossible) continue;
    ++found, turns += made.switchings > 0;
    check(test.source, test.loads, made);
  }
  EXPECT_GT(found, 20);
  EXPECT_GT(turns, 20);
}

}  // namespace
}  // namespace ohmstead
