#include "ask/outage_sheet.h"

#include <gmock/gmock.h>

#include "ask/wall_sheet.h"
#include "ask/wish.h"
#include "tests/support/traced_sample.h"

namespace ohmstead {
namespace {

using ::testing::HasSubstr;

/// The sample house with a plan that is kept.
Record planned_sample() {
  Record record = traced_sample();
  for (Load& load : record.house.loads)
    if (load.name == "freezer" || load.name == "furnace" || load.name == "refrigerator") load.use = LoadUse::together;
  const PlanAnswer best = best_plan_for(record, 0);
  record.house.planned = planned_rows(best.backup, best.plan);
  return record;
}

TEST(OutageSheet, every_item_of_the_wall_sheet_is_in_its_lines_in_order) {
  const Record record = planned_sample();
  const auto plan = plan_to_live_by(record);
  ASSERT_TRUE(plan.has_value());
  const WallSheet sheet = wall_sheet(record, *plan);
  const Lines lines = words_of_outage_sheet(record, plan);
  ASSERT_FALSE(plan->wired);
  EXPECT_EQ(lines[0].kind, LineKind::danger);
  EXPECT_THAT(lines[0].text, HasSubstr("NOT CONNECTED YET: do not go by this"));
  std::size_t line = 0, steps = 0;
  for (const WallPart& part : sheet.parts) {
    if (part.kind == WallPartKind::to_fill) continue;
    ASSERT_THAT(lines[line].text, HasSubstr(part.title));
    EXPECT_EQ(lines[line].kind == LineKind::answer, part.kind == WallPartKind::steps);
    for (const WallItem& item : part.items) {
      bool found = item.text.empty();
      for (const std::string& said : lines[line].items) found = found || said.find(item.text) != std::string::npos;
      EXPECT_TRUE(found) << item.text;
      std::vector<std::string> handles;
      for (const WallRow& row : item.rows) handles.push_back(row.handle);
      if (item.rows.empty() && !item.handle.empty()) handles.push_back(item.handle);
      for (const std::string& handle : handles) {
        ++steps;
        const auto says = [&](const std::string& said) { return said.find(handle + " to " + item.to) != std::string::npos; };
        EXPECT_TRUE(std::ranges::any_of(lines[line].items, says)) << handle;
      }
    }
    ++line;
  }
  EXPECT_GT(steps, 2U);
}

TEST(OutageSheet, without_a_plan_it_says_so_and_what_to_do) {
  const Record record = traced_sample();
  EXPECT_FALSE(plan_to_live_by(record).has_value());
  EXPECT_THAT(words_of_outage_sheet(record, std::nullopt).at(0).text, HasSubstr("No plan for an outage is kept"));
}

TEST(OutageSheet, cautions_speak_of_a_generator_only_where_there_is_one) {
  House house = sample_house();
  const auto speaks = [](const House& of) { return std::ranges::any_of(work_cautions(of), [](const std::string& text) { return text.find("generator") != std::string::npos; }); };
  EXPECT_TRUE(speaks(house));
  house.sources.clear();
  EXPECT_FALSE(speaks(house));
}

}  // namespace
}  // namespace ohmstead
