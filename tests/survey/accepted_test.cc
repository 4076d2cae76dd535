// Lines that are accepted, and what they make.

#include <gmock/gmock.h>

#include <algorithm>

#include "house/index.h"
#include "house/invariants.h"
#include "house/numbering.h"
#include "survey/entry.h"

namespace ohmstead {
namespace {

using testing::ElementsAre;

House entered(const std::string& text) { return enter_text(House{}, text).house; }

std::vector<std::string> point_names(const House& house) {
  std::vector<std::string> names;
  for (const Point& point : house.points) names.push_back(point.name);
  return names;
}

const Point& point(const House& house, const std::string& name) {
  for (const Point& one : house.points)
    if (one.name == name) return one;
  throw std::runtime_error("no point " + name);
}

const Load& load_at(const House& house, const std::string& name) {
  for (const Load& load : house.loads)
    if (load.point == point(house, name).id) return load;
  throw std::runtime_error("no load at " + name);
}

std::string room_of(const House& house, Id<Room> room) { return row(house, room).name; }

struct Naming {
  const char* items;
  std::vector<std::string> names;
};

TEST(EnterRoom, names_points_in_order) {
  const Naming cases[] = {
      {"2 receptacles, light", {"receptacle 1", "receptacle 2", "light"}},
      {"2r 1l", {"receptacle 1", "receptacle 2", "light"}},
      {"2r,2l", {"receptacle 1", "receptacle 2", "light 1", "light 2"}},
      {"1 receptacle", {"receptacle 1"}},
      {"a light, 1 light", {"light", "light 2"}},
      {"two outlets", {"receptacle 1", "receptacle 2"}},
      {"010 plugs", {"receptacle 1", "receptacle 2", "receptacle 3", "receptacle 4", "receptacle 5", "receptacle 6",
                     "receptacle 7", "receptacle 8", "receptacle 9", "receptacle 10"}},
      {"2 counter receptacles, 1 counter receptacle", {"counter receptacle 1", "counter receptacle 2", "counter receptacle 3"}},
      {"receptacle 7, receptacles 2-3", {"receptacle 7", "receptacle 2", "receptacle 3"}},
      {"light \"porch lamp\"", {"porch lamp"}},
      {"Fridge, DW, 1sa, 1co", {"refrigerator", "dishwasher", "smoke alarm", "CO alarm"}},
      {"kiln 5 kW 240 V", {"kiln"}},
      {"split receptacle", {"receptacle 1 upper", "receptacle 1 lower"}},
      {"1sp 1hh", {"receptacle 1 upper", "receptacle 1 lower", "receptacle 2 upper", "receptacle 2 lower"}},
      {"gfci, gfci", {"GFCI receptacle", "GFCI receptacle 2"}},
      {"1g+2", {"GFCI receptacle", "receptacle 1", "receptacle 2"}},
      {"1r2l1sa", {"receptacle 1", "light 1", "light 2", "smoke alarm"}},
      {"=bath + heater 1500 W", {"GFCI receptacle", "light", "bath fan", "heater"}},
      {"=bedroom, no smoke alarm", {"receptacle 1", "receptacle 2", "receptacle 3", "receptacle 4", "light"}},
      {"light at the far, receptacle by the door", {"light", "receptacle 1"}},
      {"range hood, range", {"range hood", "range"}},
  };
  for (const Naming& c : cases) {
    SCOPED_TRACE(c.items);
    EXPECT_EQ(point_names(entered(std::string("Den: ") + c.items)), c.names);
  }
}

struct OneMark {
  const char* item;
  const char* name;
  std::optional<int> running, starting;
  int hots;
  Importance importance;
  bool hurt;
  FigureBasis basis;
};

TEST(EnterRoom, marks_give_the_load_its_figures) {
  using enum Importance;
  const OneMark cases[] = {
      {"kiln 5 kW 240 V", "kiln", 5000, {}, 2, normal, false, FigureBasis::guess},
      {"kiln 1.25kW nameplate", "kiln", 1250, {}, 1, normal, false, FigureBasis::nameplate},
      {"well pump 750/2200 W measured !", "well pump", 750, 2200, 2, high, false, FigureBasis::measured},
      {"freezer", "freezer", 120, 500, 1, high, true, FigureBasis::table},
      {"freezer 90 W low", "freezer", 90, {}, 1, low, true, FigureBasis::guess},
      {"server hurt !!", "server", 200, {}, 1, life_safety, true, FigureBasis::table},
      {"heater 1500 W 240 V", "heater", 1500, {}, 2, normal, false, FigureBasis::guess},
      {"gas range", "gas range", 100, {}, 1, normal, false, FigureBasis::table},
      {"water heater 120 V", "water heater", 4500, {}, 1, normal, false, FigureBasis::table},
      {"smoke alarm", "smoke alarm", {}, {}, 1, life_safety, false, FigureBasis::guess},
      {"oxygen concentrator life safety", "oxygen concentrator", 350, {}, 1, life_safety, true, FigureBasis::table},
  };
  for (const OneMark& c : cases) {
    SCOPED_TRACE(c.item);
    const House house = entered(std::string("Den: ") + c.item);
    const Load& load = load_at(house, c.name);
    EXPECT_EQ(load.running_watts, c.running);
    EXPECT_EQ(load.starting_watts, c.starting);
    EXPECT_EQ(point(house, c.name).hots, c.hots);
    EXPECT_EQ(load.importance, c.importance);
    EXPECT_EQ(load.hurt_by_power_loss, c.hurt);
    EXPECT_EQ(load.basis, c.basis);
  }
}

TEST(EnterRoom, what_is_plugged_in_is_a_load_of_the_receptacle) {
  const House house = entered("Den: receptacle with television and lamp 15 W 30% hurt by the door, light at the wall 9 W");
  ASSERT_EQ(house.loads.size(), 3U);
  EXPECT_EQ(house.loads[0].name, "television");
  EXPECT_EQ(house.loads[1].name, "light");
  EXPECT_EQ(house.loads[1].duty_percent, 30);
  EXPECT_TRUE(house.loads[1].hurt_by_power_loss);
  EXPECT_EQ(house.loads[0].point, house.points[0].id);
  EXPECT_EQ(house.points[0].place, "by the door");
  EXPECT_EQ(house.points[1].place, "at the wall");
}

TEST(EnterRoom, switches_stand_before_their_points) {
  const House house = entered("Hall: 2 lights on 3-way from here and Stair, fan sw, light on switch \"east\", fan on switch \"east\"\nStair:\n");
  ASSERT_EQ(house.devices.size(), 3U);
  ASSERT_EQ(house.handles.size(), 4U);
  EXPECT_EQ(room_of(house, house.handles[0].room), "Hall");
  EXPECT_EQ(room_of(house, house.handles[1].room), "Stair");
  EXPECT_EQ(house.points[0].behind, house.devices[0].id);
  EXPECT_EQ(house.points[1].behind, house.devices[0].id);
  EXPECT_EQ(house.points[2].behind, house.devices[1].id);
  EXPECT_EQ(house.points[3].behind, house.devices[2].id);
  EXPECT_EQ(house.points[4].behind, house.devices[2].id);
  EXPECT_EQ(house.devices[2].name, "east");
}

TEST(EnterRoom, gfci_protects_its_own_face_and_what_is_downstream) {
  const House house = entered("Bath: gfci + 1 downstream + 2 in Porch\nPorch: light\nGarage: 2r behind Bath gfci");
  ASSERT_EQ(house.devices.size(), 1U);
  EXPECT_EQ(house.devices[0].kind, DeviceKind::gfci_receptacle);
  EXPECT_EQ(house.devices[0].at_point, point(house, "GFCI receptacle").id);
  int downstream = 0;
  for (const Point& one : house.points) downstream += one.behind == house.devices[0].id ? 1 : 0;
  EXPECT_EQ(downstream, 6);
  EXPECT_FALSE(point(house, "light").behind);
}

TEST(EnterRoom, only_one_half_of_a_half_hot_receptacle_is_switched) {
  for (const auto& [item, upper_switched] : {std::pair{"half-hot receptacle", true}, std::pair{"receptacle half-hot lower", false}}) {
    const House house = entered(std::string("Den: ") + item);
    ASSERT_EQ(house.points.size(), 2U);
    EXPECT_EQ(bool(house.points[0].behind), upper_switched);
    EXPECT_EQ(bool(house.points[1].behind), !upper_switched);
    EXPECT_EQ(house.points[0].mate, house.points[1].id);
    EXPECT_EQ(house.points[0].box, house.points[1].box);
  }
}

TEST(EnterRoom, short_switches_are_switches) {
  const House house = entered("Den: 2lsw1r 2l3w");
  ASSERT_EQ(house.points.size(), 5U);
  ASSERT_EQ(house.handles.size(), 3U);
  EXPECT_EQ(house.points[1].behind, house.devices[0].id);
  EXPECT_FALSE(house.points[2].behind);
  EXPECT_EQ(house.points[3].behind, house.devices[1].id);
}

TEST(EnterRoom, several_rooms_at_once) {
  const House house = entered("Bedroom 2-4, Upper bath: =\nDen, Attic: 1r");
  std::vector<std::string> rooms;
  for (const Room& room : house.rooms) rooms.push_back(room.name);
  EXPECT_THAT(rooms, ElementsAre("Bedroom 2", "Bedroom 3", "Bedroom 4", "Upper bath", "Den", "Attic"));
  EXPECT_EQ(std::ranges::count(house.points, house.rooms[2].id, &Point::room), 6);
  EXPECT_EQ(std::ranges::count(house.points, house.rooms[3].id, &Point::room), 3);
  EXPECT_EQ(std::ranges::count(house.points, house.rooms[5].id, &Point::room), 1);
}

TEST(EnterRoom, disconnect_switches_all_hots) {
  const House house = entered("Pump house: well pump with disconnect at the tank");
  ASSERT_EQ(house.devices.size(), 1U);
  EXPECT_EQ(house.devices[0].kind, DeviceKind::disconnect);
  EXPECT_EQ(house.devices[0].poles, 2);
  EXPECT_EQ(house.points[0].behind, house.devices[0].id);
}

TEST(EnterRoom, a_room_written_again_gets_more) {
  const House first = entered("Kitchen: 2r, light");
  const House second = enter_text(first, "kitchen: + 1 light, 1r").house;
  EXPECT_EQ(second.rooms.size(), 1U);
  EXPECT_THAT(point_names(second), ElementsAre("receptacle 1", "receptacle 2", "light", "light 2", "receptacle 3"));
  EXPECT_EQ(second.points[0], first.points[0]);
}

TEST(EnterRoom, one_box_for_what_is_said_to_share_it) {
  const House house = entered("Kitchen: 2r box \"sink box\", light box \"sink box\", 1r");
  EXPECT_EQ(house.boxes.size(), 2U);
  EXPECT_EQ(house.points[0].box, house.points[2].box);
  EXPECT_NE(house.points[0].box, house.points[3].box);
}

TEST(EnterPlaces, floors_buildings_and_rectangles) {
  const House house = entered(
      "Floor Basement -1\nCellar: light\nFloor Ground 0\nKitchen 4x3.5 m at 1,2: light\nDen 10x10 ft east of Kitchen: light\n"
      "Building Workshop\nWorkshop: light\nBuilding\nFloor Ground\nHall: light\nWalk Kitchen - Workshop 2 min");
  ASSERT_EQ(house.floors.size(), 3U);
  EXPECT_EQ(house.floors[0].level, -1);
  EXPECT_EQ(house.floors[2].building, "Workshop");
  const Room& kitchen = house.rooms[1];
  EXPECT_EQ(kitchen.left_cm, 100);
  EXPECT_EQ(kitchen.top_cm, 200);
  EXPECT_EQ(kitchen.width_cm, 400);
  EXPECT_EQ(kitchen.depth_cm, 350);
  EXPECT_EQ(house.rooms[2].left_cm, 500);
  EXPECT_EQ(house.rooms[2].width_cm, 305);
  EXPECT_EQ(house.rooms[4].floor, kitchen.floor);
  EXPECT_EQ(house.walks[0].seconds, 120);
}

struct OneBreaker {
  const char* item;
  const char* number;
  int poles, amps;
  Protection protection;
  OpenRule rule;
  const char* label;
};

TEST(EnterPanel, breakers_by_their_numbers) {
  using enum Protection;
  using enum OpenRule;
  const OneBreaker cases[] = {
      {"1 20 kitchen sm app", "1", 1, 20, plain, free, "kitchen sm app"},
      {"1 20A kitchen", "1", 1, 20, plain, free, "kitchen"},
      {"2+4 30 dryer", "2-4", 2, 30, plain, free, "dryer"},
      {"6-8 50 range", "6-8", 2, 50, plain, free, "range"},
      {"2 30x2 dryer", "2-4", 2, 30, plain, free, "dryer"},
      {"5a 15 hall", "5a", 1, 15, plain, free, "hall"},
      {"17a+19b 30 heat pump", "17a-19b", 2, 30, plain, free, "heat pump"},
      {"17b+19a 20", "17b-19a", 2, 20, plain, free, ""},
      {"7 20 gfci alone \"bath 15\"", "7", 1, 20, gfci, briefly_alone, "bath 15"},
      {"7 20 dual never", "7", 1, 20, dual, never, ""},
      {"7 afci", "7", 1, 0, afci, free, ""},
      {"28 spare", "28", 1, 0, plain, free, "spare"},
      {"3 010 bell", "3", 1, 10, plain, free, "bell"},
  };
  for (const OneBreaker& c : cases) {
    SCOPED_TRACE(c.item);
    const House house = entered(std::string("Panel Main 30 spaces 200 A main: ") + c.item);
    ASSERT_EQ(house.breakers.size(), 1U);
    const Breaker& breaker = house.breakers[0];
    EXPECT_EQ(breaker_number(house.panels[0], breaker), c.number);
    EXPECT_EQ(breaker.poles, c.poles);
    EXPECT_EQ(breaker.amps, c.amps);
    EXPECT_EQ(breaker.protection, c.protection);
    EXPECT_EQ(breaker.open_rule, c.rule);
    EXPECT_EQ(breaker.old_label, c.label);
  }
}

TEST(EnterPanel, tied_multiwire_pair) {
  const House house = entered("Panel Main 30: 9,11 tied 20 mwbc #12 cu 18 m kitchen / dining; 10 15; 30 empty");
  ASSERT_EQ(house.breakers.size(), 3U);
  EXPECT_EQ(house.breakers[0].tie, house.breakers[0].id);
  EXPECT_EQ(house.breakers[1].tie, house.breakers[0].id);
  EXPECT_EQ(house.breakers[0].old_label, "kitchen");
  EXPECT_EQ(house.breakers[1].old_label, "dining");
  ASSERT_EQ(house.circuits.size(), 2U);
  EXPECT_EQ(house.circuits[1].multiwire, house.circuits[0].id);
  EXPECT_EQ(house.circuits[1].wire, "12");
  EXPECT_EQ(house.circuits[1].length_m, 18);
  EXPECT_EQ(house.circuits[1].material, WireMaterial::copper);
}

TEST(EnterPanel, columns_are_read_down) {
  const House house = entered("Panel Main 12 100A: left 20 kitchen 15/20 den / hall - 30x2 dryer; right 20 A gfci bath 15 \"lights 2\"");
  std::vector<std::string> found;
  for (const Breaker& breaker : house.breakers)
    found.push_back(breaker_number(house.panels[0], breaker) + " " + std::to_string(breaker.amps) + " " + breaker.old_label);
  EXPECT_THAT(found, ElementsAre("1 20 kitchen", "3a 15 den", "3b 20 hall", "7-9 30 dryer", "2 20 bath", "4 15 lights 2"));
  EXPECT_EQ(house.breakers[4].protection, Protection::gfci);
  EXPECT_EQ(house.panels[0].main_amps, 100);
}

TEST(EnterPanel, headings_and_supplies) {
  const House house = entered(
      "Panel Shop in Barn 12 spaces, single column, main lugs, from Main 14+15\nPanel Main in Barn, 30 spaces, 200 A main, down:\n"
      " 14+15 60 shop\nBarn: light\nPanel Shop: 3 15 lights");
  ASSERT_EQ(house.panels.size(), 2U);
  EXPECT_EQ(house.panels[0].supply, Supply::breaker);
  EXPECT_EQ(house.panels[0].numbering, Numbering::single_column);
  EXPECT_EQ(house.panels[0].main_amps, 0);
  EXPECT_EQ(house.panels[1].numbering, Numbering::sequential_down);
  EXPECT_EQ(room_of(house, house.panels[1].room), "Barn");
  EXPECT_EQ(house.breakers.size(), 2U);
}

TEST(EnterBackup, transfer_positions_carry_poles) {
  const House house = entered(
      "Generator G 3500/4500 W\nTransfer T 8 positions from G: 1 15 L2 <- Main 5; 3+4 20 <- Main 2+4; 5 15 <- Main 6-8 pole 2\n"
      "Panel Main 20 100 A main: 5 15 furnace; 2+4 20 pump; 6-8 20");
  ASSERT_EQ(house.positions.size(), 8U);
  EXPECT_EQ(house.positions[0].leg, 2);
  EXPECT_EQ(house.positions[0].breaker, house.breakers[0].id);
  EXPECT_EQ(house.positions[2].tie, house.positions[2].id);
  EXPECT_EQ(house.positions[3].tie, house.positions[2].id);
  EXPECT_EQ(house.positions[3].leg, 2);
  EXPECT_EQ(house.positions[3].pole, 2);
  EXPECT_EQ(house.positions[4].pole, 2);
  EXPECT_FALSE(house.positions[1].breaker);
  EXPECT_EQ(house.sources[0].starting_watts, 4500);
}

TEST(EnterBackup, interlocked_backfeed_and_whole_house) {
  const House house = entered("Panel Main 20 100 A main: 2+4 30 backfed from Big G, interlocked\nGenerator Big G 5/6 kW one leg");
  ASSERT_EQ(house.interlocks.size(), 1U);
  EXPECT_EQ(house.interlocks[0].first, (HandleRef{HandleKind::main, house.panels[0].id.value}));
  EXPECT_EQ(house.breakers[0].backfed_from, house.sources[0].id);
  EXPECT_EQ(house.sources[0].output, SourceOutput::one_leg);
  const House whole = entered("Battery B 5 kW\nTransfer A whole house from B, automatic\nPanel Main 8 from A: 1 20; 2+4 30");
  EXPECT_EQ(whole.transfer_devices[0].kind, TransferKind::whole_house);
  EXPECT_TRUE(whole.transfer_devices[0].automatic);
  EXPECT_EQ(whole.positions.size(), 2U);
  EXPECT_EQ(whole.panels[0].supply, Supply::position);
}

TEST(EnterRecord, declared_feeds_go_to_the_outermost_device) {
  const House house = entered(
      "Kitchen: 2r, 2l sw <- 5 by J., range\nPanel Main 20: 1 20; 5 15; 2+4 50\nBy the plan on 1987-05-01\n"
      "Kitchen range <- Main 2+4\nKitchen receptacles 1-2 <- Main 1\n");
  ASSERT_EQ(house.declared_feeds.size(), 5U);
  EXPECT_EQ(house.declared_feeds[0].device, house.devices[0].id);
  EXPECT_EQ(house.declared_feeds[0].who, "J.");
  EXPECT_EQ(house.declared_feeds[2].hot, 2);
  EXPECT_EQ(house.declared_feeds[2].pole, 2);
  EXPECT_EQ(house.declared_feeds[3].who, "the plan");
  EXPECT_EQ(house.declared_feeds[3].at, "1987-05-01T00:00:00Z");
  EXPECT_EQ(house.declared_feeds[4].point, house.points[1].id);
}

TEST(EnterRecord, what_stands_on_receptacles) {
  const House house = entered("Kitchen: 2 receptacles 20 A, 20 A counter receptacle at the sink, gfci 15A, receptacle by the door 30 amps, 1r\n"
                              "Den: 3r\nRated Den receptacles 2-3: 50 A\nRated Den receptacle 1: 60\n");
  std::vector<int> ratings;
  for (const Point& point : house.points) ratings.push_back(point.rating_amps);
  EXPECT_THAT(ratings, testing::ElementsAre(20, 20, 20, 15, 30, 0, 60, 50, 50));
  EXPECT_EQ(point(house, "counter receptacle 1").place, "at the sink");
}

TEST(EnterRecord, notes_and_passing_conductors) {
  const House house = entered(
      "Kitchen: 1r\nPanel Main 20: 3 20; 2+4 50\nThrough Kitchen receptacle 1: Main 3, Main 2+4 pole 2\n"
      "Note Kitchen receptacle 1: loose: check # not a number\nPrivate note house: key\nNote Main 3: warm");
  ASSERT_EQ(house.passings.size(), 2U);
  EXPECT_EQ(house.passings[1].pole, 2);
  EXPECT_EQ(house.passings[0].box, house.points[0].box);
  ASSERT_EQ(house.notes.size(), 3U);
  EXPECT_EQ(house.notes[0].text, "loose: check");
  EXPECT_EQ(house.notes[0].about, (ThingRef{ThingKind::point, house.points[0].id.value}));
  EXPECT_TRUE(house.notes[1].is_private);
  EXPECT_EQ(house.notes[2].about.kind, ThingKind::breaker);
}

}  // namespace
}  // namespace ohmstead
