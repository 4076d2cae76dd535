#include "backup/may_i.h"

#include <gmock/gmock.h>

#include <algorithm>

#include "backup/outage_status.h"
#include "house/error.h"
#include "outage_story.h"
#include "outage_world.h"

namespace ohmstead {
namespace {

using enum OutageEventKind;

constexpr const char* kHouse =
    "Kitchen: refrigerator 150/600 W !, 2r, receptacle with kettle 1500 W\n"
    "Bedroom: oxygen concentrator 350 W !!, 2r\nAttic: 1r, receptacle with television 200 W, receptacle with heater 1400 W\n"
    "Panel Main in Kitchen 20 spaces, 100 A main: 1 15; 3 15; 5 20; 7 15; 9 15\n"
    "By J.\nKitchen refrigerator <- Main 1\nKitchen receptacle 1 <- Main 5\nKitchen receptacle 3 <- Main 5\nBedroom oxygen concentrator <- Main 3\n"
    "Bedroom receptacle 1 <- Main 3\nAttic receptacle 1 <- Main 7\nAttic receptacle 2 <- Main 7\nAttic receptacle 3 <- Main 7\nBedroom receptacle 2 <- Main 9\n"
    "Generator G 3600/4500 W 120/240\n"
    "Transfer T in Kitchen 4 positions from G: 1 15 L1 <- Main 1; 2 15 L2 <- Main 3; 3 20 L1 <- Main 5; 4 15 L2 <- Main 7\n";

struct Asked : testing::Test {
  Asked() : story(kHouse) { story.board().begin(story.time()); }
  MayI may(const std::string& point, int watts, int starting = 0) {
    return may_i(story.board().view(), {.point = story.point(point), .running = watts, .starting = starting});
  }
  OutageStory story;
};

std::string names(const House& house, const MayI& answer) {
  std::string text;
  for (const Consumer& one : answer.off_first) text += one.load >= 0 ? house.loads[static_cast<std::size_t>(one.load)].name + " " : "guest ";
  return text;
}

TEST_F(Asked, a_thing_has_no_power_until_its_handle_was_moved) {
  EXPECT_EQ(may("Kitchen receptacle 1", 500).kind, MayIKind::no_source);
  while (story.step() != "warm_up") story.done();
  EXPECT_EQ(may("Kitchen receptacle 1", 500).kind, MayIKind::not_on_yet);
  story.follow();
  EXPECT_EQ(may("Kitchen receptacle 1", 500).kind, MayIKind::yes);
}

TEST_F(Asked, what_no_position_carries_or_nobody_traced_is_said_as_such) {
  story.follow();
  EXPECT_EQ(may("Bedroom receptacle 2", 100).kind, MayIKind::not_carried);
  EXPECT_EQ(may("Kitchen receptacle 2", 100).kind, MayIKind::feed_not_known);
}

TEST_F(Asked, each_receptacle_is_answered_for_its_own_leg) {
  story.follow();  // leg 1: refrigerator 150/600; leg 2: concentrator 350 and what the attic draws
  EXPECT_EQ(may("Kitchen receptacle 1", 1650).kind, MayIKind::yes) << "1800 W a leg less 150";
  const MayI more = may("Kitchen receptacle 1", 1651);
  EXPECT_EQ(more.kind, MayIKind::after);
  EXPECT_EQ(names(story.house(), more), "refrigerator ");
  EXPECT_EQ(may("Kitchen receptacle 1", 1801).kind, MayIKind::too_much);
  EXPECT_EQ(may("Attic receptacle 1", 1451).kind, MayIKind::too_much) << "the concentrator's 350 W stay on this leg";
  EXPECT_EQ(names(story.house(), may("Attic receptacle 1", 1200)), "heater ");
}

TEST_F(Asked, a_small_breaker_that_carries_no_more_is_the_answer) {
  story.follow();
  const MayI answer = may("Bedroom receptacle 1", 1801);
  EXPECT_EQ(answer.kind, MayIKind::too_much_here);
  EXPECT_EQ(answer.circuit_watts, 1800);
}

TEST_F(Asked, what_runs_already_is_on_already) {
  story.follow();
  const auto at = [&](const std::string& name) {
    return static_cast<int>(std::ranges::find(story.house().loads, name, &Load::name) - story.house().loads.begin());
  };
  EXPECT_EQ(may_i(story.board().view(), {.load = at("refrigerator")}).kind, MayIKind::on_already);
  EXPECT_EQ(may_i(story.board().view(), {.load = at("kettle")}).kind, MayIKind::yes);
}

TEST_F(Asked, status_says_the_watts_that_may_i_allows_and_no_more) {
  story.follow();
  const OutageStatus status = outage_status(story.board().view(), story.time());
  ASSERT_FALSE(status.left.empty());
  for (const RoomLeft& left : status.left)
    for (const std::size_t point : left.points) {
      const MayI just = may_i(story.board().view(), {.point = point, .running = left.watts}), more = may_i(story.board().view(), {.point = point, .running = left.watts + 51});
      EXPECT_TRUE(left.watts == 0 || just.kind == MayIKind::yes) << left.watts;
      EXPECT_NE(more.kind, MayIKind::yes) << left.watts;
    }
}

TEST(MayIAndStatus, count_the_small_breaker_of_a_circuit_where_the_source_gives_more) {
  std::string text = kHouse;
  text.replace(text.find("3600/4500"), 9, "9600/9600");
  OutageStory large(text);
  large.board().begin(large.time());
  large.follow();
  const OutageStatus status = outage_status(large.board().view(), large.time());
  const auto left_at = [&](const std::string& name) {
    for (const RoomLeft& left : status.left)
      if (std::ranges::find(left.points, large.point(name)) != left.points.end()) return left.watts;
    return -1;
  };
  EXPECT_EQ(left_at("Bedroom receptacle 1"), 1450) << "15 A at 120 V less the concentrator's 350 W";
  EXPECT_EQ(left_at("Kitchen receptacle 1"), 2400) << "20 A at 120 V";
  EXPECT_EQ(may_i(large.board().view(), {.point = large.point("Bedroom receptacle 1"), .running = 1451}).kind, MayIKind::too_much);
}

TEST_F(Asked, what_starts_with_more_than_is_left_is_refused_though_it_would_run) {
  story.follow();  // leg 1 starts 2250 W: 150 run, and the refrigerator may start again with 450 more
  EXPECT_EQ(may("Kitchen receptacle 1", 500, 2100).kind, MayIKind::yes);
  EXPECT_EQ(may("Kitchen receptacle 1", 500, 2101).kind, MayIKind::after);
  EXPECT_EQ(may("Kitchen receptacle 1", 500, 2251).kind, MayIKind::too_much);
}

TEST_F(Asked, the_log_says_since_when_a_load_has_no_power_and_how_long_it_may) {
  const std::string began = story.board().now().began;
  const OutageStatus before = outage_status(story.board().view(), "2026-11-27T20:01:00Z");
  ASSERT_FALSE(before.off_loads.empty());
  EXPECT_EQ(before.off_loads.front().since, began);
  EXPECT_EQ(before.off_loads.front().minutes, 120);
  EXPECT_EQ(before.off_loads.front().longest_min, 240) << "refrigerator, door shut: 4 h (USDA FSIS; trade-facts D)";
  EXPECT_EQ(before.life_without_power.size(), 1U);
  story.follow();
  const OutageStatus after = outage_status(story.board().view(), "2026-11-27T20:01:00Z");
  EXPECT_TRUE(after.off_loads.empty());
  EXPECT_TRUE(after.life_without_power.empty());
}

/// All subsets tried: least important at its most important, then fewest, then fewest watts.
std::optional<std::tuple<int, int, int>> brute_force(const OutageView& view, const Consumer& asked) {
  std::vector<Consumer> on, may_go;
  for (const Consumer& one : consumers_now(view.gear, view.now))
    if (one.on) (one.forced || one.life() ? on : may_go).push_back(one);
  std::optional<std::tuple<int, int, int>> best;
  for (unsigned set = 0; set < 1U << may_go.size(); ++set) {
    std::vector<Consumer> stay = on;
    std::tuple<int, int, int> cost{-1, 0, 0};
    for (std::size_t i = 0; i < may_go.size(); ++i) {
      if ((set >> i & 1U) == 0) {
        stay.push_back(may_go[i]);
        continue;
      }
      int watts = 0;
      for (const int leg : may_go[i].draw.running) watts += leg;
      cost = {std::max(std::get<0>(cost), may_go[i].worth), std::get<1>(cost) + 1, std::get<2>(cost) + watts};
    }
    std::vector<StartLoad> draws;
    for (const Consumer& one : stay) draws.push_back(one.draw);
    const bool starts = may_start(limits_now(view.gear, view.now), draws, asked.draw);
    stay.push_back(asked);
    if (starts && within_limits(view.gear, limits_now(view.gear, view.now), stay) && (!best || cost < *best)) best = cost;
  }
  return best;
}

TEST(MayI, agrees_with_trying_every_set_of_things_to_switch_off) {
  std::mt19937 random(5);
  int asked = 0, rooms_made = 0, refused = 0;
  for (int round = 0; round < 1500; ++round) {
    House house = outage_house(random, static_cast<WorldGear>(round % kWorldGears));
    const Feeds feeds = declared_feeds(house);
    if (house.points.empty()) continue;
    std::optional<OutageBoard> board;
    try {
      board.emplace(std::move(house), feeds, 0);
    } catch (const Error&) {
      continue;
    }
    board->begin("2026-11-27T18:00:00Z");
    for (int i = 0; i < 200 && !is_settled(board->step().kind); ++i) board->answer({OutageAnswerKind::done, "2026-11-27T18:01:00Z"});
    for (int question = 0; question < 5; ++question) {
      const int watts = 100 + static_cast<int>(random() % 2500);
      const std::size_t point = random() % board->house().points.size();
      const int starting = watts * (10 + static_cast<int>(random() % 20)) / 10;
      const MayI answer = may_i(board->view(), {.point = point, .running = watts, .starting = starting});
      if (answer.kind != MayIKind::yes && answer.kind != MayIKind::after && answer.kind != MayIKind::too_much) continue;
      Consumer thing{.unit = answer.unit, .worth = kGuestWorth, .draw = draw_at(board->gear(), point, watts, starting)};
      const auto best = brute_force(board->view(), thing);
      ASSERT_EQ(best.has_value(), answer.kind != MayIKind::too_much) << "round " << round;
      ++asked, rooms_made += answer.kind == MayIKind::after, refused += answer.kind == MayIKind::too_much;
      if (!best) continue;
      std::tuple<int, int, int> cost{-1, 0, 0};
      for (const Consumer& one : answer.off_first) {
        int sum = 0;
        for (const int leg : one.draw.running) sum += leg;
        cost = {std::max(std::get<0>(cost), one.worth), std::get<1>(cost) + 1, std::get<2>(cost) + sum};
        EXPECT_FALSE(one.life());
      }
      ASSERT_EQ(cost, *best) << "round " << round << ": " << names(board->house(), answer);
    }
  }
  EXPECT_GT(asked, 500);
  EXPECT_GT(rooms_made, 50);
  EXPECT_GT(refused, 50);
}

}  // namespace
}  // namespace ohmstead
