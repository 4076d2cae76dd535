#include "backup/typical_loads.h"

#include <gmock/gmock.h>

#include <map>
#include <string>

#include "survey/kind_words.h"

namespace ohmstead {
namespace {

using ::testing::AnyOf;
using ::testing::HasSubstr;

std::string row_of(std::string_view name) {
  const TypicalMatch match = find_typical_load(name);
  return match.row == nullptr ? "" : std::string(match.row->name);
}

TEST(TypicalLoads, every_row_is_sound_and_says_who_published_it) {
  for (const TypicalLoad& row : typical_loads()) {
    SCOPED_TRACE(row.name);
    EXPECT_GT(row.running.low, 0);
    EXPECT_LE(row.running.low, row.running.high);
    const auto a_source = AnyOf(HasSubstr("US DOE"), HasSubstr("utility c"), HasSubstr("county government"), HasSubstr("NFPA 70"), HasSubstr("common practice, no source"),
                                HasSubstr("from memory"), HasSubstr("generator manual"), HasSubstr("web page, weak"));
    EXPECT_THAT(std::string(row.running_source), a_source);
    EXPECT_THAT(std::string(row.starting_source), a_source);
    const bool motor = row.starting.high > 0;
    EXPECT_LE(row.starting.low, row.starting.high);
    EXPECT_TRUE(!motor || (row.starting.low >= row.running.low && row.starting.high >= row.running.high));
    EXPECT_EQ(motor, row.ratio.high > 10);
    EXPECT_GE(row.ratio.low, 10);
    EXPECT_LE(row.ratio.low, row.ratio.high);
    EXPECT_GE(row.duty_percent, 0);
    EXPECT_LE(row.duty_percent, 100);
  }
}

TEST(TypicalLoads, no_two_rows_claim_the_same_words_and_each_finds_itself) {
  std::map<std::string, std::string> owners;
  for (const TypicalLoad& row : typical_loads()) {
    EXPECT_EQ(row_of(row.name), row.name);
    std::string all = std::string(row.name) + (row.other_words.empty() ? "" : "|") + std::string(row.other_words);
    for (std::size_t at = 0; at <= all.size();) {
      const std::size_t bar = std::min(all.find('|', at), all.size());
      const std::string words = all.substr(at, bar - at);
      EXPECT_FALSE(words.empty()) << row.name;
      EXPECT_TRUE(owners.emplace(words, row.name).second) << words;
      EXPECT_EQ(row_of(words), row.name) << words;
      at = bar + 1;
    }
  }
}

TEST(TypicalLoads, what_the_survey_calls_a_kind_has_a_row) {
  for (const char* kind : {"light", "smoke alarm", "CO alarm", "alarm panel", "fan", "bath fan", "ceiling fan", "attic fan", "range", "oven", "cooktop", "gas range", "dishwasher",
                           "disposal", "refrigerator", "freezer", "microwave", "range hood", "washer", "dryer", "gas dryer", "water heater", "gas water heater", "well pump", "sump pump",
                           "sewage pump", "pump", "furnace", "boiler", "air handler", "heat pump", "air conditioner", "baseboard heater", "heater", "garage opener", "doorbell", "hot tub",
                           "EV charger", "welder", "air compressor", "table saw", "dust collector", "television", "router", "server", "computer", "oxygen concentrator", "CPAP", "thermostat",
                           "irrigation controller"}) {
    ASSERT_NE(find_kind(kind), nullptr) << kind;
    EXPECT_EQ(row_of(kind), kind);
    EXPECT_EQ(row_of(find_kind(kind)->name), kind);
  }
}

TEST(TypicalLoads, plain_words_of_people_are_understood) {
  const std::pair<const char*, const char*> cases[] = {
      {"Hair Dryer", "hair dryer"}, {"hairdryer", "hair dryer"}, {"HAIR-DRYER", "hair dryer"}, {"Anna's hair dryer", "hair dryer"}, {"hair dryers", "hair dryer"},
      {"the blow dryer", "hair dryer"}, {"dryer", "dryer"}, {"Dryer in the basement", "dryer"}, {"laundry room dryer", "dryer"}, {"fridge", "refrigerator"},
      {"insulin refrigerator", "refrigerator"}, {"garage fridge 2", "refrigerator"}, {"mini-fridge", "small refrigerator"}, {"Deep freeze", "freezer"},
      {"freezer (garage)", "freezer"}, {"heater, basement", "heater"}, {"dish washer", "dishwasher"}, {"washing machine", "washer"}, {"old washer", "washer"}, {"TV", "television"}, {"wi-fi", "router"},
      {"A/C", "air conditioner"}, {"window A/C", "room air conditioner"}, {"kettle", "kettle"}, {"ceiling lights", "light"}, {"porch light", "light"}, {"lamps", "light"},
      {"1/2 hp well pump", "well pump"}, {"sump pump #2", "sump pump"}, {"space heater by the bed", "heater"}, {"microwaves", "microwave"}, {"CPAP machine", "CPAP"},
      {"Grandma\xE2\x80\x99s oxygen concentrator", "oxygen concentrator"}, {"garage door", "garage opener"}, {"toaster oven", "toaster oven"}, {"curling iron", "curling iron"},
      {"vacuum", "vacuum cleaner"}, {"furnace fan", "furnace"}, {"circulator", "boiler circulator"}};
  for (const auto& [said, meant] : cases) EXPECT_EQ(row_of(said), meant) << said;
}

TEST(TypicalLoads, words_that_mean_something_else_are_not_known) {
  for (const char* said : {"", "   ", "boot dryer", "dryer for the boots", "dryer (boots)", "hair", "leaf blower", "electric furnace", "electric boiler", "heater for the fish tank", "tankless water heater",
                           "freezer alarm", "pressure washer", "soldering iron", "grow light", "robot vacuum", "snow blower", "circular saw", "refrigeratorish", "the", "engine block heater",
                           "fire pump", "time clock", "2", "pool pump", "arc lamp", "tow truck charger"})
    EXPECT_EQ(row_of(said), "") << said;
  EXPECT_EQ(row_of(std::string(300, 'x') + " freezer"), "");
}

TEST(TypicalLoads, a_number_in_front_of_a_plural_counts_pieces) {
  EXPECT_EQ(find_typical_load("3 lights").pieces, 3);
  EXPECT_EQ(find_typical_load("lights").pieces, kLightsOfARoom);
  EXPECT_EQ(find_typical_load("light").pieces, 1);
  EXPECT_EQ(find_typical_load("2 laptops on the desk").pieces, 2);
  EXPECT_EQ(find_typical_load("0 lights").pieces, 1);
  EXPECT_EQ(find_typical_load("freezer 2").pieces, 1);
}

struct Published {
  const char* name;
  int watts;
  const char* source;
};

TEST(TypicalLoads, running_ranges_hold_the_published_figures) {
  const Published all[] = {
      // appliance list of the US Department of Energy of about 2011
      {"microwave", 750, "DOE"}, {"microwave", 1100, "DOE"}, {"coffee maker", 900, "DOE"}, {"coffee maker", 1200, "DOE"}, {"washer", 350, "DOE"}, {"washer", 500, "DOE"},
      {"dryer", 1800, "DOE"}, {"dryer", 5000, "DOE"}, {"dishwasher", 1200, "DOE"}, {"dishwasher", 2400, "DOE"}, {"electric blanket", 60, "DOE"}, {"window fan", 55, "DOE"},
      {"window fan", 250, "DOE"}, {"ceiling fan", 65, "DOE"}, {"ceiling fan", 175, "DOE"}, {"furnace", 750, "DOE"}, {"hair dryer", 1200, "DOE"}, {"hair dryer", 1875, "DOE"},
      {"heater", 750, "DOE"}, {"heater", 1500, "DOE"}, {"refrigerator", 725, "DOE"}, {"toaster", 1400, "DOE"}, {"toaster oven", 1225, "DOE"}, {"vacuum cleaner", 1440, "DOE"},
      {"water heater", 5500, "DOE"}, {"iron", 1000, "DOE"}, {"iron", 1800, "DOE"}, {"computer", 120, "DOE"}, {"monitor", 150, "DOE"}, {"dehumidifier", 785, "DOE"},
      {"attic fan", 240, "DOE"}, {"attic fan", 750, "DOE"}, {"well pump", 1100, "DOE"}, {"aquarium", 1210, "DOE"}, {"water bed", 380, "DOE"},
      // chart of a utility cooperative
      {"refrigerator", 500, "chart"}, {"small refrigerator", 500, "chart"}, {"freezer", 720, "chart"}, {"furnace", 1100, "chart"}, {"kerosene heater", 500, "chart"},
      {"heat pump", 3000, "chart"}, {"heat pump", 5400, "chart"}, {"air conditioner", 5400, "chart"}, {"room air conditioner", 1412, "chart"}, {"sump pump", 800, "chart"},
      {"garage opener", 550, "chart"}, {"washer", 1150, "chart"}, {"water heater", 4000, "chart"}, {"coffee maker", 1200, "chart"}, {"iron", 1200, "chart"},
      {"electric skillet", 1200, "chart"}, {"slow cooker", 250, "chart"}, {"computer", 300, "chart"}, {"television", 400, "chart"}, {"radio", 225, "chart"},
      // table of a county government; a university extension page; mean of the DOE lighting market characterization 2020
      {"refrigerator", 1200, "county"}, {"refrigerator", 900, "extension"}, {"light", 75, "county"}, {"light", 22, "lighting 2020"},
  };
  for (const Published& figure : all) {
    const TypicalMatch match = find_typical_load(figure.name);
    ASSERT_NE(match.row, nullptr) << figure.name;
    EXPECT_LE(match.row->running.low, figure.watts) << figure.name << ' ' << figure.source;
    EXPECT_GE(match.row->running.high, figure.watts) << figure.name << ' ' << figure.source;
  }
}

TEST(TypicalLoads, starting_ranges_hold_the_published_figures) {
  const Published all[] = {
      {"refrigerator", 750, "chart"}, {"refrigerator", 2900, "chart, text example"}, {"refrigerator", 3000, "county"}, {"small refrigerator", 2000, "chart"}, {"freezer", 1890, "chart"},
      {"furnace", 2000, "chart"}, {"kerosene heater", 725, "chart"}, {"heat pump", 5000, "chart"}, {"heat pump", 7200, "chart"}, {"air conditioner", 7200, "chart"},
      {"well pump", 1950, "chart"}, {"sump pump", 1250, "chart"}, {"sump pump", 1200, "a utility"}, {"garage opener", 1000, "chart"}, {"washer", 2200, "chart"}};
  for (const Published& figure : all) {
    const TypicalMatch match = find_typical_load(figure.name);
    ASSERT_NE(match.row, nullptr) << figure.name;
    EXPECT_LE(match.row->starting.low, figure.watts) << figure.name << ' ' << figure.source;
    EXPECT_GE(match.row->starting.high, figure.watts) << figure.name << ' ' << figure.source;
  }
}

// The chart's 150 W of a well pump that starts with 1950 W, and its 0 W to start a room air conditioner, are not credible.
TEST(TypicalLoads, figures_that_are_not_credible_are_left_out) {
  EXPECT_GT(find_typical_load("well pump").row->running.low, 150);
  EXPECT_GE(find_typical_load("window air conditioner").row->starting.low, 3 * 1380);
}

}  // namespace
}  // namespace ohmstead
