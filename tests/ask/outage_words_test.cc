#include "ask/outage_words.h"

#include <gmock/gmock.h>

#include "ask/outage_ask.h"
#include "backup/outage_board.h"
#include "house/error.h"
#include "survey/entry.h"
#include "tests/support/proving_played.h"

namespace ohmstead {
namespace {

using testing::HasSubstr;
using testing::Not;
using enum OutageEventKind;

constexpr const char* kHouse =
    "Cellar: freezer 100/400 W !, furnace 500/1200 W !\nKitchen: refrigerator 150/600 W !, 2r\nBedroom: oxygen concentrator 350 W !!, 2r\n"
    "Hall: 1r, 1r by the stair\nPanel Main in Cellar 20 spaces, 100 A main: 1 15; 3 15; 5 15; 7 20; 9 15\n"
    "By J.\nCellar freezer <- Main 1\nCellar furnace <- Main 3\nKitchen refrigerator <- Main 5\nKitchen receptacle 1 <- Main 7\n"
    "Kitchen receptacle 2 <- Main 7\nBedroom oxygen concentrator <- Main 9\nBedroom receptacle 1 <- Main 9\n"
    "Hall receptacle 1 <- Main 9\nHall receptacle 2 <- Main 5\nGenerator G 3600/4500 W 120/240\n"
    "Transfer T in Cellar 5 positions from G: 1 15 L1 <- Main 1; 2 15 L1 <- Main 3; 3 15 L2 <- Main 5; 4 20 L1 <- Main 7; 5 15 L2 <- Main 9\n";

struct OutageWords : testing::Test {
  OutageWords() {
    House house;
    house.dwelling.id = {1};
    house = enter_text(house, kHouse).house;
    board.emplace(house, declared_feeds(house), 0);
    names.emplace(board->house());
    board->begin("2026-11-27T18:00:00Z");
  }
  void follow() {
    while (!is_settled(board->step().kind)) board->answer({OutageAnswerKind::done, "2026-11-27T18:01:00Z"});
  }
  static std::string text(const Lines& lines) {
    std::string all;
    for (const Line& line : lines) {
      all += line.text + "\n";
      for (const std::string& item : line.items) all += "- " + item + "\n";
    }
    return all;
  }
  std::string step() { return text(words_of_outage_step(board->view(), *names, board->step())); }
  std::string status() { return text(words_of_outage_status(board->view(), outage_status(board->view(), "2026-11-27T20:00:00Z"))); }
  std::string may(const std::string& words, const std::string& at = "") {
    const AskedInWords asked = asked_in_words(board->view(), *names, words, at);
    return text(words_of_may_i(board->view(), *names, asked.name, may_i(board->view(), asked.thing)));
  }
  std::optional<OutageBoard> board;
  std::optional<Names> names;
};

/// What proving found in a house that is fed past its positions.
TEST_F(OutageWords, wiring_that_proving_found_wrong_is_said_first_and_never_used) {
  House house;
  house.dwelling.id = {1};
  house = enter_text(house, kHouse).house;
  for (const bool past : {false, true}) {
    ProvingSession session(house, declared_feeds(house), house.sources[0].id);
    play_proving(session, past);
    board.emplace(session.house(), declared_feeds(session.house()), 0);
    names.emplace(board->house());
    board->begin("2026-11-27T18:00:00Z");
    int to_backup = 0;
    std::string said = step() + status();
    for (int i = 0; i < 100 && !is_settled(board->step().kind); ++i) {
      to_backup += board->step().kind == OutageStepKind::move && board->step().to == kBackupSide ? 1 : 0;
      board->answer({OutageAnswerKind::done, "2026-11-27T18:01:00Z"});
      said += step();
    }
    EXPECT_EQ(to_backup > 0, !past);
    EXPECT_EQ(said.find("icensed electrician") != std::string::npos && said.find("roving found") != std::string::npos, past) << said;
  }
}

TEST_F(OutageWords, who_needs_power_to_live_and_has_none_is_said_first) {
  const Lines lines = words_of_outage_status(board->view(), outage_status(board->view(), "2026-11-27T18:05:00Z"));
  ASSERT_FALSE(lines.empty());
  EXPECT_EQ(lines.front().kind, LineKind::danger);
  EXPECT_THAT(lines.front().text, HasSubstr("NO POWER: oxygen concentrator (Bedroom). Change to its battery or cylinder now"));
  follow();
  EXPECT_THAT(status(), Not(HasSubstr("NO POWER")));
  board->tell({.kind = source_stopped, .at = "2026-11-27T19:00:00Z"});
  EXPECT_THAT(status(), HasSubstr("NO POWER: oxygen concentrator (Bedroom). Change to its battery or cylinder now"));
  board->answer({OutageAnswerKind::done, "2026-11-27T19:01:00Z"});
  board->answer({OutageAnswerKind::no, "2026-11-27T19:02:00Z"});
  EXPECT_THAT(step(), HasSubstr("Food and Drug Administration")) << "a plan for each medical device (found, trade-facts D)";
}

TEST_F(OutageWords, the_source_goes_outdoors_with_its_distance_and_its_cautions_once) {
  EXPECT_THAT(step(), HasSubstr("Take generator G outdoors, at least 20 ft (6 m)")) << "CPSC, found (trade-facts C1)";
  EXPECT_THAT(step(), HasSubstr("Consumer Product Safety Commission"));
  board->answer({OutageAnswerKind::done, "2026-11-27T18:01:00Z"});
  EXPECT_THAT(step(), Not(HasSubstr("carport")));
}

TEST_F(OutageWords, a_handle_says_what_comes_on_with_it) {
  for (int i = 0; i < 4; ++i) board->answer({OutageAnswerKind::done, "2026-11-27T18:01:00Z"});
  EXPECT_THAT(step(), HasSubstr("Move handle 5 on T to BACKUP. T is in: Cellar.\nWhen oxygen concentrator (Bedroom) runs, change back to it, and keep its battery or cylinder ready.\nThis comes on:\n- oxygen concentrator (Bedroom)\n- Bedroom: receptacle 1\n"));
}

TEST_F(OutageWords, may_i_is_answered_for_the_place_and_says_what_it_reckoned_with) {
  follow();
  EXPECT_THAT(may("freezer"), HasSubstr("is on already"));
  EXPECT_THAT(may("shaver 20 W", "hall receptacle 1"), HasSubstr("Yes. Shaver (20 W at most)"));
  EXPECT_THAT(may("hair dryer", "hall receptacle 1"), HasSubstr("1,875 W at most")) << "DOE list, found (trade-facts C5)";
  EXPECT_THAT(may("saw 1000/2500 W", "kitchen receptacle 1"), HasSubstr("2,500 W to start"));
  EXPECT_THAT(may("lamp 20 W", "bedroom receptacle 2"), HasSubstr("nobody has found out which breaker feeds Bedroom receptacle 2"));
  EXPECT_THAT(may("gizmo", "kitchen receptacle 1"), HasSubstr("Read the watts from its nameplate"));
}

TEST_F(OutageWords, what_is_to_go_off_first_is_said_with_the_handle_that_a_hand_moves_or_the_thing_itself) {
  follow();
  EXPECT_THAT(may("iron 1400 W", "kitchen receptacle 1"), HasSubstr("First this, then iron (1,400 W at most) may be switched on:\n- Move handle 2 on T to OFF: furnace (Cellar)\n"))
      << "wired in, and alone on its handle";
  ASSERT_NO_THROW(board->tell(switched_in_words(board->view(), *names, true, "hair dryer 1000 W", "hall receptacle 1")));
  EXPECT_THAT(may("iron 900 W", "hall receptacle 2"), HasSubstr("- Switch off or unplug hair dryer (Hall receptacle 1; handle 5 on T)\n"));
  board->tell({.kind = moved, .handle = board->house().positions.empty() ? HandleRef{} : HandleRef{HandleKind::position, board->house().positions[1].id.value}, .stands = kOff});
  EXPECT_THAT(may("iron 1400 W", "kitchen receptacle 1"), Not(HasSubstr("furnace"))) << "it is off already";
}

TEST_F(OutageWords, of_two_things_on_one_handle_the_one_that_is_too_much_goes_off_by_itself) {
  House house;
  house.dwelling.id = {1};
  house = enter_text(house, std::string(kHouse) + "Cellar: sump pump 400 W !\nBy J.\nCellar sump pump <- Main 3\n").house;
  board.emplace(house, declared_feeds(house), 0);
  names.emplace(board->house());
  board->begin("2026-11-27T18:00:00Z");
  follow();
  const std::string said = may("iron 1300 W", "kitchen receptacle 1");
  EXPECT_THAT(said, HasSubstr("Switch off or unplug ")) << said;
  EXPECT_THAT(said, HasSubstr("; handle 2 on T)")) << said;
  EXPECT_THAT(said, Not(HasSubstr("to OFF"))) << "the handle would take the other with it: " << said;
}

TEST_F(OutageWords, what_is_left_out_after_an_overload_is_said_with_the_handle_that_stays_off) {
  follow();
  board->tell({.kind = overload, .at = "2026-11-27T19:00:00Z"});
  follow();
  EXPECT_THAT(status(), testing::ContainsRegex("Left out since the overload; its handle stays off[^-]*- [^\n]*; handle [0-9] on T[)], off for")) << status();
}

TEST_F(OutageWords, before_it_starts_again_after_an_overload_what_nobody_told_of_is_to_be_unplugged) {
  constexpr const char* kUnplug = "never asked about here, such as a hair dryer or a kettle, must be unplugged";
  const auto said_at_start = [&] {
    for (int i = 0; i < 20 && board->step().kind != OutageStepKind::start_source; ++i) board->answer({OutageAnswerKind::done, "2026-11-27T18:01:00Z"});
    EXPECT_EQ(board->step().kind, OutageStepKind::start_source);
    return step();
  };
  EXPECT_THAT(said_at_start(), Not(HasSubstr(kUnplug)));
  follow();
  board->tell({.kind = overload, .at = "2026-11-27T19:00:00Z"});
  EXPECT_THAT(said_at_start(), HasSubstr(kUnplug));
  follow();
  board->tell({.kind = source_stopped, .at = "2026-11-27T20:00:00Z"});
  EXPECT_THAT(said_at_start(), Not(HasSubstr(kUnplug))) << "the tank ran empty";
}

TEST_F(OutageWords, handles_are_understood_as_the_screens_call_them_and_none_is_dropped) {
  House house;
  house.dwelling.id = {1};
  house = enter_text(house, "Yard: well pump 240 V 750/2200 W !\nCellar: freezer 100/400 W !\nPanel Main in Cellar 20 spaces, 100 A main: 1 15; 2+4 20\n"
                            "By J.\nCellar freezer <- Main 1\nYard well pump <- Main 2+4\nGenerator G 3600/4500 W 120/240\n"
                            "Transfer T in Cellar 4 positions from G: 1 15 L1 <- Main 1; 2+3 20 <- Main 2+4; 4 15\n").house;
  board.emplace(house, declared_feeds(house), 0);
  names.emplace(board->house());
  const auto moved = [&](const char* words) { return moved_in_words(board->view(), *names, words); };
  const HandleRef pump = moved("T2 backup").handle;
  const std::string shown = outage_handle_text(board->house(), *names, pump);
  ASSERT_EQ(shown, "handles 2 and 3 on T (tied together)");
  for (const char* words : {"handles 2 and 3 on T (tied together) backup", "Handles 2 and 3 on T to BACKUP", "handles 2 and 3 moved to backup", "2 and 3 backup", "2+3 backup", "2-3 backup", "2 backup"}) {
    EXPECT_EQ(moved(words).handle, pump) << words;
    EXPECT_EQ(moved(words).stands, kBackupSide) << words;
  }
  EXPECT_EQ(moved("handle 1 on T backup").handle.kind, HandleKind::position);
  EXPECT_EQ(moved("2+4 off").handle.kind, HandleKind::breaker) << "without a side it is the breaker";
  for (const char* words : {"1+4 backup", "handles 1 and 4 on T backup", "1 and 2 utility", "handles off"}) EXPECT_THROW((void)moved(words), Error) << words;
}

TEST_F(OutageWords, who_asks_where_there_is_no_power_is_told_where_there_is) {
  House house;
  house.dwelling.id = {1};
  house = enter_text(house, std::string(kHouse) + "Attic: 1r\nPanel Main: 11 15\nAttic receptacle 1 <- Main 11 by J.\n").house;
  board.emplace(house, declared_feeds(house), 0);
  names.emplace(board->house());
  board->begin("2026-11-27T18:00:00Z");
  follow();
  EXPECT_THAT(may("shaver 20 W", "attic"), testing::AllOf(HasSubstr("is not carried by"), HasSubstr("Still to be had"), HasSubstr("Kitchen")));
}

TEST_F(OutageWords, wiring_that_was_not_proved_is_said_once_at_the_start) {
  EXPECT_THAT(step(), HasSubstr("It is not proved that each handle carries what is written down"));
  follow();
  EXPECT_THAT(step(), Not(HasSubstr("not proved")));
}

TEST_F(OutageWords, a_position_stuck_on_backup_is_never_called_the_end_of_the_outage) {
  follow();
  board->tell({.kind = utility_back, .at = "2026-11-27T19:00:00Z"});
  std::string said;
  while (!is_settled(board->step().kind)) {
    said += step();
    const bool last = !board->step().handles.empty() && board->step().kind == OutageStepKind::move && step().find("handle 5 on T") != std::string::npos;
    board->answer({last ? OutageAnswerKind::no : OutageAnswerKind::done, "2026-11-27T19:01:00Z"});
  }
  said += step();
  EXPECT_THAT(said, HasSubstr("Handle 5 on T stays on generator G: oxygen concentrator (Bedroom) loses power when it stops."));
  EXPECT_THAT(said, HasSubstr("Oxygen concentrator (Bedroom) first. Do not stop generator G"));
  EXPECT_THAT(said, HasSubstr("The outage is not over. Call a licensed electrician"));
  EXPECT_THAT(said, Not(HasSubstr("The outage is over")));
  EXPECT_THAT(said, Not(HasSubstr("Everything is on the street's power")));
}

TEST_F(OutageWords, less_than_life_needs_is_said_at_once) {
  follow();
  board->tell({.kind = source_started, .at = "2026-11-27T19:00:00Z", .running_watts = 300});
  EXPECT_THAT(status(), HasSubstr("draws 350 W, more than the 300 W that generator G gives now"));
}

TEST_F(OutageWords, where_nothing_came_on_there_is_no_power) {
  for (int i = 0; i < 4; ++i) board->answer({OutageAnswerKind::done, "2026-11-27T18:01:00Z"});
  board->answer({OutageAnswerKind::no_effect, "2026-11-27T18:02:00Z"});
  EXPECT_THAT(status(), HasSubstr("NO POWER: oxygen concentrator (Bedroom)"));
  EXPECT_THAT(status(), HasSubstr("Nothing came on, so it counts as without power"));
  EXPECT_THAT(step(), HasSubstr("is its own breaker on?"));
}

TEST_F(OutageWords, a_breaker_that_keeps_somebody_alive_is_named_before_another_thing_hangs_on_it) {
  follow();
  EXPECT_THAT(may("shaver 20 W", "bedroom receptacle 1"), HasSubstr("Oxygen concentrator (Bedroom) hangs on the same breaker: better elsewhere."));
  EXPECT_THAT(may("shaver 20 W", "kitchen receptacle 1"), Not(HasSubstr("same breaker")));
}

TEST_F(OutageWords, a_battery_is_not_refilled) {
  House house = board->house();
  house.sources[0].kind = SourceKind::battery_inverter;
  OutageBoard other(house, declared_feeds(house), 0);
  EXPECT_THAT(text(words_of_outage_step(other.view(), *names, {.kind = OutageStepKind::end})), Not(HasSubstr("refill")));
}

TEST_F(OutageWords, a_load_is_found_as_the_screens_call_it) {
  House house = board->house();
  const auto receptacle = std::ranges::find(house.points, PointKind::receptacle, &Point::kind);
  house.loads.push_back({.id = Id<Load>::fresh(), .point = receptacle->id, .name = "television", .running_watts = 100});
  const OutageBoard other(house, declared_feeds(house), 0);
  const Names its(other.house());
  EXPECT_EQ(asked_in_words(other.view(), its, "television", "").thing.load, static_cast<int>(house.loads.size()) - 1);
  EXPECT_EQ(asked_in_words(other.view(), its, "Television (Kitchen)", "").thing.load, static_cast<int>(house.loads.size()) - 1);
}

TEST_F(OutageWords, behind_a_backfed_breaker_the_main_is_looked_at_first_and_life_is_named_before_it_goes_off) {
  House house;
  house.dwelling.id = {1};
  house = enter_text(house, "Generator G 3600/4500 W 120/240\nBedroom: oxygen concentrator 350 W !!\n"
                            "Panel Main in Bedroom 20 spaces, 100 A main: 9 15; 6+8 30 backfed from G\nBy J.\nBedroom oxygen concentrator <- Main 9\n").house;
  OutageBoard other(house, declared_feeds(house), 0);
  const Names its(other.house());
  const auto words = [&] { return text(words_of_outage_step(other.view(), its, other.step())); };
  other.begin("2026-11-27T18:00:00Z");
  while (other.step().reason != OutageReason::part) other.answer({OutageAnswerKind::done, "2026-11-27T18:01:00Z"});
  EXPECT_THAT(words(), HasSubstr("No interlock holds it off. If it stands ON while Main panel breaker 6-8 is ON, generator G feeds the street's lines"));
  while (other.step().reason != OutageReason::let_in) other.answer({OutageAnswerKind::done, "2026-11-27T18:01:00Z"});
  EXPECT_THAT(words(), HasSubstr("First go and look: the main breaker of Main must stand OFF."));
  EXPECT_THAT(words(), HasSubstr("an interlock is needed here"));
  while (!is_settled(other.step().kind)) other.answer({OutageAnswerKind::done, "2026-11-27T18:02:00Z"});
  other.tell({.kind = utility_back, .at = "2026-11-27T19:00:00Z"});
  EXPECT_THAT(words(), HasSubstr("This takes the power from oxygen concentrator (Bedroom): have its battery or cylinder at hand"));
  other.answer({OutageAnswerKind::done, "2026-11-27T19:01:00Z"});
  EXPECT_THAT(words(), HasSubstr("It must be off before the main breaker goes on"));
  other.answer({OutageAnswerKind::done, "2026-11-27T19:02:00Z"});
  EXPECT_THAT(words(), HasSubstr("First go and look: Main panel breaker 6-8 must stand OFF. No interlock sees to it"));
}

TEST_F(OutageWords, with_an_interlock_nothing_is_said_that_it_sees_to) {
  House house;
  house.dwelling.id = {1};
  house = enter_text(house, "Generator G 3600/4500 W 120/240\nBedroom: oxygen concentrator 350 W !!\n"
                            "Panel Main in Bedroom 20 spaces, 100 A main: 9 15; 6+8 30 backfed from G, interlocked\nBy J.\nBedroom oxygen concentrator <- Main 9\n").house;
  OutageBoard other(house, declared_feeds(house), 0);
  const Names its(other.house());
  other.begin("2026-11-27T18:00:00Z");
  std::string all;
  for (const bool back : {false, true}) {
    if (back) other.tell({.kind = utility_back, .at = "2026-11-27T19:00:00Z"});
    for (; !is_settled(other.step().kind); other.answer({OutageAnswerKind::done, "2026-11-27T19:01:00Z"})) all += text(words_of_outage_step(other.view(), its, other.step()));
  }
  EXPECT_THAT(all, HasSubstr("Turn the main breaker of Main OFF."));
  EXPECT_THAT(all, HasSubstr("Turn the main breaker of Main ON."));
  constexpr const char* kBack = "When oxygen concentrator (Bedroom) runs, change back to it";
  EXPECT_NE(all.rfind(kBack), all.find(kBack)) << "from the source, and again when the street's power is back";
  EXPECT_GT(all.rfind(kBack), all.find("Turn the main breaker of Main ON."));
  EXPECT_THAT(all, Not(HasSubstr("nterlock")));
}

TEST_F(OutageWords, where_a_switch_moves_by_itself_it_says_what_goes_off_first_and_what_stays_on) {
  House house;
  house.dwelling.id = {1};
  house = enter_text(house, "Generator G 9600/9600 W 120/240\nTransfer A whole house from G, automatic\nCellar: freezer 100/400 W !, range 240 V 8000 W\n"
                            "Panel Main in Cellar 20 spaces, 100 A main, from A: 1 15; 2+4 50\nBy J.\nCellar freezer <- Main 1\nCellar range <- Main 2+4\n").house;
  for (const Breaker& breaker : house.breakers)
    if (breaker.poles == 1) house.planned.push_back({Id<Planned>::fresh(), breaker.id, 1, {}});
  OutageBoard other(house, declared_feeds(house), 0);
  const Names its(other.house());
  other.begin("2026-11-27T18:00:00Z");
  const std::string first = text(words_of_outage_step(other.view(), its, other.step()));
  EXPECT_THAT(first, HasSubstr("Turn Main panel breaker 2-4 OFF."));
  EXPECT_THAT(first, HasSubstr("The plan does not carry what hangs there"));
  EXPECT_THAT(first, HasSubstr("These stay ON, by the plan:\n- Main panel breaker 1\n"));
  other.answer({OutageAnswerKind::done, "2026-11-27T18:01:00Z"});
  EXPECT_THAT(text(words_of_outage_step(other.view(), its, other.step())), HasSubstr("- Main panel breaker 1\n"));
}

struct FuelWords : OutageWords {
  FuelWords() {
    House house = board->house();
    house.outage_events.clear();
    house.sources[0].fuel = Fuel::gasoline;
    house.sources[0].tank_ml = 8'000;
    house.sources[0].use_25_ml_h = house.sources[0].use_50_ml_h = house.sources[0].use_75_ml_h = house.sources[0].use_100_ml_h = 1'000;
    board.emplace(house, declared_feeds(house), 0);
    names.emplace(board->house());
    board->begin("2026-11-27T22:00:00Z");
    while (!is_settled(board->step().kind)) board->answer({OutageAnswerKind::done, "2026-11-27T22:00:00Z"});
  }
  /// The line about the tank, with how urgent it is, on clocks five hours west of UTC.
  std::string tank(const std::string& at) {
    const LocalTime local{[](long) { return -5 * 3600L; }};
    for (const Line& line : words_of_outage_status(board->view(), outage_status(board->view(), at), local))
      if (line.text.starts_with("The tank")) return (line.kind == LineKind::danger ? "! " : line.kind == LineKind::caution ? "? " : "") + line.text;
    return "";
  }
};

TEST_F(FuelWords, says_by_the_clock_when_the_tank_will_be_empty_and_warns_in_time) {
  EXPECT_EQ(tank("2026-11-28T00:00:00Z"), "The tank of generator G will be empty at about 01:00 on Saturday 2026-11-28, if what runs now goes on (if the tank was full when the outage began).");
  EXPECT_THAT(tank("2026-11-28T05:00:00Z"), testing::StartsWith("? The tank of generator G will be empty at about 01:00, if"));
  EXPECT_THAT(tank("2026-11-28T05:00:00Z"), HasSubstr("Refuel in time (key f)."));
  EXPECT_THAT(tank("2026-11-28T05:30:00Z"), testing::StartsWith("! The tank of generator G will be empty at about 01:00, if"));
  EXPECT_THAT(tank("2026-11-28T06:01:00Z"), testing::StartsWith("! The tank of generator G should be empty by now"));
}

TEST_F(FuelWords, where_the_figures_are_a_range_so_is_the_time) {
  House house = board->house();
  house.sources[0].use_25_ml_h = house.sources[0].use_50_ml_h = house.sources[0].use_75_ml_h = house.sources[0].use_100_ml_h = 0;  // typical figures: fuel.cc
  board.emplace(house, declared_feeds(house), 0);
  const auto range = outage_status(board->view(), "2026-11-27T23:00:00Z").fuel;
  ASSERT_TRUE(range && range->hours.low + 1 < range->hours.high);
  EXPECT_THAT(tank("2026-11-27T23:00:00Z"), testing::MatchesRegex("The tank of generator G will be empty between [0-9:]* and [0-9:]* on Saturday 2026-11-28, if .*|"
                                                                  "The tank of generator G will be empty between [0-9:]* and [0-9:]*, if .*"));
  EXPECT_THAT(tank("2026-11-28T15:00:00Z"), HasSubstr("should be empty by now"));
}

TEST_F(FuelWords, filling_it_says_to_let_it_cool_and_counts_anew_from_then) {
  board->tell({.kind = note, .at = "2026-11-28T04:00:00Z", .source = board->house().sources[0].id, .text = std::string(outage_log::kToRefuel)});
  EXPECT_THAT(step(), HasSubstr("This takes the power from oxygen concentrator (Bedroom)"));
  while (board->step().kind != OutageStepKind::refuel) board->answer({OutageAnswerKind::done, "2026-11-28T04:10:00Z"});
  EXPECT_THAT(step(), HasSubstr("Stop the engine and let it cool before refueling."));
  EXPECT_THAT(step(), HasSubstr("Now fill the tank of generator G, outdoors"));
  EXPECT_THAT(tank("2026-11-28T04:30:00Z"), HasSubstr("is about 23 % full")) << "6 h 10 min of 8 h";
  EXPECT_THAT(tank("2026-11-28T04:30:00Z"), HasSubstr("fill it now, while it stands still and is cold"));
  board->answer({OutageAnswerKind::done, "2026-11-28T04:30:00Z"});
  EXPECT_EQ(tank("2026-11-28T04:30:00Z"), "");
  while (!is_settled(board->step().kind)) board->answer({OutageAnswerKind::done, "2026-11-28T04:30:00Z"});
  EXPECT_EQ(tank("2026-11-28T05:00:00Z"), "The tank of generator G will be empty at about 07:30, if what runs now goes on (counted from 23:30, when it was said to be full).");
}

TEST_F(OutageWords, what_is_not_clear_is_asked_for) {
  const auto refused = [&](const std::string& words, const std::string& at) {
    try {
      (void)asked_in_words(board->view(), *names, words, at);
    } catch (const Error& error) {
      return std::string(error.what());
    }
    return std::string("taken");
  };
  EXPECT_THAT(refused("hair dryer", ""), HasSubstr("say where it is plugged in"));
  EXPECT_THAT(refused("hair dryer", "hall"), HasSubstr("different circuits"));
  EXPECT_EQ(refused("hair dryer", "kitchen"), "taken") << "all its receptacles are alike";
  EXPECT_THAT(refused("hair dryer", "ballroom"), Not(HasSubstr("taken")));
  const AskedInWords bedroom = asked_in_words(board->view(), *names, "hair dryer", "bedroom");
  EXPECT_EQ(board->house().points[bedroom.thing.point].name, "receptacle 1") << "no circuit is known for receptacle 2: it has no power now";
}

TEST_F(OutageWords, moves_are_read_in_plain_words) {
  EXPECT_EQ(moved_in_words(board->view(), *names, "T3 backup").stands, 2);
  EXPECT_EQ(moved_in_words(board->view(), *names, "handle 3 to off").stands, 0);
  EXPECT_EQ(moved_in_words(board->view(), *names, "breaker 5 is on").stands, 1);
  EXPECT_EQ(moved_in_words(board->view(), *names, "main off").handle.kind, HandleKind::main);
  for (const char* words : {"T3", "5 on backup", "T3 on", "", "off", "nothing off"})
    EXPECT_THROW((void)moved_in_words(board->view(), *names, words), Error) << words;
  EXPECT_EQ(moved_in_words(board->view(), *names, "4 backup").handle, moved_in_words(board->view(), *names, "T4 backup").handle);
  EXPECT_EQ(watts_in_words("2,000 W"), 2000);
  for (const char* words : {"", "0", "many", "-5", "20 30", "1000000"}) EXPECT_THROW((void)watts_in_words(words), Error) << words;
}

TEST_F(OutageWords, control_characters_of_a_guests_thing_are_made_visible) {
  follow();
  board->tell({.kind = load_on, .at = "2026-11-27T19:00:00Z", .point = board->house().points[3].id, .running_watts = 10, .text = "a\tb"});
  EXPECT_THAT(status(), Not(HasSubstr("a\tb")));
  EXPECT_THAT(text(words_of_outage_log(board->house(), *names)), Not(HasSubstr("\t")));
}

TEST_F(OutageWords, the_log_has_a_line_for_each_line_and_says_what_was_taken_back) {
  board->answer({OutageAnswerKind::done, "2026-11-27T18:01:00Z", "Ana"});
  ASSERT_TRUE(board->undo());
  const std::string log = text(words_of_outage_log(board->house(), *names));
  EXPECT_THAT(log, HasSubstr("Friday 2026-11-27 (times in UTC):\n- 18:00  The power from the street is gone\n"));
  EXPECT_THAT(log, HasSubstr("G: placed (Ana) (taken back)"));
}

TEST_F(OutageWords, what_is_too_much_may_do_on_a_lower_setting) {
  follow();
  EXPECT_THAT(may("hair dryer", "kitchen"), HasSubstr("'hair dryer 900 W'"));
  EXPECT_THAT(may("hair dryer 20 W", "kitchen"), Not(HasSubstr("lower setting")));
}

TEST_F(OutageWords, the_way_home_says_what_hangs_on_each_handle_and_what_may_go_on_again) {
  follow();
  board->tell({.kind = load_off, .at = "2026-11-27T19:00:00Z", .load = board->house().loads[1].id});
  board->tell({.kind = utility_back, .at = "2026-11-27T20:00:00Z"});
  std::string all;
  for (; !is_settled(board->step().kind); board->answer({OutageAnswerKind::done, "2026-11-27T20:01:00Z"})) all += step();
  EXPECT_THAT(all, HasSubstr("Move handle 3 on T to UTILITY.\nOn it: refrigerator (Kitchen)"));
  EXPECT_THAT(all, HasSubstr("Switched off in the outage, and free to go on again: furnace (Cellar)."));
}

TEST_F(OutageWords, the_log_is_in_local_time_and_says_the_day_where_it_changes) {
  for (const char* at : {"2026-11-28T04:59:00Z", "2026-11-28T05:00:00Z"}) board->tell({.kind = note, .at = at, .text = "a line"});
  const std::string log = text(words_of_outage_log(board->house(), *names, {[](long) { return -5 * 3600L; }}));
  EXPECT_EQ(log, "Friday 2026-11-27 (times in UTC-5):\n- 13:00  The power from the street is gone\n- 23:59  Note: a line\n"
                 "Saturday 2026-11-28 (times in UTC-5):\n- 00:00  Note: a line\n");
  EXPECT_EQ(board->house().outage_events.back().at, "2026-11-28T05:00:00Z") << "the record keeps UTC";
  EXPECT_EQ(text(words_of_outage_log(board->house(), *names, {}, 2)), "Saturday 2026-11-28 (times in UTC):\n- 05:00  Note: a line\n");
}

}  // namespace
}  // namespace ohmstead
