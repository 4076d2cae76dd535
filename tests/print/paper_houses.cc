#include "tests/print/paper_houses.h"

#include "house/invariants.h"
#include "survey/entry.h"

namespace ohmstead::test {

namespace {

House entered(const std::string& text) {
  House house;
  house.dwelling.id = {1}, house.dwelling.name = "Hillside";
  house = enter_text(house, text).house;
  require_sound(house);
  return house;
}

/// With the best plan kept.
Record planned(House house) {
  const PlanAnswer best = best_plan_for(make_record(house), 0);
  house.planned = planned_rows(best.backup, best.plan);
  return make_record(std::move(house));
}

constexpr const char* kRooms =
    "Cellar: freezer 100/400 W ! hurt, well pump 240 V 750/2200 W !, furnace 500/1200 W !, sump pump 600/1500 W !, 1l\n"
    "Bedroom: oxygen concentrator 350 W !! hurt, 1l\nKitchen: microwave, refrigerator 150/600 W !, range 5 kW 240 V, 1l\n";
constexpr const char* kPanel = "Panel Main in Cellar 30 spaces, 100 A main: 1 20; 3 15; 5 15; 2+4 20; 6 20; 8 15 afci; 10 20; 12 15; 14+16 40; 18 15\n";
constexpr const char* kFeeds =
    "By J.\nCellar freezer <- Main 3\nCellar well pump <- Main 2+4\nCellar furnace <- Main 5\nCellar sump pump <- Main 18\nBedroom oxygen concentrator <- Main 8\n"
    "Bedroom light <- Main 8\nKitchen microwave <- Main 1\nKitchen refrigerator <- Main 10\nKitchen range <- Main 14+16\nKitchen light <- Main 12\nCellar light <- Main 12\n";
constexpr const char* kGenerator = "Generator Generator 3600/4500 W 120/240, 30 A inlet, gasoline, 11 L tank, uses 0.8/1.2/1.7/2.2 L/h, floating neutral\n";

House wished(House house) {
  for (Load& load : house.loads)
    if (load.name == "microwave") load.use = LoadUse::on_demand, load.running_watts = 1100;
  return house;
}

House with_positions() {
  return wished(entered(std::string(kRooms) + kPanel + kFeeds + kGenerator + "Transfer T in Cellar 7 positions from Generator: 1 15 <- Main 5; 2 20; 3+4 20 <- Main 2+4; 5 15; 6 15; 7 20\n"));
}

House sixteen_positions() {
  std::string rooms, panel = "Panel Main in Room1 42 spaces, 200 A main: ", feeds = "By J.\n", positions = "Transfer T in Room1 16 positions from Generator: ";
  for (int i = 1; i <= 18; ++i) {
    const std::string number = std::to_string(i);
    rooms += "Room" + number + ": freezer " + std::to_string(60 + 7 * i) + "/" + std::to_string(200 + 20 * i) + " W !, 1r\n";
    panel += (i == 1 ? "" : "; ") + number + " 15";
    feeds += "Room" + number + " freezer <- Main " + number + "\nRoom" + number + " receptacle 1 <- Main " + number + "\n";
    if (i <= 16) positions += (i == 1 ? "" : "; ") + number + " 15";
  }
  return entered(rooms + panel + "\n" + feeds + "Generator Generator 7000/9000 W 120/240, propane\n" + positions + "\n");
}

House forty_breakers() {
  std::string rooms, panel = "Panel Main in Room1 44 spaces, 200 A main: 1+3 30 backfed from Generator, interlocked", feeds = "By J.\n";
  int room = 0;
  for (int space = 2; space <= 44 && room < 40; ++space) {
    if (space == 3) continue;
    const std::string number = std::to_string(++room);
    rooms += "Room" + number + ": furnace " + std::to_string(40 + 5 * room) + "/" + std::to_string(90 + 6 * room) + " W !\n";
    panel += "; " + std::to_string(space) + " 15";
    feeds += "Room" + number + " furnace <- Main " + std::to_string(space) + "\n";
  }
  return entered(rooms + "Generator Generator 7500/9000 W 120/240, 30 A inlet, natural gas\n" + panel + "\n" + feeds);
}

House one_leg() {
  return wished(entered(std::string(kRooms) + kPanel + kFeeds + "Generator Small 1800/2200 W one leg, gasoline\nTransfer T in Cellar 4 positions from Small: 1 15 L1; 2 15 L1; 3 20 L1; 4 20 L1\n"));
}

House battery() {
  return wished(entered("Battery Wall 5/7.5 kW, 10 kWh\nTransfer A whole house from Wall, automatic\n" + std::string(kRooms) +
                        "Panel Main in Cellar 30 spaces, 100 A main from A: 1 20; 3 15; 5 15; 2+4 20; 6 20; 8 15; 10 20; 12 15; 14+16 40; 18 15\n" + kFeeds));
}

House three_legs() {
  House house;
  house.dwelling.id = {1}, house.dwelling.system = VoltageSystem::wye_120_208_3;
  house = enter_text(house, "Cellar: freezer 100/400 W !, furnace 500/1200 W !, sump pump 600/1500 W !\nPanel Main in Cellar 12 spaces, 100 A main: 1 20; 3 15; 5 15\nBy J.\n"
                            "Cellar freezer <- Main 1\nCellar furnace <- Main 3\nCellar sump pump <- Main 5\nGenerator G 9000/12000 W\n"
                            "Transfer T in Cellar 3 positions from G: 1 15 L1; 2 15 L2; 3 15 L3\n").house;
  require_sound(house);
  return house;
}

/// Every name 200 bytes long, one of them a single word.
House long_names(House house) {
  const auto longer = [](const std::string& name, bool one_word) {
    std::string text = name;
    while (text.size() + 12 <= 200) text += one_word ? "behindthewall" : " behind stairs";
    return text.substr(0, 200);
  };
  house.dwelling.name = longer(house.dwelling.name, false);
  for (Load& load : house.loads) load.name = longer(load.name, load.name == "furnace");
  for (Room& room : house.rooms) room.name = longer(room.name, false);
  for (Panel& panel : house.panels) panel.name = longer(panel.name, true);
  for (Source& source : house.sources) source.name = longer(source.name, false);
  for (TransferDevice& device : house.transfer_devices) device.name = longer(device.name, false);
  return house;
}

/// What a sound record may hold and no label should: breaks, directions, markup, scripts and signs without a glyph.
House odd_names(House house) {
  house.dwelling.name = "Hill\nside\tand \xe2\x80\xaereversed";
  house.rooms[0].name = "Cellar \xf0\x9f\xaa\xab <b>down</b> & \"left\"";
  house.loads[0].name = "\xd0\xbc\xd0\xbe\xd1\x80\xd0\xbe\xd0\xb7\xd0\xb8\xd0\xbb\xd1\x8c\xd0\xbd\xd0\xb8\xd0\xba \xe5\x86\xb0\xe7\xae\xb1\nnext line";
  return house;
}

}  // namespace

Record house_with_positions() { return planned(with_positions()); }

const std::vector<PlannedHouse>& planned_houses() {
  static const std::vector<PlannedHouse> all = [] {
    std::vector<PlannedHouse> made;
    made.push_back({"positions", planned(with_positions())});
    made.push_back({"sixteen", planned(sixteen_positions())});
    made.push_back({"interlock", planned(forty_breakers())});
    made.push_back({"one leg", planned(one_leg())});
    made.push_back({"battery", planned(battery())});
    made.push_back({"three legs", planned(three_legs())});
    made.push_back({"long names", planned(long_names(with_positions()))});
    made.push_back({"long names, sixteen", planned(long_names(sixteen_positions()))});
    made.push_back({"odd names", planned(odd_names(with_positions()))});
    return made;
  }();
  return all;
}

}  // namespace ohmstead::test
