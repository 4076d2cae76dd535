// What a plan changes of today's wiring, and which pins keep any plan from being.

#include <algorithm>

#include "ask/plan_parts.h"
#include "ask/sentence.h"
#include "ask/watts.h"
#include "house/index.h"

namespace ohmstead::plan_words {

using sentence::capital, sentence::say;

namespace {

std::string number_of(const Record& record, const BackupCase& backup, int position) {
  return std::to_string(row(record.house, backup.positions[static_cast<std::size_t>(position)]).number);
}

/// "1 and 2" of the positions of these poles; empty: none.
std::string numbers_of(const Record& record, const BackupCase& backup, const PerPole& positions, int poles) {
  std::vector<int> numbers;
  for (std::size_t k = 0; k < static_cast<std::size_t>(poles); ++k)
    if (positions[k] >= 0) numbers.push_back(std::stoi(number_of(record, backup, positions[k])));
  std::ranges::sort(numbers);
  std::vector<std::string> words;
  for (const int number : numbers) words.push_back(std::to_string(number));
  return joined(words);
}

/// "position 3", "positions 5 and 6"
std::string positions_words(const std::string& numbers) { return (numbers.find(' ') == std::string::npos ? "position " : "positions ") + numbers; }

bool possible(PlanProblem problem, std::vector<PlanPin> pins) {
  problem.pins = std::move(pins);
  return best_plan(problem, kMostNodesOfAQuestion).end != PlanEnd::impossible;
}

std::string circuit_words(const Record& record, const PlanAnswer& answer, int circuit) {
  return breaker_words(record.house, answer.backup.circuits[static_cast<std::size_t>(circuit)]);
}

std::string pin_words(const Record& record, const PlanAnswer& answer, const PlanPin& pin) {
  const std::string what = circuit_words(record, answer, pin.circuit);
  if (pin.kind == PinKind::never) return what + " never";
  return pin.kind == PinKind::must ? what + " gets a place" : what + " on position " + number_of(record, answer.backup, pin.position);
}

/// Why this pin, alone, cannot be.
std::string why_not_alone(const Record& record, const PlanAnswer& answer, const PlanPin& pin) {
  const PlanProblem& pinned = answer.backup.problem;
  if (pin.kind == PinKind::at && possible(pinned, {{PinKind::must, pin.circuit, -1}})) {
    const int of_position = pinned.positions[static_cast<std::size_t>(pin.position)].amps, own = pinned.circuits[static_cast<std::size_t>(pin.circuit)].amps;
    if (own > 0 && of_position > own)
      return "that position has " + std::to_string(of_position) + " A, and its breaker " + std::to_string(own) + " A: a position's breaker may be no larger than the circuit's own.";
    return "that position does not suit it: it may be too small for what runs, not be tied to a second one, or its leg not have enough watts. Another position does.";
  }
  PlanProblem free = pinned;
  free.pins.clear();
  const WhyNotAnswer why = why_not(free, best_plan(free, kMostNodesOfAQuestion), pin.circuit);
  return reason_words("the circuit of " + circuit_words(record, answer, pin.circuit), record.house.sources[answer.backup.source].name, why);
}

}  // namespace

void say_moves(const Record& record, const PlanAnswer& answer, Lines& lines) {
  const PlanProblem& problem = answer.backup.problem;
  const bool any = std::ranges::any_of(problem.circuits, [](const PlanCircuit& circuit) { return std::ranges::any_of(circuit.position_now, [](int p) { return p >= 0; }); });
  if (!any || answer.backup.hookup != Hookup::positions) return;
  std::vector<std::string> items;
  for (std::size_t c = 0; c < problem.circuits.size(); ++c) {
    const PlanCircuit& circuit = problem.circuits[c];
    const auto placed = std::ranges::find(answer.plan.placed, static_cast<int>(c), &Placed::circuit);
    const std::string now = numbers_of(record, answer.backup, circuit.position_now, circuit.poles);
    const std::string then = placed == answer.plan.placed.end() ? "" : numbers_of(record, answer.backup, placed->position, circuit.poles);
    const bool same = placed == answer.plan.placed.end() ? now.empty() : placed->position == circuit.position_now;
    if (same) continue;
    const std::string what = capital(circuit_words(record, answer, static_cast<int>(c)));
    items.push_back(now.empty() ? what + " comes to " + positions_words(then) : then.empty() ? what + " leaves " + positions_words(now)
                                                                           : what + " moves from " + positions_words(now) + " to " + then);
  }
  if (!items.empty()) say(lines, LineKind::answer, "Against the wiring of today (whoever connects it goes by `ohmstead worksheet`):", items);
}

void say_pins(const Record& record, const PlanAnswer& answer, Lines& lines) {
  std::vector<std::string> pins;
  for (const PlanPin& pin : answer.backup.problem.pins) {
    std::string what = pin_words(record, answer, pin);
    const CarriedCircuit& circuit = answer.backup.circuits[static_cast<std::size_t>(pin.circuit)];
    std::vector<std::string> loads;
    for (const CarriedLoad& carried : circuit.loads) loads.push_back(load_text(record.house, record.house.loads[carried.load]));
    for (const std::size_t l : circuit.unwanted) loads.push_back(load_text(record.house, record.house.loads[l]));
    pins.push_back(loads.empty() ? what : what + ": " + joined(loads));
  }
  if (!pins.empty())
    say(lines, LineKind::detail, "You pinned, and that holds until you take it away (`ohmstead plan --unpin THING`, or `--unpin all`):", pins);
}

void say_pins_that_cannot_be(const Record& record, const PlanAnswer& answer, Lines& lines) {
  const PlanProblem& problem = answer.backup.problem;
  std::vector<std::string> alone, one_less, all;
  for (std::size_t i = 0; i < problem.pins.size(); ++i) {
    const PlanPin& pin = problem.pins[i];
    const std::string words = capital(pin_words(record, answer, pin));
    all.push_back(words);
    if (!possible(problem, {pin})) alone.push_back(words + " cannot be: " + why_not_alone(record, answer, pin));
    std::vector<PlanPin> rest = problem.pins;
    rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(i));
    if (possible(problem, rest)) one_less.push_back(words);
  }
  if (!alone.empty()) say(lines, LineKind::answer, "Pins that cannot be, whatever else is pinned:", alone);
  else if (!one_less.empty()) say(lines, LineKind::answer, "Each of these pins could be, and not all together. Without one of these there is a plan:", one_less);
  else say(lines, LineKind::answer, "These pins contradict each other in more than one way; take away what matters least:", all);
}

}  // namespace ohmstead::plan_words
