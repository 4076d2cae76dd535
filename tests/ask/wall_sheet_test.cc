// What the sheet for the wall says: the board's steps in its order, who comes first, what is never said.
#include "ask/wall_sheet.h"

#include <gmock/gmock.h>

#include <set>
#include <sstream>

#include "backup/food_times.h"
#include "backup/outage_script.h"
#include "house/index.h"
#include "house/invariants.h"
#include "survey/entry.h"

namespace ohmstead {
namespace {

using testing::HasSubstr;
using testing::Not;

constexpr const char* kRooms = "Cellar: freezer 100/400 W !, furnace 500/1200 W !, 1sa\nBedroom: oxygen concentrator 350 W !! hurt\nKitchen: microwave 1100 W, television 120 W, 1r\n";
constexpr const char* kFeeds = "By J.\nCellar freezer <- Main 1\nCellar furnace <- Main 3\nBedroom oxygen concentrator <- Main 5\nKitchen microwave <- Main 7\nKitchen television <- Main 7\n";
constexpr const char* kPositions = "Generator G 3600/4500 W 120/240, gasoline, 11 L tank, uses 0.8/1.2/1.7/2.2 L/h\nTransfer T in Cellar 4 positions from G: 1 15 <- Main 3; 2 15; 3 15; 4 20\n";

Record planned(const std::string& gear, const std::string& panel_more = "") {
  House house;
  house.dwelling.id = {1}, house.dwelling.name = "Hillside";
  house = enter_text(house, kRooms + std::string("Panel Main in Cellar 20 spaces, 100 A main: 1 15; 3 15; 5 15; 7 20") + panel_more + "\n" + gear + kFeeds).house;
  for (Load& load : house.loads)
    if (load.name == "microwave") load.use = LoadUse::on_demand;
  const PlanAnswer best = best_plan_for(make_record(house), 0);
  house.planned = planned_rows(best.backup, best.plan);
  require_sound(house);
  return make_record(std::move(house));
}

WallSheet sheet_of(const Record& record) { return wall_sheet(record, kept_plan_for(record, 0)); }

const WallPart& part(const WallSheet& sheet, const std::string& title) {
  for (const WallPart& one : sheet.parts)
    if (one.title.find(title) != std::string::npos) return one;
  throw std::runtime_error("no part " + title);
}

std::string words_of(const WallPart& part) {
  std::string all = part.title + "\n" + part.first + "\n";
  for (const WallItem& item : part.items) {
    all += item.handle + ">" + item.to + " " + item.text + "\n";
    for (const WallRow& row : item.rows) all += row.handle + ": " + row.text + "\n";
  }
  return all;
}

std::string all_words(const WallSheet& sheet) {
  std::string all;
  for (const WallPart& one : sheet.parts) all += words_of(one);
  return all;
}

TEST(WallSheet, who_depends_on_power_comes_before_everything_else) {
  const WallSheet sheet = sheet_of(planned(kPositions));
  EXPECT_THAT(sheet.parts[0].title, HasSubstr("NOT CONNECTED YET"));
  EXPECT_EQ(sheet.parts[1].kind, WallPartKind::urgent);
  EXPECT_EQ(sheet.parts[1].title, "First of all: oxygen concentrator (Bedroom)") << "alarms have batteries of their own";
  EXPECT_THAT(words_of(sheet.parts[1]), HasSubstr("battery or cylinder"));
  EXPECT_THAT(words_of(sheet.parts[1]), HasSubstr("911"));
  EXPECT_THAT(words_of(part(sheet, "gives up")), HasSubstr("Oxygen concentrator (Bedroom): battery or cylinder, at once."));
}

TEST(WallSheet, says_how_far_it_may_be_relied_on) {
  const Record record = planned(kPositions);
  EXPECT_THAT(sheet_of(record).parts[0].title, HasSubstr("NOT CONNECTED YET"));
  House wired = house_as_planned(record.house);
  EXPECT_THAT(sheet_of(make_record(wired)).parts[0].title, HasSubstr("NOT PROVED YET"));
  const Record interlocked = planned("Generator G 3600/4500 W 120/240\n", "; 2+4 30 backfed from G, interlocked");
  EXPECT_THAT(sheet_of(interlocked).parts[0].title, HasSubstr("NOT PROVED YET")) << "no wire was moved, and the interlock was not tried";
  for (TransferDevice& device : wired.transfer_devices) device.automatic = true;
  EXPECT_THAT(sheet_of(make_record(wired)).parts[0].title, HasSubstr("First of all")) << "it moves by itself";
}

TEST(WallSheet, says_who_is_not_helped_by_the_plan) {
  const WallSheet sheet = sheet_of(planned("Generator G 500/900 W 120/240\nTransfer T in Cellar 4 positions from G: 1 15; 2 15; 3 15; 4 20\n"));
  EXPECT_THAT(all_words(sheet), HasSubstr("Somebody depends on what this plan does not carry: oxygen concentrator (Bedroom)"));
}

TEST(WallSheet, the_source_is_outdoors_and_running_before_the_first_handle_goes_to_backup) {
  const WallSheet sheet = sheet_of(planned(kPositions));
  const WallPart& steps = part(sheet, "Step by step");
  const auto place = [&](const std::string& words) {
    return std::ranges::find_if(steps.items, [&](const WallItem& item) { return item.text.find(words) != std::string::npos; }) - steps.items.begin();
  };
  const auto backup = std::ranges::find(steps.items, "BACKUP", &WallItem::to) - steps.items.begin();
  EXPECT_LT(place("at least 20 ft (6 m)"), place("Start "));  // CPSC: docs/standards.md
  EXPECT_LT(place("Start "), backup);
  EXPECT_LT(backup, std::ssize(steps.items));
  ASSERT_FALSE(steps.items[static_cast<std::size_t>(backup)].rows.empty());
  EXPECT_THAT(steps.items[static_cast<std::size_t>(backup)].rows.front().text, HasSubstr("xygen concentrator (Bedroom)"));
}

TEST(WallSheet, every_planned_position_goes_to_backup_once_and_home_once) {
  const Record record = planned(kPositions);
  const WallSheet sheet = sheet_of(record);
  std::multiset<std::string> planned_marks, away, home;
  for (const Planned& one : record.house.planned) planned_marks.insert(std::to_string(row(record.house, one.position).number));
  for (const WallItem& item : part(sheet, "Step by step").items)
    for (const WallRow& one : item.rows)
      if (item.to == "BACKUP") away.insert(one.handle);
  for (const WallItem& item : part(sheet, "way home").items) {
    std::istringstream marks(item.to == "UTILITY" ? item.handle : "");
    for (std::string mark; marks >> mark;) home.insert(mark.substr(0, mark.find(',')));
  }
  EXPECT_EQ(away, planned_marks);
  EXPECT_EQ(home, planned_marks);
  EXPECT_TRUE(sheet.complete);
}

TEST(WallSheet, handles_that_go_the_same_way_are_one_item_in_the_order_of_the_board) {
  const Record record = planned(kPositions);
  const WallSheet sheet = sheet_of(record);
  const OutageScript script = outage_script(house_as_planned(record.house), record.feeds, 0);
  std::vector<std::string> moves, rows;
  for (const ScriptStep& one : script.away)
    if (one.step.kind == OutageStepKind::move) moves.push_back(std::to_string(row(script.house, Id<Position>{one.step.handles.front().id}).number));
  int items = 0;
  for (const WallItem& item : part(sheet, "Step by step").items) {
    for (const WallRow& one : item.rows) rows.push_back(one.handle);
    items += item.to == "BACKUP" ? 1 : 0;
  }
  EXPECT_EQ(rows, moves);
  EXPECT_EQ(items, 1);
  const std::string home = words_of(part(sheet, "way home"));
  EXPECT_THAT(home, HasSubstr("is without power for a moment")) << "cautions stay";
  EXPECT_THAT(words_of(part(sheet, "Step by step")), HasSubstr("FIRST switch off or unplug microwave (Kitchen)"));
  EXPECT_THAT(words_of(part(sheet, "gives up")), testing::ContainsRegex("leave out, first of these first: [^,]*; handles? [0-9]")) << "what is left out is found by its handle";
}

TEST(WallSheet, a_fact_is_said_once) {
  std::string all = all_words(sheet_of(planned(kPositions)));
  for (const Fact fact : {Fact::carbon_monoxide_alarms, Fact::refuel_cold, Fact::throw_out, Fact::no_backfeed}) {
    const std::string sentence(outage_fact(fact).sentence);
    const std::size_t first = all.find(sentence);
    EXPECT_NE(first, std::string::npos) << sentence;
    EXPECT_EQ(all.find(sentence, first + 1), std::string::npos) << sentence;
  }
}

TEST(WallSheet, says_what_may_run_and_what_may_not) {
  const std::string may = words_of(part(sheet_of(planned(kPositions)), "What may run"));
  EXPECT_THAT(may, HasSubstr("ONE AT A TIME"));
  EXPECT_THAT(may, HasSubstr("microwave (Kitchen)"));
  EXPECT_THAT(may, HasSubstr("Leave OFF, although it has power: television (Kitchen)"));
}

TEST(WallSheet, never_says_that_a_thing_is_dead) {
  for (const Record& record : {planned(kPositions), planned("Generator G 3600/4500 W 120/240\n", "; 2+4 30 backfed from G, interlocked")}) {
    const std::string all = all_words(sheet_of(record));
    EXPECT_THAT(all, HasSubstr("No wire is dead because of that."));
    EXPECT_THAT(all, Not(HasSubstr("has no power")));
  }
}

TEST(WallSheet, an_interlock_has_the_main_off_before_the_source_is_let_in) {
  const WallSheet sheet = sheet_of(planned("Generator G 3600/4500 W 120/240\n", "; 2+4 30 backfed from G, interlocked"));
  const auto& items = part(sheet, "Step by step").items;
  const auto main_off = std::ranges::find_if(items, [](const WallItem& item) { return item.handle == "MAIN" && item.to == "OFF"; });
  const auto let_in = std::ranges::find_if(items, [](const WallItem& item) { return item.handle == "2-4" && item.to == "ON"; });
  ASSERT_NE(let_in, items.end());
  EXPECT_LT(main_off, let_in);
  const auto& home = part(sheet, "way home").items;
  const auto shut = std::ranges::find_if(home, [](const WallItem& item) { return item.handle == "2-4" && item.to == "OFF"; });
  const auto main_on = std::ranges::find_if(home, [](const WallItem& item) { return item.handle == "MAIN" && item.to == "ON"; });
  ASSERT_NE(main_on, home.end());
  EXPECT_LT(shut, main_on);
}

TEST(WallSheet, facts_carry_the_mark_of_who_says_so) {
  const WallSheet sheet = sheet_of(planned(kPositions));
  ASSERT_FALSE(sheet.sources.empty());
  const std::string fact(outage_fact(Fact::freezer_half).sentence);  // the last of three that one publisher says
  const std::string food = words_of(part(sheet, "Food"));
  const std::size_t at = food.find(fact + " [");
  ASSERT_NE(at, std::string::npos);
  const auto number = static_cast<std::size_t>(std::stoi(food.substr(at + fact.size() + 2)));
  ASSERT_LE(number, sheet.sources.size());
  EXPECT_EQ(cited(Fact::freezer_half), fact + " (" + sheet.sources[number - 1] + ")");
}

TEST(WallSheet, refuels_cold_and_with_everything_off) {
  const std::string fuel = words_of(part(sheet_of(planned(kPositions)), "Fuel"));
  EXPECT_THAT(fuel, HasSubstr("all handles to OFF. " + std::string(outage_fact(Fact::refuel_cold).sentence)));
  EXPECT_THAT(fuel, HasSubstr("A full tank lasts about"));
}

}  // namespace
}  // namespace ohmstead
