// The dwelling as the record has it, for a load calculation. What is taken instead of a nameplate is said.

#include <algorithm>
#include <cmath>

#include "ask/dwelling_items.h"
#include "ask/sentence.h"
#include "house/voltage.h"
#include "rules/record_names.h"
#include "ask/watts.h"
#include "house/index.h"
#include "rules/plain_words.h"

namespace ohmstead {

namespace {

/// Rooms that the floor area does not count: porches, garages, and what cannot be made habitable.
bool is_left_out(const Room& room, const Floor* floor) {
  constexpr const char* kWords[] = {"garage", "porch", "deck", "patio", "yard", "outside", "outdoor", "driveway", "crawl", "attic", "carport", " shed"};  // "Finished basement" is none
  if (floor != nullptr && !floor->building.empty()) return true;
  return std::ranges::any_of(kWords, [&](const char* word) { return holds_word(" " + room.name, word); });
}

void take_area(const House& house, RecordedDwelling& made) {
  constexpr double kCm2InFt2 = 929.0304, kWalls = 1.1;
  double cm2 = 0;
  std::vector<std::string> without;
  for (const Room& room : house.rooms) {
    if (is_left_out(room, find_row(house, room.floor))) continue;
    if (room.width_cm > 0 && room.depth_cm > 0) cm2 += static_cast<double>(room.width_cm) * room.depth_cm;
    else without.push_back(room.name);
  }
  if (cm2 == 0) return;
  made.given.floor_ft2 = std::ceil(cm2 / kCm2InFt2 * kWalls);
  made.assumed.push_back("Floor area: the rooms of the plan and a tenth for walls (common practice); the rule counts outside dimensions. Give --area if you know it.");
  if (!without.empty()) made.missing.push_back("No plan of " + joined(without) + ": not in the floor area.");
}

/// VA of a 240 V load by its breaker, where nothing else is known; 0: neither is that.
double by_breaker(const Record& record, std::size_t point) {
  const auto& taps = record.feeds.of_point[point].taps;
  const Breaker* const breaker = taps.empty() ? nullptr : find_row(record.house, taps.front().breaker);
  return breaker == nullptr || breaker->poles < 2 ? 0 : breaker->amps * 240 * 0.8;
}

struct Figure {
  double va = 0;
  std::string basis;  ///< empty: nameplate or measured
};

/// What somebody read, measured or guessed; else what the code or the trade takes; else by the breaker.
Figure figure_of(const Record& record, std::size_t point, const Load* load, LoadClass kind) {
  if (load != nullptr) {
    const LoadFigures figures = figures_of(record.house, *load);
    const bool known = figures.known && figures.running_basis != FigureBasis::table;
    if (known) return {static_cast<double>(planned_running(figures)), figures.running_basis == FigureBasis::guess ? "a guess" : ""};
  }
  if (kind == LoadClass::cooking) return {12'000, "no nameplate recorded, 12 kW taken (column C of table 220.55 goes so far)"};
  if (kind == LoadClass::dryer) return {5000, "no nameplate recorded, the 5,000 VA of 220.54 taken"};
  if (const double va = by_breaker(record, point); va > 0) return {va, "no nameplate recorded, 80 % of its breaker taken"};
  const LoadFigures typical = load != nullptr ? figures_of(record.house, *load) : typical_figures(record.house.points[point].name);
  return typical.known ? Figure{static_cast<double>(planned_running(typical)), "a table of typical loads"} : Figure{};
}

void take_point(const Record& record, std::size_t place, const Load* load, RecordedDwelling& made) {
  const Point& point = record.house.points[place];
  const std::string name = load != nullptr ? load_text(record.house, *load) : sentence::point_name(record.house, place);
  const bool of_240 = point.hots >= 2;
  std::string words = load != nullptr && !load->name.empty() ? load->name : point.name;
  if (of_240 && load == nullptr && point.kind == PointKind::receptacle && load_class_of(words, true) == LoadClass::other) {
    made.missing.push_back("What is plugged in at " + name + ", a 240 V receptacle, is not recorded and was not counted.");
    return;
  }
  const auto kind = load_class_of(words, of_240);
  if (!kind) return;
  const Figure figure = figure_of(record, place, load, *kind);
  if (figure.va <= 0) {
    made.missing.push_back("Nothing is known of what " + name + " draws: not counted.");
    return;
  }
  made.given.items.push_back({*kind, name, figure.va, 1, !of_240, is_motor(words)});
  if (!figure.basis.empty()) made.assumed.push_back(sentence::capital(name) + ": " + figure.basis + ".");
}

void take_service(const House& house, RecordedDwelling& made) {
  for (const Panel& panel : house.panels)
    if (panel.supply == Supply::utility) made.service_amps = std::max(made.service_amps, panel.main_amps);
}

}  // namespace

DropCase recorded_circuit(const Record& record, Id<Breaker> id, std::vector<std::string>& taken) {
  constexpr double kFeetInMeter = 1 / 0.3048;
  const Breaker& breaker = row(record.house, id);
  const auto circuit = std::ranges::find(record.house.circuits, id, &Circuit::breaker);
  const std::string name = breaker_label(record.house, id);
  if (circuit == record.house.circuits.end() || circuit->wire.empty())
    throw Error(ErrorKind::invalid_input, "The size of the wire of " + name + " is not recorded; give it with --wire instead of --circuit.");
  DropCase given{.size = wire_size(circuit->wire), .metal = circuit->material};
  const bool to_neutral = breaker.poles == 1 || circuit->multiwire;
  given.volts = to_neutral ? volts_to_neutral(record.house.dwelling.system) : volts_between_legs(record.house.dwelling.system);
  given.length_ft = circuit->length_m * kFeetInMeter;
  given.amps = breaker.amps * 0.8;
  taken.push_back(name + ": wire " + size_text(given.size) + (given.metal == WireMaterial::not_known ? ", metal not recorded" : " " + metal_text(given.metal)) + (circuit->length_m > 0 ? ", " + std::to_string(circuit->length_m) + " m one way" : ", length not recorded") + ".");
  if (breaker.amps > 0) taken.push_back("Current, unless --amps says another: 80 % of its breaker of " + std::to_string(breaker.amps) + " A.");
  return given;
}

RecordedDwelling recorded_dwelling(const Record& record, int edition) {
  if (record.house.dwelling.system != VoltageSystem::split_phase_120_240)
    throw Error(ErrorKind::invalid_input, "Load calculation is for 120/240 V, 3-wire; this house is recorded with another voltage system.");
  RecordedDwelling made;
  made.given.edition = checked_edition(edition);
  take_area(record.house, made);
  take_service(record.house, made);
  for (std::size_t p = 0; p < record.house.points.size(); ++p) {
    bool loaded = false;
    for (const Load& load : record.house.loads)
      if (load.point == record.house.points[p].id) take_point(record, p, &load, made), loaded = true;
    if (!loaded) take_point(record, p, nullptr, made);
  }
  made.assumed.push_back("Two small-appliance circuits and one laundry circuit were taken, the least that the code has.");
  made.assumed.push_back("Plug-in loads and lights are in the 3 VA a square foot. A range, dryer or water heater of 120 V was taken to burn gas.");
  return made;
}

}  // namespace ohmstead
