// Played outages in which something does not go as it should: nothing comes on, a handle is stuck, the fuel ends.

#include "backup/outage_board.h"

#include <gmock/gmock.h>

#include "backup/may_i.h"
#include "backup/outage_status.h"
#include "house/error.h"
#include "outage_houses.h"

namespace ohmstead {
namespace {

using testing::HasSubstr;
using enum OutageEventKind;
std::string life_out(OutageStory& story, const std::string& at) {
  std::string names;
  for (const std::size_t load : outage_status(story.board().view(), at).life_without_power) names += story.house().loads[load].name;
  return names;
}

TEST(OutageBoard, where_nothing_came_on_there_is_no_power_and_after_two_in_a_row_the_source_is_looked_at) {
  OutageStory story = begun(on_positions());
  while (story.step() != "T6 backup: well pump") story.done();
  EXPECT_EQ(story.no_effect(), "T2 backup: furnace");
  EXPECT_EQ(story.no_effect(), "look_over: well pump, furnace") << "two in a row";
  EXPECT_EQ(outage_status(story.board().view(), story.time()).on.size(), 1U) << "the concentrator alone";
  EXPECT_EQ(story.done(), "T6+T2 off");
  EXPECT_EQ(story.done(), "T6 backup: well pump");
  EXPECT_EQ(story.done(), "T2 backup: furnace");
  EXPECT_THAT(story.follow(), testing::Not(HasSubstr("look_over")));
}

TEST(OutageBoard, a_concentrator_that_did_not_come_on_is_without_power_and_is_tried_again) {
  OutageStory story = begun(on_positions());
  while (story.step() != "T5 backup: oxygen concentrator") story.done();
  EXPECT_EQ(story.no_effect(), "look_over: oxygen concentrator");
  EXPECT_EQ(life_out(story, story.time()), "oxygen concentrator");
  EXPECT_EQ(story.no(), "T6 backup: well pump") << "left as it is";
  EXPECT_EQ(story.follow().find("look_over"), std::string::npos);
  EXPECT_EQ(life_out(story, story.time()), "oxygen concentrator");
  story.moved("T5", kOff);
  story.moved("T5", kBackupSide);
  EXPECT_EQ(life_out(story, story.time()), "");
}

TEST(OutageBoard, after_an_overload_the_handle_of_what_stays_off_is_not_closed_again_and_is_named) {
  OutageStory story = begun(on_positions());
  story.follow();
  story.tell({.kind = note, .text = "it stutters"});
  story.tell({.kind = load_off, .load = story.load("kettle")});
  story.tell({.kind = source_stopped});
  while (story.step() != "T2 backup: furnace") story.done();  // concentrator and pump are on
  story.tell({.kind = load_on, .load = story.load("oxygen concentrator")});
  story.tell({.kind = overload});
  EXPECT_EQ(story.house().outage_events.back().handle, story.handle("T6")) << "the pump's own handle";
  const std::string steps = story.follow();
  EXPECT_EQ(steps.find("T6 backup"), std::string::npos) << steps;
  const OutageStatus status = outage_status(story.board().view(), story.time());
  ASSERT_EQ(status.left_out.size(), 1U);
  EXPECT_EQ(story.house().loads[status.left_out.front().load].name, "well pump");
  EXPECT_GT(status.left_out.front().minutes, 0);
  story.moved("T6", kBackupSide);
  EXPECT_THAT(testing::PrintToString(outage_status(story.board().view(), story.time()).left_out.size()), "0") << "closed by hand it is counted";
}

TEST(OutageBoard, a_position_stuck_on_backup_keeps_the_outage_open_and_its_loads_are_named_before_the_source_stops) {
  OutageStory story = begun(on_positions());
  story.follow();
  story.tell({.kind = utility_back});
  while (story.step() != "T5 utility") story.done();
  EXPECT_EQ(story.no(), "stop_source: oxygen concentrator") << "nothing cools down: something hangs on it";
  EXPECT_EQ(story.board().step().handles.size(), 1U);
  EXPECT_EQ(story.done(), "no_safe_way");
  EXPECT_EQ(story.board().step().reason, OutageReason::way_home);
  EXPECT_EQ(story.moved("T5", kUtilitySide), "end");
}

TEST(OutageBoard, a_backfed_breaker_stuck_on_keeps_the_main_off_and_the_house_on_the_source) {
  OutageStory story = begun(on_interlock());
  story.follow();
  story.tell({.kind = utility_back});
  while (story.step() != "6 off") story.done();
  EXPECT_EQ(story.no(), "9 on: oxygen concentrator") << "back onto the source";
  const std::string steps = story.follow();
  EXPECT_EQ(steps.find("main on"), std::string::npos) << steps;
  EXPECT_EQ(story.step(), "no_safe_way");
  EXPECT_TRUE(story.board().now().running);
}

TEST(OutageBoard, nothing_came_on_on_the_way_home_means_back_to_the_source) {
  OutageStory story = begun(on_positions());
  story.follow();
  story.tell({.kind = utility_back});
  EXPECT_EQ(story.step(), "T4 utility");
  EXPECT_EQ(story.no_effect(), "T4 backup");
  EXPECT_EQ(story.board().now().phase, OutagePhase::lost);
  ASSERT_TRUE(story.board().undo());
  EXPECT_EQ(story.step(), "T4 utility") << "taken back as one";
}

TEST(OutageBoard, a_main_that_was_turned_off_comes_on_before_a_position_goes_to_utility) {
  OutageStory story = begun(on_positions());
  story.follow();
  story.moved("main", kOff);
  EXPECT_EQ(story.tell({.kind = utility_back}), "main on");
  EXPECT_EQ(story.no(), "stop_source: freezer, well pump, furnace, refrigerator, oxygen concentrator") << "no position loses the source";
  EXPECT_EQ(story.moved("main", kOn), "T4 utility");
}

TEST(OutageBoard, when_the_source_stops_on_the_way_home_what_keeps_somebody_alive_goes_first) {
  OutageStory story = begun(on_positions());
  story.follow();
  story.tell({.kind = utility_back});
  story.done();
  story.done();
  EXPECT_EQ(story.tell({.kind = source_stopped}), "T5 utility");
}

TEST(OutageBoard, circuits_that_share_a_neutral_are_never_put_on_a_source_whose_legs_are_in_phase) {
  const auto shared = [](const std::string& text) {
    const OutageStory fine(text);
    House house = fine.house();
    house.sources[0].output = SourceOutput::one_120_both_legs;
    for (const int space : {1, 3}) {
      const auto breaker = std::ranges::find(house.breakers, space, &Breaker::space);
      house.circuits.push_back({.id = Id<Circuit>::fresh(), .breaker = breaker->id});
    }
    for (Circuit& circuit : house.circuits) circuit.multiwire = house.circuits.front().id;
    OutageStory story(house);
    story.board().begin(story.time());
    return story;
  };
  OutageStory positions = shared(on_positions());
  std::string steps = positions.follow();
  EXPECT_EQ(steps.find("T1 backup"), std::string::npos) << steps;
  EXPECT_EQ(steps.find("T2 backup"), std::string::npos) << steps;
  EXPECT_EQ(positions.moved("T1", kBackupSide), "T1 off");
  EXPECT_EQ(positions.board().step().reason, OutageReason::barred);
  EXPECT_EQ(may_i(positions.board().view(), {.load = 0}).kind, MayIKind::barred);
  OutageStory panel = shared(on_interlock());
  steps = panel.follow();
  EXPECT_EQ(steps.find("\n1 on"), std::string::npos) << steps;
  EXPECT_EQ(panel.moved("3", kOn), "3 off");
}

TEST(OutageBoard, a_source_that_was_found_to_reach_the_panel_is_not_started) {
  OutageStory story = begun(on_positions());
  OutageGear gear = story.board().gear();
  gear.reaches_panel = true;
  EXPECT_EQ(next_outage_step({story.house(), gear, story.board().now()}).kind, OutageStepKind::no_safe_way);
  EXPECT_EQ(gear.wiring, OutageWiring::not_proved);
  gear = story.board().gear();
  gear.bars.push_back({gear.units[4].handle, OutageBarKind::found_wrong});
  story.follow();
  EXPECT_EQ(next_outage_step({story.house(), gear, story.board().now()}).reason, OutageReason::barred);
}

TEST(OutageBoard, to_refuel_everything_goes_off_the_engine_stops_and_all_comes_back_in_order) {
  OutageStory story = begun(on_positions("Generator G 3600/4500 W 120/240, gasoline, 11 L tank"));
  story.follow();
  const OutageEvent wanted{.kind = note, .source = story.house().sources[0].id, .text = std::string(outage_log::kToRefuel)};
  EXPECT_EQ(story.tell(wanted), "T1+T2+T3+T4+T5+T6 off");
  EXPECT_EQ(story.done(), "stop_source");
  EXPECT_EQ(story.done(), "refuel");
  EXPECT_FALSE(fits(story.board().step(), OutageAnswerKind::no_effect));
  EXPECT_TRUE(story.board().undo());
  EXPECT_EQ(story.step(), "stop_source");
  EXPECT_EQ(story.done(), "refuel");
  EXPECT_EQ(story.done(), "start_source");
  EXPECT_EQ(story.house().outage_events.back().text, outage_log::kRefuelled);
  EXPECT_THAT(story.follow(), testing::StartsWith("start_source\nwarm_up\nT5 backup: oxygen concentrator\n"));
  story.tell(wanted);
  story.done(), story.done();
  EXPECT_EQ(story.no(), "start_source") << "it goes on unfilled";
  EXPECT_EQ(story.house().outage_events.back().text, outage_log::kNotRefuelled);
}

TEST(OutageBoard, what_cannot_be_moved_off_is_named_before_the_engine_stops_for_its_fuel) {
  OutageStory story = begun(on_positions());
  story.follow();
  story.tell({.kind = note, .source = story.house().sources[0].id, .text = std::string(outage_log::kToRefuel)});
  EXPECT_EQ(story.no("T5"), "stop_source: oxygen concentrator");
}

TEST(OutageBoard, what_has_no_tank_and_a_house_on_its_way_home_are_not_refuelled) {
  const auto wanted = [](OutageStory& story) { return OutageEvent{.kind = note, .source = story.house().sources[0].id, .text = std::string(outage_log::kToRefuel)}; };
  OutageStory battery = begun(on_positions("Battery B 5/7.5 kW, 10 kWh").replace(on_positions("Battery B 5/7.5 kW, 10 kWh").find("from G"), 6, "from B"));
  EXPECT_THROW(battery.tell(wanted(battery)), Error);
  OutageStory gas = begun(on_positions("Generator G 3600/4500 W 120/240, natural gas"));
  EXPECT_THROW(gas.tell(wanted(gas)), Error);
  OutageStory home = begun(on_positions());
  home.follow();
  home.tell({.kind = utility_back});
  EXPECT_THROW(home.tell(wanted(home)), Error);
}

TEST(OutageBoard, where_a_switch_moves_by_itself_what_the_plan_does_not_carry_goes_off_first_and_on_at_the_end) {
  House house = OutageStory(std::string("Generator G 9600/9600 W 120/240\nTransfer A whole house from G, automatic\n") +
                            "Cellar: freezer 100/400 W !, furnace 500/1200 W !, range 240 V 8000 W\nPanel Main in Cellar 20 spaces, 100 A main, from A: 1 15; 3 15; 2+4 50\n"
                            "By J.\nCellar freezer <- Main 1\nCellar furnace <- Main 3\nCellar range <- Main 2+4\n").house();
  for (const Breaker& breaker : house.breakers)
    if (breaker.poles == 1) house.planned.push_back({Id<Planned>::fresh(), breaker.id, 1, {}});
  OutageStory story(house);
  story.board().begin(story.time());
  EXPECT_EQ(story.step(), "2 off");
  EXPECT_EQ(story.board().step().reason, OutageReason::not_planned);
  EXPECT_EQ(story.follow(), "2 off\nask_away\n");
  story.tell({.kind = utility_back});
  EXPECT_EQ(story.follow(), "ask_back\n2 on\nend\n");
  OutageStory stuck(house);
  stuck.board().begin(stuck.time());
  EXPECT_EQ(stuck.no(), "ask_away") << "a handle that cannot be moved does not hold it up";
}

TEST(OutageBoard, the_main_is_a_step_of_its_own_with_an_interlock_or_without_one) {
  for (const char* lock : {", interlocked", ""}) {
    OutageStory story = begun(std::string("Generator G 3600/4500 W 120/240\n") + kRooms + "; 6+8 30 backfed from G" + lock + "\n" + kFeeds);
    std::string steps = story.follow();
    EXPECT_LT(steps.find("\nmain off\n"), steps.find("\n6 on\n")) << steps;
    story.tell({.kind = utility_back});
    steps = story.follow();
    EXPECT_LT(steps.find("\n6 off\n"), steps.find("\nmain on\n")) << steps;
  }
}

TEST(OutageBoard, a_source_without_watts_or_gear_is_refused_with_a_sentence) {
  const std::string without = "Cellar: freezer 100 W !\nPanel Main 4 spaces: 1 15\nGenerator G 3600 W 120/240\n";
  const auto refusal = [](const std::string& lines) -> std::string {
    try {
      OutageStory story(lines);
    } catch (const Error& error) {
      return error.what();
    }
    return "";
  };
  EXPECT_THAT(refusal(without), HasSubstr("feeds no transfer device"));
  EXPECT_THAT(refusal(without + "Transfer T in Cellar 2 positions from G: 1 15; 2 15\n"), HasSubstr("connect the plan first"));
  OutageStory fine(on_positions());
  House house = fine.house();
  house.sources[0].running_watts = 0;
  EXPECT_THROW(OutageBoard(house, declared_feeds(house), 0), Error);
}

}  // namespace
}  // namespace ohmstead
