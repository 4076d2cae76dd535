// What a plan says of itself: how far its wiring may be relied on, what may never be used, what things are called.
#include "ask/plan_parts.h"
#include "ask/plan_sheet.h"
#include "ask/proving_words.h"
#include "ask/turns.h"
#include "ask/wall_sheet.h"
#include "ask/worksheet_words.h"

#include <gmock/gmock.h>

#include <algorithm>
#include <array>

#include "backup/outage_script.h"
#include "backup/proving.h"
#include "house/index.h"
#include "survey/entry.h"
#include "tests/support/proving_played.h"

namespace ohmstead {
namespace {

using testing::HasSubstr;
using testing::Not;

constexpr const char* kRooms = "Cellar: freezer 100/400 W !, furnace 500/1200 W !, 1sa, 1l\nBedroom: oxygen concentrator 350 W !! hurt\n";
constexpr const char* kFeeds = "By J.\nCellar freezer <- Main 1\nCellar furnace <- Main 3\nBedroom oxygen concentrator <- Main 5\n";
constexpr const char* kPositions = "Generator G 3600/4500 W 120/240, gasoline, 11 L tank\nTransfer T in Cellar 4 positions from G: 1 15; 2 15; 3 15; 4 20\n";
constexpr const char* kBackfed = "Generator G 3600/4500 W 120/240\n";

House entered(const std::string& rooms, const std::string& gear, const std::string& panel_more, const std::string& feeds) {
  House house;
  house.dwelling.id = {1};
  return enter_text(house, rooms + "Panel Main in Cellar 20 spaces, 100 A main: 1 15; 3 15; 5 15; 7 20" + panel_more + "\n" + gear + feeds).house;
}

House kept(House house) {
  const PlanAnswer best = best_plan_for(make_record(house), 0);
  house.planned = planned_rows(best.backup, best.plan);
  return house;
}

std::string text(const Lines& lines) {
  std::string all;
  for (const Line& line : lines) {
    all += (line.kind == LineKind::danger ? "! " : "") + line.text + "\n";
    for (const std::string& item : line.items) all += "  " + item + "\n";
  }
  return all;
}

std::string plan_text(const House& house) {
  const Record record = make_record(house);
  return text(words_of_plan(record, Names(record.house), kept_plan_for(record, 0)));
}

std::string sheet_text(const House& house) {
  const Record record = make_record(house);
  std::string all;
  for (const std::string& line : text_of(plan_sheet(record, Names(record.house), kept_plan_for(record, 0)))) all += line + "\n";
  return all;
}

WallSheet wall_of(const House& house) {
  const Record record = make_record(house);
  return wall_sheet(record, kept_plan_for(record, 0));
}

std::string wall_text(const House& house) {
  std::string all;
  for (const std::string& line : text_of(wall_of(house))) all += line + "\n";
  return all;
}

TEST(PlanWords, a_wiring_that_was_never_proved_is_not_said_to_be_safe) {
  const House house = kept(entered(kRooms, kPositions, "", kFeeds));
  EXPECT_THAT(plan_text(house), HasSubstr("! NOT CONNECTED YET"));
  EXPECT_THAT(sheet_text(house), HasSubstr("Not wired yet"));
  const House wired = house_as_planned(house);
  EXPECT_THAT(plan_text(wired), HasSubstr("! NOT PROVED YET"));
  EXPECT_THAT(sheet_text(wired), HasSubstr("NOT PROVED"));
  EXPECT_EQ(wall_of(wired).parts[0].title.find("NOT PROVED"), 0u);
  for (const std::string& words : {plan_text(wired), sheet_text(wired)}) EXPECT_THAT(words, Not(HasSubstr("t is wired so now")));
}

/// The house after its wiring was proved. With `past` everything is live always: it is fed past the positions.
House after_proving(const House& wired, bool past) {
  ProvingSession session(wired, make_record(wired).feeds, wired.sources[0].id);
  play_proving(session, past);
  return session.house();
}

TEST(PlanWords, what_proving_found_comes_before_everything_else) {
  const House wired = house_as_planned(kept(entered(kRooms, kPositions, "; 9 15; 11 15", kFeeds + std::string("Cellar smoke alarm <- Main 9\nCellar light <- Main 11\n"))));
  const House good = after_proving(wired, false), bad = after_proving(wired, true);
  for (const std::string& words : {plan_text(good), sheet_text(good), wall_text(good)}) EXPECT_THAT(words, Not(HasSubstr("NOT PROVED"))) << words;
  EXPECT_THAT(sheet_text(good), HasSubstr("It is wired so now, and proved."));
  EXPECT_EQ(plan_text(bad).find("! FAULT FOUND"), 0u) << plan_text(bad);
  EXPECT_EQ(sheet_text(bad).find("FAULT FOUND"), 0u);
  EXPECT_EQ(wall_of(bad).parts[0].title.find("FAULT FOUND"), 0u);
  EXPECT_THAT(wall_text(bad), HasSubstr("position 1 off"));
  for (const std::string& words : {plan_text(bad), sheet_text(bad)}) EXPECT_THAT(words, Not(HasSubstr("t is wired so now")));
}

TEST(PlanWords, a_backfed_breaker_without_an_interlock_is_a_danger_before_everything_else) {
  const House house = kept(entered(kRooms, kBackfed, "; 2+4 30 backfed from G", kFeeds));
  EXPECT_EQ(plan_text(house).find("! No interlock is written down for breaker 2-4 in Main"), 0u) << plan_text(house);
  EXPECT_EQ(sheet_text(house).find("No interlock is written down"), 0u);
  EXPECT_EQ(wall_of(house).parts[0].title.find("No interlock is written down"), 0u);
  EXPECT_THAT(wall_text(house), HasSubstr("702.5"));
  const House interlocked = kept(entered(kRooms, kBackfed, "; 2+4 30 backfed from G, interlocked", kFeeds));
  for (const std::string& words : {plan_text(interlocked), sheet_text(interlocked), wall_text(interlocked)}) EXPECT_THAT(words, Not(HasSubstr("No interlock")));
  EXPECT_THAT(plan_text(interlocked), HasSubstr("Breakers that stay on in an outage; all others are switched off:\n  Breaker 1, freezer (Cellar) 100 W"));
}

TEST(PlanWords, the_wall_never_promises_power_to_a_machine_that_the_plan_does_not_carry) {
  const House house = kept(entered(kRooms, "Generator G 550/900 W one leg\nTransfer T in Cellar 4 positions from G: 1 15; 2 15; 3 15; 4 20\n", "", kFeeds));
  const std::string wall = wall_text(house);
  EXPECT_THAT(wall, HasSubstr("Somebody depends on what this plan does not carry: oxygen concentrator (Bedroom)"));
  EXPECT_THAT(wall, HasSubstr("will NOT power it"));
  EXPECT_THAT(wall, Not(HasSubstr("When it has power again")));
  EXPECT_THAT(wall_text(kept(entered(kRooms, kPositions, "", kFeeds))), HasSubstr("When it has power again"));
}

TEST(PlanWords, nobody_loses_power_unwarned_because_of_refueling) {
  EXPECT_THAT(wall_text(kept(entered(kRooms, kPositions, "", kFeeds))),
              HasSubstr("To refuel: FIRST change oxygen concentrator (Bedroom) to its battery or cylinder and see that it works. Then all handles to OFF."));
}

TEST(PlanWords, a_name_that_says_more_is_not_lost) {
  const House house = kept(entered("Cellar: 1sa\nStorage: meat freezer 100/400 W !, fish freezer 100/400 W !, 1sa\n", kPositions, "", "By J.\nStorage meat freezer <- Main 1\nStorage fish freezer <- Main 3\n"));
  for (const std::string& words : {plan_text(house), wall_text(house)}) {
    EXPECT_THAT(words, HasSubstr("meat freezer (Storage)"));
    EXPECT_THAT(words, HasSubstr("fish freezer (Storage)"));
  }
}

TEST(PlanWords, a_pin_that_cannot_be_is_named_with_its_reason) {
  House house = entered(kRooms, kPositions, "", kFeeds);
  const auto breaker = [&](int space) { return std::ranges::find(house.breakers, space, &Breaker::space)->id; };
  const auto position = [&](int number) { return std::ranges::find(house.positions, number, &Position::number)->id; };
  house.pins = {{Id<Pin>::fresh(), breaker(1), false, position(1)}, {Id<Pin>::fresh(), breaker(3), false, position(4)}};
  const Record record = make_record(house);
  const std::string words = text(words_of_plan(record, Names(record.house), best_plan_for(record, 0)));
  EXPECT_THAT(words, HasSubstr("Breaker 3 on position 4 cannot be: that position has 20 A, and its breaker 15 A"));
  EXPECT_THAT(words, Not(HasSubstr("Breaker 1 on position 1 cannot")));
  EXPECT_THAT(words, Not(HasSubstr("larger source")));
  house.pins[1].position = position(1);
  const Record both = make_record(house);
  const std::string together = text(words_of_plan(both, Names(both.house), best_plan_for(both, 0)));
  EXPECT_THAT(together, HasSubstr("not all together"));
  EXPECT_THAT(together, HasSubstr("Breaker 1 on position 1"));
}

TEST(PlanWords, pins_hold_until_they_are_taken_away_and_are_said_with_every_plan_that_keeps_to_them) {
  House house = entered(kRooms, kPositions, "", kFeeds);
  const auto breaker = [&](int space) { return std::ranges::find(house.breakers, space, &Breaker::space)->id; };
  const auto best_text = [](const House& of) {
    const Record record = make_record(of);
    return text(words_of_plan(record, Names(record.house), best_plan_for(record, 0)));
  };
  EXPECT_THAT(best_text(house), Not(HasSubstr("pinned")));
  house.pins = {{Id<Pin>::fresh(), breaker(1), false, std::ranges::find(house.positions, 2, &Position::number)->id}, {Id<Pin>::fresh(), breaker(3), true, {}}};
  EXPECT_THAT(best_text(house), HasSubstr("You pinned, and that holds until you take it away (`ohmstead plan --unpin THING`, or `--unpin all`):\n"
                                          "  breaker 1 on position 2: freezer (Cellar)\n  breaker 3 never: furnace (Cellar)\n"));
  EXPECT_THAT(plan_text(kept(house)), Not(HasSubstr("pinned"))) << "what is kept may be older than the pins";
}

TEST(PlanWords, what_rides_where_when_taking_turns_stands_in_the_order_of_the_device) {
  const House house = entered("Cellar: freezer 100/400 W !, furnace 500/1200 W !\nBedroom: router 15 W !\n", kPositions, "",
                              "By J.\nCellar freezer <- Main 5\nCellar furnace <- Main 3\nBedroom router <- Main 1\n");
  House pinned = house;
  const auto pin = [&](int space, int number) {
    pinned.pins.push_back({Id<Pin>::fresh(), std::ranges::find(house.breakers, space, &Breaker::space)->id, false, std::ranges::find(house.positions, number, &Position::number)->id});
  };
  pin(5, 1), pin(3, 2), pin(1, 3);
  for (const auto& order : {std::array{1, 2, 3}, std::array{3, 2, 1}}) {
    for (std::size_t i = 0; i < order.size(); ++i) pinned.pins[i].position = std::ranges::find(house.positions, order[i], &Position::number)->id;
    const Record record = make_record(pinned);
    EXPECT_THAT(text(words_of_turns(record, turns_for(record, 0))), testing::ContainsRegex("\n  Position 1 [^\n]*\n  Position 2 [^\n]*\n  Position 3 ")) << order[0];
  }
}

/// More than G gives at once; what runs may be off for so many hours.
House too_much_at_once(const std::string& watts) {
  House house = entered("Cellar: freezer 100/400 W !, well pump 240 V 750/2200 W !\nKitchen: refrigerator 150/600 W !\n",
                        "Generator G " + watts + " 120/240, gasoline, 4 L tank\nTransfer T in Cellar 4 positions from G: 1 15; 2+3 20; 4 15\n", "; 2+4 20",
                        "By J.\nCellar freezer <- Main 1\nCellar well pump <- Main 2+4\nKitchen refrigerator <- Main 3\n");
  for (Load& load : house.loads) load.longest_off_min = load.name == "freezer" ? 480 : 240;
  return house;
}

TEST(PlanWords, where_all_at_once_is_too_much_the_plan_leads_to_taking_turns) {
  for (const bool small : {true, false}) {
    const Record record = make_record(too_much_at_once(small ? "1200/2300 W" : "3600/4500 W"));
    const std::string words = text(words_of_plan(record, Names(record.house), best_plan_for(record, 0)));
    EXPECT_EQ(words.find("`ohmstead plan --in-turn` makes a timetable") != std::string::npos, small) << words;
    EXPECT_EQ(words.find("without a place") != std::string::npos, small) << words;
  }
}

TEST(PlanWords, a_timetable_goes_on_in_the_order_of_the_clock_and_ends_where_it_begins_anew) {
  const Record record = make_record(too_much_at_once("1200/2300 W"));
  const std::string words = text(words_of_turns(record, turns_for(record, 0)));
  EXPECT_THAT(words, testing::ContainsRegex("A timetable of 8 h[^\n]*\n  0:00 [^\n]*\n  [1-7]:[0-9]+ [^-]*\n  8:00 [^\n]*\n#")) << words;
}

TEST(PlanWords, one_size_of_source_is_said_once) {
  const Record record = make_record(too_much_at_once("1200/2300 W"));
  const std::string words = text(words_of_smallest(record, best_plan_for(record, 0)));
  EXPECT_THAT(words, testing::AllOf(HasSubstr("every wish, even with everything on demand at once: "), Not(HasSubstr("one thing on demand at a time")), Not(HasSubstr("With everything on demand"))));
  House more = record.house;
  for (Load& load : more.loads) load.use = LoadUse::on_demand;
  const Record two = make_record(more);
  EXPECT_THAT(text(words_of_smallest(two, best_plan_for(two, 0))), testing::AllOf(HasSubstr("every wish, one thing on demand at a time: "), HasSubstr("With everything on demand running at once: ")));
}

TEST(PlanWords, where_two_devices_have_a_position_1_each_is_named_with_its_device) {
  const House one = entered(kRooms, kPositions, "", kFeeds);
  const House two = entered(kRooms, "Generator G 3600/4500 W 120/240\nTransfer T in Cellar 1 positions from G: 1 15\nTransfer S in Cellar 2 positions from G: 1 15 <- Main 3; 2 15\n", "", kFeeds);
  for (const bool several : {false, true}) {
    const House house = kept(several ? two : one);
    const Record record = make_record(house);
    const std::string words = plan_text(house) + text(words_of_worksheet(record, Names(record.house), worksheet(record.house)));
    EXPECT_EQ(words.find("Position 1 on T (15 A): breaker ") != std::string::npos, several) << words;
    EXPECT_EQ(words.find("Position 1 on S (15 A): breaker ") != std::string::npos, several) << words;
    EXPECT_EQ(words.find("Position 1 on T (15 A, leg 1): connect breaker ") != std::string::npos, several) << words;
    EXPECT_EQ(position_numbers(house, {0}), several ? "1 on T" : "1");
  }
}

TEST(PlanWords, what_limits_the_source_is_said) {
  const std::string gear = "Generator G 7500/9000 W 120/240, 20 A cord\nTransfer T in Cellar 4 positions from G: 1 15; 2 15; 3 15; 4 20\n";
  EXPECT_THAT(plan_text(kept(entered(kRooms, gear, "", kFeeds))), HasSubstr("G itself gives 7,500 W; its 20 A cord lets only 4,800 W through."));
  EXPECT_THAT(plan_text(kept(entered(kRooms, kPositions, "", kFeeds))), Not(HasSubstr("itself gives")));
}

TEST(PlanWords, wires_that_move_from_the_wiring_of_today_are_named) {
  const std::string gear = "Generator G 3600/4500 W 120/240\nTransfer T in Cellar 4 positions from G: 1 15 <- Main 7; 2 15; 3 15; 4 20\n";
  const House house = kept(entered(kRooms, gear, "", kFeeds));
  EXPECT_THAT(plan_text(house), HasSubstr("Breaker 1 comes to position"));
  EXPECT_THAT(plan_text(house_as_planned(house)), Not(HasSubstr("Against the wiring of today")));
}

TEST(PlanWords, a_wish_that_is_too_much_is_not_called_nothing_wished_for) {
  House house = entered(kRooms + std::string("Attic: heater 3500 W\n"), "Generator G 3600/4500 W 120/240\nTransfer T in Cellar 4 positions from G: 1 15 <- Main 7; 2 15; 3 15; 4 20\n", "",
                        kFeeds + std::string("Attic heater <- Main 7\n"));
  for (Load& load : house.loads)
    if (load.name == "heater") load.use = LoadUse::on_demand;
  BackupCase backup = backup_case(house, make_record(house).feeds, 0);
  const auto at = std::ranges::find_if(backup.circuits, [&](const CarriedCircuit& one) { return !one.loads.empty() && house.loads[one.loads[0].load].name == "heater"; });
  ASSERT_NE(at, backup.circuits.end());
  EXPECT_THAT(plan_words::nothing_words(house, *at), HasSubstr("heater (Attic) is too much"));
}

TEST(PlanWords, the_wall_says_where_more_may_be_plugged_in) {
  const House house = kept(entered("Cellar: 1sa\nDen: 2r, freezer 100/400 W !, 1sa\n", kPositions, "", "By J.\nDen freezer <- Main 1\nDen receptacles 1-2 <- Main 1\n"));
  EXPECT_THAT(wall_text(house), HasSubstr("plugged in where receptacles have power (Den"));
}

TEST(PlanWords, the_wall_says_what_a_number_is_the_number_of_and_where_it_is) {
  const std::string wall = wall_text(kept(entered(kRooms, kPositions, "", kFeeds)));
  EXPECT_THAT(wall, HasSubstr("Handles of T to BACKUP. One after another, in this order.\n- 1: "));
  EXPECT_THAT(wall, HasSubstr("The transfer device T is in: Cellar."));
  const std::string backfed = wall_text(kept(entered(kRooms, kBackfed, "; 2+4 30 backfed from G, interlocked", kFeeds)));
  EXPECT_THAT(backfed, HasSubstr("Breaker in Main 2-4 to ON"));
  EXPECT_THAT(backfed, HasSubstr("Breakers in Main 1, 3, 5"));
  EXPECT_THAT(backfed, HasSubstr("The panel Main is in: Cellar."));
}

TEST(PlanWords, where_a_switch_moves_by_itself_the_wall_has_the_other_breakers_off_first_and_on_at_the_end) {
  House house;
  house.dwelling.id = {1};
  house = enter_text(house, "Cellar: freezer 100/400 W !, range\nBattery B 5/7.5 kW, 10 kWh\nTransfer A whole house from B, automatic\n"
                            "Panel Main in Cellar 20 spaces, 100 A main from A: 1 15; 3+5 50\nBy J.\nCellar freezer <- Main 1\nCellar range <- Main 3+5\n").house;
  const WallSheet sheet = wall_of(kept(house));
  for (const WallPart& part : sheet.parts) {
    if (part.title == "Step by step") { EXPECT_EQ(part.items.front().handle + " " + part.items.front().to, "3-5 OFF"); }
    if (part.title.find("way home") != std::string::npos) { EXPECT_EQ(part.items[part.items.size() - 2].handle + " " + part.items[part.items.size() - 2].to, "3-5 ON"); }
  }
  EXPECT_THAT(wall_text(kept(house)), HasSubstr("Breaker in Main 3-5 to OFF"));
}

}  // namespace
}  // namespace ohmstead
