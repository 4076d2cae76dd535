// A whole outage as a list: the board's steps, in its order, from the kept plan and not from the wiring of now.
#include "backup/outage_script.h"

#include <gmock/gmock.h>

#include "backup/plan_problem.h"
#include "house/error.h"
#include "house/index.h"
#include "house/invariants.h"
#include "survey/entry.h"

namespace ohmstead {
namespace {

using Kind = OutageStepKind;

House planned_house(const std::string& gear) {
  House house;
  house.dwelling.id = {1};
  house = enter_text(house, "Cellar: freezer 100/400 W !, furnace 500/1200 W !\nBedroom: oxygen concentrator 350 W !!\n"
                            "Panel Main in Cellar 20 spaces, 100 A main: 1 15; 3 15; 5 15; 7 15" + gear +
                            "By J.\nCellar freezer <- Main 1\nCellar furnace <- Main 3\nBedroom oxygen concentrator <- Main 5\n").house;
  const BackupCase backup = backup_case(house, declared_feeds(house), 0);
  house.planned = planned_rows(backup, best_plan(backup.problem));
  require_sound(house);
  return house;
}

House with_positions() { return planned_house("\nGenerator G 3600/4500 W 120/240\nTransfer T in Cellar 4 positions from G: 1 15; 2 15; 3 15; 4 15\n"); }

std::vector<Kind> kinds(const std::vector<ScriptStep>& steps) {
  std::vector<Kind> all;
  for (const ScriptStep& one : steps) all.push_back(one.step.kind);
  return all;
}

TEST(OutageScript, the_house_is_wired_as_planned) {
  const House house = with_positions();
  const House wired = house_as_planned(house);
  for (const Planned& planned : house.planned) EXPECT_EQ(row(wired, planned.position).breaker, planned.breaker);
  EXPECT_FALSE(row(house, house.planned[0].position).breaker) << "the record itself is as it was";
  EXPECT_TRUE(wired.outage_events.empty());
}

TEST(OutageScript, goes_from_the_dark_to_a_running_house_and_home_again) {
  const House wired = house_as_planned(with_positions());
  const OutageScript script = outage_script(wired, declared_feeds(wired), 0);
  EXPECT_TRUE(script.complete);
  using enum OutageStepKind;
  EXPECT_EQ(kinds(script.away), (std::vector{place_source, connect_source, start_source, warm_up, move, move, move}));
  EXPECT_EQ(script.home.back().step.kind, end);
  std::vector<HandleRef> to_backup, to_utility;
  for (const auto& [step, now] : script.away)
    if (step.kind == move && step.to == kBackupSide) to_backup.push_back(step.handles.front());
  for (const auto& [step, now] : script.home)
    if (step.kind == move && step.to == kUtilitySide) to_utility.push_back(step.handles.front());
  EXPECT_EQ(to_backup.size(), 3U);
  EXPECT_THAT(to_utility, testing::UnorderedElementsAreArray(to_backup));
}

TEST(OutageScript, an_interlock_parts_the_house_from_the_utility_before_the_source_is_let_in) {
  const House wired = house_as_planned(planned_house("; 2+4 30 backfed from G, interlocked\nGenerator G 3600/4500 W 120/240\n"));
  const OutageScript script = outage_script(wired, declared_feeds(wired), 0);
  EXPECT_TRUE(script.complete);
  const auto place = [&](OutageReason reason) { return std::ranges::find(script.away, reason, [](const ScriptStep& one) { return one.step.reason; }) - script.away.begin(); };
  EXPECT_LT(place(OutageReason::part), place(OutageReason::let_in));
  EXPECT_LT(place(OutageReason::let_in), place(OutageReason::in_order));
  EXPECT_LT(place(OutageReason::in_order), std::ssize(script.away));
}

TEST(OutageScript, without_a_kept_plan_there_is_none) {
  House house = with_positions();
  house.planned.clear();
  EXPECT_THROW((void)house_as_planned(house), Error);
}

}  // namespace
}  // namespace ohmstead
