// Each rule: a house that breaks it, and a near miss that does not. And no finding in a house that is right.
#include "rules/findings.h"

#include <gmock/gmock.h>

#include <algorithm>
#include <functional>
#include <set>

#include "house/invariants.h"
#include "rules/calculation.h"
#include "tests/rules/right_house.h"

namespace ohmstead {
namespace {

using test::RightHouse;
using testing::Contains;
using testing::HasSubstr;
using testing::Not;

std::vector<Finding> found_in(const House& house, const std::vector<BreakerLoad>& loads = {}) {
  return rule_findings({house, declared_feeds(house), loads}).found;
}

std::vector<std::string> rules_in(const House& house, const std::vector<BreakerLoad>& loads = {}) {
  std::vector<std::string> rules;
  for (const Finding& finding : found_in(house, loads)) rules.push_back(finding.rule);
  return rules;
}

/// The finding of that rule; the test fails where there is none.
Finding of_rule(const std::vector<Finding>& found, const std::string& rule) {
  const auto at = std::ranges::find(found, rule, &Finding::rule);
  EXPECT_NE(at, found.end()) << rule;
  return at == found.end() ? Finding{} : *at;
}

std::vector<std::string> rules_after(const std::function<void(RightHouse&)>& change) {
  RightHouse right;
  change(right);
  return rules_in(right.house);
}

TEST(Findings, none_in_houses_that_are_right) {
  for (std::uint64_t seed = 0; seed < 300; ++seed) {
    const RightHouse right(seed);
    ASSERT_TRUE(problems_of(right.house).empty()) << seed << problems_of(right.house).front().message;
    const auto findings = rule_findings({right.house, declared_feeds(right.house), {{right.shared_a, 16, 16, 0}, {right.furnace, 12, 0, 12}}});
    EXPECT_TRUE(findings.found.empty()) << seed << ": " << (findings.found.empty() ? "" : findings.found[0].rule + ": " + findings.found[0].found);
    EXPECT_THAT(findings.not_checked, Contains(HasSubstr("No cover was opened")));
  }
}

TEST(Findings, the_most_urgent_first_and_each_says_what_why_and_how_sure) {
  RightHouse right;
  right.house.printed.clear();
  right.circuit_of(right.counter).wire = "14";
  right.at(right.bedroom_circuit).protection = Protection::plain;
  const auto found = found_in(right.house);
  ASSERT_GE(found.size(), 3U);
  EXPECT_EQ(found[0].rule, "breaker_over_wire");
  EXPECT_TRUE(std::ranges::is_sorted(found, {}, &Finding::severity));
  for (const Finding& finding : found) {
    EXPECT_FALSE(finding.things.empty()) << finding.rule;
    for (const std::string& text : {finding.found, finding.why}) EXPECT_TRUE(text.ends_with(".")) << text;
    EXPECT_FALSE(finding.sure.empty()) << finding.rule;
  }
}

TEST(Findings, how_sure_the_record_is_comes_from_the_weakest_feed) {
  RightHouse right;
  right.at(right.bedroom_circuit).protection = Protection::plain;
  Feeds feeds = declared_feeds(right.house);
  const auto sure = [&] {
    return of_rule(rule_findings({right.house, feeds, {}}).found, "afci_expected").sure;
  };
  EXPECT_THAT(sure(), HasSubstr("is declared, not proved"));
  for (Feed& feed : feeds.of_point) feed.standing = Standing::proved;
  EXPECT_EQ(sure(), "feeds as proved");
  for (std::size_t p = 0; p < right.house.points.size(); ++p)
    if (right.house.points[p].name == "ceiling light") feeds.of_point[p].standing = Standing::declared;
  EXPECT_THAT(sure(), HasSubstr("NE bedroom ceiling light is declared, not proved"));
}

TEST(Findings, breaker_over_wire) {
  for (const auto& [wire, amps, bad] : {std::tuple{"14", 20, true}, {"14", 15, false}, {"12", 25, true}, {"12", 20, false}, {"8", 60, true}, {"8", 50, false}, {"6", 70, false}, {"6", 80, true}, {"2/0", 200, true}, {"2/0", 175, false}, {"13", 60, false}, {"", 60, false}}) {
    RightHouse right;
    right.circuit_of(right.furnace).wire = wire, right.at(right.furnace).amps = amps, right.house.positions.clear();
    EXPECT_EQ(std::ranges::count(rules_in(right.house), "breaker_over_wire"), bad ? 1 : 0) << wire << " " << amps;
  }
  RightHouse pump;
  pump.circuit_of(pump.furnace).wire = "14", pump.at(pump.furnace).amps = 20, pump.at(pump.furnace_point).name = "well pump";
  EXPECT_EQ(of_rule(found_in(pump.house), "breaker_over_wire").severity, Severity::note);  // 240.4(G)
  for (const auto& [wire, amps, severity] : {std::tuple{"2/0", 200, Severity::note}, {"4", 100, Severity::note}, {"6", 100, Severity::danger}, {"6", 80, Severity::danger}}) {
    RightHouse feeder;
    feeder.circuit_of(feeder.furnace).wire = wire, feeder.at(feeder.furnace).amps = amps;
    Panel& panel = row(feeder.house, feeder.panel("Second", feeder.garage, 8));
    panel.supply = Supply::breaker, panel.feeder = feeder.furnace;
    EXPECT_EQ(of_rule(found_in(feeder.house), "breaker_over_wire").severity, severity) << wire << " " << amps;  // 310.12
  }
  EXPECT_THAT(rules_after([](RightHouse& r) { r.circuit_of(r.counter).material = WireMaterial::aluminium, r.circuit_of(r.counter).wire = "12"; }), Contains("breaker_over_wire"));
}

TEST(Findings, shared_neutrals) {
  EXPECT_THAT(rules_after([](RightHouse& r) { r.at(r.shared_a).tie = r.at(r.shared_b).tie = {}; }), Contains("neutral_untied"));
  const auto one_leg = [](RightHouse& r) { r.at(r.shared_b).space = 17, r.at(r.shared_a).tie = r.at(r.shared_b).tie = {}; };
  EXPECT_THAT(rules_after(one_leg), Contains("neutral_on_one_leg"));
  RightHouse right;
  one_leg(right);
  EXPECT_THAT(of_rule(found_in(right.house), "neutral_on_one_leg").found, HasSubstr("40 A with each at its rating"));
  EXPECT_THAT(rules_after([](RightHouse& r) {
    const auto second = r.panel("Second", r.garage, 8);
    r.house.printed.push_back(r.house.printed[0]), r.house.printed.back().id = r.next<Printed>(), r.house.printed.back().item = "directory:" + second.text();
    r.at(r.shared_b).panel = second, r.at(r.shared_b).space = 1, r.at(r.shared_a).tie = r.at(r.shared_b).tie = {};
  }), Contains("neutral_of_two_panels"));
  EXPECT_THAT(rules_after([](RightHouse& r) { r.house.positions[0].breaker = r.shared_a; }), Contains("neutral_split_by_transfer"));
  const auto both = [](RightHouse& r) { r.house.positions[0].breaker = r.shared_a, r.house.positions[1].breaker = r.shared_b; };
  EXPECT_THAT(rules_after(both), Not(testing::AnyOf(Contains("neutral_split_by_transfer"), Contains("neutral_on_120_source"))));
  EXPECT_THAT(rules_after([&](RightHouse& r) { both(r), r.house.sources[0].output = SourceOutput::one_120_both_legs; }), Contains("neutral_on_120_source"));
  EXPECT_THAT(rules_after([&](RightHouse& r) { r.house.sources[0].output = SourceOutput::one_120_both_legs; }), Not(Contains("neutral_on_120_source")));
}

TEST(Findings, shared_neutrals_on_a_source_of_120_volts) {
  const auto bridged = [](RightHouse& r) { r.house.sources[0].output = SourceOutput::one_120_both_legs; };
  const auto whole = [&](RightHouse& r) {
    bridged(r);
    r.house.transfer_devices[0].kind = TransferKind::whole_house;
    row(r.house, r.main).supply = Supply::position, row(r.house, r.main).position = r.house.positions[0].id;
  };
  EXPECT_THAT(rules_after([&](RightHouse& r) { bridged(r), r.house.positions[0].breaker = r.shared_a; }), Not(Contains("neutral_on_120_source")));  // its partner stays on the utility
  EXPECT_THAT(rules_after(whole), Contains("neutral_on_120_source"));
  EXPECT_THAT(rules_after([&](RightHouse& r) {  // a subpanel comes on with its feeder's panel
    whole(r);
    Panel& second = row(r.house, r.panel("Second", r.garage, 8));
    second.supply = Supply::breaker, second.feeder = r.dryer, r.at(r.shared_a).panel = r.at(r.shared_b).panel = second.id;
  }), Contains("neutral_on_120_source"));
  RightHouse two;
  whole(two);
  const auto more = two.circuit(21, 20, Protection::plain, 2);
  two.circuit_of(more).multiwire = two.circuit_of(more).id;
  std::vector<std::string> told;
  for (const Finding& finding : found_in(two.house))
    if (finding.rule == "neutral_on_120_source") told.push_back(finding.found);
  EXPECT_THAT(told, testing::UnorderedElementsAre(HasSubstr("Main 13 and Main 15 share a neutral"), HasSubstr("Main 21-23 has two hot conductors and one neutral")));
}

TEST(Findings, printed_before_change) {
  const auto after = [](std::vector<Printed> printed, std::int64_t revision) {
    RightHouse right;
    right.house.printed.clear();
    for (Printed& one : printed) one.id = Id<Printed>::fresh(), right.house.printed.push_back(one);
    std::vector<std::string> told;
    for (const Finding& finding : rule_findings({right.house, declared_feeds(right.house), {}, revision}).found)
      if (finding.rule == "printed_before_change") told.push_back(finding.found);
    return told;
  };
  const Printed wall{.item = "paper:wall", .name = "the outage sheet", .revision = 7}, again{.item = "paper:wall", .name = "the outage sheet", .revision = 9};
  EXPECT_THAT(after({wall}, 8), testing::ElementsAre(HasSubstr("printed: the outage sheet. ")));
  EXPECT_THAT(after({wall, wall}, 8), testing::ElementsAre(HasSubstr("printed: the outage sheet. ")));
  EXPECT_THAT(after({wall}, 7), testing::IsEmpty());
  EXPECT_THAT(after({wall, again}, 9), testing::IsEmpty());
  EXPECT_THAT(after({wall}, 0), testing::IsEmpty()) << "of a record whose revision is not known nothing is said";
  std::vector<Printed> many;
  for (const char* name : {"A", "B", "C", "D", "E"}) many.push_back({.item = name, .name = name, .revision = 1});
  EXPECT_THAT(after(many, 2), testing::ElementsAre(HasSubstr("A, B and C, and 2 more")));
}

TEST(Findings, sources) {
  EXPECT_THAT(rules_after([](RightHouse& r) { r.house.sources[0].neutral = NeutralBond::bonded; }), Contains("source_neutral"));
  EXPECT_THAT(rules_after([](RightHouse& r) { r.house.sources[0].neutral = NeutralBond::not_known; }), Contains("source_neutral"));
  const auto backfed = [](RightHouse& r) { r.at(r.circuit(20, 30, Protection::plain, 2)).backfed_from = r.generator; };
  EXPECT_THAT(rules_after(backfed), Contains("backfed_without_interlock"));
  EXPECT_THAT(rules_after([&](RightHouse& r) {
    backfed(r);
    r.house.interlocks.push_back({r.next<Interlock>(), {HandleKind::main, r.main.value}, {HandleKind::breaker, r.house.breakers.back().id.value}});
  }), Not(Contains("backfed_without_interlock")));
  EXPECT_THAT(rules_after([](RightHouse& r) {  // of two that are tied, the interlock holds one
    const auto a = r.circuit(22, 30, Protection::plain), b = r.circuit(24, 30, Protection::plain);
    r.at(a).tie = r.at(b).tie = a, r.at(a).backfed_from = r.at(b).backfed_from = r.generator;
    r.house.interlocks.push_back({r.next<Interlock>(), {HandleKind::main, r.main.value}, {HandleKind::breaker, a.value}});
  }), Not(Contains("backfed_without_interlock")));
  EXPECT_THAT(rules_after([](RightHouse& r) { r.house.positions[0].amps = 20; }), Contains("position_over_breaker"));
  EXPECT_THAT(rules_after([](RightHouse& r) { r.house.positions[0].amps = 10; }), Not(Contains("position_over_breaker")));
}

TEST(Findings, what_moves_to_a_source) {
  EXPECT_THAT(rules_after([](RightHouse& r) { r.house.printed.pop_back(); }), testing::ElementsAre("signs_not_printed"));
  EXPECT_THAT(rules_after([](RightHouse& r) { r.house.printed.pop_back(), r.house.positions.clear(), r.house.transfer_devices.clear(), r.house.sources.clear(); }), testing::IsEmpty());
  EXPECT_THAT(rules_after([](RightHouse& r) { r.house.positions[0].breaker = r.bedroom_circuit; }), testing::ElementsAre("protection_bypassed"));
  const auto below = [](int amps, int receptacles) {
    return rules_after([&](RightHouse& r) { r.points(r.furnace, r.utility, receptacles, "receptacle"), r.house.positions[1].amps = amps; });
  };
  EXPECT_THAT(below(10, 2), Contains("position_below_receptacles"));
  EXPECT_THAT(below(15, 2), Not(Contains("position_below_receptacles")));
  EXPECT_THAT(below(10, 1), Not(Contains("position_below_receptacles")));
  EXPECT_THAT(rules_after([](RightHouse& r) { r.house.positions[0].breaker = r.bedroom_circuit, r.house.transfer_devices[0].kind = TransferKind::whole_house; }), Not(Contains("protection_bypassed")));
}

TEST(Findings, what_is_fed_twice_or_from_untied_breakers) {
  const auto also = [](RightHouse& r, Id<Point> point, Id<Breaker> breaker, int hot) { r.house.declared_feeds.push_back({.id = r.next<DeclaredFeed>(), .point = point, .hot = hot, .breaker = breaker}); };
  EXPECT_THAT(rules_after([&](RightHouse& r) { also(r, r.bath_receptacle, r.counter, 1); }), Contains("fed_twice"));
  const auto two = [&](RightHouse& r) {
    std::erase_if(r.house.declared_feeds, [&](const DeclaredFeed& feed) { return feed.point == r.shop_receptacle; });
    r.at(r.shop_receptacle).hots = 2, r.at(r.shop_receptacle).kind = PointKind::appliance;
    also(r, r.shop_receptacle, r.shared_a, 1), also(r, r.shop_receptacle, r.shared_b, 2);
  };
  EXPECT_THAT(rules_after(two), Not(testing::AnyOf(Contains("two_poles_untied"), Contains("fed_twice"), Contains("two_poles_on_one_leg"))));
  EXPECT_THAT(rules_after([&](RightHouse& r) { two(r), r.at(r.shared_a).tie = r.at(r.shared_b).tie = {}; }), Contains("two_poles_untied"));
  EXPECT_THAT(rules_after([&](RightHouse& r) { two(r), r.at(r.shared_b).space = 17; }), Contains("two_poles_on_one_leg"));
  const auto yoke = [](RightHouse& r) {
    Point& upper = r.at(r.shop_receptacle);
    Point& lower = r.house.points.back();
    upper.half = ReceptacleHalf::upper, upper.mate = lower.id, lower.half = ReceptacleHalf::lower, lower.mate = upper.id;
  };
  EXPECT_THAT(rules_after(yoke), Not(Contains("yoke_of_two_circuits")));
  EXPECT_THAT(rules_after([&](RightHouse& r) { yoke(r), r.at(r.shared_a).tie = r.at(r.shared_b).tie = {}; }), Contains("yoke_of_two_circuits"));
}

TEST(Findings, receptacles_on_a_large_breaker) {
  const auto large = [](RightHouse& r) { r.at(r.garage_circuit).amps = 30, r.circuit_of(r.garage_circuit).wire = "10"; };
  EXPECT_THAT(rules_after([&](RightHouse& r) { large(r), r.point(r.garage_circuit, r.garage, "light", PointKind::light), r.point(r.garage_circuit, r.garage, "bench receptacle"); }), Contains("receptacles_on_large_breaker"));
  EXPECT_THAT(rules_after([](RightHouse& r) { r.point(r.circuit(21, 30, Protection::gfci), r.garage, "camper receptacle"); }), Not(Contains("receptacles_on_large_breaker")));
}

TEST(Findings, what_stands_on_a_receptacle_against_its_circuit) {
  struct Case {
    int circuit, rating;
    bool alone, wrong;
  };
  // Table 210.21(B)(3), secondary, for two or more; 210.21(B)(1), secondary, for one alone: not less than the circuit.
  constexpr Case cases[] = {{15, 15, false, false}, {15, 20, false, true}, {15, 20, true, false}, {20, 15, false, false}, {20, 20, false, false}, {20, 30, false, true}, {20, 30, true, false},
                            {30, 20, false, true}, {30, 20, true, true}, {30, 30, false, false}, {30, 50, false, true}, {40, 30, true, true}, {40, 40, false, false}, {40, 50, false, false},
                            {40, 60, false, true}, {50, 50, false, false}, {50, 30, true, true}, {60, 50, true, true}, {60, 60, false, false}, {60, 0, true, false}};
  for (const Case& one : cases) {
    const auto made = [&](RightHouse& r) {
      const Id<Breaker> breaker = r.circuit(21, one.circuit, Protection::gfci);
      r.circuit_of(breaker).wire = "2";
      r.at(r.point(breaker, r.garage, "camper receptacle")).rating_amps = one.rating;
      if (!one.alone) r.at(r.point(breaker, r.garage, "kiln", PointKind::appliance)).hots = 1;
    };
    const auto rules = rules_after(made);
    EXPECT_EQ(std::ranges::count(rules, "receptacle_rating"), one.wrong ? 1 : 0) << one.rating << " A on " << one.circuit << " A" << (one.alone ? " alone" : "");
  }
}

TEST(Findings, what_stands_on_a_receptacle_against_the_position_that_protects_it) {
  const auto on_position = [](int stands) {
    return rules_after([&](RightHouse& r) { r.house.positions[0].breaker = r.garage_circuit, r.at(r.house.points[static_cast<std::size_t>(std::ranges::find(r.house.points, r.garage, &Point::room) - r.house.points.begin())].id).rating_amps = stands; });
  };
  EXPECT_THAT(on_position(20), Contains("receptacle_over_position"));
  EXPECT_THAT(on_position(15), Not(Contains("receptacle_over_position")));
  EXPECT_THAT(on_position(0), Not(Contains("receptacle_over_position")));
}

TEST(Findings, loads_and_what_runs_for_hours) {
  const RightHouse right;
  const auto with = [&](BreakerLoad load) { return rules_in(right.house, {load}); };
  EXPECT_THAT(with({right.furnace, 15.1, 0, 0}), testing::ElementsAre("overload"));
  EXPECT_THAT(with({right.furnace, 15, 0, 0}), testing::IsEmpty());
  EXPECT_THAT(with({right.furnace, 12.1, 12.1, 0}), testing::ElementsAre("continuous_load"));
  EXPECT_THAT(with({right.furnace, 12, 12, 0}), testing::IsEmpty());
  EXPECT_THAT(with({right.furnace, 13, 10, 0}), testing::ElementsAre("continuous_load"));  // 12.5 + 3
  EXPECT_THAT(with({right.shared_a, 32, 0, 0}), testing::IsEmpty());                        // tied: both ratings
  RightHouse small;
  small.house.positions[1].amps = 10;
  EXPECT_THAT(rules_in(small.house, {{small.furnace, 12, 0, 11}}), testing::ElementsAre("position_overload"));
  EXPECT_THAT(rules_in(small.house, {{small.furnace, 12, 0, 10}}), testing::IsEmpty());
}

TEST(Findings, alarms_behind_switches_and_what_is_not_traced) {
  const auto behind = [](DeviceKind kind) {
    return rules_after([&](RightHouse& r) {
      const Device device{.id = r.next<Device>(), .kind = kind, .name = "hall switch"};
      r.house.devices.push_back(device);
      r.house.declared_feeds.push_back({.id = r.next<DeclaredFeed>(), .device = device.id, .breaker = r.alarms});
      std::erase_if(r.house.declared_feeds, [&](const DeclaredFeed& feed) { return feed.point == r.alarm; });
      r.at(r.alarm).behind = device.id;
    });
  };
  EXPECT_THAT(behind(DeviceKind::wall_switch), Contains("life_safety_switched"));
  EXPECT_THAT(behind(DeviceKind::disconnect), Not(Contains("life_safety_switched")));
  const auto unfed = [](Importance importance) {
    return rules_after([&](RightHouse& r) { r.load(r.point({}, r.living, "receptacle 9"), "oxygen concentrator", importance); });
  };
  EXPECT_THAT(unfed(Importance::life_safety), Contains("life_safety_untraced"));
  EXPECT_THAT(unfed(Importance::high), Not(Contains("life_safety_untraced")));
  RightHouse right;
  Feeds feeds = declared_feeds(right.house);
  for (const auto& [standing, count] : {std::pair{Standing::likely, 1}, {Standing::disputed, 1}, {Standing::declared, 0}, {Standing::proved, 0}}) {
    feeds.of_point[static_cast<std::size_t>(std::ranges::find(right.house.points, right.alarm, &Point::id) - right.house.points.begin())].standing = standing;
    EXPECT_EQ(std::ranges::count(rule_findings({right.house, feeds, {}}).found, "life_safety_untraced", &Finding::rule), count);
  }
}

TEST(Findings, gfci_and_afci_by_place) {
  EXPECT_THAT(rules_after([](RightHouse& r) { r.at(r.bath_circuit).protection = Protection::plain; }), Contains("gfci_expected"));
  EXPECT_THAT(rules_after([](RightHouse& r) {
    r.at(r.bath_circuit).protection = Protection::plain;
    r.house.devices.push_back({.id = r.next<Device>(), .kind = DeviceKind::gfci_receptacle, .name = "bath GFCI", .at_point = r.bath_receptacle});
    std::erase_if(r.house.declared_feeds, [&](const DeclaredFeed& feed) { return feed.point == r.bath_receptacle; });
    r.house.declared_feeds.push_back({.id = r.next<DeclaredFeed>(), .device = r.house.devices.back().id, .breaker = r.bath_circuit});
    r.at(r.bath_receptacle).behind = r.house.devices.back().id;
  }), Not(Contains("gfci_expected")));
  EXPECT_THAT(rules_after([](RightHouse& r) { r.at(r.garage_circuit).protection = Protection::afci; }), Contains("gfci_expected"));
  EXPECT_THAT(rules_after([](RightHouse& r) { r.at(r.bedroom_circuit).protection = Protection::gfci; }), Contains("afci_expected"));
  EXPECT_THAT(rules_after([](RightHouse& r) { r.at(r.bedroom_circuit).protection = Protection::dual; }), testing::IsEmpty());
  EXPECT_THAT(rules_after([](RightHouse& r) { r.point({}, r.bath, "receptacle 2"); }), testing::IsEmpty());  // nothing is known of it
  for (const char* name : {"Garden shed", "Challenge room", "Hall bath"})  // no den, no hall, and a bathroom
    EXPECT_THAT(rules_after([&](RightHouse& r) { row(r.house, r.garage).name = name; }), testing::IsEmpty()) << name;
}

TEST(Findings, circuits_of_their_own) {
  const auto with = [](const char* rule, auto change) { EXPECT_THAT(rules_after(change), Contains(rule)); };
  with("laundry_shared", [](RightHouse& r) { r.point(r.laundry_circuit, r.garage, "receptacle 8"); });
  with("bath_shared", [](RightHouse& r) { r.point(r.bath_circuit, r.living, "receptacle 8"); });
  with("kitchen_shared", [](RightHouse& r) { r.point(r.counter, r.kitchen, "wall light", PointKind::light); });
  with("heating_shared", [](RightHouse& r) { r.point(r.furnace, r.utility, "light", PointKind::light); });
  EXPECT_THAT(rules_after([](RightHouse& r) {
    r.point(r.laundry_circuit, r.laundry, "washer receptacle"), r.point(r.bath_circuit, r.bath, "fan", PointKind::fan), r.point(r.furnace, r.utility, "condensate pump", PointKind::appliance);
    r.point(r.counter, r.room("Dining room", r.house.floors[0].id), "receptacle");
  }), testing::IsEmpty());
}

std::vector<Finding> labeled(const std::string& first, const std::string& second = "bathroom receptacles, second floor", bool printed = false) {
  RightHouse right;
  if (!printed) right.house.printed.erase(right.house.printed.begin());
  for (Breaker& breaker : right.house.breakers) breaker.old_label = "circuit " + breaker.id.text() + " of the north wing";
  right.at(right.counter).old_label = first, right.at(right.bath_circuit).old_label = second;
  return found_in(right.house);
}

TEST(Findings, words_of_the_directory_with_better_ones) {
  for (const auto& [label, rule] : {std::pair{"lights", "label_vague"}, {"Plugs 2", "label_vague"}, {"misc.", "label_vague"}, {"lights & outlets", "label_vague"}, {"Bob's room", "label_of_a_person"}, {"SPARE", "label_spare_but_used"}, {"", "label_missing"},
                                    {"Bathroom receptacles, second floor", "labels_the_same"}}) {
    const auto found = labeled(label);
    ASSERT_EQ(found.size(), 1U) << label;
    EXPECT_EQ(found[0].rule, rule) << label;
    EXPECT_TRUE(labeled(label, "bathroom receptacles, second floor", true).empty()) << label;  // a printed directory hangs there
  }
  EXPECT_THAT(labeled("lights")[0].found, HasSubstr("Better: 'Kitchen counter receptacle"));
  for (const char* fine : {"kitchen counter", "upstairs hall lights", "NE bedroom plugs", "guest bath"}) EXPECT_TRUE(labeled(fine).empty()) << fine;
}

TEST(Findings, gaps_of_the_record) {
  EXPECT_THAT(rules_after([](RightHouse& r) { r.at(r.furnace).amps = 0; }), Contains("rating_not_read"));
  EXPECT_THAT(rules_after([](RightHouse& r) { r.circuit(22, 15, Protection::plain); }), Contains("nothing_found_on"));
  EXPECT_THAT(rules_after([](RightHouse& r) { r.at(r.circuit(22, 15, Protection::plain)).old_label = "spare"; }), testing::IsEmpty());
  EXPECT_THAT(rules_after([](RightHouse& r) { r.at(r.furnace).space = 8; }), Contains("record_contradicts"));
}

TEST(Findings, what_was_not_checked_is_said) {
  RightHouse right;
  right.circuit_of(right.counter).wire = "2.5 mm2";
  right.point({}, right.living, "receptacle 9");
  const auto sub = right.panel("Garage panel", right.garage, 8);
  row(right.house, sub).supply = Supply::breaker, row(right.house, sub).feeder = right.dryer;
  const auto made = rule_findings({right.house, declared_feeds(right.house), {}});
  EXPECT_THAT(made.not_checked, Contains(HasSubstr("size of the wire is not recorded for 1 breaker")));
  EXPECT_THAT(made.not_checked, Contains(HasSubstr("1 point is not traced")));
  EXPECT_THAT(made.not_checked, Contains(HasSubstr("neutral and ground are apart in Garage panel")));
  EXPECT_THAT(made.not_checked, Contains(HasSubstr("ohmstead print --stale")));
}

TEST(Findings, trips_often) {
  const auto with_trips = [](std::vector<const char*> moments, bool last_withdrawn = false) {
    return rules_after([&](RightHouse& r) {
      for (const char* at : moments) r.house.trips.push_back({r.next<Trip>(), {HandleKind::breaker, (at == moments[0] ? r.shared_a : r.shared_b).value}, at, "", "heater"});
      r.house.trips.back().withdrawn = last_withdrawn;
    });
  };
  const std::vector<const char*> three = {"2026-01-01T08:00:00Z", "2026-02-01T08:00:00Z", "2026-04-01T08:00:00Z"};
  EXPECT_THAT(with_trips(three), testing::ElementsAre("trips_often"));  // two handles of one tie
  EXPECT_THAT(with_trips({"2026-01-01T08:00:00Z", "2026-02-01T08:00:00Z", "2026-04-01T08:00:01Z"}), testing::IsEmpty());  // a second more than 90 days
  EXPECT_THAT(with_trips(three, true), testing::IsEmpty());
  EXPECT_THAT(with_trips({"2026-01-01T08:00:00Z", "2026-02-01T08:00:00Z"}), testing::IsEmpty());
}

}  // namespace
}  // namespace ohmstead
