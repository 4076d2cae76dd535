#include "rules/load_calculation.h"

#include <algorithm>
#include <cmath>

#include "house/error.h"
#include "rules/conductor.h"
#include "rules/load_worker.h"

namespace ohmstead {

namespace {

using load_detail::Worker;
constexpr double kVolts = 240;

std::string va_text(double va) { return number_text(va) + " VA"; }

void check_case(const DwellingCase& given) {
  const auto refuse = [](const std::string& message) { throw Error(ErrorKind::invalid_input, message); };
  checked_edition(given.edition);
  if (!(given.floor_ft2 > 0 && given.floor_ft2 < 100'000)) refuse("The floor area must be more than 0 and less than 100,000 square feet.");
  if (given.small_appliance < 2 || given.small_appliance > 100) refuse("A dwelling has at least two small-appliance circuits of 20 A (NFPA 70 210.11(C)(1)); give 2 or more.");
  if (given.laundry < 1 || given.laundry > 100) refuse("A dwelling has at least one laundry circuit (NFPA 70 210.11(C)(2)); give 1 or more.");
  for (const DwellingItem& item : given.items)
    if (!(item.va > 0 && item.va <= 1'000'000) || item.count < 1 || item.count > 100) refuse("The load of '" + item.name + "' must be more than 0 and at most 1,000,000 VA, and there are 1 to 100 of it.");
  if (!given.rows.empty() && given.method != LoadMethod::standard) refuse("Amperes line by line are added by the standard method only.");
  for (const LineRow& row : given.rows)
    if (!(row.amps_a >= 0 && row.amps_b >= 0 && row.amps_a + row.amps_b > 0 && row.amps_a + row.amps_b < 4000)) refuse("The amperes of '" + row.name + "' make no sense.");
}

double standard_va(Worker& worker, std::vector<const DwellingItem*>& climate) {
  const double general = worker.general();
  worker.sum("Together", "", general);
  double va = worker.after_demand(general);
  va += worker.cooking() + worker.dryers();
  va += worker.fastened();
  va += worker.heat_or_cool(climate);
  va += worker.vehicles();
  va += worker.nameplates(LoadClass::other, LoadTopic::specific);
  return va + worker.largest_motor(climate);
}

/// Everything but heating and cooling, at nameplate.
double nameplates_va(Worker& worker, LoadTopic topic) {
  double va = worker.general();
  for (const LoadClass kind : {LoadClass::cooking, LoadClass::dryer, LoadClass::fastened, LoadClass::other}) va += worker.nameplates(kind, topic);
  return va + worker.vehicles();
}

/// The first so many VA whole, the rest at 40 %.
double first_and_rest(Worker& worker, double va, double first, LoadTopic topic) {
  worker.sum("Together, at nameplate", "", va);
  const double whole = std::min(va, first), rest = std::max(va - first, 0.0);
  worker.step("First " + va_text(first), "at 100 %", whole, topic);
  if (rest > 0) worker.step("The rest", va_text(rest) + " at 40 %", rest * 40 / 100, topic);
  return whole + rest * 40 / 100;
}

double existing_va(Worker& worker, std::vector<const DwellingItem*>& climate) {
  constexpr double kFirst = 8000;
  double va = nameplates_va(worker, LoadTopic::existing);
  const double heat_or_cool = worker.heat_or_cool(climate);
  if (!worker.given.adds_heat_or_cooling) return first_and_rest(worker, va + heat_or_cool, kFirst, LoadTopic::existing);
  va = first_and_rest(worker, va, kFirst, LoadTopic::existing);
  if (heat_or_cool > 0) worker.step("Heating or cooling, whole", "heating or cooling is being added", heat_or_cool, LoadTopic::existing);
  return va + heat_or_cool;
}

struct LineAmps {
  double a = 0, neutral = 0, b = 0;
};

std::string three(const LineAmps& amps) {
  return "line A " + plain_number(amps.a) + ", neutral " + plain_number(amps.neutral) + ", line B " + plain_number(amps.b);
}

/// Motors and other rows on top of the calculated load, in whole amperes as example D1(b) has them.
LineAmps with_rows(const DwellingCase& given, Calculation& made, double line, double neutral) {
  LineAmps all{static_cast<double>(whole_amps(line)), static_cast<double>(whole_amps(neutral)), static_cast<double>(whole_amps(line))};
  const auto show = [&](const std::string& what, const LineAmps& amps, const std::string& rule) { made.steps.push_back({what, three(amps), std::max(amps.a, amps.b), "A", 0, rule}); };
  show("Calculated load in amperes", all, load_rule(LoadTopic::neutral, given.edition));
  LineAmps largest;
  for (const LineRow& row : given.rows) {
    const LineAmps amps{row.amps_a, row.neutral ? std::max(row.amps_a, row.amps_b) : 0, row.amps_b};
    show(row.name, amps, "as given");
    all = {all.a + amps.a, all.neutral + amps.neutral, all.b + amps.b};
    if (row.motor_a) largest.a = std::max(largest.a, row.amps_a), largest.neutral = row.neutral ? std::max(largest.neutral, row.amps_a) : largest.neutral;
    if (row.motor_b) largest.b = std::max(largest.b, row.amps_b), largest.neutral = row.neutral ? std::max(largest.neutral, row.amps_b) : largest.neutral;
  }
  // The example as printed in 2005 has the smaller quarter in the neutral; the record of another edition has the larger, which is
  // what is taken from 2008 on (from memory).
  if (given.edition == 2005 && largest.a > 0 && largest.b > 0) largest.neutral = std::min({largest.neutral, largest.a, largest.b});
  const LineAmps quarter{largest.a / 4, largest.neutral / 4, largest.b / 4};
  show("A quarter of the largest motor of each", quarter, load_rule(LoadTopic::motor, given.edition));
  all = {all.a + quarter.a, all.neutral + quarter.neutral, all.b + quarter.b};
  show("Together", all, "");
  if (given.edition == 2005) made.notes.push_back("Neutral: the example of 2005 takes the smaller quarter of the motors there; later editions the larger (from memory, to be confirmed).");
  return all;
}

/// NFPA 70 table 310.12 (from memory): wire of a dwelling's service or main feeder.
std::string service_wire(int amps) {
  struct Row {
    int amps;
    const char *copper, *aluminum;
  };
  constexpr Row kRows[] = {{100, "4", "2"}, {110, "3", "1"}, {125, "2", "1/0"}, {150, "1", "2/0"}, {175, "1/0", "3/0"}, {200, "2/0", "4/0"}};
  for (const Row& row : kRows)
    if (row.amps == amps) return std::string("Service or main feeder of ") + std::to_string(amps) + " A in a dwelling: " + row.copper + " AWG copper or " + row.aluminum + " AWG aluminum (table 310.12 of 2020 and later, from memory).";
  return "";
}

double neutral_amps_of(Worker& worker, double neutral_va) {
  const double amps = neutral_va / kVolts;
  worker.made.steps.push_back({"Neutral in amperes", va_text(neutral_va) + " / 240 V", amps, "A", 1, ""});
  if (amps <= 200) return amps;
  const double reduced = 200 + (amps - 200) * 0.7;
  worker.made.steps.push_back({"Neutral above 200 A at 70 %", "200 A + " + number_text(amps - 200, 1) + " A x 70 %", reduced, "A", 1, "NFPA 70 220.61(B), from memory"});
  return reduced;
}

void finish(const DwellingCase& given, LoadAnswer& answer) {
  std::vector<std::string>& notes = answer.calculation.notes;
  answer.amps = std::max(answer.line_a_amps, answer.line_b_amps);
  answer.service_amps = standard_rating_from(std::max<double>(static_cast<double>(whole_amps(answer.amps)), 100), given.edition);
  answer.calculation.steps.push_back({"Service, smallest standard rating", number_text(answer.amps) + " A, not below 100 A for a one-family dwelling", static_cast<double>(answer.service_amps), "A", 0, load_rule(LoadTopic::service, given.edition)});
  if (answer.service_amps == 0) answer.calculation.steps.pop_back(), notes.push_back("The load is above 400 A; the standard ratings here end there.");
  if (const std::string wire = service_wire(answer.service_amps); !wire.empty()) notes.push_back(wire);
  if (given.edition < 2023 && load_detail::total_va(given, LoadClass::vehicle) > 0) notes.push_back("The charger counts at its nameplate; its own circuit must be good for 125 % of it.");
  notes.push_back("120/240 V, 3-wire, one-family dwelling. Amperes are rounded to the nearest whole one, half up.");
  notes.push_back(kLocalCodeDecides);
}

}  // namespace

LoadAnswer dwelling_load(const DwellingCase& given) {
  check_case(given);
  LoadAnswer answer;
  Worker worker{given, answer.calculation};
  constexpr const char* kNames[] = {"standard method", "optional method", "existing dwelling"};
  answer.calculation.title = std::string("Load of a dwelling, ") + kNames[static_cast<std::size_t>(given.method)] + ", NFPA 70-" + std::to_string(given.edition);
  std::vector<const DwellingItem*> climate;
  if (given.method == LoadMethod::standard) answer.va = standard_va(worker, climate);
  else if (given.method == LoadMethod::existing) answer.va = existing_va(worker, climate);
  else {
    answer.va = first_and_rest(worker, nameplates_va(worker, LoadTopic::optional), 10'000, LoadTopic::optional);
    answer.va += worker.optional_climate(climate);
  }
  worker.sum("Calculated load", "", answer.va);
  const double amps = answer.va / kVolts;
  answer.calculation.steps.push_back({"In amperes", va_text(answer.va) + " / 240 V", amps, "A", 1, ""});
  answer.neutral_va = worker.neutral(climate);
  answer.neutral_amps = neutral_amps_of(worker, answer.neutral_va);
  answer.line_a_amps = answer.line_b_amps = amps;
  if (!given.rows.empty()) {
    const LineAmps all = with_rows(given, answer.calculation, amps, answer.neutral_amps);
    answer.line_a_amps = all.a, answer.line_b_amps = all.b, answer.neutral_amps = all.neutral;
  }
  finish(given, answer);
  return answer;
}

}  // namespace ohmstead
