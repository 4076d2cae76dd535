#include "backup/typical_loads.h"

namespace ohmstead {

namespace {

// Who published a figure. Status of each: docs/standards.md.
constexpr std::string_view kDoe = "US DOE appliance list of about 2011";
constexpr std::string_view kCoop = "utility cooperative chart";
constexpr std::string_view kCoopCounty = "utility cooperative chart; county government table";
constexpr std::string_view kDoeCoop = "US DOE appliance list of about 2011; utility cooperative chart";
constexpr std::string_view kDoeCoopCounty = "US DOE appliance list of about 2011; utility cooperative chart; county government table";
constexpr std::string_view kCoopUtility = "utility cooperative chart; utility company's generator page";
constexpr std::string_view kThrice = "three times its running watts: generator manual text, where no starting watts are published";
constexpr std::string_view kHabit = "common practice, no source";
constexpr std::string_view kMemory = "from memory";
constexpr std::string_view kLights = "mean of US DOE lighting market characterization 2020; county government table";
constexpr std::string_view kWeb = "preparedness web page, weak";
constexpr std::string_view kSame = "starts with what it runs with: common practice, no source";

constexpr WattRange kNone{};
constexpr StartRatio kEven{10, 10}, kHard{30, 30};

// name, other words, any word before, running, source, starting, source, ratio, duty, starts itself
constexpr TypicalLoad kRows[] = {
    // cold and heat, water
    {"refrigerator", "fridge|icebox|refrigerator freezer|fridge freezer", true, {500, 1200}, kDoeCoopCounty, {750, 3000}, kCoopCounty, {15, 30}, 33, true},
    {"small refrigerator", "mini fridge|mini refrigerator|dorm fridge|bar fridge|small fridge|compact refrigerator|wine fridge|wine cooler", false,
     {500, 500}, kCoop, {2000, 2000}, kCoop, {40, 40}, 33, true},
    {"freezer", "chest freezer|deep freezer|deep freeze|upright freezer", true, {720, 720}, kCoop, {1890, 1890}, kCoop, {26, 30}, 33, true},
    {"furnace", "gas furnace|oil furnace|propane furnace|furnace fan|furnace blower|furnace motor", false, {750, 1100}, kDoeCoop, {2000, 2200}, kCoopUtility,
     {18, 30}, 50, true},
    {"boiler", "gas boiler|oil boiler", false, {200, 200}, kHabit, {500, 600}, kHabit, {25, 30}, 50, true},
    {"boiler circulator", "circulator|circulator pump|circulating pump|boiler pump|heating pump", false, {60, 150}, kMemory, {180, 450}, kThrice, kHard, 50, true},
    {"air handler", "blower|air handler fan", false, {500, 500}, kHabit, {1500, 1500}, kHabit, kHard, 50, true},
    {"heat pump", "mini split|ductless heat pump", false, {3000, 5400}, kCoop, {5000, 7200}, kCoop, {13, 30}, 50, true},
    {"air conditioner", "air conditioning|a c|ac|central air|central air conditioner|central air conditioning|central ac|central a c", false,
     {5400, 5400}, kCoop, {7200, 7200}, kCoop, {13, 30}, 50, true},
    {"room air conditioner", "window air conditioner|portable air conditioner|room ac|window ac|portable ac|room a c|window a c|portable a c", false,
     {1380, 1412}, "utility cooperative chart; NFPA 70 Annex D example D1(b)", {4140, 4236}, kThrice, kHard, 50, true},
    {"heater", "space heater|wall heater|bath heater|portable heater|electric heater|electric space heater|fan heater|ceramic heater", false,
     {750, 1500}, kDoe, kNone, kSame, kEven, 0, false},
    {"baseboard heater", "baseboard|baseboard heat|electric baseboard", false, {1500, 1500}, kHabit, kNone, kSame, kEven, 0, true},
    {"kerosene heater", "", false, {500, 500}, kCoop, {725, 725}, kCoop, {15, 15}, 0, true},
    {"pellet stove", "pellet heater", false, {100, 500}, kMemory, kNone, kSame, kEven, 0, true},
    {"water heater", "electric water heater|hot water heater|hot water tank", false, {4000, 5500}, kDoeCoop, kNone, kCoop, kEven, 0, true},
    {"gas water heater", "", false, {100, 100}, kHabit, kNone, kSame, kEven, 0, true},
    {"well pump", "deep well pump|submersible well pump|water pump", true, {250, 1100}, kDoe, {1950, 3300},
     "utility cooperative chart; three times its running watts: generator manual text", {30, 50}, 10, true},
    {"sump pump", "", true, {800, 800}, kCoopUtility, {1200, 1250}, kCoopUtility, {15, 30}, 0, true},
    {"sewage pump", "ejector pump|sewage ejector|sewage ejector pump|septic pump|septic tank pump|effluent pump|grinder pump", true,
     {900, 900}, kHabit, {2000, 2700}, kHabit, {22, 30}, 0, true},
    {"pump", "", false, {500, 500}, kHabit, {1500, 1500}, kHabit, kHard, 0, false},
    {"dehumidifier", "", true, {785, 785}, kDoe, {2355, 2355}, kThrice, kHard, 0, true},
    {"humidifier", "", true, {30, 300}, kMemory, kNone, kSame, kEven, 0, false},
    {"electric blanket", "heated blanket", false, {60, 100}, kDoe, kNone, kSame, kEven, 0, false},
    {"heating pad", "", false, {50, 65}, kMemory, kNone, kSame, kEven, 0, false},
    {"heat lamp", "", false, {125, 250}, kMemory, kNone, kSame, kEven, 0, false},
    {"hot tub", "spa", false, {6000, 6000}, kHabit, kNone, kSame, kEven, 0, true},
    {"water bed", "waterbed", false, {120, 380}, kDoe, kNone, kSame, kEven, 0, true},
    {"aquarium", "fish tank", true, {50, 1210}, kDoe, kNone, kSame, kEven, 0, true},
    // medical
    {"oxygen concentrator", "concentrator|oxygen|oxygen machine", true, {300, 600}, kMemory, {900, 1800}, kThrice, kHard, 100, false},
    {"CPAP", "cpap machine|bipap|bipap machine|sleep apnea machine", true, {30, 60}, kWeb, kNone, kSame, kEven, 0, false},
    {"ventilator", "medical ventilator", false, {50, 300}, kMemory, kNone, kSame, kEven, 100, false},
    {"nebulizer", "", true, {50, 180}, kMemory, kNone, kSame, kEven, 0, false},
    {"hospital bed", "medical bed|adjustable bed", false, {150, 500}, kMemory, kNone, kSame, kEven, 0, false},
    {"stair lift", "stairlift", false, {300, 500}, kMemory, {900, 1500}, kThrice, kHard, 0, false},
    {"wheelchair charger", "power wheelchair|electric wheelchair", true, {100, 300}, kMemory, kNone, kSame, kEven, 0, false},
    // kitchen and laundry
    {"microwave", "microwave oven", true, {750, 1100}, kDoe, kNone, kSame, kEven, 0, false},
    {"kettle", "electric kettle|tea kettle|water kettle", false, {1200, 1500}, kMemory, kNone, kSame, kEven, 0, false},
    {"coffee maker", "coffeemaker|coffee machine|coffee pot|coffee brewer", true, {900, 1200}, kDoeCoop, kNone, kCoop, kEven, 0, false},
    {"toaster", "", true, {800, 1400}, kDoe, kNone, kSame, kEven, 0, false},
    {"toaster oven", "", true, {1225, 1225}, kDoe, kNone, kSame, kEven, 0, false},
    {"air fryer", "", true, {1200, 1800}, kMemory, kNone, kSame, kEven, 0, false},
    {"hot plate", "hotplate", false, {750, 1500}, kMemory, kNone, kSame, kEven, 0, false},
    {"slow cooker", "", true, {250, 250}, kCoop, kNone, kCoop, kEven, 0, false},
    {"electric skillet", "skillet|frying pan|electric frying pan", false, {1200, 1200}, kCoop, kNone, kCoop, kEven, 0, false},
    {"rice cooker", "", true, {300, 700}, kMemory, kNone, kSame, kEven, 0, false},
    {"blender", "", true, {300, 1000}, kMemory, kNone, kSame, kEven, 0, false},
    {"range", "stove|electric range|electric stove|cooker|electric cooker", false, {8000, 8000}, kHabit, kNone, kSame, kEven, 0, false},
    {"oven", "wall oven|electric oven", false, {3500, 3500}, kHabit, kNone, kSame, kEven, 0, false},
    {"cooktop", "hob|electric cooktop", false, {6000, 6000}, kHabit, kNone, kSame, kEven, 0, false},
    {"gas range", "gas stove|gas oven|gas cooktop", false, {100, 100}, kHabit, kNone, kSame, kEven, 0, false},
    {"range hood", "hood|vent hood|cooker hood", false, {150, 150}, kHabit, kNone, kSame, kEven, 0, false},
    {"dishwasher", "dish washer", true, {1200, 2400}, kDoe, kNone, kSame, kEven, 0, false},
    {"disposal", "garbage disposal|disposer|garbage disposer", false, {500, 920}, "NFPA 70 Annex D example D1(b); common practice, no source", {1000, 2760}, kThrice,
     {20, 30}, 0, false},
    {"washer", "washing machine|clothes washer|laundry machine", false, {350, 1150}, kDoeCoop, {1050, 2200}, kCoop, {19, 30}, 0, false},
    {"dryer", "clothes dryer|electric dryer|tumble dryer|laundry dryer|electric clothes dryer", false, {1800, 5000}, kDoe, kNone, kSame, kEven, 0, false},
    {"gas dryer", "gas clothes dryer", false, {700, 700}, kHabit, {1500, 2100}, kHabit, {21, 30}, 0, false},
    {"iron", "clothes iron|steam iron", false, {1000, 1800}, kDoeCoop, kNone, kCoop, kEven, 0, false},
    {"sewing machine", "", true, {75, 150}, kMemory, kNone, kSame, kEven, 0, false},
    {"vacuum cleaner", "vacuum", false, {1000, 1440}, kDoe, kNone, kSame, kEven, 0, false},
    {"hair dryer", "hairdryer|hair drier|hairdrier|blow dryer|blow drier|blowdryer", true, {1200, 1875}, kDoe, kNone, kSame, kEven, 0, false},
    {"curling iron", "hair straightener|flat iron|curling tongs", false, {50, 200}, kMemory, kNone, kSame, kEven, 0, false},
    // light and air
    {"light", "lamp|light fixture|light bulb|bulb|luminaire|lighting", false, {22, 75}, kLights, kNone, kSame, kEven, 0, false},
    {"fan", "exhaust fan", false, {55, 250}, kDoe, kNone, kSame, kEven, 0, false},
    {"window fan", "box fan|table fan|desk fan|floor fan|standing fan|pedestal fan", false, {55, 250}, kDoe, kNone, kSame, kEven, 0, false},
    {"ceiling fan", "paddle fan", false, {65, 175}, kDoe, kNone, kSame, kEven, 0, false},
    {"bath fan", "bathroom fan|vent fan|bath exhaust fan", false, {30, 30}, kHabit, kNone, kSame, kEven, 0, false},
    {"attic fan", "whole house fan", false, {240, 750}, kDoe, {720, 2250}, kThrice, kHard, 0, false},
    // screens, messages, safety
    {"television", "tv|flat screen|television set|tv set", true, {100, 400}, "utility cooperative chart; common practice, no source", kNone, kCoop, kEven, 0, false},
    {"radio", "clock radio", true, {10, 225}, "utility cooperative chart; from memory", kNone, kCoop, kEven, 0, false},
    {"router", "modem|wifi|wi fi|internet|internet router|wifi router|wireless router|cable modem|internet modem", false, {10, 20}, kMemory, kNone, kSame, kEven, 100, false},
    {"server", "nas|home server", false, {200, 200}, kHabit, kNone, kSame, kEven, 100, false},
    {"computer", "pc|desktop|desktop computer|personal computer|home computer", false, {120, 300}, kDoeCoop, kNone, kCoop, kEven, 0, false},
    {"laptop", "laptop computer|laptop charger|notebook computer|notebook", true, {30, 90}, kMemory, kNone, kSame, kEven, 0, false},
    {"monitor", "computer monitor|computer screen", false, {150, 150}, kDoe, kNone, kSame, kEven, 0, false},
    {"printer", "computer printer", false, {30, 600}, kMemory, kNone, kSame, kEven, 0, false},
    {"game console", "video game console", false, {50, 200}, kMemory, kNone, kSame, kEven, 0, false},
    {"phone charger", "cell phone charger|mobile phone charger|cell phone|phone", false, {5, 25}, kMemory, kNone, kSame, kEven, 0, false},
    {"cable box", "set top box|tv box", false, {15, 30}, kMemory, kNone, kSame, kEven, 0, false},
    {"smoke alarm", "smoke detector|smoke|alarm", false, {1, 5}, kMemory, kNone, kSame, kEven, 100, false},
    {"CO alarm", "carbon monoxide alarm|carbon monoxide detector|co detector|co", false, {1, 5}, kMemory, kNone, kSame, kEven, 100, false},
    {"alarm panel", "burglar alarm|security system", false, {20, 20}, kHabit, kNone, kSame, kEven, 100, false},
    {"security camera", "camera", false, {5, 15}, kMemory, kNone, kSame, kEven, 100, false},
    {"thermostat", "", true, {5, 5}, kHabit, kNone, kSame, kEven, 100, false},
    {"doorbell", "doorbell transformer|door bell|chime|door chime", false, {10, 10}, kHabit, kNone, kSame, kEven, 100, false},
    {"irrigation controller", "sprinkler controller|sprinkler timer", false, {20, 20}, kHabit, kNone, kSame, kEven, 0, false},
    // garage and workshop
    {"garage opener", "garage door opener|door opener|garage door", false, {550, 550}, kCoop, {1000, 1000}, kCoop, {18, 18}, 0, false},
    {"EV charger", "car charger|electric vehicle charger|electric car charger", false, {7200, 7200}, "NFPA 70 220.57 (2023)", kNone, kSame, kEven, 0, false},
    {"welder", "", false, {7000, 7000}, kHabit, kNone, kSame, kEven, 0, false},
    {"air compressor", "compressor", false, {1500, 1500}, kHabit, {4500, 4500}, kHabit, kHard, 0, true},
    {"table saw", "saw", false, {1800, 1800}, kHabit, {4500, 5400}, kHabit, {25, 30}, 0, false},
    {"dust collector", "", false, {1200, 1200}, kHabit, {3600, 3600}, kHabit, kHard, 0, false},
};

}  // namespace

std::span<const TypicalLoad> typical_loads() { return kRows; }

}  // namespace ohmstead
