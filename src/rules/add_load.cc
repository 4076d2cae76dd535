#include "rules/add_load.h"

#include <algorithm>

#include "rules/conductor.h"

namespace ohmstead {

namespace {

constexpr double kVolts = 240;

bool is_climate(LoadClass kind) {
  return kind == LoadClass::heating || kind == LoadClass::air_conditioning || kind == LoadClass::heat_pump || kind == LoadClass::supplementary_heat;
}

MayAdd verdict_of(const AddAnswer& answer, int service) {
  if (service == 0) return MayAdd::not_known;
  if (answer.amps_by_rule > service) return MayAdd::does_not_fit;
  return answer.amps_careful > service ? MayAdd::close : MayAdd::fits;
}

}  // namespace

AddAnswer may_add(const AddCase& given) {
  DwellingCase house = given.house;
  house.method = LoadMethod::existing;
  house.adds_heat_or_cooling = false;
  AddAnswer answer;
  answer.amps_now = dwelling_load(house).amps;
  house.adds_heat_or_cooling = is_climate(given.added.kind);
  house.items.push_back(given.added);
  const LoadAnswer with = dwelling_load(house);
  answer.amps_by_rule = with.amps;
  answer.calculation = with.calculation;
  // What follows "In amperes" (neutral, smallest service) is not asked here.
  std::vector<WorkedStep>& steps = answer.calculation.steps;
  const auto amperes = std::ranges::find(steps, "In amperes", &WorkedStep::what);
  steps.erase(amperes + 1, steps.end());
  answer.calculation.title = "Existing dwelling with " + given.added.name + " added, NFPA 70-" + std::to_string(house.edition) + " 220.83";
  const double share = given.continuous ? 1.25 : 1;
  const double volts = given.added.neutral ? kVolts / 2 : kVolts;
  answer.added_amps = given.added.va * given.added.count / volts;
  answer.circuit_amps = standard_rating_from(given.added.va / volts * share, house.edition);
  answer.amps_careful = std::max(answer.amps_by_rule, answer.amps_now + answer.added_amps * share);
  steps.push_back({"Carefully: as it is now, and the new load whole", number_text(answer.amps_now, 1) + " A + " + number_text(answer.added_amps, 1) + " A" + (given.continuous ? " x 125 %" : ""), answer.amps_careful, "A", 1, "NFPA 70 215.2 and 220.83, secondary"});
  if (answer.circuit_amps > 0) steps.push_back({"Breaker of its own circuit", number_text(given.added.va / volts, 1) + " A" + (given.continuous ? " x 125 %, next standard rating" : ", next standard rating"), static_cast<double>(answer.circuit_amps), "A", 0, "NFPA 70 210.20(A), secondary"});
  if (given.service_amps > 0) steps.push_back({"Rating of the service", "", static_cast<double>(given.service_amps), "A", 0, "as recorded or given"});
  answer.verdict = verdict_of(answer, given.service_amps);
  std::vector<std::string>& notes = answer.calculation.notes;
  std::erase_if(notes, [](const std::string& note) { return note.starts_with("Service or main feeder"); });
  notes.insert(notes.end() - 1, "There is another lawful way: 125 % of the highest load measured over a year, and the new load (220.87, from memory). The room on the bus, the wires of the service and the transformer are not computed here.");
  return answer;
}

}  // namespace ohmstead
