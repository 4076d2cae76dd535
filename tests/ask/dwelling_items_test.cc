// Loads of a calculation from words and from the record.
#include "ask/dwelling_items.h"

#include <gmock/gmock.h>

#include "ask/calculation_words.h"
#include "house/error.h"
#include "tests/support/traced_sample.h"

namespace ohmstead {
namespace {

using testing::HasSubstr;

TEST(DwellingItems, a_name_and_its_volts_say_what_kind_it_is) {
  using enum LoadClass;
  struct Case {
    const char* name;
    std::optional<LoadClass> at_240, at_120;
  };
  const Case cases[] = {{"range", cooking, {}},      {"Wall ovens", cooking, {}},   {"range hood", {}, {}},     {"hair dryer", {}, {}},           {"dryer", dryer, {}},         {"heat pump water heater", fastened, {}},
                        {"EV charger", vehicle, {}}, {"heat pump", heat_pump, heat_pump}, {"orange lamp", other, {}}, {"furnace", heating, fastened}, {"dishwasher", fastened, fastened}, {"carport light", other, {}}};
  for (const Case& one : cases) {
    EXPECT_EQ(load_class_of(one.name, true), one.at_240) << one.name;
    EXPECT_EQ(load_class_of(one.name, false), one.at_120) << one.name;
  }
}

TEST(DwellingItems, items_are_read_as_people_write_them) {
  const auto of = [](const char* words) { return item_in_words(words); };
  EXPECT_EQ(of("range 12 kW").va, 12'000);
  EXPECT_EQ(of("range 12kW").kind, LoadClass::cooking);
  EXPECT_EQ(of("2 x oven 4 kW").count, 2);
  EXPECT_EQ(of("2 x oven 4 kW").name, "oven");
  EXPECT_TRUE(of("dishwasher 1200 W 120 V").neutral);
  EXPECT_FALSE(of("water heater 4.5 kW").neutral);
  EXPECT_EQ(of("room air conditioner 6 A 230 V").va, 1380);
  EXPECT_TRUE(of("room air conditioner 6 A 230 V").motor);
  EXPECT_EQ(of("car charger 40 A").va, 9600);
  EXPECT_EQ(of("kiln 8 kW").kind, LoadClass::other);
  for (const char* bad : {"", "range", "12 kW", "range -5 kW", "range 12 kW 13 kW", "range 5 A 12 kW", "range 12 furlongs", "range 12 kW 480 V", "range nan kW", "0 x range 5 kW", "1.5 x range 5 kW", "range 1e3 W"})
    EXPECT_THROW((void)item_in_words(bad), Error) << bad;
}

TEST(DwellingItems, a_record_gives_its_service_its_area_and_what_is_missing) {
  const Record record = entered_record("Kitchen 4x5 m at 0,0: 2r, range, dishwasher 1200 W\nLaundry: dryer, 1r\nShop 5x5 m at 5,0: receptacle 240 V\nGarage 6x6 m at 9,9: 2r\n"
                                       "Panel Main in Laundry 20 spaces, 100 A main: 1 20; 2+4 50 range\n");
  const RecordedDwelling made = recorded_dwelling(record, 2020);
  EXPECT_EQ(made.service_amps, 100);
  EXPECT_EQ(made.given.floor_ft2, std::ceil(45e4 / 929.0304 * 1.1));  // without the garage
  EXPECT_EQ(recorded_dwelling(entered_record("Finished basement 4x5 m at 0,0: 2r\nTool shed 5x5 m at 9,9: 1r\n"), 2020).given.floor_ft2, std::ceil(20e4 / 929.0304 * 1.1));
  std::vector<std::string> names;
  for (const DwellingItem& item : made.given.items) names.push_back(item.name);
  EXPECT_THAT(names, testing::UnorderedElementsAre("range (Kitchen)", "dishwasher (Kitchen)", "dryer (Laundry)"));
  EXPECT_THAT(made.missing, testing::UnorderedElementsAre(testing::HasSubstr("No plan of Laundry"), testing::HasSubstr("240 V receptacle, is not recorded")));
  EXPECT_THAT(made.assumed, testing::Contains(testing::HasSubstr("12 kW taken")));
  Record wye = record;
  wye.house.dwelling.system = VoltageSystem::wye_120_208;
  EXPECT_THROW((void)recorded_dwelling(wye, 2020), Error);
}

TEST(RecordedCircuit, wire_length_volts_and_current_are_those_of_the_record) {
  const Record record = entered_record("Hall: 2r\nShop: 2r\nPanel Main in Hall 12 spaces: 1 20 wire 12; 2+4 60 wire 6 35 m shop; 3 15\n");
  std::vector<std::string> taken;
  const DropCase feeder = recorded_circuit(record, record.house.breakers[1].id, taken);
  EXPECT_EQ(feeder.size.name, "6");
  EXPECT_EQ(feeder.volts, 240);
  EXPECT_NEAR(feeder.length_ft, 114.8, 0.05);
  EXPECT_EQ(feeder.amps, 48);
  EXPECT_THAT(taken, testing::ElementsAre(HasSubstr("Main 2-4: wire 6 AWG, metal not recorded, 35 m one way."), HasSubstr("60 A")));
  EXPECT_EQ(recorded_circuit(record, record.house.breakers[0].id, taken).volts, 120);
  EXPECT_THROW((void)recorded_circuit(record, record.house.breakers[2].id, taken), Error);
}

TEST(AddLoad, yes_only_where_it_fits_counted_whole_too) {
  AddCase given{.house = {.floor_ft2 = 1500, .items = {{LoadClass::cooking, "Range", 12'000}}}, .added = item_in_words("car charger 40 A"), .continuous = true};
  const AddAnswer answer = may_add(given);
  EXPECT_EQ(answer.verdict, MayAdd::not_known);
  EXPECT_NEAR(answer.amps_now, (8000 + 13'000 * 0.4) / 240, 1e-9);
  EXPECT_NEAR(answer.amps_by_rule, (8000 + 22'600 * 0.4) / 240, 1e-9);   // 71 A
  EXPECT_NEAR(answer.amps_careful, answer.amps_now + 50, 1e-9);          // 105 A
  EXPECT_EQ(answer.circuit_amps, 50);
  for (const auto& [service, verdict] : {std::pair{125, MayAdd::fits}, {100, MayAdd::close}, {60, MayAdd::does_not_fit}}) {
    given.service_amps = service;
    EXPECT_EQ(may_add(given).verdict, verdict) << service;
  }
}

TEST(AddLoad, a_yes_says_what_is_missing) {
  const DwellingItem added = item_in_words("car charger 16 A");
  RecordedDwelling dwelling{.given = {.floor_ft2 = 1500}, .service_amps = 200};
  const AddAnswer answer = may_add({.house = dwelling.given, .added = added, .continuous = true, .service_amps = 200});
  EXPECT_THAT(words_of_add(dwelling, added, answer)[0].text, testing::StartsWith("By this record the car charger of 16 A fits"));
  dwelling.missing = {"Nothing is known of what sauna draws: not counted."};
  EXPECT_THAT(words_of_add(dwelling, added, answer)[0].text, testing::HasSubstr("but something is missing"));
}

}  // namespace
}  // namespace ohmstead
