#include <algorithm>

#include "ask/fuel_words.h"
#include "ask/plan_answer.h"
#include "ask/plan_parts.h"
#include "ask/plan_wiring.h"
#include "ask/position_words.h"
#include "ask/sentence.h"
#include "ask/watts.h"
#include "backup/plan_measure.h"
#include "house/index.h"
#include "house/numbering.h"

namespace ohmstead {

using sentence::capital, sentence::counted, sentence::say;

namespace plan_words {

std::string breaker_words(const House& house, const CarriedCircuit& circuit) {
  std::vector<std::string> numbers;
  std::string panel_name;
  for (const BreakerPole& pole : circuit.poles) {
    const Breaker* breaker = find_row(house, pole.breaker);
    const Panel* panel = breaker == nullptr ? nullptr : find_row(house, breaker->panel);
    if (panel == nullptr) continue;
    const std::string number = breaker_number(*panel, *breaker);
    if (std::ranges::find(numbers, number) == numbers.end()) numbers.push_back(number);
    panel_name = panel->name;
  }
  return std::string(numbers.size() == 1 ? "breaker " : "breakers ") + joined(numbers) + (house.panels.size() > 1 ? " in " + panel_name : "");
}

std::string load_words(const House& house, const CarriedLoad& carried) {
  const Load& load = house.loads[carried.load];
  const std::string name = load_text(house, load);
  const bool number = !name.empty() && name.back() >= '0' && name.back() <= '9';  // "light 1, 75 W", not "light 1 75 W"
  std::string words = name + (number ? ", " : " ") + (carried.figures.known ? watts_text(planned_running(carried.figures)) : "? W");
  const int starting = planned_starting(carried.figures);
  if (starting > planned_running(carried.figures)) words += " (" + watts_text(starting) + " to start)";
  return words;
}

std::string nothing_words(const House& house, const CarriedCircuit& circuit) {
  std::vector<std::string> names;
  for (const CarriedLoad& carried : circuit.loads) names.push_back(load_text(house, house.loads[carried.load]));
  return names.empty() ? "nothing wished for" : "nothing to run: " + joined(names) + " is too much, leave it off";
}

std::string place_words(const House& house, const BackupCase& backup, const Placed& placed) {
  std::vector<std::string> numbers;
  int amps = 0;
  const int poles = backup.problem.circuits[static_cast<std::size_t>(placed.circuit)].poles;
  for (std::size_t k = 0; k < static_cast<std::size_t>(poles); ++k) {
    if (placed.position[k] < 0) return "Stays on";
    const Position& position = row(house, backup.positions[static_cast<std::size_t>(placed.position[k])]);
    numbers.push_back(std::to_string(position.number));
    amps = position.amps;
  }
  std::ranges::sort(numbers, {}, [](const std::string& number) { return std::stoi(number); });
  const std::string device = device_words(house, row(house, backup.positions[static_cast<std::size_t>(placed.position[0])]));
  return (numbers.size() == 1 ? "Position " : "Positions ") + joined(numbers) + device + (amps > 0 ? " (" + std::to_string(amps) + " A)" : "");
}

int first_position(const House& house, const BackupCase& backup, const Placed& placed) {
  const int at = placed.position[0];
  return at < 0 ? 0 : row(house, backup.positions[static_cast<std::size_t>(at)]).number;
}

}  // namespace plan_words

using namespace plan_words;

namespace {

std::string circuit_line(const Record& record, const PlanAnswer& answer, const Placed& placed) {
  const auto at = static_cast<std::size_t>(placed.circuit);
  const CarriedCircuit& circuit = answer.backup.circuits[at];
  std::vector<std::string> together, on_demand;
  for (std::size_t l = 0; l < circuit.loads.size(); ++l)
    if (placed.served[l]) (circuit.loads[l].use == LoadUse::on_demand ? on_demand : together).push_back(load_words(record.house, circuit.loads[l]));
  const std::string breaker = breaker_words(record.house, circuit);
  std::string line = (placed.position[0] < 0 ? capital(breaker) : place_words(record.house, answer.backup, placed) + ": " + breaker) + ", ";
  line += together.empty() && on_demand.empty() ? nothing_words(record.house, circuit) : joined(together);
  if (!on_demand.empty()) line += std::string(together.empty() ? "" : "; ") + "when wanted: " + joined(on_demand);
  return line;
}

/// The head of the list of positions: as it is wired, or not.
std::string rides_words(const Record& record, const PlanAnswer& answer) {
  switch (wiring_of(record, answer)) {
    case Wiring::proved: return "What rides where (it is wired so now, and proved):";
    case Wiring::fault: return "What should ride where (the wiring was found wrong):";
    case Wiring::not_proved:
    case Wiring::nothing_to_prove: return "What rides where (wired so by the record, not proved):";
    case Wiring::not_connected: break;
  }
  return "What rides where:";
}

void say_circuits(const Record& record, const PlanAnswer& answer, Lines& lines) {
  std::vector<Placed> placed = answer.plan.placed;
  std::ranges::stable_sort(placed, {}, [&](const Placed& one) { return first_position(record.house, answer.backup, one); });
  std::vector<std::string> items;
  for (const Placed& one : placed) items.push_back(circuit_line(record, answer, one));
  const bool positions = answer.backup.hookup == Hookup::positions;
  if (items.empty()) return say(lines, LineKind::answer, "Nothing can be carried.");
  say(lines, LineKind::answer, positions ? rides_words(record, answer) : "Breakers that stay on in an outage; all others are switched off:", items);
}

/// Of the loads that run together, each for its share of the time.
int average_watts(const House& house, const BackupCase& backup, const Plan& plan) {
  long long hundredths = 0;
  for (const Placed& placed : plan.placed)
    for (const CarriedLoad& carried : backup.circuits[static_cast<std::size_t>(placed.circuit)].loads)
      if (carried.use != LoadUse::on_demand) hundredths += static_cast<long long>(planned_running(carried.figures)) * duty_percent(house.loads[carried.load]);
  return static_cast<int>((hundredths + 99) / 100);
}

}  // namespace

namespace plan_words {

void say_flags(const Record& record, const PlanAnswer& answer, Lines& lines) {
  const House& house = record.house;
  for (const Placed& placed : answer.plan.placed) {
    const auto at = static_cast<std::size_t>(placed.circuit);
    const CarriedCircuit& circuit = answer.backup.circuits[at];
    if (circuit.gfci_or_afci && placed.position[0] >= 0)
      say(lines, LineKind::caution, capital(breaker_words(house, circuit)) + " protects people (GFCI or AFCI), and wiring it to the transfer device may bypass that. "
                                    "Whoever connects it decides.");
    const int amps = placed.position[0] < 0 ? 0 : answer.backup.problem.positions[static_cast<std::size_t>(placed.position[0])].amps;
    if (amps > 0 && amps < answer.backup.problem.circuits[at].amps)
      say(lines, LineKind::detail, capital(place_words(house, answer.backup, placed)) + " carries a " + std::to_string(answer.backup.problem.circuits[at].amps) +
                                   " A circuit: it trips sooner there. Whether 20 A receptacles may stay on it, the electrician decides.");
    std::vector<std::string> off;
    for (const std::size_t l : circuit.unwanted) off.push_back(load_text(house, house.loads[l]));
    if (!off.empty()) say(lines, LineKind::detail, "Leave off in an outage, on the same circuit: " + joined(off) + ".");
  }
}

void say_sums(const Record& record, const PlanAnswer& answer, Lines& lines) {
  const PlanPicture picture = plan_picture(answer.backup, answer.plan);
  const Source& source = record.house.sources[answer.backup.source];
  say(lines, LineKind::answer, "Together they take " + watts_text(picture.running) + " of " + watts_text(picture.limit) + " that " + source.name + " gives; with the largest start " +
                               watts_text(picture.running + picture.start_extra) + " of " + watts_text(picture.starting_limit) + ".", leg_items(record.house, answer));
  const int cord = source.cord_amps, inlet = source.inlet_amps;
  if (picture.limit < source.running_watts && (cord > 0 || inlet > 0)) {
    const bool of_cord = cord > 0 && (inlet <= 0 || cord <= inlet);
    say(lines, LineKind::answer, source.name + " itself gives " + watts_text(source.running_watts) + "; its " + std::to_string(of_cord ? cord : inlet) + " A " +
                                 (of_cord ? "cord" : "inlet") + " lets only " + watts_text(picture.limit) + " through.");
  }
}

void say_fuel(const Record& record, const PlanAnswer& answer, Lines& lines) {
  const Source& source = record.house.sources[answer.backup.source];
  const Lines fuel = words_of_fuel(source, answer.plan.sums.total_running, average_watts(record.house, answer.backup, answer.plan));
  lines.insert(lines.end(), fuel.begin(), fuel.end());
}

}  // namespace plan_words

Lines words_of_plan(const Record& record, const Names& names, const PlanAnswer& answer) {
  Lines lines;
  if (answer.kept) say_wiring(record, answer, lines);
  say_no_interlock(record, answer, lines);
  if (answer.plan.end != PlanEnd::impossible) say_life_safety_first(record, answer, lines);
  say_doubts(record, names, answer, lines);
  const Source& source = record.house.sources[answer.backup.source];
  if (answer.plan.end == PlanEnd::impossible) {
    say(lines, LineKind::danger, "There is no plan for " + source.name + " that does what is pinned. Take a pin away with `ohmstead plan --unpin THING`.");
    say_pins_that_cannot_be(record, answer, lines);
    return lines;
  }
  const std::string sure = answer.kept ? "The plan that is kept" : answer.plan.end == PlanEnd::optimal ? "The best plan" : "The best plan found";
  say(lines, LineKind::answer, sure + " for " + source.name + (answer.kept ? "." : answer.plan.end == PlanEnd::optimal ? "; no other serves more of what matters." : "."));
  if (answer.plan.end == PlanEnd::stopped && !answer.kept)
    say(lines, LineKind::detail, "The search was cut off: at most " + thousands(answer.plan.bound.importance - answer.plan.score.importance) + " more points of importance could be served.");
  if (!answer.kept) say_pins(record, answer, lines);
  if (answer.best) say(lines, LineKind::answer, "A better plan is possible now; see `ohmstead plan`.");
  say_circuits(record, answer, lines);
  say_sums(record, answer, lines);
  say_fuel(record, answer, lines);
  say_flags(record, answer, lines);
  say_free_positions(record, answer, lines);
  say_moves(record, answer, lines);
  say_not_served(record, answer, lines);
  return lines;
}

}  // namespace ohmstead
