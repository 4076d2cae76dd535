#include "backup/worksheet.h"

#include <gmock/gmock.h>

#include <algorithm>
#include <map>

#include "backup/proof_start.h"
#include "house/index.h"
#include "house/invariants.h"
#include "survey/entry.h"

namespace ohmstead {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using enum WorkKind;

constexpr const char* kText =
    "Kitchen: 2r, 1l, dishwasher, disposal\nBedroom: receptacle with oxygen concentrator 350 W !! hurt\n"
    "Panel Main in Kitchen, 20 spaces, 100 A main: 1 20 kitchen; 3 15 hall; 5 15 afci bed; 2+4 20 well; 7,9 tied 20 mwbc\n"
    "Generator G 3500/4500 W 120/240\n"
    "Transfer T in Kitchen, 6 positions, from G: 1 15 L1 <- Main 3; 2 15 L2 <- Main 1; 3+4 20; 5+6 20\n";

class Sheet : public ::testing::Test {
 protected:
  Sheet() {
    House empty;
    empty.dwelling.id = Id<Dwelling>::fresh();
    house = enter_text(empty, kText).house;
  }
  Breaker& at(int space) { return *std::ranges::find(house.breakers, space, &Breaker::space); }
  Position& position(int number) { return *std::ranges::find(house.positions, number, &Position::number); }
  void plan(int space, int pole, int number) {
    house.planned.push_back({Id<Planned>::fresh(), at(space).id, pole, number == 0 ? Id<Position>{} : position(number).id});
  }
  /// Kinds of the steps between the preparations and what comes after, with position and breaker.
  std::vector<std::string> middle() {
    std::vector<std::string> found;
    for (const WorkStep& step : worksheet(house).steps)
      if (step.kind >= disconnect && step.kind <= off_list)
        found.push_back(std::string(text_of(step.kind)) + (step.position ? " " + std::to_string(row(house, step.position).number) : "") +
                        (step.breaker ? " " + std::to_string(row(house, step.breaker).space) + "." + std::to_string(step.pole) : ""));
    return found;
  }
  const WorkStep& step(const Worksheet& sheet, WorkKind kind, int number) {
    return *std::ranges::find_if(sheet.steps, [&](const WorkStep& s) { return s.kind == kind && s.position == position(number).id; });
  }
  static bool has(const Worksheet& sheet, WorkKind kind) { return std::ranges::find(sheet.steps, kind, &WorkStep::kind) != sheet.steps.end(); }
  void tick_all() {
    for (const WorkStep& s : worksheet(house).steps) tick_step(house, s.key, "2026-03-01T08:00:00Z", "Ana");
  }

  House house;
};

TEST_F(Sheet, without_a_plan_it_says_how_to_make_one) {
  try {
    (void)worksheet(house);
    FAIL();
  } catch (const Error& error) {
    EXPECT_EQ(error.kind, ErrorKind::not_found);
    EXPECT_THAT(error.what(), HasSubstr("ohmstead plan --keep"));
  }
}

TEST_F(Sheet, what_is_wired_and_not_planned_comes_off_first_and_what_is_wired_as_planned_stays) {
  plan(3, 1, 1), plan(5, 1, 2), plan(2, 1, 3), plan(2, 2, 4);
  EXPECT_THAT(middle(), ElementsAre("disconnect 2 1.1", "connect 2 5.1", "connect 3 2.1", "connect 4 2.2", "unchanged 1 3.1"));
}

TEST_F(Sheet, a_circuit_that_changes_its_position_comes_off_the_one_and_goes_on_the_other) {
  plan(3, 1, 2), plan(1, 1, 1);
  EXPECT_THAT(middle(), ElementsAre("disconnect 1 3.1", "disconnect 2 1.1", "connect 1 1.1", "connect 2 3.1"));
}

TEST_F(Sheet, cautions_stand_at_the_circuits_they_are_about) {
  plan(1, 1, 2), plan(5, 1, 1), plan(2, 1, 3), plan(2, 2, 4), plan(7, 1, 5), plan(9, 1, 6);
  const Worksheet sheet = worksheet(house);
  EXPECT_THAT(step(sheet, connect, 1).cautions, ElementsAre(WorkCaution::protection_bypassed, WorkCaution::two_wires));
  EXPECT_THAT(step(sheet, unchanged, 2).cautions, ElementsAre(WorkCaution::receptacles_of_20));  // 20 A on a 15 A position
  EXPECT_THAT(step(sheet, connect, 3).cautions, ElementsAre(WorkCaution::two_pole));
  EXPECT_THAT(step(sheet, connect, 5).cautions, ElementsAre(WorkCaution::multiwire));
  EXPECT_THAT(step(sheet, connect, 5).partners, ElementsAre(at(9).id));
  EXPECT_TRUE(has(sheet, people));
  std::erase_if(house.loads, [](const Load&) { return true; });
  EXPECT_FALSE(has(worksheet(house), people));
}

TEST_F(Sheet, a_position_of_20_amperes_on_a_20_ampere_circuit_needs_no_word_about_receptacles) {
  position(2).amps = 20;
  plan(1, 1, 2);
  EXPECT_THAT(step(worksheet(house), unchanged, 2).cautions, ElementsAre());
}

TEST_F(Sheet, a_plan_without_positions_moves_no_wire_and_lists_what_stays_on) {
  plan(3, 1, 0), plan(2, 1, 0), plan(2, 2, 0);
  EXPECT_THAT(middle(), ElementsAre("keep_on 3.1", "keep_on 2.1", "off_list"));
  const Worksheet sheet = worksheet(house);
  EXPECT_FALSE(sheet.wires_move);
  for (const WorkKind kind : {main_off, torque, bars, power_up}) EXPECT_FALSE(has(sheet, kind));
  for (const WorkKind kind : {permit, neutral_fits, labels, signs}) EXPECT_TRUE(has(sheet, kind));
}

TEST_F(Sheet, a_backfed_breaker_is_tried_with_its_interlock_and_run_once) {
  plan(3, 1, 0);
  for (const WorkKind kind : {try_interlock, first_run}) EXPECT_FALSE(has(worksheet(house), kind)) << "nothing is backfed";
  at(2).backfed_from = worksheet(house).source;
  for (const WorkKind kind : {try_interlock, first_run}) EXPECT_TRUE(has(worksheet(house), kind));
}

TEST_F(Sheet, a_tick_stays_while_its_step_is_the_same_in_a_new_plan) {
  plan(5, 1, 2), plan(1, 1, 1);
  tick_all();
  house.planned.clear();
  plan(5, 1, 2), plan(3, 1, 1);
  const Worksheet sheet = worksheet(house);
  EXPECT_TRUE(step(sheet, connect, 2).done);
  EXPECT_EQ(step(sheet, connect, 2).who, "Ana");
  EXPECT_FALSE(step(sheet, unchanged, 1).done);
  house.planned.clear();
  plan(5, 1, 1);
  EXPECT_FALSE(step(worksheet(house), connect, 1).done);  // the same breaker elsewhere is another step
}

TEST_F(Sheet, ticks_are_taken_back_and_unknown_steps_refused) {
  plan(5, 1, 2);
  EXPECT_THROW(tick_step(house, "connect:x", "", ""), Error);
  tick_step(house, "permit", "2026-03-01T08:00:00Z", "");
  tick_step(house, "permit", "2026-03-02T08:00:00Z", "again");
  ASSERT_EQ(house.ticks.size(), 1U);
  EXPECT_TRUE(untick_step(house, "permit"));
  EXPECT_FALSE(untick_step(house, "permit"));
}

TEST_F(Sheet, the_plan_is_the_wiring_only_when_every_wire_is_ticked) {
  plan(5, 1, 2), plan(2, 1, 3), plan(2, 2, 4);
  const House before = house;
  EXPECT_THROW(plan_is_connected(house), Error);
  EXPECT_EQ(house, before);
  for (const WorkStep& s : worksheet(house).steps)
    if (s.is_wiring()) tick_step(house, s.key, "2026-03-01T08:00:00Z", "");
  house.rounds.push_back({Id<Round>::fresh(), RoundKind::proof});
  plan_is_connected(house);
  EXPECT_EQ(position(2).breaker, at(5).id);
  EXPECT_EQ(position(4).breaker, at(2).id);
  EXPECT_EQ(position(4).pole, 2);
  EXPECT_FALSE(position(1).breaker);
  EXPECT_TRUE(problems_of(house).empty());
  EXPECT_FALSE(worksheet(house).wires_move);
  EXPECT_EQ(proofs_from(house), 1U);  // what was proved of the old wiring counts no more
  plan(1, 1, 1);  // the next wiring starts with no tick
  const Worksheet next = worksheet(house);
  EXPECT_TRUE(next.wires_move && !next.connected);
  EXPECT_EQ(std::ranges::count(next.steps, true, &WorkStep::done), 0);
}

TEST_F(Sheet, what_was_ticked_stays_with_day_and_name_when_it_is_connected_and_what_is_open_is_shown) {
  plan(3, 1, 1), plan(5, 1, 2), plan(2, 1, 3), plan(2, 2, 4);
  for (const WorkStep& s : worksheet(house).steps)
    if (s.kind != checked && s.kind != power_up && s.kind != prove && s.kind != test_dead) tick_step(house, s.key, "2026-03-01T08:00:00Z", "Ana");
  const std::size_t ticks = house.ticks.size();
  plan_is_connected(house);
  EXPECT_EQ(house.ticks.size(), ticks);
  const Worksheet sheet = worksheet(house);
  EXPECT_TRUE(sheet.connected && !sheet.wires_move);
  std::vector<WorkKind> open;
  for (const WorkStep& s : sheet.steps) {
    if (!s.done) open.push_back(s.kind);
    else EXPECT_EQ(s.at + s.who, "2026-03-01T08:00:00ZAna") << s.key;
  }
  EXPECT_THAT(open, ElementsAre(checked, power_up, prove));
  EXPECT_THAT(middle(), ElementsAre("disconnect 2 1.1", "unchanged 1 3.1", "connect 2 5.1", "connect 3 2.1", "connect 4 2.2"));
  tick_step(house, "checked", "2026-03-02T08:00:00Z", "Bo");
  const Worksheet after = worksheet(house);
  EXPECT_EQ(std::ranges::find(after.steps, checked, &WorkStep::kind)->who, "Bo");
  EXPECT_TRUE(untick_step(house, "checked"));
  EXPECT_EQ(house.ticks.size(), ticks);
}

TEST_F(Sheet, what_was_ticked_for_one_wiring_ticks_nothing_of_the_next_one) {
  plan(5, 1, 2);
  tick_all();
  plan_is_connected(house);
  house.planned.clear();
  plan(5, 1, 2), plan(3, 1, 1), plan(2, 1, 3), plan(2, 2, 4);
  for (const WorkStep& s : worksheet(house).steps) EXPECT_FALSE(s.done) << s.key;
  tick_all();
  plan_is_connected(house);
  const Worksheet sheet = worksheet(house);
  EXPECT_TRUE(sheet.connected);
  EXPECT_EQ(std::ranges::count(sheet.steps, connect, &WorkStep::kind), 3);  // positions 1, 3, 4
  EXPECT_TRUE(problems_of(house).empty());
}

TEST_F(Sheet, a_shared_neutral_is_never_for_a_source_with_one_leg_or_a_bridged_output) {
  plan(7, 1, 5), plan(9, 1, 6), plan(2, 1, 3), plan(2, 2, 4);
  for (const SourceOutput output : {SourceOutput::one_120_both_legs, SourceOutput::one_leg}) {
    house.sources[0].output = output;
    const Worksheet sheet = worksheet(house);
    for (const int number : {5, 6}) EXPECT_THAT(step(sheet, connect, number).cautions, ::testing::Contains(WorkCaution::multiwire_never));
    EXPECT_THAT(step(sheet, connect, 3).cautions, ::testing::Not(::testing::Contains(WorkCaution::multiwire_never)));
  }
}

}  // namespace
}  // namespace ohmstead
