#include "rules/voltage_drop.h"

#include <algorithm>
#include <cmath>

#include "house/error.h"

namespace ohmstead {

namespace {

constexpr double kFeetInKm = 1000 / 0.3048;

void check_between(const char* what, double value, double low, double high) {
  if (!(value > low && value <= high))
    throw Error(ErrorKind::invalid_input, std::string(what) + " must be more than " + plain_number(low) + " and at most " + plain_number(high) + ".");
}

void check_case(const DropCase& given) {
  check_between("The length in feet", given.length_ft, 0, 100'000);
  check_between("The current in amperes", given.amps, 0, 2000);
  check_between("The voltage", given.volts, 0, 1000);
  check_between("The power factor", given.power_factor, 0, 1);
  if (given.phases != 1 && given.phases != 3) throw Error(ErrorKind::invalid_input, "A circuit has 1 phase or 3.");
  if (!(given.conductor_c >= -40 && given.conductor_c <= 90))
    throw Error(ErrorKind::invalid_input, "The temperature of the conductor is from -40 to 90 C.");
}

/// Is it 10 AWG or smaller, which cables of houses have solid?
bool usually_solid(const WireSize& size) { return table_8_ohm_kft(size, WireMaterial::copper, Make::solid).has_value() && size.name != "8"; }

Make make_of(const DropCase& given) { return given.make.value_or(usually_solid(given.size) ? Make::solid : Make::stranded); }

double way_factor(const DropCase& given) { return given.phases == 3 ? std::sqrt(3.0) : 2.0; }

/// Effective ohm per 1000 ft, at its temperature. Nothing where a table does not have it.
std::optional<double> ohm_kft(const DropCase& given) {
  if (!given.conduit) {
    const auto at_75 = table_8_ohm_kft(given.size, given.metal, make_of(given));
    return at_75 ? std::optional(from_75_c(*at_75, given.metal, given.conductor_c)) : std::nullopt;
  }
  const auto z = table_9_ohm_kft(given.size, given.metal, *given.conduit);
  if (!z) return std::nullopt;
  const double sine = std::sqrt(1 - given.power_factor * given.power_factor);
  return from_75_c(z->r, given.metal, given.conductor_c) * given.power_factor + z->x * sine;
}

double drop_volts(const DropCase& given, double ohm_per_kft) { return way_factor(given) * given.length_ft * ohm_per_kft / 1000 * given.amps; }

std::string size_within(DropCase given) {
  const auto sizes = wire_sizes();
  const auto own = std::ranges::find(sizes, given.size.name, &WireSize::name);
  given.make = std::nullopt;
  for (auto size = own; size != sizes.end(); ++size) {
    given.size = *size;
    const auto ohm = ohm_kft(given);
    if (ohm && drop_volts(given, *ohm) <= given.volts * kGoodPercent / 100) return size_text(*size);
  }
  return "";
}

void add_resistance_steps(const DropCase& given, double ohm, std::vector<WorkedStep>& steps) {
  const double a = is_aluminum(given.metal) ? 0.00330 : 0.00323;
  const auto warm = [&](double at_75) {
    if (given.conductor_c == 75) return;
    steps.push_back({"Resistance at " + plain_number(given.conductor_c) + " C", plain_number(at_75) + " x (1 + " + number_text(a, 5) + " x (" + plain_number(given.conductor_c) + " - 75))", from_75_c(at_75, given.metal, given.conductor_c),
                     "ohm/1000 ft", 4, "NFPA 70 chapter 9 table 8 note 2, from memory"});
  };
  if (!given.conduit) {
    const bool solid = make_of(given) == Make::solid;
    const double at_75 = *table_8_ohm_kft(given.size, given.metal, make_of(given));
    const bool memory = given.size.kcmil || (!solid && usually_solid(given.size)) || (!solid && given.size.name == "8");
    steps.push_back({"Resistance at 75 C", size_text(given.size) + " " + metal_text(given.metal) + (solid ? ", solid" : ", stranded"), at_75, "ohm/1000 ft", 4, std::string("NFPA 70 chapter 9 table 8, ") + (memory ? "from memory" : "secondary")});
    return warm(at_75);
  }
  const Impedance z = *table_9_ohm_kft(given.size, given.metal, *given.conduit);
  const char* conduits[] = {"PVC", "aluminum", "steel"};
  const std::string in = std::string(" in ") + conduits[static_cast<std::size_t>(*given.conduit)] + " conduit";
  steps.push_back({"Resistance at 75 C", size_text(given.size) + " " + metal_text(given.metal) + in, z.r, "ohm/1000 ft", 3, "NFPA 70 chapter 9 table 9, secondary"});
  steps.push_back({"Reactance", "60 Hz", z.x, "ohm/1000 ft", 3, "NFPA 70 chapter 9 table 9, secondary"});
  warm(z.r);
  steps.push_back({"Effective impedance", "R x pf + X x sin(arccos pf), pf " + plain_number(given.power_factor), ohm, "ohm/1000 ft", 3, "textbook"});
}

void add_notes(const DropCase& given, DropAnswer& answer) {
  std::vector<std::string>& notes = answer.calculation.notes;
  notes.push_back(std::string(answer.percent <= kGoodPercent ? "Within" : "More than") + " the 3 % that is advised to the farthest outlet of a branch circuit (5 % with the feeder). That is advice of the code, not a duty (informational notes of 210.19 and 215.2).");
  if (answer.percent > kGoodPercent)
    notes.push_back(answer.size_enough.empty() ? "No size in these tables stays within 3 % over that length." : "Smallest size that stays within 3 %: " + answer.size_enough + " " + metal_text(given.metal) + ".");
  if (given.metal == WireMaterial::not_known) notes.push_back("The metal was not given; copper was taken.");
  if (given.metal == WireMaterial::copper_clad_aluminium) notes.push_back("Copper-clad aluminum was reckoned as aluminum, which has a little more resistance.");
  if (!given.make && !given.conduit) notes.push_back("Solid up to 10 AWG and stranded above was taken (common practice); stranded has about 2 % more.");
  notes.push_back(kLocalCodeDecides);
}

}  // namespace

DropAnswer voltage_drop(const DropCase& given) {
  check_case(given);
  const auto ohm = ohm_kft(given);
  if (!ohm)
    throw Error(ErrorKind::invalid_input, "The table of resistances has no " + size_text(given.size) + " " + metal_text(given.metal) +
                                              (given.conduit ? " in conduit." : make_of(given) == Make::solid ? ", solid: give it as stranded." : ", stranded."));
  DropAnswer answer;
  answer.calculation.title = "Voltage drop of " + size_text(given.size) + " " + metal_text(given.metal) + ", " + plain_number(given.length_ft) + " ft one way, " + plain_number(given.amps) + " A at " + plain_number(given.volts) + " V";
  std::vector<WorkedStep>& steps = answer.calculation.steps;
  add_resistance_steps(given, *ohm, steps);
  answer.volts = drop_volts(given, *ohm);
  answer.percent = 100 * answer.volts / given.volts;
  const std::string way = given.phases == 3 ? "sqrt(3)" : "2";
  const std::string length = " x " + plain_number(given.length_ft) + " ft x ";
  steps.push_back({"Voltage drop", way + length + plain_number(*ohm) + " ohm / 1,000 ft x " + plain_number(given.amps) + " A", answer.volts, "V", 3, "textbook"});
  steps.push_back({"Of the voltage", "100 x " + number_text(answer.volts, 3) + " V / " + plain_number(given.volts) + " V", answer.percent, "%", 2, ""});
  const double per_km = resistance_ohm_km(given.size, given.metal, given.conductor_c);
  answer.formula_volts = way_factor(given) * given.length_ft / kFeetInKm * per_km * given.amps;
  steps.push_back({"The same by resistivity and area", way + length + number_text(per_km, 4) + " ohm/km, solid, at " + plain_number(given.conductor_c) + " C", answer.formula_volts, "V", 3, std::string(is_aluminum(given.metal) ? "IEC 60889" : "IEC 60028") + " and ASTM B258, secondary"});
  answer.longest_ft = given.length_ft * kGoodPercent / answer.percent;
  steps.push_back({"Longest way at 3 %", "one way, same load", answer.longest_ft, "ft", 0, ""});
  answer.size_enough = size_within(given);
  add_notes(given, answer);
  return answer;
}

}  // namespace ohmstead
