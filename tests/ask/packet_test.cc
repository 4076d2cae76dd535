// What the electrician's packet says of a house.
#include "ask/packet.h"

#include <gmock/gmock.h>

#include <algorithm>

#include "ask/paper_names.h"
#include "house/invariants.h"
#include "tests/support/random_house.h"
#include "tests/support/traced_sample.h"

namespace ohmstead {
namespace {

using testing::Contains;
using testing::HasSubstr;

std::string value_of(const Packet& packet, const std::string& name) {
  const auto found = std::ranges::find(packet.cover, name, &PacketFact::name);
  return found == packet.cover.end() ? "missing" : found->value;
}

std::string all_findings(const Packet& packet, bool urgent_only = false) {
  std::string all;
  for (const PacketFinding& finding : packet.findings)
    if (finding.urgent || !urgent_only) all += finding.text + " [" + finding.rule + "]\n";
  return all;
}

TEST(Packet, the_cover_counts_every_standing) {
  Record record = traced_sample();
  std::size_t made_likely = 0;
  for (Feed& feed : record.feeds.of_point)
    if (feed.standing == Standing::proved && made_likely < 3) feed.standing = Standing::likely, ++made_likely;
  const Packet made = packet(record, 7, {});
  const auto count = [&](Standing standing) { return static_cast<long>(std::ranges::count(record.feeds.of_point, standing, &Feed::standing)); };
  EXPECT_THAT(value_of(made, "Proved"), testing::StartsWith(std::to_string(count(Standing::proved)) + ":"));
  EXPECT_THAT(value_of(made, "Likely"), testing::StartsWith("3:"));
  EXPECT_THAT(value_of(made, "Open"), testing::StartsWith(std::to_string(count(Standing::open)) + ":"));
  EXPECT_EQ(value_of(made, "Revision"), "7");
  EXPECT_THAT(value_of(made, "Points"), HasSubstr(std::to_string(record.house.points.size()) + " points"));
  EXPECT_EQ(made.points.size(), record.house.points.size());
  EXPECT_EQ(std::ranges::count(made.points, "likely", &PacketPoint::standing), 3);
}

/// Every point was looked at but those downstream of a GFCI.
Record looked_at_sample() {
  Record record = traced_sample();
  House& house = record.house;
  for (std::size_t p = 0; p < house.points.size(); ++p) {
    const auto device = std::ranges::find(house.devices, house.points[p].behind, &Device::id);
    if (device != house.devices.end() && device->kind == DeviceKind::gfci_receptacle && device->at_point != house.points[p].id) continue;
    Observation seen;
    seen.id = Id<Observation>{1000 + p}, seen.point = house.points[p].id, seen.seen = Seen::dead, seen.at = "2026-11-25T09:30:00Z";
    house.observations.push_back(seen);
  }
  return record;
}

TEST(Packet, points_that_nobody_looked_at_are_counted_apart) {
  const Packet made = packet(looked_at_sample(), 7, {});
  std::size_t proved = 0, unseen = 0;
  for (const PacketPoint& point : made.points) {
    if (point.standing != "proved") continue;
    ++proved;
    EXPECT_EQ(point.by, point.dead > 0 ? "" : "its GFCI") << point.room << " " << point.point;
    if (point.dead == 0) ++unseen;
  }
  ASSERT_GT(unseen, 0U);
  EXPECT_EQ(value_of(made, "Proved"), std::to_string(proved) + ": " + std::to_string(proved - unseen) + " seen dead with exactly their breaker off, and live with it on; " + std::to_string(unseen) +
                                          " with no look of their own, proved by the looks at their GFCI");
}

TEST(Packet, gfci_chains_name_what_is_downstream_in_other_rooms_too) {
  const Packet made = packet(traced_sample(), 1, {});
  const auto chain = std::ranges::find_if(made.chains, [](const PacketGroup& group) { return group.head.starts_with("GFCI at Upper bath"); });
  ASSERT_NE(chain, made.chains.end());
  EXPECT_THAT(chain->head, HasSubstr("on Main 5"));
  EXPECT_THAT(chain->items, testing::UnorderedElementsAre("downstream: Upper bath: receptacle 1", "downstream: Lower bath: receptacle 1"));
}

TEST(Packet, shared_neutrals_say_leg_rating_and_whether_the_handles_are_tied) {
  const Packet made = packet(traced_sample(), 1, {});
  ASSERT_EQ(made.shared.size(), 2U);
  EXPECT_EQ(made.shared[0].head, "Main 9 and Main 11 share one neutral; they open together.");
  EXPECT_THAT(made.shared[0].items, testing::ElementsAre("Main 9: leg 1, 20 A", "Main 11: leg 2, 20 A"));
  EXPECT_THAT(made.shared[1].head, HasSubstr("Main 13-15 feeds both legs with one neutral"));
}

constexpr const char* kHall = "Hall: 2r, 1l\n";

TEST(PacketFindings, wire_that_is_too_small_for_its_breaker) {
  for (const auto& [breaker, bad] : {std::pair{"1 20 wire 14", true}, {"1 15 wire 14", false}, {"1 25 wire 12", true}, {"1 20 wire 12", false}, {"1 40 wire 10", true}, {"1 30 wire 10", false}, {"1 60 wire 8", false}}) {
    const Packet made = packet(entered_record(std::string(kHall) + "Panel Main in Hall 8 spaces: " + breaker + "\n"), 1, {});
    EXPECT_EQ(all_findings(made, true).find("240.4(D)") != std::string::npos, bad) << breaker;
  }
}

TEST(PacketFindings, a_backfed_breaker_without_an_interlock_comes_first) {
  Record record = entered_record(std::string(kHall) + "Generator G 3000 W 120/240\nPanel Main in Hall 8 spaces, 100 A main: 1+3 30 backfed from G, interlocked; 5 15\n");
  EXPECT_THAT(all_findings(packet(record, 1, {})), testing::Not(HasSubstr("702.5")));
  record.house.interlocks.clear();
  const Packet made = packet(record, 1, {});
  EXPECT_TRUE(made.findings.at(0).urgent);
  EXPECT_THAT(made.findings[0].text, HasSubstr("Main 1-3 is fed backwards"));
}

TEST(PacketFindings, shared_neutrals_untied_on_one_leg_or_half_on_a_position) {
  Record record = entered_record(std::string(kHall) + "Generator G 3000 W 120/240\nPanel Main in Hall 8 spaces: 1,3 tied 20 mwbc; 5 15\nTransfer T in Hall 2 positions from G: 1 15; 2 15\n");
  EXPECT_THAT(all_findings(packet(record, 1, {}), true), testing::IsEmpty());
  Record untied = record;
  for (Breaker& breaker : untied.house.breakers) breaker.tie = {};
  EXPECT_THAT(all_findings(packet(untied, 1, {}), true), HasSubstr("210.4(B)"));
  Record half = record;
  half.house.positions[0].breaker = half.house.breakers[0].id;
  EXPECT_THAT(all_findings(packet(half, 1, {}), true), HasSubstr("only one of them can be moved to the source"));
  Record one_leg = record;
  one_leg.house.breakers[1].space = 5, one_leg.house.breakers[2].space = 7;
  EXPECT_THAT(all_findings(packet(one_leg, 1, {}), true), HasSubstr("are on one leg"));
}

TEST(PacketFindings, one_120_volt_output_and_a_shared_neutral) {
  Record record = entered_record(std::string(kHall) + "Generator G 3000 W 120/240\nPanel Main in Hall 8 spaces: 1,3 tied 20 mwbc; 5 15\nTransfer T in Hall 2 positions from G: 1 15 L1 <- Main 1; 2 15 L2 <- Main 3\n");
  EXPECT_THAT(all_findings(packet(record, 1, {})), testing::Not(HasSubstr("710.15(C)")));
  record.house.sources[0].output = SourceOutput::one_120_both_legs;
  EXPECT_THAT(all_findings(packet(record, 1, {}), true), HasSubstr("710.15(C)"));
}

TEST(PacketFindings, a_position_that_protects_at_more_than_the_breaker) {
  Record record = entered_record(std::string(kHall) + "Generator G 3000 W 120/240\nPanel Main in Hall 8 spaces: 1 15; 5 20\nTransfer T in Hall 2 positions from G: 1 20 <- Main 1; 2 15 <- Main 5\n");
  const std::string found = all_findings(packet(record, 1, {}), true);
  EXPECT_THAT(found, HasSubstr("Transfer device 'T', position 1, has a breaker of 20 A and carries Main 1 of 15 A"));
  EXPECT_THAT(found, testing::Not(HasSubstr("position 2")));
}

TEST(PacketFindings, words_of_the_old_directory_without_persons) {
  const Record record = entered_record(std::string(kHall) + "Panel Main in Hall 8 spaces: 1 15 lights; 3 15 Bob's sauna; 5 15 Ana; 7 15 Ana\n");
  const std::string found = all_findings(packet(record, 1, {}));
  EXPECT_THAT(found, HasSubstr("Main 1 is called 'lights'"));
  EXPECT_THAT(found, testing::Not(testing::AnyOf(HasSubstr("Bob"), HasSubstr("Ana"), HasSubstr("No words of a directory"))));
}

TEST(PacketFindings, do_not_hang_on_what_was_printed) {
  Record record = entered_record(std::string(kHall) + "Generator G 3000 W 120/240\nPanel Main in Hall 8 spaces: 1 15 lights; 3 15\n");
  const std::string before = all_findings(packet(record, 1, {}));
  for (const std::string& item : {"directory:" + record.house.panels[0].id.text(), std::string("paper:signs"), std::string("paper:packet")})
    record.house.printed.push_back({.id = Id<Printed>::fresh(), .item = item, .name = item});
  EXPECT_EQ(all_findings(packet(record, 1, {})), before);
  EXPECT_THAT(before, HasSubstr("'lights'"));
}

TEST(Packet, history_puts_steps_of_tracing_together_and_keeps_the_rest) {
  const std::vector<RecordedChange> changes{{1, "2026-11-25T09:00:00Z", "create"}, {2, "2026-11-25T09:10:00Z", "Opened breaker 5 in Main"}, {3, "2026-11-25T09:11:00Z", "Hall, light: seen dead"},
                                            {4, "2026-11-26T09:00:00Z", "Closed breaker 5 in Main"}, {5, "2026-11-26T10:00:00Z", "wishes for an outage"}, {6, "2026-11-26T10:05:00Z", "wishes for an outage"}};
  const Packet made = packet(entered_record(kHall), 6, changes);
  EXPECT_THAT(made.history, testing::ElementsAre("2026-11-25, revision 1: create", "2026-11-25, revision 2 to 3: steps of tracing (2 changes)", "2026-11-26, revision 4: Closed breaker 5 in Main",
                                                 "2026-11-26, revision 5 to 6: wishes for an outage (2 changes)"));
  EXPECT_THAT(packet(entered_record(kHall), 6, {}).history.at(0), HasSubstr("No list of changes came with this record. It is revision 6."));
}

TEST(PaperNames, no_person_is_left_and_points_of_a_room_keep_names_of_their_own) {
  Record record = entered_record("Hall: 3r, 1l\nPanel Main in Hall 8 spaces: 1 20 Bob's sauna\n");
  record.house.rooms[0].name = "Ana's room";
  record.house.points[0].name = "Ana's lamp", record.house.points[1].name = "Bob's lamp", record.house.points[2].name = "?;";
  const House named = with_paper_names(record).house;
  for (const std::string& name : {named.rooms[0].name, named.points[0].name, named.points[1].name, named.breakers[0].old_label})
    EXPECT_THAT(name, testing::Not(testing::AnyOf(HasSubstr("Ana"), HasSubstr("Bob")))) << name;
  EXPECT_NE(named.points[0].name, named.points[1].name);
  EXPECT_FALSE(named.points[2].name.empty());
}

TEST(PaperNames, random_houses_stay_sound_and_keep_their_feeds) {
  for (std::uint64_t seed = 0; seed < 40; ++seed) {
    const Record record = make_record(random_house(seed, 3));
    const Record named = with_paper_names(record);
    EXPECT_TRUE(problems_of(named.house).empty()) << seed << ": " << problems_of(named.house).front().message;
    EXPECT_EQ(named.feeds, record.feeds);
  }
}

}  // namespace
}  // namespace ohmstead
