#include <algorithm>

#include "ask/fuel_words.h"
#include "ask/plan_parts.h"
#include "ask/sentence.h"
#include "ask/turns.h"
#include "ask/watts.h"

namespace ohmstead {

using sentence::capital, sentence::say;

namespace {

/// "freezer (Storage) and router (Living room)": what must run on a circuit.
std::string circuit_text(const House& house, const TurnsAnswer& answer, int circuit) {
  std::vector<std::string> loads;
  for (const CarriedLoad& carried : answer.backup.circuits[static_cast<std::size_t>(circuit)].loads)
    if (carried.use != LoadUse::on_demand) loads.push_back(load_text(house, house.loads[carried.load]));
  return joined(loads);
}

std::string clock(int minutes) {
  const std::string m = std::to_string(minutes % 60);
  return std::to_string(minutes / 60) + ":" + (m.size() == 1 ? "0" : "") + m;
}

std::vector<std::string> names_of(const House& house, const TurnsAnswer& answer, const std::vector<std::size_t>& loads) {
  std::vector<std::string> names;
  for (const std::size_t l : loads)
    names.push_back(l < answer.circuits.size() ? circuit_text(house, answer, answer.circuits[l].circuit) : "what is always on");
  return names;
}

void say_timetable(const House& house, const TurnsAnswer& answer, Lines& lines) {
  std::vector<std::string> items{clock(0) + "  on, one after the other: " + joined(names_of(house, answer, answer.rotation.begin))};
  std::vector<RotationStep> steps = answer.rotation.steps;  // those of the beginning are made anew at its end
  std::ranges::stable_partition(steps, [](const RotationStep& step) { return step.at_min != 0; });
  for (const RotationStep& step : steps) {
    std::string text = clock(step.at_min == 0 ? answer.rotation.time.cycle_min : step.at_min);
    if (!step.off.empty()) text += "  off: " + joined(names_of(house, answer, step.off));
    if (!step.on.empty()) text += "  on: " + joined(names_of(house, answer, step.on));
    items.push_back(text);
  }
  say(lines, LineKind::answer, "A timetable of " + hours_text({answer.rotation.time.cycle_min / 60.0, answer.rotation.time.cycle_min / 60.0}) +
                               ", again and again; hours and minutes from its beginning:", items);
}

void say_bars(const House& house, const TurnsAnswer& answer, Lines& lines) {
  const int slots = answer.rotation.time.cycle_min / answer.rotation.time.slot_min;
  std::vector<std::string> bars;
  for (std::size_t c = 0; c < answer.circuits.size(); ++c) {
    std::string bar = "|";
    for (int slot = 0; slot < slots; ++slot) bar += (answer.rotation.on[c] >> slot & 1U) != 0 ? '#' : '.';
    bars.push_back(bar + "| " + circuit_text(house, answer, answer.circuits[c].circuit));
  }
  say(lines, LineKind::detail, "# is on, . is off; each is " + std::to_string(answer.rotation.time.slot_min) + " minutes:", bars);
}

void say_fuel(const House& house, const TurnsAnswer& answer, Lines& lines) {
  const Source& source = house.sources[answer.backup.source];
  if (const auto hours = hours_on_tank(source, answer.times))
    say(lines, LineKind::answer, (source.kind == SourceKind::battery_inverter ? "A full battery lasts about " : "A full tank lasts about ") + hours_text(*hours) + " this way.");
  const double cycles = kOutageHours * 60.0 / answer.rotation.time.cycle_min;
  if (const auto liters = fuel_for(source, answer.times))
    say(lines, LineKind::answer, "Fuel for three days: about " + fuel_text(source.fuel, {liters->low * cycles, liters->high * cycles}) + ".");
}

/// Must run, and has no place in this plan either.
void say_without_place(const House& house, const TurnsAnswer& answer, Lines& lines) {
  std::vector<std::string> without;
  for (std::size_t c = 0; c < answer.backup.circuits.size(); ++c)
    if (std::ranges::find(answer.plan.placed, static_cast<int>(c), &Placed::circuit) == answer.plan.placed.end())
      if (const std::string what = circuit_text(house, answer, static_cast<int>(c)); !what.empty()) without.push_back(what);
  if (!without.empty()) say(lines, LineKind::answer, "Wished for, and without a place here too (`ohmstead plan --why-not THING`): " + joined(without) + ".");
}

void say_assumed(const House& house, const TurnsAnswer& answer, Lines& lines) {
  std::vector<std::string> assumed;
  for (const TurnsCircuit& circuit : answer.circuits)
    if (circuit.assumed) assumed.push_back(circuit_text(house, answer, circuit.circuit));
  if (!assumed.empty())
    say(lines, LineKind::detail, "How long it may be off is a habit of the trade, or not known, for " + joined(assumed) + "; say it: `ohmstead wish 'THING, off at most 4 h'`.");
}

void say_impossible(const House& house, const TurnsAnswer& answer, Lines& lines) {
  std::vector<std::string> never = names_of(house, answer, answer.rotation.never_fits);
  if (!never.empty()) say(lines, LineKind::danger, house.sources[answer.backup.source].name + " cannot start " + joined(never) + ", even alone.");
  else say(lines, LineKind::danger, answer.rotation.end == RotationEnd::stopped ? "No timetable was found in the time that was given to the search; that there is none is not proven."
                                                                             : "There is no timetable in which everything gets its time; wish for less, or see `ohmstead plan --smallest`.");
}

}  // namespace

Lines words_of_turns(const Record& record, const TurnsAnswer& answer) {
  Lines lines;
  if (answer.rotation.on.empty()) {
    say_impossible(record.house, answer, lines);
    return lines;
  }
  const bool at_once = answer.rotation.switchings == 0;
  if (at_once) say(lines, LineKind::answer, "Nothing has to take turns: all that has a place fits at once.");
  std::vector<std::string> places;
  std::vector<Placed> in_order = answer.plan.placed;
  std::ranges::stable_sort(in_order, {}, [&](const Placed& placed) { return plan_words::first_position(record.house, answer.backup, placed); });
  for (const Placed& placed : in_order) {
    const std::string what = circuit_text(record.house, answer, placed.circuit);
    if (!what.empty()) places.push_back(plan_words::place_words(record.house, answer.backup, placed) + ": " + what);
  }
  say(lines, LineKind::answer, "For this it rides so, which may be otherwise than in the plan that is kept:", places);
  say_without_place(record.house, answer, lines);
  if (!at_once) say_timetable(record.house, answer, lines), say_bars(record.house, answer, lines);
  if (!at_once && answer.rotation.end == RotationEnd::found) say(lines, LineKind::detail, "No timetable of such a cycle switches less often.");
  say_fuel(record.house, answer, lines);
  say_assumed(record.house, answer, lines);
  return lines;
}

}  // namespace ohmstead
