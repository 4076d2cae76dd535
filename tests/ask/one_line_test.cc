// The one-line diagram against the feed graph: every device drawn above a panel, when opened, takes the panel's bus down.
#include "ask/one_line.h"

#include <gmock/gmock.h>

#include <algorithm>
#include <set>

#include "ask/panel_schedule.h"
#include "tests/support/random_house.h"
#include "tests/support/traced_sample.h"

namespace ohmstead {
namespace {

using testing::HasSubstr;

bool bus_is_live(const Record& record, const State& state, std::size_t panel) {
  const Liveness live = liveness(record.graph, state);
  return std::ranges::any_of(record.graph.panel_bus[panel], [&](Node node) { return live.live(node); });
}

/// All handles on the way to each panel, those of the panels above it included.
void handles_above(const OneLine& line, std::size_t panel, std::vector<HandleRef> above, std::vector<std::vector<HandleRef>>& of_panel) {
  of_panel[panel] = above;
  for (const OneLineBranch& branch : line.panels[panel].branches) {
    if (branch.panel < 0) continue;
    std::vector<HandleRef> all = above;
    for (const OneLineDevice& device : branch.chain)
      if (device.handle) all.push_back(device.handle);
    handles_above(line, static_cast<std::size_t>(branch.panel), all, of_panel);
  }
}

/// Returns how many drawn devices were opened.
std::size_t check(const Record& record) {
  const OneLine line = one_line(record);
  EXPECT_EQ(line.panels.size(), record.house.panels.size());
  std::vector<std::vector<HandleRef>> above(line.panels.size());
  std::size_t hung = line.roots.size();
  for (const OneLinePanel& panel : line.panels)
    hung += static_cast<std::size_t>(std::ranges::count_if(panel.branches, [](const OneLineBranch& b) { return b.panel >= 0; }));
  EXPECT_EQ(hung, line.panels.size()) << "every panel is drawn once";
  for (const std::size_t root : line.roots) {
    std::vector<HandleRef> own;
    for (const OneLineDevice& device : line.panels[root].supply)
      if (device.handle) own.push_back(device.handle);
    handles_above(line, root, own, above);
  }
  std::size_t opened = 0;
  const State usual = usual_state(record.graph);
  for (const std::size_t root : line.roots) EXPECT_EQ(line.panels[root].supply.front().symbol == OneLineSymbol::utility, bus_is_live(record, usual, root)) << line.panels[root].name;
  for (std::size_t p = 0; p < above.size(); ++p) {
    if (!bus_is_live(record, usual, p)) continue;
    for (const HandleRef& handle : above[p]) {
      State state = usual;
      move_handle(record.graph, state, record.graph.handle_of(handle), kOff);
      EXPECT_FALSE(bus_is_live(record, state, p)) << text_of_ref(handle) << " is drawn above " << line.panels[p].name;
      ++opened;
    }
  }
  return opened;
}

TEST(OneLineDiagram, of_the_sample_house_has_service_feeder_subpanel_and_transfer_device_with_ratings) {
  const Record record = traced_sample();
  const OneLine line = one_line(record);
  ASSERT_EQ(line.roots.size(), 1U);
  const OneLinePanel& main = line.panels[line.roots[0]];
  ASSERT_EQ(main.supply.size(), 2U);
  EXPECT_EQ(main.supply[0].symbol, OneLineSymbol::utility);
  EXPECT_EQ(main.supply[1].words.at(0), "200 A");
  ASSERT_EQ(main.branches.size(), 2U);
  const OneLineBranch& shop = main.branches[0];
  ASSERT_GE(shop.panel, 0);
  EXPECT_EQ(line.panels[static_cast<std::size_t>(shop.panel)].name, "Panel Workshop");
  EXPECT_EQ(shop.chain.at(0).name, "Breaker 30-32");
  EXPECT_THAT(shop.chain[0].words.at(0), HasSubstr("60 A, 2 poles"));
  EXPECT_EQ(shop.chain.at(1).name, "Main breaker");
  EXPECT_EQ(shop.chain[1].words.at(0), "60 A");
  const OneLineBranch& transfer = main.branches[1];
  EXPECT_THAT(transfer.chain.at(0).name, HasSubstr("1, 14, 16b, 19, 20-22, 21, 24"));
  EXPECT_THAT(transfer.chain[0].words, testing::ElementsAre("15 to 20 A, see the schedule"));
  EXPECT_EQ(transfer.chain.at(1).name, "Transfer device 'Transfer'");
  ASSERT_EQ(transfer.chain.at(1).other_side.size(), 2U);
  EXPECT_EQ(transfer.chain[1].other_side[0].symbol, OneLineSymbol::generator);
  EXPECT_THAT(transfer.chain[1].other_side[0].words, testing::Contains("neutral floating"));
  EXPECT_EQ(transfer.chain[1].other_side[1].name, "Inlet 30 A");
  EXPECT_EQ(transfer.ends, "7 circuits on 8 positions");
  EXPECT_GE(check(record), 3U);
}

TEST(OneLineDiagram, an_interlocked_breaker_is_a_second_supply_and_without_an_interlock_it_says_so) {
  const std::string rooms = "Hall: 1r\nGenerator G 3000 W 120/240, 30 A inlet\n";
  const OneLine locked = one_line(entered_record(rooms + "Panel Main in Hall 8 spaces, 100 A main: 1+3 30 backfed from G, interlocked; 5 15\n"));
  ASSERT_EQ(locked.panels[0].backfed.size(), 1U);
  EXPECT_EQ(locked.panels[0].backfed[0].front().symbol, OneLineSymbol::generator);
  EXPECT_EQ(locked.panels[0].backfed[0].back().name, "Breaker 1-3");
  EXPECT_TRUE(locked.panels[0].interlocked[0]);
  Record record = entered_record(rooms + "Panel Main in Hall 8 spaces, 100 A main: 1+3 30 backfed from G, interlocked; 5 15\n");
  record.house.interlocks.clear();
  const OneLine open = one_line(make_record(record.house));
  EXPECT_FALSE(open.panels[0].interlocked[0]);
  EXPECT_THAT(open.panels[0].interlocks[0], HasSubstr("NO INTERLOCK"));
}

TEST(OneLineDiagram, a_whole_house_switch_stands_between_the_utility_and_the_panel) {
  const Record record = entered_record("Battery Wall 5/7.5 kW, 10 kWh\nTransfer A whole house from Wall, automatic\nHall: 1r\nPanel Main in Hall 8 spaces, 100 A main from A: 1 20; 3 15\n");
  const OneLine line = one_line(record);
  const auto& supply = line.panels[0].supply;
  ASSERT_EQ(supply.size(), 3U);
  EXPECT_EQ(supply[1].symbol, OneLineSymbol::transfer);
  EXPECT_EQ(supply[1].other_side.at(0).symbol, OneLineSymbol::battery);
  EXPECT_THAT(supply[1].words, testing::Contains("moves by itself"));
  EXPECT_EQ(supply[2].words.at(0), "100 A");
  EXPECT_GE(check(record), 2U);
}

TEST(OneLineDiagram, what_is_not_recorded_is_said) {
  const OneLine line = one_line(entered_record("Hall: 1r\nGenerator G\nPanel Main in Hall 8 spaces: 1; 3 15\n"));
  std::string all;
  for (const std::string& note : line.notes) all += note;
  EXPECT_THAT(all, HasSubstr("Source G is recorded, and nothing that connects it"));
}

void check_random(std::uint64_t from, std::uint64_t to) {
  std::size_t opened = 0;
  for (std::uint64_t seed = from; seed < to; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    opened += check(make_record(random_house(seed, 1 + static_cast<int>(seed % 7))));
  }
  EXPECT_GT(opened, to - from);
}
TEST(OneLineDiagram, every_drawn_device_takes_its_panel_down_in_random_houses) { check_random(0, 30); }
TEST(OneLineDiagramMany, every_drawn_device_takes_its_panel_down_in_two_hundred_random_houses) { check_random(30, 230); }

}  // namespace
}  // namespace ohmstead
