// What must hold of loads, of sources, of what moves circuits between them, of the plan, of the outage log and of what was printed.

#include <map>
#include <set>

#include "house/check.h"

namespace ohmstead::house_detail {

namespace {

constexpr int kMostFuelMl = 10'000'000, kMostWattHours = 10'000'000;

/// Fuel use where it is known never falls as the load rises.
void check_fuel_use(Report& report, const Source& source) {
  const std::pair<const char*, int> uses[] = {{"use_25_ml_h", source.use_25_ml_h}, {"use_50_ml_h", source.use_50_ml_h},
                                              {"use_75_ml_h", source.use_75_ml_h}, {"use_100_ml_h", source.use_100_ml_h}};
  int before = 0;
  for (const auto& [field, use] : uses) {
    check_range(report, field, use, 0, kMostFuelMl);
    if (use != 0 && use < before)
      report.add(field, "Source '" + source.name + "' uses less fuel at a larger load.");
    if (use != 0) before = use;
  }
}

}  // namespace

void check_row(Report& report, const Load& load) {
  if (!load.point) report.add("point", "Load '" + load.name + "' is at no point.");
  const int running = load.running_watts.value_or(0);
  check_range(report, "running_watts", running, 0, kMostWatts);
  check_range(report, "starting_watts", load.starting_watts.value_or(0), 0, kMostWatts);
  check_range(report, "duty_percent", load.duty_percent.value_or(0), 0, 100);
  if (load.starting_watts && *load.starting_watts < running)
    report.add("starting_watts", "Load '" + load.name + "' needs fewer watts to start than to run.");
  check_range(report, "power_factor_percent", load.power_factor_percent.value_or(100), 1, 100);
  check_range(report, "horsepower_hundredths", load.horsepower_hundredths, 0, 100'000);
  check_range(report, "full_load_deciamps", load.full_load_deciamps, 0, 10 * kMostAmps);
  check_range(report, "longest_off_min", load.longest_off_min.value_or(0), 0, 100'000);
  const std::string& letter = load.code_letter;
  if (!letter.empty() && (letter.size() > 1 || std::string("ABCDEFGHJKLMNPRSTUV").find(letter) == std::string::npos))
    report.add("code_letter", "Load '" + load.name + "': the code letter of a motor is one of A to H, J to N, P, R to V.");
}

void check_row(Report& report, const Source& source) {
  check_name(report, source.name);
  check_range(report, "running_watts", source.running_watts, 0, kMostWatts);
  check_range(report, "starting_watts", source.starting_watts, 0, kMostWatts);
  if (source.starting_watts != 0 && source.starting_watts < source.running_watts)
    report.add("starting_watts", "Source '" + source.name + "' gives fewer watts for starting than for running.");
  check_range(report, "leg_watts", source.leg_watts, 0, kMostWatts);
  check_range(report, "inlet_amps", source.inlet_amps, 0, kMostAmps);
  check_range(report, "cord_amps", source.cord_amps, 0, kMostAmps);
  check_range(report, "tank_ml", source.tank_ml, 0, kMostFuelMl);
  check_range(report, "capacity_wh", source.capacity_wh, 0, kMostWattHours);
  if (source.leg_watts > source.running_watts)
    report.add("leg_watts", "Source '" + source.name + "' gives more watts on one leg than in all.");
  check_fuel_use(report, source);
}

void check_row(Report& report, const TransferDevice& device) {
  check_name(report, device.name);
  if (!device.source) report.add("source", "Transfer device '" + device.name + "' has no source.");
}

void check_row(Report& report, const Position& position) {
  const House& house = report.house();
  const TransferDevice* device = report.find(position.device);
  if (device == nullptr) return report.add("device", "A position is in no transfer device.");
  check_range(report, "number", position.number, 1, 200);
  check_range(report, "amps", position.amps, 0, kMostAmps);
  check_range(report, "leg", position.leg, 1, leg_count(house.dwelling.system));
  const Breaker* breaker = report.find(position.breaker);
  const bool whole = device->kind == TransferKind::whole_house;
  if (whole && position.breaker)
    report.add("breaker", "Position " + std::to_string(position.number) + " of a whole-house device carries a leg of the utility, not a breaker.");
  const int most = whole ? leg_count(house.dwelling.system) : breaker == nullptr ? 3 : breaker->poles;
  check_range(report, "pole", position.pole, 1, most);
}

void check_row(Report& report, const Interlock& interlock) {
  for (const HandleRef& ref : {interlock.first, interlock.second})
    if (ref.kind != HandleKind::main && ref.kind != HandleKind::breaker)
      report.add("", "An interlock joins main or branch breakers only.");
  if (interlock.first == interlock.second) report.add("", "An interlock needs two different handles.");
}

void check_row(Report& report, const Planned& planned) {
  const Breaker* breaker = report.find(planned.breaker);
  if (breaker == nullptr) return report.add("breaker", "A planned circuit has no breaker.");
  check_range(report, "pole", planned.pole, 1, breaker->poles);
}

void check_row(Report& report, const Pin& pin) {
  if (!pin.breaker) report.add("breaker", "A pin names no breaker.");
  if (pin.never && pin.position) report.add("position", "A circuit cannot be pinned to a position and never be carried.");
}

void check_row(Report& report, const Tick& tick) {
  if (tick.step.empty()) report.add("step", "A tick names no step.");
}

void check_row(Report& report, const OutageEvent& event) {
  using enum OutageEventKind;
  check_range(report, "stands", event.stands, 0, 2);
  check_range(report, "running_watts", event.running_watts, 0, kMostWatts);
  check_range(report, "starting_watts", event.starting_watts, 0, kMostWatts);
  if ((event.kind == source_started || event.kind == source_stopped) && !event.source)
    report.add("source", "The outage log says that a source was started or stopped, but not which.");
  if (event.kind == moved && !event.handle) report.add("handle", "The outage log says that a handle was moved, but not which.");
  if ((event.kind == load_on || event.kind == load_off) && !event.load && event.text.empty())
    report.add("load", "The outage log says that something was switched on or off, but not what.");
}

void check_row(Report& report, const Printed& printed) {
  if (printed.item.empty()) report.add("item", "The log of what was printed names no sheet or label.");
  if (printed.code.empty()) report.add("code", "What was printed has no check code.");
}

void check_position_ties(Report& report) {
  const House& house = report.house();
  std::map<std::pair<Id<Breaker>, int>, std::size_t> carried;
  for (std::size_t i = 0; i < house.positions.size(); ++i) {
    const Position& position = house.positions[i];
    report.at(Position::kTable, i);
    if (position.tie) {
      const Position* first = report.find(position.tie);
      if (first != nullptr && (first->device != position.device || first->tie != first->id))
        report.add("tie", "Tied positions are in one device, and the tie is named after one of them.");
    }
    if (position.breaker && !carried.emplace(std::pair{position.breaker, position.pole}, i).second)
      report.add("breaker", "Two positions carry the same pole of one breaker.");
  }
}

void check_plan(Report& report) {
  const House& house = report.house();
  std::set<std::pair<Id<Breaker>, int>> poles;
  std::set<Id<Position>> positions;
  std::set<Id<Breaker>> pinned;
  for (std::size_t i = 0; i < house.planned.size(); ++i) {
    const Planned& planned = house.planned[i];
    report.at(Planned::kTable, i);
    if (!poles.emplace(planned.breaker, planned.pole).second) report.add("breaker", "The plan has a pole of one breaker on two positions.");
    if (planned.position && !positions.insert(planned.position).second) report.add("position", "The plan has two circuits on one position.");
  }
  for (std::size_t i = 0; i < house.pins.size(); ++i) {
    report.at(Pin::kTable, i);
    if (!pinned.insert(house.pins[i].breaker).second) report.add("breaker", "Two pins name one breaker.");
  }
}

}  // namespace ohmstead::house_detail
