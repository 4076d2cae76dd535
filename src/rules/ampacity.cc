#include "rules/ampacity.h"

#include <algorithm>
#include <cmath>

#include "house/error.h"

namespace ohmstead {

namespace {

std::string table_name(int edition) {
  return edition >= 2011 && edition <= 2017 ? "table 310.15(B)(16)" : "table 310.16";
}

std::string degrees(double celsius) { return plain_number(celsius) + " C"; }

void check_case(const AmpacityCase& given, int column) {
  if (given.terminals_c != 0 && given.terminals_c != 60 && given.terminals_c != 75)
    throw Error(ErrorKind::invalid_input, "Terminals are marked for 60 or 75 C; leave it out where the marking is not known.");
  if (table_310_16_amps(given.size, given.metal, column, given.edition) == 0 || table_310_16_amps(given.size, given.metal, 60, given.edition) == 0)
    throw Error(ErrorKind::invalid_input, "The table of ampacities has no " + size_text(given.size) + " " + metal_text(given.metal) + " at " + degrees(column) + "; " +
                                              (is_aluminum(given.metal) ? "aluminum begins at 12 AWG." : "branch circuits begin at 14 AWG."));
  if (ambient_factor(column, given.ambient_c) == 0)
    throw Error(ErrorKind::invalid_input, "Insulation for " + degrees(column) + " is not good for air of " + degrees(given.ambient_c) + "; give insulation for more, or cooler air.");
}

/// The column of the terminals, and why.
std::pair<int, std::string> terminal_column(const AmpacityCase& given) {
  if (given.terminals_c != 0) return {given.terminals_c, "as marked"};
  const auto sizes = wire_sizes();
  const auto at = [&](std::string_view name) { return std::ranges::find(sizes, name, &WireSize::name) - sizes.begin(); };
  return at(given.size.name) <= at("1") ? std::pair{60, std::string("not marked, up to 1 AWG")} : std::pair{75, std::string("not marked, above 1 AWG")};
}

/// The breaker that may stand before `amps`, and the steps to it.
int breaker_for(const AmpacityCase& given, double amps, std::vector<WorkedStep>& steps) {
  const auto ratings = standard_ratings(given.edition);
  int down = 0;
  for (const int rating : ratings)
    if (rating <= amps + 1e-9) down = rating;
  const int up = standard_rating_from(amps - 1e-9, given.edition);
  const int by_size = given.receptacles ? down : up;
  steps.push_back({"Standard breaker", given.receptacles ? "not above " + number_text(amps, 1) + " A: the circuit has several receptacles" : "the ampacity, or the next standard rating above it", static_cast<double>(by_size), "A", 0,
                   "NFPA 70 240.6(A) and 240.4(B), from memory"});
  const int limit = given.motor ? 0 : small_conductor_amps(given.size, given.metal, given.edition);
  if (limit == 0 || limit >= by_size) return by_size;
  steps.push_back({"Limit of small conductors", size_text(given.size) + " " + metal_text(given.metal), static_cast<double>(limit), "A", 0, "NFPA 70 240.4(D), secondary"});
  return limit;
}

void add_notes(const AmpacityCase& given, Calculation& made) {
  if (given.metal == WireMaterial::not_known) made.notes.push_back("The metal was not given; copper was taken.");
  if (given.nm_cable) made.notes.push_back("Nonmetallic-sheathed cable: corrected and adjusted from the 90 C column, and never more than its 60 C column.");
  if (given.size.kcmil) made.notes.push_back("The numbers of kcmil sizes are from memory; confirm them in the table.");
  if (given.motor) made.notes.push_back("Motor or compressor: its breaker goes by the nameplate, and the limit of 240.4(D) was left out.");
  if (!given.nm_cable && given.terminals_c == 75) made.notes.push_back("75 C counts only if both ends, breaker and equipment, are listed and marked for it.");
  made.notes.push_back(kLocalCodeDecides);
}

}  // namespace

AmpacityAnswer ampacity(const AmpacityCase& given) {
  checked_edition(given.edition);
  const int column = given.nm_cable ? 90 : given.insulation_c;
  check_case(given, column);
  AmpacityAnswer answer;
  std::vector<WorkedStep>& steps = answer.calculation.steps;
  answer.calculation.title = size_text(given.size) + " " + metal_text(given.metal) + ": what it may carry, NFPA 70-" + std::to_string(given.edition);
  const std::string table = "NFPA 70 " + table_name(given.edition) + (given.size.kcmil ? ", from memory" : ", secondary");
  const double base = table_310_16_amps(given.size, given.metal, column, given.edition);
  steps.push_back({"By the table", degrees(column) + " column, air of 30 C, up to three conductors", base, "A", 0, table});
  const double air = ambient_factor(column, given.ambient_c), bundle = bundle_factor(given.conductors);
  steps.push_back({"Correction for the air", degrees(given.ambient_c), air, "", 2, "NFPA 70 310.15, secondary"});
  steps.push_back({"Adjustment for conductors together", std::to_string(given.conductors) + " that carry current", bundle, "", 2, "NFPA 70 310.15, secondary"});
  const double corrected = base * air * bundle;
  steps.push_back({"Corrected and adjusted", plain_number(base) + " A x " + number_text(air, 2) + " x " + number_text(bundle, 2), corrected, "A", 1, ""});
  const auto [terminals, why] = terminal_column(given);
  const double at_terminals = table_310_16_amps(given.size, given.metal, terminals, given.edition);
  steps.push_back({"Limit of the terminals", degrees(terminals) + " column, " + why, at_terminals, "A", 0, "NFPA 70 110.14(C)(1), secondary"});
  answer.amps = std::min(corrected, at_terminals);
  if (given.nm_cable) {
    const double cable = table_310_16_amps(given.size, given.metal, 60, given.edition);
    steps.push_back({"Limit of the cable", "60 C column", cable, "A", 0, "NFPA 70 334.80, from memory"});
    answer.amps = std::min(answer.amps, cable);
  }
  steps.push_back({"It may carry", "the smallest of these", answer.amps, "A", 1, ""});
  answer.breaker_amps = breaker_for(given, answer.amps, steps);
  answer.continuous_amps = std::min<double>(answer.breaker_amps, answer.amps) * 0.8;
  if (answer.breaker_amps > 0)
    steps.push_back({"Of it continuously", "80 % of the smaller of breaker and ampacity, three hours or more", answer.continuous_amps, "A", 1, "NFPA 70 210.19 and 210.20, secondary"});
  add_notes(given, answer.calculation);
  return answer;
}

}  // namespace ohmstead
