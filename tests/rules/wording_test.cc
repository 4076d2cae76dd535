#include "rules/wording.h"

#include <gmock/gmock.h>

#include <random>
#include <set>

#include "house/numbering.h"
#include "rules/plain_words.h"
#include "tests/print/house_maker.h"

namespace ohmstead {
namespace {

using test::HouseMaker;

constexpr auto kLight = PointKind::light;
constexpr auto kAppliance = PointKind::appliance;

/// One panel of 12 spaces with one breaker in space 1, in a house of two floors.
struct Small : HouseMaker {
  Id<Floor> ground = floor("Ground floor", 0), upper = floor("Upper floor", 1);
  Id<Room> kitchen = room("Kitchen", ground), hall = room("Hall", ground), bath = room("Bath", upper), bed = room("NE bedroom", upper);
  Id<Panel> main = panel("Main", hall, 12);
  Id<Breaker> first = breaker(main, 1);

  [[nodiscard]] std::string text(Id<Breaker> of) const { return circuit_description(house, declared_feeds(house), of); }
};

TEST(Wording, rooms_and_uses_in_permanent_words) {
  Small s;
  s.points(s.first, s.kitchen, 3, "counter receptacle");
  s.point(s.first, s.kitchen, "dishwasher", kAppliance);
  EXPECT_EQ(s.text(s.first), "Kitchen counter receptacles, dishwasher");
}

TEST(Wording, rooms_with_the_same_uses_are_named_together) {
  Small s;
  s.points(s.first, s.hall, 1, "ceiling light", kLight), s.points(s.first, s.bath, 1, "ceiling light", kLight);
  EXPECT_EQ(s.text(s.first), "Hall & Bath ceiling lights");
}

TEST(Wording, a_plugged_in_load_that_matters_is_named_in_place_of_its_receptacle) {
  Small s;
  s.load(s.point(s.first, s.bed, "receptacle 1"), "Oxygen concentrator", Importance::life_safety);
  s.load(s.point(s.first, s.bed, "receptacle 2"), "lamp");
  EXPECT_EQ(s.text(s.first), "NE bedroom oxygen concentrator, receptacle");
}

TEST(Wording, halves_of_a_split_receptacle) {
  Small s;
  const auto second = s.breaker(s.main, 3);
  const auto upper = s.point(s.first, s.bed, "receptacle 1 upper"), lower = s.point(second, s.bed, "receptacle 1 lower");
  row(s.house, upper).half = ReceptacleHalf::upper, row(s.house, upper).mate = lower;
  row(s.house, lower).half = ReceptacleHalf::lower, row(s.house, lower).mate = upper;
  EXPECT_EQ(s.text(s.first), "NE bedroom upper-half receptacle");
  EXPECT_EQ(s.text(second), "NE bedroom lower-half receptacle");
  s.house.declared_feeds.back().breaker = s.first;
  EXPECT_EQ(s.text(s.first), "NE bedroom receptacle");
}

TEST(Wording, too_long_for_the_card_is_said_shorter_not_cut) {
  Small s;
  s.points(s.first, s.kitchen, 2, "ceiling light", kLight), s.points(s.first, s.hall, 1, "ceiling light", kLight);
  s.points(s.first, s.bath, 1, "vanity light", kLight), s.points(s.first, s.bed, 1, "reading light", kLight);
  s.point({}, s.bath, "night light", kLight);  // so that not all lights of the floor are on it
  EXPECT_EQ(s.text(s.first), "Kitchen, Hall, Bath & NE bedroom lights");
}

TEST(Wording, one_room_is_not_rooms) {
  Small s;
  const auto den = s.room("Den and music library", s.ground);
  for (const char* name : {"reading light", "piano light", "shelf light"}) s.point(s.first, den, name, kLight);
  s.point(s.first, den, "harpsichord", kAppliance), s.point(s.first, den, "humidifier", kAppliance), s.point({}, den, "clock", kAppliance);
  EXPECT_EQ(s.text(s.first), "Lights, 2 appliances in Den and music library");
}

TEST(Wording, of_many_uses_in_many_rooms_the_first_room_is_still_named) {
  Small s;
  s.points(s.first, s.kitchen, 3, "ceiling light", kLight), s.point(s.first, s.kitchen, "range hood", kAppliance);
  s.point(s.first, s.hall, "light", kLight), s.point(s.first, s.hall, "doorbell", kAppliance);
  s.point(s.first, s.bath, "light", kLight), s.point(s.first, s.bath, "fan", PointKind::fan), s.point({}, s.bath, "night light", kLight);
  s.point({}, s.kitchen, "range", kAppliance), s.point({}, s.hall, "night light", kLight);
  EXPECT_EQ(s.text(s.first), "Lights in Kitchen, 2 more rooms; fan, 2 appliances");
}

TEST(Wording, a_gfci_receptacle_among_others_is_one_of_the_receptacles) {
  Small s;
  const auto second = s.breaker(s.main, 3);
  s.point(s.first, s.kitchen, "GFCI receptacle"), s.points(s.first, s.kitchen, 2, "receptacle");
  s.point(second, s.bath, "GFCI receptacle");
  EXPECT_EQ(s.text(s.first), "Kitchen receptacles");
  EXPECT_EQ(s.text(second), "Bath GFCI receptacle");
}

TEST(Wording, the_place_of_one_point_is_not_said_of_all) {
  Small s;
  const auto second = s.breaker(s.main, 3);
  s.points(s.first, s.kitchen, 2, "receptacle"), s.points(second, s.kitchen, 2, "receptacle");
  s.house.points.front().place = "left of the sink";
  EXPECT_EQ(s.text(s.first), "Kitchen receptacles 1, 2");
}

TEST(Wording, whole_rooms_and_whole_floors) {
  Small s;
  const auto laundry = s.room("Laundry and mud room", s.ground);
  s.points(s.first, laundry, 2, "receptacle"), s.points(s.first, laundry, 2, "light", kLight), s.point(s.first, laundry, "ironing board heater", kAppliance);
  EXPECT_EQ(s.text(s.first), "All of Laundry and mud room");
  Small t;
  for (const char* name : {"Great living room", "Formal dining room", "Sewing room"}) t.points(t.first, t.room(name, t.ground), 2, "light", kLight);
  t.point({}, t.hall, "doorbell", kAppliance);
  EXPECT_EQ(t.text(t.first), "All Ground floor lights");
  t.point({}, t.hall, "light 9", kLight);  // one light of the floor is elsewhere: not all any more
  EXPECT_EQ(t.text(t.first), "Lights in Great living room, 2 more rooms");
}

TEST(Wording, what_is_not_established_carries_a_question_mark) {
  Small s;
  s.point(s.first, s.kitchen, "dishwasher", kAppliance), s.point(s.first, s.kitchen, "disposal", kAppliance);
  Feeds feeds = declared_feeds(s.house);
  for (const Standing standing : {Standing::likely, Standing::open, Standing::disputed}) {
    feeds.of_point[1].standing = standing;
    EXPECT_EQ(circuit_description(s.house, feeds, s.first), "Kitchen dishwasher, disposal?");
    EXPECT_TRUE(panel_words(s.house, feeds, s.main)[0].uncertain);
  }
  feeds.of_point[1].standing = Standing::proved;
  EXPECT_EQ(circuit_description(s.house, feeds, s.first), "Kitchen dishwasher, disposal");
}

// An unused breaker is described as such: NFPA 70 408.4(A). The word SPARE is common practice, no source.
TEST(Wording, spare_only_where_the_record_says_that_nothing_is_on_it) {
  Small s;
  const auto idle = s.breaker(s.main, 3);
  EXPECT_EQ(s.text(idle), "? not traced yet") << "a house with no points says nothing about a breaker";
  s.point(s.first, s.kitchen, "dishwasher", kAppliance);
  EXPECT_EQ(s.text(idle), "SPARE");
  const auto open = s.point({}, s.hall, "receptacle 1");
  EXPECT_EQ(s.text(idle), "? not traced yet") << "the open point may be on it";
  s.house.rounds.push_back({s.next<Round>()});
  s.house.opened.push_back({s.next<Opened>(), s.house.rounds[0].id, {HandleKind::breaker, idle.value}});
  s.house.observations.push_back({s.next<Observation>(), s.house.rounds[0].id, open, Seen::live});
  EXPECT_EQ(s.text(idle), "SPARE") << "seen live while it was open";
  s.house.observations.back().withdrawn = true;
  EXPECT_EQ(s.text(idle), "? not traced yet");
  s.house.observations.back().withdrawn = false;
  Circuit circuit;
  circuit.id = s.next<Circuit>(), circuit.breaker = idle;
  s.house.circuits.push_back(circuit);
  EXPECT_EQ(s.text(idle), "? nothing found yet") << "a wire is known to leave it";
}

TEST(Wording, a_breaker_that_was_looked_for_in_vain_is_not_called_untraced) {
  Small s;
  const auto idle = s.breaker(s.main, 3), other = s.breaker(s.main, 5);
  s.point(s.first, s.kitchen, "dishwasher", kAppliance);
  const auto stray = s.point({}, s.hall, "receptacle 1");
  s.house.rounds.push_back({s.next<Round>()});
  s.house.opened.push_back({s.next<Opened>(), s.house.rounds[0].id, {HandleKind::breaker, other.value}});
  s.house.observations.push_back({s.next<Observation>(), s.house.rounds[0].id, stray, Seen::dead});
  EXPECT_EQ(s.text(idle), "? nothing found yet") << "the only point left was never seen live, so no opening could tell";
  EXPECT_EQ(s.text(other), "? nothing found yet") << "it was open while that point was looked at";
  s.house.observations.push_back({s.next<Observation>(), s.house.rounds[0].id, stray, Seen::live});
  EXPECT_EQ(s.text(idle), "? not traced yet") << "the point has power at times, so this breaker can still be tried";
  s.house.observations.clear();
  EXPECT_EQ(s.text(other), "? not traced yet") << "nobody looked";
}

TEST(Wording, feeders_name_the_panel_they_feed) {
  Small s;
  const auto feeder = s.breaker(s.main, 2, 2, 60);
  const auto shop = s.panel("Workshop", s.room("Garage", s.ground), 8);
  row(s.house, shop).supply = Supply::breaker, row(s.house, shop).feeder = feeder;
  EXPECT_EQ(s.text(feeder), "Subpanel 'Workshop' in Garage");
  s.points(feeder, s.kitchen, 2, "receptacle");
  EXPECT_EQ(s.text(feeder), "Subpanel 'Workshop'; Kitchen receptacles");
  row(s.house, s.panel("Shed", s.hall, 4)).supply = Supply::breaker;
  s.house.panels.back().feeder = feeder;
  EXPECT_EQ(s.text(feeder), "Subpanels 'Workshop', 'Shed'; Kitchen receptacles");
}

TEST(Wording, an_inlet_says_what_must_be_off_first) {
  Small s;
  const auto inlet = s.breaker(s.main, 2, 2, 30);
  s.house.sources.push_back({s.next<Source>(), "Somebody's generator"});
  row(s.house, inlet).backfed_from = s.house.sources[0].id;
  EXPECT_EQ(s.text(inlet), "INLET from generator: keep OFF on utility");
  s.house.interlocks.push_back({s.next<Interlock>(), {HandleKind::main, s.main.value}, {HandleKind::breaker, inlet.value}});
  EXPECT_EQ(s.text(inlet), "INLET from generator: keep OFF unless main is OFF");
  const auto other = s.breaker(s.main, 9, 2, 30);
  row(s.house, other).backfed_from = s.house.sources[0].id;
  s.house.interlocks.push_back({s.next<Interlock>(), {HandleKind::breaker, other.value}, {HandleKind::main, s.main.value}});
  EXPECT_EQ(s.text(inlet), "INLET from generator: keep OFF (no. 2-4)");
  EXPECT_EQ(s.text(other), "INLET from generator: keep OFF (no. 9-11)");
}

TEST(Wording, transfer_positions_are_marked_by_letter_and_number) {
  Small s;
  s.house.sources.push_back({s.next<Source>(), "Generator"});
  s.house.sources.push_back({s.next<Source>(), "Battery", SourceKind::battery_inverter});
  for (const auto source : {0u, 1u, 0u})
    s.house.transfer_devices.push_back({s.next<TransferDevice>(), "T", s.hall, TransferKind::circuits, s.house.sources[source].id});
  const auto pump = s.breaker(s.main, 2, 2, 30);
  for (const int pole : {1, 2}) s.house.positions.push_back({s.next<Position>(), s.house.transfer_devices[0].id, 2 + pole, 20, pole, {}, pump, pole});
  s.house.positions.push_back({s.next<Position>(), s.house.transfer_devices[1].id, 7, 20, 1, {}, s.first, 1});
  const auto words = panel_words(s.house, declared_feeds(s.house), s.main);
  EXPECT_EQ(words[0].mark, "B7");
  EXPECT_EQ(words[1].mark, "G3-4");
  EXPECT_EQ(mark_letter(s.house, s.house.transfer_devices[2].id), 'H');
}

// Each circuit is told from all others of the panel: NFPA 70 408.4(A).
TEST(Wording, equal_circuits_are_told_apart_by_place_then_number_then_breaker) {
  Small s;
  const auto second = s.breaker(s.main, 3), third = s.breaker(s.main, 5), fourth = s.breaker(s.main, 7);
  row(s.house, s.point(s.first, s.kitchen, "receptacle 1")).place = "left of the sink";
  row(s.house, s.point(second, s.kitchen, "receptacle 2")).place = "right of the sink";
  s.point(third, s.hall, "receptacle 1"), s.point(fourth, s.hall, "receptacle 2");
  EXPECT_EQ(s.text(s.first), "Kitchen receptacle (left of the sink)");
  EXPECT_EQ(s.text(second), "Kitchen receptacle (right of the sink)");
  EXPECT_EQ(s.text(third), "Hall receptacle 1");
  EXPECT_EQ(s.text(fourth), "Hall receptacle 2");
  const auto fifth = s.breaker(s.main, 2), sixth = s.breaker(s.main, 4);
  s.point(fifth, s.bath, "heater", kAppliance), s.point(sixth, s.bath, "Heater", kAppliance);
  EXPECT_EQ(s.text(fifth), "Bath heater (no. 2)");
  EXPECT_EQ(s.text(sixth), "Bath heater (no. 4)");
}

TEST(Wording, no_such_breaker_is_refused) {
  Small s;
  EXPECT_THROW((void)s.text(Id<Breaker>{12345}), Error);
}

/// Names as a stranger's file may hold them.
std::string hostile_name(std::mt19937& random) {
  static const std::vector<std::string> kParts{"Kitchen", " Bob's ", "\x1b[2J", "\xFF\xFE", "\u05E9\u05DC\u05D5\u05DD", "\u53A8\u623F", "receptacle",
                                               "&", "?", ";", ":", "a", "upper", "12", std::string(300, 'w'), "", "\n", "light"};
  std::string name;
  for (std::size_t i = random() % 6; i > 0; --i) name += kParts[random() % kParts.size()] + (random() % 3 == 0 ? "" : " ");
  return name;
}

void check_words(const House& house, const std::vector<CircuitWords>& words) {
  std::set<std::string> seen;
  for (const CircuitWords& one : words) {
    EXPECT_EQ(one.text, printable(one.text));
    EXPECT_GE(character_count(one.text), 1u);
    EXPECT_LE(character_count(one.text), kLongestDescription) << one.text;
    EXPECT_EQ(one.text.find("Bob"), std::string::npos) << one.text;
    const bool may_repeat = one.use == CircuitUse::spare || one.use == CircuitUse::not_traced;
    EXPECT_TRUE(may_repeat || seen.insert(one.text).second) << one.text << " twice in " << house.panels[0].name;
  }
}

TEST(Wording, random_houses_with_hostile_names_keep_every_promise) {
  for (unsigned seed = 0; seed < 300; ++seed) {
    std::mt19937 random(seed);
    HouseMaker m;
    const auto floor = m.floor(hostile_name(random), 0);
    std::vector<Id<Room>> rooms;
    for (std::size_t i = 0; i < 1 + random() % 8; ++i) rooms.push_back(m.room(hostile_name(random), floor));
    const auto panel = m.panel(hostile_name(random), rooms[0], 12);
    std::vector<Id<Breaker>> breakers;
    for (int space = 1; space <= 12; ++space) breakers.push_back(m.breaker(panel, space));
    for (std::size_t i = random() % 60; i > 0; --i)
      m.point(breakers[random() % breakers.size()], rooms[random() % rooms.size()], hostile_name(random), static_cast<PointKind>(random() % 6));
    Feeds feeds = declared_feeds(m.house);
    for (Feed& feed : feeds.of_point) feed.standing = static_cast<Standing>(random() % 5);
    check_words(m.house, panel_words(m.house, feeds, panel));
  }
}

}  // namespace
}  // namespace ohmstead
