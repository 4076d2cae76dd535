// Played outages with every step expected.

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

}  // namespace
}  // namespace ohmstead
