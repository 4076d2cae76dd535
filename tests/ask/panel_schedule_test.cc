// The schedule against a plain recomputation: every counted load once, on the legs of its breaker's spaces, up through all feeders.
#include "ask/panel_schedule.h"

#include <gmock/gmock.h>

#include <algorithm>
#include <map>

#include "backup/figures.h"
#include "house/index.h"
#include "tests/support/random_house.h"
#include "tests/support/traced_sample.h"

namespace ohmstead {
namespace {

using testing::HasSubstr;

const ScheduleEntry& entry_of(const PanelSchedule& schedule, const std::string& number) {
  const auto found = std::ranges::find(schedule.entries, number, &ScheduleEntry::number);
  EXPECT_NE(found, schedule.entries.end()) << number;
  return found == schedule.entries.end() ? schedule.entries.front() : *found;
}

constexpr const char* kSmall =
    "Cellar: freezer 120 W nameplate, heater 240 V 4000 W, sump pump 600 W, 1l\nShed: table saw 1800 W\nKitchen: toaster 900 W, kettle 1500 W, lamp\n"
    "Panel Main in Cellar 12 spaces, 100 A main: 1 20; 3 15; 2+4 30; 5a 15; 5b 15; 6+8 40; 7 20\n"
    "Panel Shed in Shed 4 spaces, from Main 6+8: 1 20; 3 20\n"
    "By J.\nCellar freezer <- Main 1\nCellar sump pump <- Main 3\nCellar heater <- Main 2+4\nKitchen toaster <- Main 5a\nKitchen kettle <- Main 5b\nShed table saw <- Shed 3\nCellar light <- Main 1\n";

TEST(PanelSchedule, loads_are_on_the_leg_of_their_space_and_halved_between_legs) {
  const PanelSchedules all = panel_schedules(entered_record(kSmall));
  ASSERT_EQ(all.panels.size(), 2U);
  const PanelSchedule& main = all.panels[0];
  // spaces 1, 2, 5, 6 are on leg 1; 3, 4, 7, 8 on leg 2 (house/numbering.h)
  EXPECT_EQ(entry_of(main, "3").poles.at(0).leg, 2);
  EXPECT_EQ(entry_of(main, "3").poles.at(0).va, 600);
  const ScheduleEntry& heater = entry_of(main, "2-4");
  ASSERT_EQ(heater.poles.size(), 2U);
  EXPECT_EQ(heater.poles[0].va, 2000);
  EXPECT_EQ(heater.poles[1].va, 2000);
  EXPECT_NE(heater.poles[0].leg, heater.poles[1].leg);
  EXPECT_EQ(entry_of(main, "5a").poles.at(0).leg, entry_of(main, "5b").poles.at(0).leg) << "both halves of a tandem";
  EXPECT_EQ(entry_of(main, "5a").poles.at(0).va, 900);
}

TEST(PanelSchedule, a_feeder_carries_its_panel_leg_by_leg_and_is_in_the_totals_once) {
  const PanelSchedules all = panel_schedules(entered_record(kSmall));
  const PanelSchedule &main = all.panels[0], &shed = all.panels[1];
  EXPECT_EQ(shed.total, (LegVa{0, 1800, 0}));
  const ScheduleEntry& feeder = entry_of(main, "6-8");
  EXPECT_EQ(feeder.poles.at(0).va, 0);
  EXPECT_EQ(feeder.poles.at(1).va, 1800);
  EXPECT_THAT(feeder.kind, HasSubstr("feeder"));
  EXPECT_THAT(shed.facts.at(1), HasSubstr("Fed from Main 6-8 (40 A, wire not recorded)"));
  const long long light = all.panels[0].total[0] - (120 + 2000 + 900 + 1500);  // the light has a typical figure
  EXPECT_GE(light, 0);
  EXPECT_EQ(main.total[1], 600 + 2000 + 1800);
  EXPECT_THAT(main.sums.at(1), testing::StrEq("Leg 2: 4,400 VA, 36.7 A")) << "4400 / 120";
}

TEST(PanelSchedule, what_is_on_no_circuit_is_named_and_not_counted) {
  const PanelSchedules all = panel_schedules(entered_record(kSmall));
  const auto lamp = std::ranges::find_if(all.loads, [](const ScheduleLoad& load) { return load.name.starts_with("lamp"); });
  if (lamp != all.loads.end()) { EXPECT_FALSE(lamp->why_not.empty()); }
  const auto freezer = std::ranges::find_if(all.loads, [](const ScheduleLoad& load) { return load.name.starts_with("freezer"); });
  ASSERT_NE(freezer, all.loads.end());
  EXPECT_EQ(freezer->circuit, "Main 1");
  EXPECT_EQ(freezer->basis, "nameplate");
  EXPECT_EQ(freezer->why_not, "");
}

TEST(PanelSchedule, ratings_that_were_not_read_are_question_marks_and_persons_are_left_out) {
  Record record = entered_record("Hall: 1r\nPanel Main in Hall 4 spaces: 1; 3 15 gfci\n");
  record.house.panels[0].name = "Bob's Main";
  const PanelSchedules all = panel_schedules(record);
  EXPECT_EQ(entry_of(all.panels[0], "1").amps, "?");
  EXPECT_EQ(entry_of(all.panels[0], "3").kind, "GFCI");
  EXPECT_EQ(all.panels[0].name, "Main");
}

/// By another way: for each load, from its breaker up from panel to panel, leg by leg.
std::map<std::uint64_t, LegVa> recomputed(const Record& record) {
  const House& house = record.house;
  std::map<std::uint64_t, LegVa> totals;
  for (const Load& load : house.loads) {
    const auto p = static_cast<std::size_t>(Index<Point>(house.points).at(load.point));
    const Feed& feed = record.feeds.of_point[p];
    if (feed.standing == Standing::open || feed.standing == Standing::disputed || feed.taps.empty()) continue;
    std::map<int, int> per_hot;
    for (const Tap& tap : feed.taps) ++per_hot[tap.hot];
    if (std::ranges::any_of(per_hot, [](const auto& one) { return one.second > 1; })) continue;
    const LoadFigures figures = figures_of(house, load);
    const long long va = figures.known ? planned_running(figures) : 0;
    const auto hots = static_cast<long long>(std::max<std::size_t>(static_cast<std::size_t>(house.points[p].hots), feed.taps.size()));
    std::vector<Tap> taps = feed.taps;
    std::ranges::sort(taps);
    for (std::size_t t = 0; t < taps.size(); ++t) {
      long long share = va / hots;
      if (t + 1 == taps.size() && static_cast<long long>(taps.size()) == hots) share = va - share * (hots - 1);
      Id<Breaker> breaker = taps[t].breaker;
      int pole = taps[t].pole;
      for (std::size_t steps = 0; breaker && steps <= house.panels.size(); ++steps) {
        const Breaker& b = row(house, breaker);
        const Panel& panel = row(house, b.panel);
        const int leg = bus_leg(panel, pole_places(panel, b)[static_cast<std::size_t>(pole - 1)].space, panel_legs(house, panel));
        totals[panel.id.value][static_cast<std::size_t>(leg - 1)] += share;
        breaker = {};
        if (panel.supply == Supply::breaker && leg <= row(house, panel.feeder).poles) breaker = panel.feeder, pole = leg;
        if (panel.supply != Supply::position) continue;
        std::vector<std::pair<int, const Position*>> set;
        const Position& named = row(house, panel.position);
        for (const Position& position : house.positions)
          if (position.id == named.id || (named.tie && position.tie == named.tie)) set.emplace_back(position.pole, &position);
        std::ranges::sort(set, {}, [](const auto& one) { return one.first; });
        if (leg <= static_cast<int>(set.size()) && set[static_cast<std::size_t>(leg - 1)].second->breaker)
          breaker = set[static_cast<std::size_t>(leg - 1)].second->breaker, pole = set[static_cast<std::size_t>(leg - 1)].second->pole;
      }
    }
  }
  return totals;
}

void check_totals(const Record& record) {
  auto expected = recomputed(record);
  const PanelSchedules all = panel_schedules(record);
  for (const PanelSchedule& schedule : all.panels) {
    EXPECT_EQ(schedule.total, expected[schedule.panel.value]) << schedule.name;
    LegVa sum{};
    for (const ScheduleEntry& entry : schedule.entries)
      for (const SchedulePole& pole : entry.poles) sum[static_cast<std::size_t>(pole.leg - 1)] += pole.va;
    EXPECT_EQ(sum, schedule.total);
    EXPECT_EQ(schedule.sums.size(), static_cast<std::size_t>(schedule.legs) + 1);
  }
  EXPECT_EQ(all.loads.size(), record.house.loads.size());
}

TEST(PanelSchedule, totals_of_the_sample_house_agree_with_a_plain_recomputation) {
  const Record record = traced_sample();
  check_totals(record);
  long long all = 0;
  const auto schedules = panel_schedules(record);
  for (const long long leg : schedules.panels[0].total) all += leg;
  EXPECT_GT(all, 20'000);
}

void check_random(std::uint64_t from, std::uint64_t to) {
  long long counted = 0;
  for (std::uint64_t seed = from; seed < to; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    const Record record = make_record(random_house(seed, 1 + static_cast<int>(seed % 7)));
    check_totals(record);
    for (const PanelSchedule& schedule : panel_schedules(record).panels)
      for (const long long leg : schedule.total) counted += leg;
  }
  EXPECT_GT(counted, 0) << "some house has loads on circuits";
}
TEST(PanelSchedule, totals_agree_in_random_houses) { check_random(0, 20); }
TEST(PanelScheduleMany, totals_agree_in_two_hundred_random_houses) { check_random(20, 220); }

}  // namespace
}  // namespace ohmstead
