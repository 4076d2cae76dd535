#include "backup/food_times.h"

#include <algorithm>

#include "backup/typical_loads.h"

namespace ohmstead {

namespace {

using enum Fact;
using enum FactStatus;

constexpr std::string_view kFsis = "US Department of Agriculture, Food Safety and Inspection Service";
constexpr std::string_view kCpsc = "US Consumer Product Safety Commission";
constexpr std::string_view kCounty = "county health departments";

constexpr OutageFact kFacts[] = {
    {refrigerator_shut, "A refrigerator keeps food cold for 4 hours if its door stays shut.", kFsis, secondary},
    {freezer_full, "A full freezer keeps its temperature for 48 hours if its door stays shut.", kFsis, secondary},
    {freezer_half, "A half-full freezer keeps its temperature for 24 hours if its door stays shut.", kFsis, secondary},
    {cold_enough, "Cold enough is 40 F (4 C) or less in the refrigerator and 0 F (-18 C) or less in the freezer.", kFsis, secondary},
    {throw_out, "Throw out meat, fish, eggs, milk and leftovers that were above 40 F (4 C) for 2 hours or more.", kFsis, secondary},
    {refreeze, "Food may be frozen again if it still has ice crystals or is at 40 F (4 C) or below.", kFsis, secondary},
    {dry_ice, "50 pounds of dry ice keep a full 18 cubic foot freezer cold for 2 days.", kFsis, secondary},
    {never_taste, "Never taste food to find out whether it is safe.", kFsis, secondary},
    {placement, "Run a generator outdoors only, at least 20 feet (6 m) from the house, its exhaust away from every building people may enter.", kCpsc, text},
    {never_inside, "Never run a generator in a home, garage, basement, crawlspace or shed, on a porch or in a carport; open doors and windows do not help.", kCpsc, secondary},
    {windows_shut, "Shut windows and vents in the path of the exhaust.", kCpsc, secondary},
    {carbon_monoxide_alarms, "Have CO alarms with batteries on each level and outside each sleeping area.", kCpsc, secondary},
    {no_backfeed, "Never plug a generator into a wall receptacle: it can kill line crews and neighbors.", "county government generator page", text},
    {refuel_cold, "Stop the engine and let it cool before refueling.", "US Department of Energy and American Red Cross advice, restated in newspapers", secondary},
    {largest_first, "Start the largest motor first, let it run up, then add the others.", "university extension page", text},
    {loads_off_first, "Switch all loads off before connecting the generator, then on one by one; off again before going back to the utility.", "utility company's generator page", text},
    {drinking_water, "Store 1 gallon (3.8 liters) of drinking water for each person and day.", "officials' advice, restated in newspapers", secondary},
    {well_pump, "Without power for the well pump there is no water once the pressure tank is drained.", "trade magazine for onsite waste water", text},
    {sump_pump, "How long a sump may go without its pump depends on the inflow: look at it.", "", common_practice},
    {septic_reserve, "A septic pump tank usually holds about one day of waste water: use little water and switch the pump off at its control panel.", kCounty, text},
    {septic_return, "When power is back, run the septic pump for at most 5 minutes, then switch it off; again every 6 hours until the level is down.", kCounty, text},
    {pump_chamber, "Never climb into a pump chamber: the gas in it kills.", kCounty, text},
    {medical_plan, "For each medical device know whether it may stop and for how long, how long its battery lasts, and where to go; have supplies for 3 days.",
     "US Food and Drug Administration, home devices in outages", text},
    {oxygen, "Keep oxygen cylinders ready for when the concentrator stops, tell the utility and the fire service, and no flame near oxygen.",
     "US Food and Drug Administration, home devices in outages", text},
    {insulin, "Insulin may be kept at 59 to 86 F (15 to 30 C) for up to 28 days in an emergency; ask a pharmacist.", "US Food and Drug Administration", from_memory},
    {pipes, "Keep at least 55 F (13 C) inside so that pipes do not freeze, and let taps drip.", "American Red Cross", from_memory},
};

}  // namespace

std::span<const OutageFact> outage_facts() { return kFacts; }

const OutageFact& outage_fact(Fact fact) { return *std::ranges::find(kFacts, fact, &OutageFact::fact); }

std::string cited(Fact fact) {
  const OutageFact& known = outage_fact(fact);
  const std::string sentence(known.sentence), source(known.source);
  switch (known.status) {
    case text: return sentence + " (" + source + ")";
    case secondary: return sentence + " (" + source + ", as restated)";
    case from_memory: return sentence + " (from memory: " + source + ")";
    case common_practice: break;
  }
  return sentence + " (common practice, no source)";
}

std::optional<int> longest_off_min(const Load& load) {
  if (load.longest_off_min) return load.longest_off_min;
  if (load.importance == Importance::life_safety) return 0;
  const TypicalMatch match = find_typical_load(load.name);
  if (match.row == nullptr) return std::nullopt;
  if (match.row->name == "refrigerator" || match.row->name == "small refrigerator") return kRefrigeratorShutHours * 60;
  if (match.row->name == "freezer") return kHalfFreezerHours * 60;
  if (match.row->name == "sewage pump") return kSepticReserveHours * 60;
  return std::nullopt;
}

}  // namespace ohmstead
