#include "ask/worksheet_words.h"

#include <gmock/gmock.h>

#include <algorithm>

#include "survey/entry.h"

namespace ohmstead {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;

class SheetWords : public ::testing::Test {
 protected:
  SheetWords() {
    House house;
    house.dwelling.id = Id<Dwelling>::fresh();
    house = enter_text(house, "Kitchen: 2r\nPanel Main in Kitchen, 20 spaces, 100 A main: 1 20 kitchen; 2+4 20 well; 7,9 tied 20 mwbc\n"
                              "Generator G 3500/4500 W 120/240\n"
                              "Transfer T in Kitchen, 6 positions, from G: 1 15 L1 <- Main 1; 3+4 20; 5+6 20\n"
                              "Kitchen receptacle 1 <- Main 1 by J.\n").house;
    const auto plan = [&](int space, int pole, int number) {
      house.planned.push_back({Id<Planned>::fresh(), std::ranges::find(house.breakers, space, &Breaker::space)->id, pole,
                               std::ranges::find(house.positions, number, &Position::number)->id});
    };
    plan(1, 1, 1), plan(2, 1, 3), plan(2, 2, 4), plan(7, 1, 5), plan(9, 1, 6);
    record = make_record(house);
  }
  std::string all() {
    const Names names(record.house);
    std::string text;
    for (const Line& line : words_of_worksheet(record, names, worksheet(record.house))) {
      text += line.text + "\n";
      for (const std::string& item : line.items) text += item + "\n";
    }
    return text;
  }
  Record record;
};

TEST_F(SheetWords, every_wiring_step_says_breaker_pole_position_and_what_to_check) {
  EXPECT_THAT(all(), AllOf(HasSubstr("Position 4 (20 A, leg 2), tied to 3: connect breaker 2-4 in Main. Take the hot wire on its lower pole (space 4) off"),
                           HasSubstr("Breaker 2-4: 20 A; old label \"well\"; it feeds: "), HasSubstr("Check: the breaker's and the position's number")));
}

TEST_F(SheetWords, each_caution_of_the_trade_is_there) {
  EXPECT_THAT(all(), AllOf(HasSubstr("stay live with the main off"), HasSubstr("the tester on something live, every breaker you will touch"),
                           HasSubstr("it and Main panel breaker 9 share one neutral. Move them together, to positions on opposite legs with tied handles"),
                           HasSubstr("20 A receptacles may not stay on 15 A"), HasSubstr("no bonding screw")));
  EXPECT_THAT(all(), AllOf(HasSubstr("torque that the maker"), HasSubstr("bonded or for a floating"), HasSubstr("permit"),
                           HasSubstr("Local code and a licensed electrician decide"), HasSubstr("702.7(C), from memory"), HasSubstr("Have it checked")));
}

TEST_F(SheetWords, a_ticked_step_shows_when_and_by_whom) {
  tick_step(record.house, "permit", "2026-03-01T08:00:00Z", "Ana");
  EXPECT_THAT(all(), AllOf(HasSubstr("[x] 1. Ask the building department"), HasSubstr("(Done on 2026-03-01 by Ana.)"), HasSubstr("[ ] 2. ")));
}

TEST_F(SheetWords, what_is_missing_is_listed_and_nothing_else) {
  const Names names(record.house);
  const Lines missing = words_of_missing(record, names, worksheet(record.house));
  ASSERT_EQ(missing.size(), 1U);
  EXPECT_THAT(missing[0].text, HasSubstr("6 steps of the wiring are not ticked yet"));
  ASSERT_EQ(missing[0].items.size(), 6U);
  EXPECT_THAT(missing[0].items[0], HasSubstr("connect breaker"));
  record.house.positions.clear(), record.house.planned.resize(1), record.house.planned[0].position = {};
  EXPECT_TRUE(words_of_missing(record, Names(record.house), worksheet(record.house)).empty());
}

TEST_F(SheetWords, a_tick_is_answered_with_its_step_and_the_next_one_only) {
  tick_step(record.house, "permit", "2026-03-01T08:00:00Z", "Ana");
  std::string text;
  for (const Line& line : words_of_tick(record, Names(record.house), worksheet(record.house), "permit")) text += line.text + "\n";
  EXPECT_THAT(text, AllOf(HasSubstr("[x] 1. Ask the building department"), HasSubstr("Next:"), HasSubstr("[ ] 2. "), Not(HasSubstr("3. ")), HasSubstr("steps are open")));
}

TEST_F(SheetWords, a_shared_neutral_is_never_for_a_bridged_output) {
  EXPECT_THAT(all(), Not(HasSubstr("Never with this source")));
  record.house.sources[0].output = SourceOutput::one_120_both_legs;
  EXPECT_THAT(all(), AllOf(HasSubstr("Caution: Never with this source: it and Main panel breaker 9 share one neutral"), HasSubstr("Do not connect it")));
}

TEST_F(SheetWords, a_backfed_breaker_without_an_interlock_is_a_danger_at_the_top) {
  Breaker& backfed = *std::ranges::find(record.house.breakers, 2, &Breaker::space);
  backfed.backfed_from = record.house.sources[0].id;
  const auto first = [&] { return words_of_worksheet(record, Names(record.house), worksheet(record.house)).front(); };
  EXPECT_EQ(first().kind, LineKind::danger);
  EXPECT_THAT(first().text, AllOf(HasSubstr("no interlock is written down"), HasSubstr("702.5"), HasSubstr("electrician")));
  record.house.interlocks.push_back({Id<Interlock>::fresh(), {HandleKind::main, record.house.panels[0].id.value}, {HandleKind::breaker, backfed.id.value}});
  EXPECT_NE(first().kind, LineKind::danger);
  std::string all;
  for (const Line& line : words_of_worksheet(record, Names(record.house), worksheet(record.house))) all += line.text + "\n";
  EXPECT_THAT(all, AllOf(HasSubstr("Try the interlock"), HasSubstr("with the main ON the backfed breaker must not go ON"), HasSubstr("look at something on each leg")));
}

TEST_F(SheetWords, after_it_was_connected_the_sheet_shows_what_was_done_and_what_is_open) {
  for (const WorkStep& step : worksheet(record.house).steps)
    if (step.kind != WorkKind::checked) tick_step(record.house, step.key, "2026-03-01T08:00:00Z", "Ana");
  plan_is_connected(record.house);
  EXPECT_THAT(all(), AllOf(HasSubstr("recorded as wired by this plan"), HasSubstr("connect breaker 2-4"), HasSubstr("(Done on 2026-03-01 by Ana.)"),
                           HasSubstr("Have it checked"), HasSubstr("1 step is open."), Not(HasSubstr("--connected`"))));
}

}  // namespace
}  // namespace ohmstead
