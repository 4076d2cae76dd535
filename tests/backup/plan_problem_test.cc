#include "backup/plan_problem.h"

#include <gmock/gmock.h>

#include "house/error.h"
#include "house/index.h"
#include "house/invariants.h"
#include "sample-house/truth.h"
#include "survey/entry.h"
#include "tests/support/sample_house.h"

namespace ohmstead {
namespace {

using testing::HasSubstr;
using Kind = PlanDoubt::Kind;

House entered(const std::string& text) {
  House house;
  house.dwelling.id = {1};
  house = enter_text(house, text).house;
  require_sound(house);
  return house;
}

BackupCase case_of(const House& house) { return backup_case(house, declared_feeds(house), 0); }

const PlanCircuit& circuit_with(const House& house, const BackupCase& backup, const std::string& load, int* at = nullptr) {
  for (std::size_t c = 0; c < backup.circuits.size(); ++c)
    for (const CarriedLoad& carried : backup.circuits[c].loads)
      if (house.loads[carried.load].name == load) {
        if (at != nullptr) *at = static_cast<int>(c);
        return backup.problem.circuits[c];
      }
  throw std::runtime_error("no circuit carries " + load);
}

std::string refused(const House& house) {
  try {
    (void)case_of(house);
  } catch (const Error& error) {
    return error.what();
  }
  return "taken";
}

bool doubted(const BackupCase& backup, Kind kind) { return std::ranges::find(backup.doubts, kind, &PlanDoubt::kind) != backup.doubts.end(); }

constexpr const char* kPanel = "Panel Main in Cellar 20 spaces, 100 A main: 1 20; 3 15; 5 15; 2+4 20; 6 20; 8 15\n";
constexpr const char* kRooms =
    "Cellar: freezer 100/400 W !, well pump 240 V 750/2200 W !, furnace 500/1200 W !\n";
constexpr const char* kFeeds = "By J.\nCellar freezer <- Main 3\nCellar well pump <- Main 2+4\nCellar furnace <- Main 5\n";
constexpr const char* kDevice = "Transfer T in Cellar 6 positions from G: 1 15; 2 20; 3+4 20 <- Main 2+4; 5 15; 6 15\n";

TEST(BackupCase, puts_wanted_loads_on_the_circuits_of_their_breakers) {
  const House house = entered(std::string(kRooms) + kPanel + kFeeds + "Generator G 3600/4500 W 120/240\n" + kDevice);
  const BackupCase backup = case_of(house);
  EXPECT_EQ(backup.hookup, Hookup::positions);
  EXPECT_EQ(backup.problem.positions.size(), 6U);
  ASSERT_EQ(backup.circuits.size(), 3U);
  const PlanCircuit& freezer = circuit_with(house, backup, "freezer");
  EXPECT_EQ(freezer.poles, 1);
  EXPECT_EQ(freezer.amps, 15);
  EXPECT_EQ(freezer.loads[0].running[0], 100);
  EXPECT_EQ(freezer.loads[0].starting[0], 400);
  EXPECT_EQ(freezer.loads[0].breaker_ma[0], 834);  // 100 W / 120 V, rounded up to a milliampere
  EXPECT_EQ(freezer.position_now[0], -1);
}

TEST(BackupCase, a_load_between_legs_draws_half_on_each_and_knows_its_positions) {
  const House house = entered(std::string(kRooms) + kPanel + kFeeds + "Generator G 3600/4500 W 120/240\n" + kDevice);
  const BackupCase backup = case_of(house);
  const PlanCircuit& pump = circuit_with(house, backup, "well pump");
  EXPECT_EQ(pump.poles, 2);
  EXPECT_TRUE(pump.between_legs);
  EXPECT_EQ(pump.loads[0].running, (PerPole{375, 375, 0}));
  EXPECT_EQ(pump.loads[0].starting, (PerPole{1100, 1100, 0}));
  EXPECT_EQ(pump.position_now, (PerPole{2, 3, -1}));
  EXPECT_EQ(backup.problem.positions[2].tie, backup.problem.positions[3].tie);
  EXPECT_GE(backup.problem.positions[2].tie, 0);
}

TEST(BackupCase, a_continuous_load_needs_a_breaker_of_125_percent) {
  House house = entered(std::string(kRooms) + kPanel + kFeeds + "Generator G 3600/4500 W 120/240\n" + kDevice);
  house.loads[0].continuous = true;  // NFPA 70 210.20(A): 125 % of the continuous load, from memory
  EXPECT_EQ(circuit_with(house, case_of(house), "freezer").loads[0].breaker_ma[0], 1043);  // 834 x 1.25, rounded up
}

TEST(BackupCase, what_an_interlock_carries_comes_on_with_its_own_legs) {
  const House house = entered(std::string(kRooms) +
                              "Panel Main in Cellar 20 spaces, 100 A main: 1 20; 3 15; 5 15; 2+4 20; 6+8 30 backfed from G, interlocked\n" + kFeeds +
                              "Generator G 3600/4500 W 120/240\n");
  const BackupCase backup = case_of(house);
  EXPECT_EQ(backup.hookup, Hookup::interlock);
  EXPECT_TRUE(backup.problem.positions.empty());
  EXPECT_EQ(circuit_with(house, backup, "freezer").own_leg[0], 2);   // space 3: leg 2
  EXPECT_EQ(circuit_with(house, backup, "furnace").own_leg[0], 1);   // space 5: leg 1
  EXPECT_EQ(circuit_with(house, backup, "well pump").own_leg, (PerPole{1, 2, 0}));
}

TEST(BackupCase, a_whole_house_switch_carries_every_panel_behind_it) {
  const House house = entered(std::string(kRooms) + "Shed: kiln 1200 W !\n"
                              "Panel Main in Cellar 20 spaces, 100 A main from A: 1 20; 3 15; 5 15; 2+4 20; 6+8 30\n"
                              "Panel Shed in Shed 8 spaces from Main 6+8: 1 15\nBattery G 5/7 kW, 10 kWh\nTransfer A whole house from G, automatic\n" + kFeeds + "Shed kiln <- Shed 1\n");
  const BackupCase backup = case_of(house);
  EXPECT_EQ(backup.hookup, Hookup::subpanel);
  EXPECT_EQ(circuit_with(house, backup, "kiln").own_leg[0], 1);
  EXPECT_EQ(circuit_with(house, backup, "freezer").own_leg[0], 2);
}

TEST(BackupCase, a_far_panel_is_carried_by_its_feeder) {
  const House house = entered(std::string(kRooms) + "Shed: kiln 1200 W !\n"
                              "Panel Main in Cellar 20 spaces, 100 A main: 1 20; 3 15; 5 15; 2+4 20; 6+8 30\n"
                              "Panel Shed in Shed 8 spaces from Main 6+8: 3 15\nGenerator G 3600/4500 W 120/240\n" + kDevice + kFeeds + "Shed kiln <- Shed 3\n");
  const BackupCase backup = case_of(house);
  int at = -1;
  const PlanCircuit& feeder = circuit_with(house, backup, "kiln", &at);
  EXPECT_EQ(feeder.poles, 2);
  EXPECT_EQ(feeder.amps, 30);
  EXPECT_EQ(feeder.loads[0].running, (PerPole{0, 1200, 0}));  // space 3 of the shed's panel is on the second leg
}

TEST(BackupCase, a_critical_loads_subpanel_beside_the_device_is_carried_by_its_feeder_on_a_position) {
  for (const bool deeper : {false, true}) {
    const House house = entered(std::string(kRooms) + "Shed: kiln 1200 W !\n"
                                "Panel Main in Cellar 20 spaces, 100 A main: 1 20; 3 15; 5 15; 2+4 20; 6+8 60\n"
                                "Panel Crit in Cellar 8 spaces from Main 6+8: 3 15; 5+7 30\nPanel Crit2 in Cellar 8 spaces from Crit 5+7: 3 15\nGenerator G 3600/4500 W 120/240\n"
                                "Transfer T in Cellar 4 positions from G: 1+2 60 <- Main 6+8; 3 15; 4 15\n" + kFeeds + "Shed kiln <- " + (deeper ? "Crit2" : "Crit") + " 3\n");
    const BackupCase backup = case_of(house);
    const PlanCircuit& feeder = circuit_with(house, backup, "kiln");
    EXPECT_EQ(feeder.poles, 2);
    EXPECT_EQ(feeder.amps, 60);
    EXPECT_EQ(feeder.loads[0].running, (PerPole{0, 1200, 0})) << "space 3 is on the second leg";
    EXPECT_EQ(circuit_with(house, backup, "freezer").poles, 1) << "on a breaker of its own panel";
  }
}

TEST(BackupCase, multiwire_partners_come_along_and_two_breakers_of_one_load_are_one_circuit) {
  House house = entered("Kitchen: dishwasher !, disposal low\nShed: kiln 240 V 1200 W !\n"
                              "Panel Main in Kitchen 20 spaces, 100 A main: 1 20; 3 20; 9,11 tied 20 mwbc\n"
                              "Generator G 3600/4500 W 120/240\nTransfer T in Kitchen 6 positions from G: 1+2 20; 3+4 20; 5 15; 6 15\n"
                              "By J.\nKitchen dishwasher <- Main 9\nKitchen disposal <- Main 11\n");
  for (int hot = 1; hot <= 2; ++hot)
    house.declared_feeds.push_back({Id<DeclaredFeed>::fresh(), house.points[2].id, {}, hot, house.breakers[static_cast<std::size_t>(hot - 1)].id, 1, "J."});
  const BackupCase backup = case_of(house);
  ASSERT_EQ(backup.circuits.size(), 3U);  // 9, its partner 11, and 1 with 3
  const PlanCircuit& dishwasher = circuit_with(house, backup, "dishwasher");
  EXPECT_GE(dishwasher.multiwire, 0);
  EXPECT_EQ(std::ranges::count(backup.problem.circuits, dishwasher.multiwire, &PlanCircuit::multiwire), 2);
  const PlanCircuit& kiln = circuit_with(house, backup, "kiln");
  EXPECT_EQ(kiln.poles, 2);
  EXPECT_TRUE(kiln.between_legs);
  EXPECT_EQ(kiln.loads[0].running, (PerPole{600, 600, 0}));
}

TEST(BackupCase, doubts_are_said_and_what_is_unknown_is_left_out) {
  House house = entered(std::string(kRooms) + "Hall: router ! 15 W\n" + kPanel + kFeeds + "Generator G 3600 W 120/240\n" + kDevice);
  house.sources[0].starting_watts = 0;
  Feeds feeds = declared_feeds(house);
  for (Feed& feed : feeds.of_point)
    if (feed.standing == Standing::declared) feed.standing = Standing::likely;
  const BackupCase backup = backup_case(house, feeds, 0);
  EXPECT_TRUE(doubted(backup, Kind::feed_only_likely));
  EXPECT_TRUE(doubted(backup, Kind::feed_not_known));  // the router
  EXPECT_TRUE(doubted(backup, Kind::starting_not_known));
  EXPECT_TRUE(doubted(backup, Kind::leg_share_assumed));
  EXPECT_EQ(backup.problem.source.starting, 3600);
  EXPECT_THROW((void)circuit_with(house, backup, "router"), std::runtime_error);
}

TEST(BackupCase, bad_input_gets_one_sentence) {
  const std::string rooms_panel = std::string(kRooms) + kPanel + kFeeds;
  EXPECT_THAT(refused(entered(rooms_panel + "Generator G\n" + kDevice)), HasSubstr("not recorded how many watts source 'G' gives"));
  EXPECT_THAT(refused(entered(rooms_panel + "Generator G 3600/4500 W\n")), HasSubstr("feeds no transfer device"));
  EXPECT_THAT(refused(entered(std::string("Cellar: range\n") + kPanel + "Generator G 3600/4500 W\n" + kDevice)), HasSubstr("Nothing is wished for"));
  House none = entered(rooms_panel);
  EXPECT_THROW((void)the_only_source(none), Error);
  EXPECT_THROW((void)backup_case(none, declared_feeds(none), 0), Error);
}

TEST(PlanSource, inlet_and_cord_limit_what_comes_in) {
  House house;
  Source source{.running_watts = 7200, .starting_watts = 9000, .inlet_amps = 30, .cord_amps = 20};
  PlanSource plan = plan_source(house, source);
  EXPECT_EQ(plan.leg_running[0], 2400);  // 20 A x 120 V: L5-20 and L14-20 patterns of NEMA WD 6, from memory; watts computed
  EXPECT_EQ(plan.running, 4800);
  source.output = SourceOutput::one_120_both_legs;
  plan = plan_source(house, source);
  EXPECT_TRUE(plan.in_phase);
  EXPECT_EQ(plan.running, 2400);
  source.output = SourceOutput::one_leg;
  EXPECT_EQ(plan_source(house, source).legs, 1);
  source = {.running_watts = 5000, .starting_watts = 6000, .leg_watts = 3000};
  plan = plan_source(house, source);
  EXPECT_EQ(plan.leg_running[1], 3000);
  EXPECT_EQ(plan.leg_starting[1], 3600);
  EXPECT_EQ(plan.running, 5000);
}

TEST(KeptPlan, comes_back_as_it_was_kept) {
  House house = sample_house();
  const Feeds feeds = truth_feeds(house, source_file("sample-house/truth.csv"));
  const BackupCase backup = backup_case(house, feeds, 0);
  const Plan plan = best_plan(backup.problem);
  ASSERT_EQ(plan.end, PlanEnd::optimal);
  house.planned = planned_rows(backup, plan);
  require_sound(house);
  const Plan kept = kept_plan(house, backup_case(house, feeds, 0));
  EXPECT_EQ(kept.placed, plan.placed);
  EXPECT_EQ(kept.score, plan.score);
  EXPECT_EQ(kept.sums, plan.sums);
}

}  // namespace
}  // namespace ohmstead
