#include "backup/plan_picture.h"

#include <gmock/gmock.h>

#include "sample-house/truth.h"
#include "survey/entry.h"
#include "tests/support/sample_house.h"

namespace ohmstead {
namespace {

/// The sample house with its best plan, and a microwave on demand.
struct Made {
  House house = sample_house();
  Feeds feeds = truth_feeds(house, source_file("sample-house/truth.csv"));
  BackupCase backup;
  Plan plan;
  Made() {
    const auto gfci = std::ranges::find(house.loads, std::string("dishwasher"), &Load::name);
    if (gfci != house.loads.end()) gfci->use = LoadUse::on_demand, gfci->running_watts = 300;
    backup = backup_case(house, feeds, 0);
    plan = best_plan(backup.problem);
  }
};

TEST(PlanPicture, blocks_of_each_leg_add_up_to_what_the_plan_says) {
  const Made made;
  const PlanPicture picture = plan_picture(made.backup, made.plan);
  ASSERT_EQ(picture.columns.size(), 2U);
  int whole = 0;
  for (const PictureColumn& column : picture.columns) {
    int sum = 0;
    for (const PictureBlock& block : column.together) sum += block.watts;
    EXPECT_EQ(sum, column.running) << "leg " << column.leg;
    EXPECT_LE(column.running, column.limit);
    EXPECT_LE(column.running + column.start_extra, column.starting_limit);
    EXPECT_TRUE(std::ranges::is_sorted(column.together, std::ranges::greater{}, &PictureBlock::watts));
    whole += sum;
  }
  EXPECT_EQ(whole, picture.running);
}

TEST(PlanPicture, a_load_between_legs_is_half_in_each_column) {
  const Made made;
  int halves = 0;
  const PlanPicture picture = plan_picture(made.backup, made.plan);
  for (const PictureColumn& column : picture.columns)
    for (const PictureBlock& block : column.together) {
      const bool pump = made.house.loads[block.load].name == "well pump";
      EXPECT_EQ(block.half, pump) << made.house.loads[block.load].name;
      halves += pump ? block.watts : 0;
    }
  EXPECT_EQ(halves, 750);
}

TEST(PlanPicture, a_source_with_one_output_has_one_column) {
  House house;
  house.dwelling.id = {1};
  house = enter_text(house,
                     "House Cabin 230\nCellar: freezer 100/400 W !\nPanel Main in Cellar 8 spaces, 60 A main: 1 16\nGenerator G 2000/2300 W\n"
                     "Transfer T in Cellar 1 position from G: 1 16 <- Main 1\nBy J.\nCellar freezer <- Main 1\n").house;
  const BackupCase backup = backup_case(house, declared_feeds(house), 0);
  const PlanPicture picture = plan_picture(backup, best_plan(backup.problem));
  ASSERT_EQ(picture.columns.size(), 1U);
  EXPECT_EQ(picture.columns[0].limit, 2000);
  EXPECT_EQ(picture.columns[0].running, 100);
  EXPECT_EQ(picture.columns[0].start_extra, 300);
}

}  // namespace
}  // namespace ohmstead
