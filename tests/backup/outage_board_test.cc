// Played outages with every step expected.

#include "backup/outage_board.h"

#include <gmock/gmock.h>

#include "backup/may_i.h"
#include "backup/outage_status.h"
#include "house/error.h"
#include "outage_story.h"

namespace ohmstead {
namespace {

using testing::HasSubstr;
using enum OutageEventKind;

constexpr const char* kRooms =
    "Cellar: freezer 100/400 W !, well pump 240 V 750/2200 W !, furnace 500/1200 W !\n"
    "Kitchen: refrigerator 150/600 W !, 2r, receptacle with kettle 1500 W\n"
    "Bedroom: oxygen concentrator 350 W !!, 2r\n"
    "Panel Main in Cellar 20 spaces, 100 A main: 1 15; 3 15; 5 15; 7 20; 9 15; 2+4 20";
constexpr const char* kFeeds =
    "By J.\nCellar freezer <- Main 1\nCellar furnace <- Main 3\nKitchen refrigerator <- Main 5\nKitchen receptacle 1 <- Main 7\n"
    "Kitchen receptacle 2 <- Main 7\nKitchen receptacle 3 <- Main 7\nBedroom oxygen concentrator <- Main 9\nBedroom receptacle 1 <- Main 9\n"
    "Bedroom receptacle 2 <- Main 9\nCellar well pump <- Main 2+4\n";

std::string on_positions(const std::string& source = "Generator G 3600/4500 W 120/240") {
  return std::string(kRooms) + "\n" + kFeeds + source +
         "\nTransfer T in Cellar 7 positions from G: 1 15 L1 <- Main 1; 2 15 L1 <- Main 3; 3 15 L2 <- Main 5; 4 20 L1 <- Main 7; 5 15 L2 <- Main 9; 6+7 20 <- Main 2+4\n";
}
std::string on_interlock(const std::string& source = "Generator G 3600/4500 W 120/240") {
  return source + "\n" + kRooms + "; 6+8 30 backfed from G, interlocked\n" + kFeeds;
}

OutageStory begun(const std::string& text) {
  OutageStory story(text);
  story.board().begin(story.time(), "Ana");
  return story;
}

constexpr const char* kAway =
    "place_source\nconnect_source\nstart_source\nwarm_up\n"
    "T5 backup: oxygen concentrator\nT6 backup: well pump\nT2 backup: furnace\nT3 backup: refrigerator\nT1 backup: freezer\n";

TEST(OutageBoard, positions_go_to_backup_one_by_one_life_first_then_the_largest_start) {
  OutageStory story = begun(on_positions());
  EXPECT_EQ(story.follow(), std::string(kAway) + "switch_off: kettle\nT4 backup\n");
  EXPECT_EQ(story.step(), "running");
}

TEST(OutageBoard, the_way_home_goes_one_by_one_life_last_and_cools_down_before_it_stops) {
  OutageStory story = begun(on_positions());
  story.follow();
  story.tell({.kind = utility_back});
  EXPECT_EQ(story.follow(), "T4 utility\nT1 utility\nT2 utility\nT3 utility\nT6 utility\nT5 utility\ncool_down\nstop_source\nend\n");
  EXPECT_EQ(story.board().now().phase, OutagePhase::none);
}

TEST(OutageBoard, an_interlock_is_gone_through_the_right_way_round_both_ways) {
  OutageStory story = begun(on_interlock());
  EXPECT_EQ(story.follow(),
            "1+3+5+7+9+2 off\nmain off\nplace_source\nconnect_source\nstart_source\nwarm_up\n6 on\n"
            "9 on: oxygen concentrator\n2 on: well pump\n3 on: furnace\n5 on: refrigerator\n1 on: freezer\nswitch_off: kettle\n7 on\n");
  story.tell({.kind = utility_back});
  EXPECT_EQ(story.follow(), "1+3+5+7+9+2 off\n6 off\nmain on\n1+3+5+7+9+2 on\ncool_down\nstop_source\nend\n");
}

TEST(OutageBoard, an_automatic_device_is_asked_about_and_taken_over_by_hand_only_if_it_did_not_move) {
  const std::string house = std::string("Generator G 9600/9600 W 120/240\nTransfer A whole house from G, automatic\n") +
                            "Cellar: freezer 100/400 W !, well pump 240 V 750/2200 W !, furnace 500/1200 W !\nKitchen: refrigerator 150/600 W !\n"
                            "Panel Main in Cellar 20 spaces, 100 A main, from A: 1 15; 3 15; 5 15; 2+4 20\n"
                            "By J.\nCellar freezer <- Main 1\nCellar furnace <- Main 3\nKitchen refrigerator <- Main 5\nCellar well pump <- Main 2+4\n";
  OutageStory moved = begun(house);
  EXPECT_EQ(moved.step(), "ask_away");
  EXPECT_EQ(moved.done(), "running");
  moved.tell({.kind = utility_back});
  EXPECT_EQ(moved.step(), "ask_back");
  EXPECT_EQ(moved.done(), "end");
  OutageStory by_hand = begun(house);
  EXPECT_EQ(by_hand.no(), "1+3+5+2 off");
  EXPECT_THAT(by_hand.follow(), HasSubstr("start_source\nT1 backup\n2 on: well pump\n"));
}

TEST(OutageBoard, a_handle_moved_onto_two_sources_is_put_right_before_all_else) {
  OutageStory story = begun(on_interlock());
  story.follow();
  EXPECT_EQ(story.moved("main", kOn), "main off");
  EXPECT_EQ(story.board().step().reason, OutageReason::put_right);
  EXPECT_EQ(story.done(), "running");
  story.moved("main", kOn);
  EXPECT_EQ(story.no(), "6 off") << "the main cannot be moved: the source is kept out";
}

TEST(OutageBoard, after_an_overload_what_was_switched_on_last_stays_off) {
  OutageStory story = begun(on_positions());
  story.follow();
  story.guest("hair dryer", "Kitchen receptacle 1", 1800);
  EXPECT_EQ(story.tell({.kind = overload}), "T1+T2+T3+T4+T5+T6 off");
  EXPECT_TRUE(story.board().now().guests.empty());
  EXPECT_EQ(story.follow(), "T1+T2+T3+T4+T5+T6 off\nstart_source\nwarm_up\nT5 backup: oxygen concentrator\nT6 backup: well pump\nT2 backup: furnace\n"
                            "T3 backup: refrigerator\nT1 backup: freezer\nT4 backup\n");
}

TEST(OutageBoard, after_an_overload_with_nothing_new_what_matters_least_stays_off_never_what_keeps_somebody_alive) {
  OutageStory story = begun(on_positions());
  story.follow();
  story.tell({.kind = note, .text = "it stutters"});
  story.tell({.kind = load_off, .load = story.load("kettle")});
  story.tell({.kind = overload});
  story.follow();
  EXPECT_EQ(story.step(), "running");
  std::string on;
  for (const Consumer& one : consumers_now(story.board().gear(), story.board().now()))
    if (one.on) on += story.house().loads[static_cast<std::size_t>(one.load)].name + "\n";
  EXPECT_THAT(on, HasSubstr("oxygen concentrator"));
  EXPECT_EQ(std::ranges::count(on, '\n'), 4) << on;
}

TEST(OutageBoard, what_keeps_somebody_alive_is_never_blamed_for_an_overload) {
  OutageStory story = begun(on_positions());
  while (story.step() != "T5 backup: oxygen concentrator") story.done();
  story.done();  // the last thing that came on, and the only one
  EXPECT_EQ(story.tell({.kind = overload}), "T5 off");
  const OutageEvent& line = story.house().outage_events.back();
  EXPECT_FALSE(line.handle || line.load || !line.text.empty());
  EXPECT_THAT(story.follow(), HasSubstr("T5 backup: oxygen concentrator\n"));
}

TEST(OutageBoard, a_source_that_gives_less_sheds_by_importance_and_keeps_the_concentrator) {
  OutageStory story = begun(on_positions());
  story.follow();
  // 1600 of 3600 W: 2000 W to start in all, 1000 W on each leg. The pump starts with 1100 W on each, the furnace with 1200 W.
  EXPECT_EQ(story.tell({.kind = source_started, .running_watts = 1600}), "T6 off: well pump");
  EXPECT_EQ(story.follow(), "T6 off: well pump\nT2 off: furnace\n");
  EXPECT_EQ(story.tell({.kind = source_started, .running_watts = 300}).find("oxygen"), std::string::npos);
  const std::string steps = story.follow();
  EXPECT_EQ(steps.find("oxygen"), std::string::npos) << steps;
  EXPECT_EQ(outage_status(story.board().view(), story.time()).on.size(), 1U) << "the concentrator stays, though it is too much";
}

TEST(OutageBoard, what_a_person_switched_off_for_a_guest_comes_back_when_the_guest_is_done_and_not_before) {
  OutageStory story = begun(on_positions());
  story.follow();
  story.tell({.kind = load_off, .load = story.load("furnace"), .text = std::string(outage_log::kForAWhile)});
  EXPECT_EQ(story.guest("hair dryer", "Kitchen receptacle 1", 1000), "running") << "1800 W of leg 1 with freezer and half the pump";
  EXPECT_EQ(story.tell({.kind = load_off, .text = "hair dryer"}), "T2 backup") << "its handle is its switch";
  EXPECT_EQ(story.done(), "running");
  EXPECT_EQ(outage_status(story.board().view(), story.time()).on.size(), 5U) << "the furnace runs again";
}

TEST(OutageBoard, a_pump_whose_handle_went_off_for_a_guest_is_reckoned_with_when_the_handle_goes_back_after_the_source_died) {
  OutageStory story = begun(on_positions());
  story.follow();
  story.tell({.kind = load_off, .load = story.load("furnace"), .text = std::string(outage_log::kForAWhile)});
  story.tell({.kind = source_stopped});
  std::string steps;
  for (int i = 0; i < 30 && story.board().step().kind != OutageStepKind::running; ++i) {
    const OutageStep& step = story.board().step();
    EXPECT_NE(step.kind, OutageStepKind::switch_on) << "there is no other switch";
    steps += story.done() + "\n";
  }
  EXPECT_THAT(steps, testing::HasSubstr("T2 backup"));
}

TEST(OutageBoard, what_a_person_switched_off_for_good_is_not_asked_for_again) {
  OutageStory story = begun(on_positions());
  story.follow();
  EXPECT_EQ(story.off("furnace"), "running");
}

TEST(OutageBoard, a_source_that_dies_is_started_again_with_nothing_on_it) {
  OutageStory story = begun(on_positions());
  story.follow();
  EXPECT_EQ(story.tell({.kind = source_stopped}), "T1+T2+T3+T4+T5+T6 off");
  story.done();
  EXPECT_EQ(story.no(), "no_source");
  EXPECT_EQ(story.done(), "start_source");
  EXPECT_EQ(story.done(), "warm_up");
}

TEST(OutageBoard, a_stuck_position_is_left_and_the_rest_goes_on) {
  OutageStory story = begun(on_positions());
  for (int i = 0; i < 4; ++i) story.done();
  EXPECT_EQ(story.step(), "T5 backup: oxygen concentrator");
  EXPECT_EQ(story.no(), "T6 backup: well pump");
  EXPECT_EQ(story.follow().find("T5"), std::string::npos);
}

TEST(OutageBoard, power_that_goes_again_on_the_way_home_is_the_same_outage) {
  OutageStory story = begun(on_positions());
  story.follow();
  story.tell({.kind = utility_back});
  story.done();
  story.done();
  story.board().begin(story.time());
  EXPECT_EQ(story.follow(), "T1 backup: freezer\nT4 backup\n");
}

TEST(OutageBoard, the_log_alone_gives_the_board_again_after_every_line) {
  OutageStory story = begun(on_interlock());
  for (int i = 0; i < 30 && !is_settled(story.board().step().kind); ++i) {
    story.done();
    const OutageBoard again(story.house(), declared_feeds(story.house()), 0);
    ASSERT_TRUE(again.now() == story.board().now() && again.step() == story.board().step()) << story.step();
  }
}

TEST(OutageBoard, an_answer_of_several_lines_is_taken_back_as_one) {
  OutageStory story = begun(on_interlock());
  EXPECT_EQ(story.done(), "main off");
  ASSERT_TRUE(story.board().undo());
  EXPECT_EQ(story.step(), "1+3+5+7+9+2 off");
  EXPECT_TRUE(std::ranges::all_of(std::vector(story.house().outage_events.begin() + 1, story.house().outage_events.end()), &OutageEvent::withdrawn));
}

TEST(OutageBoard, two_things_on_one_circuit_that_cannot_start_at_once_are_started_one_after_the_other) {
  OutageStory story = begun(
      "Cellar: freezer 100/900 W !, furnace 500/1400 W !\nPanel Main in Cellar 20 spaces, 100 A main: 1 15\n"
      "By J.\nCellar freezer <- Main 1\nCellar furnace <- Main 1\nGenerator G 1600/1800 W one leg\n"
      "Transfer T in Cellar 1 position from G: 1 15 L1 <- Main 1\n");
  EXPECT_THAT(story.follow(), HasSubstr("warm_up\nswitch_off: freezer\nT1 backup: furnace\nswitch_on: freezer\n"));
}

TEST(OutageBoard, smaller_things_go_off_for_a_moment_where_a_larger_one_must_start_first) {
  OutageStory story = begun(
      "Cellar: washer 500/1150 W !, receptacle with television 100 W !\nPanel Main in Cellar 20 spaces, 100 A main: 1 15; 3 15\n"
      "By J.\nCellar washer <- Main 1\nCellar receptacle 1 <- Main 3\nGenerator G 1100/1200 W one leg\n"
      "Transfer T in Cellar 2 positions from G: 1 15 L1 <- Main 1; 2 15 L1 <- Main 3\n");
  while (story.step() != "T1 backup: washer") story.done();
  EXPECT_EQ(story.moved("T2", kBackupSide), "T2 off: television") << "100 W run, and the washer starts with 1150 of 1200 W";
  EXPECT_EQ(story.board().step().reason, OutageReason::for_a_start);
  EXPECT_EQ(story.follow(), "T2 off: television\nT1 backup: washer\nT2 backup: television\n");
}

TEST(OutageBoard, a_whole_house_device_by_hand_is_moved_with_nothing_on_it) {
  OutageStory story = begun(
      "Generator G 3600/4500 W 120/240\nTransfer A whole house from G\nCellar: freezer 100/400 W !, furnace 500/1200 W !\n"
      "Panel Main in Cellar 20 spaces, 100 A main, from A: 1 15; 3 15; 5 15\nBy J.\nCellar freezer <- Main 1\nCellar furnace <- Main 3\n");
  EXPECT_EQ(story.follow(), "1+3+5 off\nplace_source\nconnect_source\nstart_source\nwarm_up\nT1 backup\n3 on: furnace\n1 on: freezer\n");
  story.tell({.kind = utility_back});
  EXPECT_EQ(story.follow(), "1+3 off\nT1 utility\n1+3+5 on\ncool_down\nstop_source\nend\n");
}

TEST(OutageBoard, a_battery_is_neither_carried_outdoors_nor_warmed_up) {
  OutageStory fine(on_positions());
  House house = fine.house();
  house.sources[0].kind = SourceKind::battery_inverter;
  OutageStory story(house);
  story.board().begin(story.time());
  EXPECT_EQ(story.step(), "start_source");
  EXPECT_EQ(story.done(), "T5 backup: oxygen concentrator");
}

TEST(OutageBoard, without_a_main_the_source_is_not_let_in) {
  OutageStory story = begun("Generator G 3600/4500 W 120/240\nCellar: freezer 100/400 W !\n"
                            "Panel Main in Cellar 20 spaces: 1 15; 6+8 30 backfed from G\nBy J.\nCellar freezer <- Main 1\n");
  EXPECT_THAT(story.follow(), testing::Not(HasSubstr("6 on")));
  EXPECT_EQ(story.step(), "no_safe_way");
}

TEST(OutageBoard, refuses_what_makes_no_sense_and_changes_nothing) {
  OutageStory story(on_positions());
  EXPECT_THROW(story.tell({.kind = overload}), Error) << "no outage";
  story.board().begin(story.time());
  const House before = story.house();
  EXPECT_THROW(story.board().begin(story.time()), Error);
  EXPECT_THROW(story.no(), Error) << "taking it outdoors takes no 'no'";
  EXPECT_THROW(story.moved("T1", 3), Error);
  EXPECT_THROW(story.moved("1", kBackupSide), Error) << "a breaker has no backup side";
  EXPECT_THROW(story.tell({.kind = ended}), Error);
  EXPECT_THROW(story.tell({.kind = load_on}), Error) << "on, but what?";
  EXPECT_EQ(story.house(), before);
  EXPECT_NO_THROW(story.moved("T1", kBackupSide));
}

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
