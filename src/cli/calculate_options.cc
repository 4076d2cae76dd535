#include "cli/calculate_options.h"

#include <charconv>
#include <cmath>
#include <vector>

#include "ask/dwelling_items.h"
#include "ask/printable.h"
#include "house/error.h"

namespace ohmstead {

namespace {

[[noreturn]] void refuse(const std::string& message) { throw Error(ErrorKind::invalid_input, message); }

/// A whole number.
int whole(const Arguments& arguments, const std::string& option, int fallback, int low, int high) {
  const double value = arguments.number(option, fallback, low, high);
  if (value != std::floor(value)) refuse(option + " needs a whole number.");
  return static_cast<int>(value);
}

WireMaterial metal_of(const Arguments& arguments) {
  const std::string word = arguments.text("--metal", "copper");
  if (word == "copper" || word == "cu") return WireMaterial::copper;
  if (word == "aluminum" || word == "aluminium" || word == "al") return WireMaterial::aluminium;
  if (word == "copper-clad") return WireMaterial::copper_clad_aluminium;
  refuse("--metal is copper, aluminum or copper-clad, not '" + terminal::printable(word.substr(0, 40)) + "'.");
}

WireSize wire_of(const Arguments& arguments) {
  if (!arguments.has("--wire")) refuse("Give the size of the wire, such as --wire 12 or --wire 2/0.");
  return wire_size(arguments.text("--wire"));
}

/// The numbers parted by colons; empty where one is none.
std::vector<double> numbers_in(const std::string& words) {
  std::vector<double> numbers;
  for (std::size_t from = 0; from <= words.size();) {
    const std::size_t end = std::min(words.find(':', from), words.size());
    double value = 0;
    const auto [stop, fault] = std::from_chars(words.data() + from, words.data() + end, value, std::chars_format::fixed);
    if (fault != std::errc{} || stop != words.data() + end || !(value >= 0 && value < 10'000)) return {};
    numbers.push_back(value);
    from = end + 1;
  }
  return numbers;
}

}  // namespace

int edition_of(const Arguments& arguments) { return checked_edition(whole(arguments, "--edition", kNewestEdition, 0, 9999)); }

void take_drop_options(const Arguments& arguments, DropCase& given, bool all) {
  constexpr double kFeetInMeter = 1 / 0.3048;
  if (all || arguments.has("--wire")) given.size = wire_of(arguments);
  if (arguments.has("--metal")) given.metal = metal_of(arguments);
  if (arguments.has("--feet") && arguments.has("--meters")) refuse("Give the length one way as --feet or as --meters, not both.");
  if (arguments.has("--feet")) given.length_ft = arguments.number("--feet", 0, 0, 100'000);
  if (arguments.has("--meters")) given.length_ft = arguments.number("--meters", 0, 0, 30'000) * kFeetInMeter;
  if (given.length_ft == 0) refuse("Give the length one way, as --feet or as --meters.");
  given.amps = arguments.number("--amps", given.amps, 0, 2000);
  if (given.amps == 0) refuse("Give the current of the load, such as --amps 12.");
  if (arguments.has("--phases")) given.phases = whole(arguments, "--phases", 1, 1, 3);
  given.volts = arguments.number("--volts", given.phases == 3 ? 208 : given.volts, 1, 1000);
  given.conductor_c = arguments.number("--conductor-c", 75, -40, 90);
  given.power_factor = arguments.number("--pf", 1, 0, 1);
  if (arguments.has("--stranded")) given.make = Make::stranded;
  if (const std::string conduit = arguments.text("--conduit"); !conduit.empty()) {
    if (conduit != "pvc" && conduit != "aluminum" && conduit != "steel") refuse("--conduit is pvc, aluminum or steel.");
    given.conduit = conduit == "pvc" ? Conduit::pvc : conduit == "steel" ? Conduit::steel : Conduit::aluminum;
  } else if (given.power_factor != 1) {
    refuse("The power factor counts with a conduit only, whose table has the reactance: give --conduit pvc, aluminum or steel.");
  }
}

AmpacityCase ampacity_case(const Arguments& arguments) {
  AmpacityCase given{.size = wire_of(arguments), .metal = metal_of(arguments)};
  given.insulation_c = whole(arguments, "--insulation", 75, 0, 999);
  given.terminals_c = whole(arguments, "--terminals", 0, 0, 999);
  given.ambient_c = arguments.number("--ambient-c", 30, -40, 60);
  given.conductors = whole(arguments, "--conductors", 3, 1, 1000);
  given.nm_cable = arguments.has("--nm-cable");
  given.receptacles = arguments.has("--receptacles");
  given.motor = arguments.has("--motor");
  given.edition = edition_of(arguments);
  return given;
}

NeutralCase neutral_case(const Arguments& arguments) {
  NeutralCase given;
  const std::string system = arguments.text("--system", "120/240");
  if (system == "120/208") given.system = VoltageSystem::wye_120_208;
  else if (system == "120/208-3") given.system = VoltageSystem::wye_120_208_3;
  else if (system != "120/240") refuse("--system is 120/240, 120/208 or 120/208-3 here, not '" + terminal::printable(system.substr(0, 40)) + "'.");
  for (const std::string& words : arguments.texts("--load")) {
    const auto numbers = numbers_in(words);
    if (numbers.size() < 2 || numbers.size() > 3 || numbers[0] != std::floor(numbers[0]) || numbers[0] < 1 || numbers[0] > 3)
      refuse("--load is a leg, amperes and, if below 1, a power factor, such as 1:15 or 2:10:0.8, not '" + terminal::printable(words.substr(0, 40)) + "'.");
    given.loads.push_back({numbers[1], static_cast<int>(numbers[0]), numbers.size() == 3 ? numbers[2] : 1.0});
  }
  return given;
}

void take_load_options(const Arguments& arguments, DwellingCase& given) {
  given.edition = edition_of(arguments);
  const std::string method = arguments.text("--method", "standard");
  if (method != "standard" && method != "optional" && method != "existing") refuse("--method is standard, optional (220.82) or existing (220.83).");
  given.method = method == "standard" ? LoadMethod::standard : method == "optional" ? LoadMethod::optional : LoadMethod::existing;
  if (arguments.has("--area")) given.floor_ft2 = arguments.number("--area", 0, 0, 100'000);
  if (given.floor_ft2 == 0) refuse("Give the floor area in square feet, outside dimensions, such as --area 1500.");
  given.small_appliance = whole(arguments, "--small-appliance", given.small_appliance, 0, 100);
  given.laundry = whole(arguments, "--laundry", given.laundry, 0, 100);
  for (const std::string& words : arguments.texts("--item")) given.items.push_back(item_in_words(words));
}

}  // namespace ohmstead
