// What panels are called, long and short.
#include "rules/panel_text.h"

#include <gmock/gmock.h>

#include <set>

#include "rules/plain_words.h"
#include "tests/print/house_maker.h"

namespace ohmstead {
namespace {

using testing::Contains;
using testing::ElementsAre;

House house_with(const std::vector<std::string>& names) {
  test::HouseMaker maker;
  const Id<Room> hall = maker.room("Hall", maker.floor("Ground", 0));
  for (const std::string& name : names) (void)maker.panel(name, hall, 4);
  return maker.house;
}

TEST(PanelTitleWays, go_from_the_whole_title_to_few_letters) {
  const House house = house_with({"Main", "Workshop"});
  EXPECT_THAT(panel_title_ways(house, house.panels[0]), ElementsAre("Panel Main", "Main", "Ma.", "P1"));
  EXPECT_THAT(panel_title_ways(house, house.panels[1]), ElementsAre("Panel Workshop", "Workshop", "Worksh.", "Work.", "Wor.", "Wo.", "P2"));
}

TEST(PanelTitleWays, no_way_of_one_panel_is_a_way_of_another) {
  for (const std::vector<std::string>& names : std::vector<std::vector<std::string>>{
           {"Main", "Main"}, {"Workshop north", "Workshop south"}, {"Works.", "Workshop"}, {"", "Garage", ""}, {"P2", "Main"}, {"\u05DE\u05D8\u05D1\u05D7 \u05D2\u05D3\u05D5\u05DC", "\u041A\u0443\u0445\u043D\u044F \u0441\u0442\u0430\u0440\u0430\u044F"}}) {
    const House house = house_with(names);
    std::set<std::string> all;
    std::size_t count = 0;
    for (const Panel& panel : house.panels) {
      const std::vector<std::string> ways = panel_title_ways(house, panel);
      ASSERT_FALSE(ways.empty());
      for (std::size_t i = 1; i < ways.size(); ++i) EXPECT_LT(character_count(ways[i]), character_count(ways[i - 1]));
      count += ways.size();
      all.insert(ways.begin(), ways.end());
    }
    EXPECT_EQ(all.size(), count) << names[0];
  }
}

TEST(PanelTitleWays, panels_of_one_name_are_told_apart_by_their_place) {
  const House house = house_with({"Main", "Main"});
  EXPECT_EQ(panel_title_ways(house, house.panels[1]).front(), "Panel Main (P2)");
}

}  // namespace
}  // namespace ohmstead
