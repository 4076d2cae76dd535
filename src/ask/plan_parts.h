#pragma once
// Internal to the words of plans: parts that several of them use.

#include <string>
#include <vector>

#include "ask/plan_answer.h"

namespace ohmstead::plan_words {

/// "breaker 14 in Main"
[[nodiscard]] std::string breaker_words(const House& house, const CarriedCircuit& circuit);
/// "freezer (Storage) 100 W (400 W to start)"
[[nodiscard]] std::string load_words(const House& house, const CarriedLoad& carried);
/// Number of its first position, for the order on the device; 0: it has none.
[[nodiscard]] int first_position(const House& house, const BackupCase& backup, const Placed& placed);
/// "Position 3 (15 A)", "Positions 5 and 6 (20 A)", "Stays on"
[[nodiscard]] std::string place_words(const House& house, const BackupCase& backup, const Placed& placed);
/// One line a leg: "Leg 1: 850 of 1,800 W, 7.1 A; with the largest start 1,550 of 2,250 W", then the neutral and the imbalance.
[[nodiscard]] std::vector<std::string> leg_items(const House& house, const PlanAnswer& answer);
/// What the plan rests on and is not sure.
void say_doubts(const Record& record, const Names& names, const PlanAnswer& answer, Lines& lines);
/// A life-safety load without a place, most urgent of all.
void say_life_safety_first(const Record& record, const PlanAnswer& answer, Lines& lines);
/// What is to be known about circuits that are carried.
void say_flags(const Record& record, const PlanAnswer& answer, Lines& lines);
/// Sums of what runs together, leg by leg, against what the source gives.
void say_sums(const Record& record, const PlanAnswer& answer, Lines& lines);
/// Hours on a tank or battery, fuel for three days.
void say_fuel(const Record& record, const PlanAnswer& answer, Lines& lines);
/// Positions that the plan leaves empty.
void say_free_positions(const Record& record, const PlanAnswer& answer, Lines& lines);
/// Wished for, and without a place.
void say_not_served(const Record& record, const PlanAnswer& answer, Lines& lines);

/// "nothing wished for", or what is wished for on this circuit and not served.
[[nodiscard]] std::string nothing_words(const House& house, const CarriedCircuit& circuit);
/// The constraint in one sentence, said of `what`.
[[nodiscard]] std::string reason_words(const std::string& what, const std::string& source, const WhyNotAnswer& answer);
/// Which wires move from today's wiring; nothing where none is connected yet.
void say_moves(const Record& record, const PlanAnswer& answer, Lines& lines);
/// The pins that the plan keeps to; nothing where there are none.
void say_pins(const Record& record, const PlanAnswer& answer, Lines& lines);
/// Of a plan that is impossible: which pins cannot be, and why. Costs two small searches a pin.
void say_pins_that_cannot_be(const Record& record, const PlanAnswer& answer, Lines& lines);

}  // namespace ohmstead::plan_words
