#pragma once
// The load of a one-family dwelling with a 120/240 V, 3-wire service or feeder: NFPA 70 article 220, standard method (part III),
// optional method (220.82) and existing dwelling (220.83), by edition; and the neutral (220.61). Every step is shown.
// What the editions 2005 to 2023 change in numbers: 220.53 counts only appliances of 500 W or 1/4 hp and more from 2020 on; vehicle
// chargers count with 7,200 VA at least from 2023 on (220.57); and numbering. Worked examples: annex D (tests/rules).

#include <string>
#include <vector>

#include "rules/calculation.h"

namespace ohmstead {

enum class LoadMethod {
  standard,   ///< part III
  optional,   ///< 220.82: first 10 kVA whole, the rest 40 %, and the largest of heating and cooling
  existing,   ///< 220.83: first 8 kVA whole, the rest 40 %
};

enum class LoadClass {
  cooking,             ///< ranges, wall ovens, cooktops
  dryer,               ///< electric clothes dryer
  fastened,            ///< fastened in place: water heater, dishwasher, disposer, ...
  heating,             ///< fixed electric space heat; `count` of separately controlled units
  air_conditioning,
  heat_pump,           ///< its compressor
  supplementary_heat,  ///< electric heat of a heat pump that can run with it
  vehicle,             ///< charging equipment of a car
  other,               ///< anything else that is wired in or has a circuit of its own
};

struct DwellingItem {
  LoadClass kind = LoadClass::other;
  std::string name;
  double va = 0;         ///< nameplate of one of them, more than 0
  int count = 1;
  bool neutral = false;  ///< a 120 V load: the neutral carries it
  bool motor = false;    ///< the largest of these adds a quarter of itself (220.50; standard method)
};

/// A row of amperes, line by line, as example D1(b) adds motors: on line A, on line B or both. A row's neutral is the larger of
/// the two, worst case.
struct LineRow {
  std::string name;
  double amps_a = 0, amps_b = 0;
  bool neutral = false;             ///< its current returns on the neutral
  bool motor_a = false, motor_b = false;  ///< is it a motor there: the largest of each line adds a quarter of itself
};

struct DwellingCase {
  int edition = kNewestEdition;
  LoadMethod method = LoadMethod::standard;
  double floor_ft2 = 0;      ///< outside dimensions, without porches, garages and what cannot be made habitable
  int small_appliance = 2;   ///< 20 A circuits, two at least
  int laundry = 1;           ///< one at least
  std::vector<DwellingItem> items;
  std::vector<LineRow> rows; ///< standard method only
  bool adds_heat_or_cooling = false;  ///< 220.83(B): all heating or cooling counts whole
};

struct LoadAnswer {
  double va = 0;             ///< without the rows
  double amps = 0;           ///< of the heavier line
  double line_a_amps = 0, line_b_amps = 0;
  double neutral_va = 0, neutral_amps = 0;
  int service_amps = 0;      ///< smallest standard rating, 100 at least (230.79(C)); 0: above 400
  Calculation calculation;
};

/// Throws Error{invalid_input}: editions that do not exist, an area that is not above 0 and below 100,000, fewer circuits than the
/// least, items without VA, cooking that the table does not have, rows with another method than the standard one.
[[nodiscard]] LoadAnswer dwelling_load(const DwellingCase& given);

enum class LoadTopic { area, small_appliance, lighting_demand, specific, fastened, dryer, cooking, vehicle, motor, heat, non_coincident, neutral, optional, existing, service };
/// Where an edition has it, and how it is known: "NFPA 70 220.14(J), from memory".
[[nodiscard]] std::string load_rule(LoadTopic topic, int edition);

}  // namespace ohmstead
