#pragma once
// Internal to the words of plans: how far the wiring that a kept plan rests on may be relied on. Plan, plan paper and
// wall sheet say the same: never proved is never said to be safe, and a fault that was found comes before everything.

#include <string>

#include "ask/plan_answer.h"

namespace ohmstead::plan_words {

enum class Wiring {
  nothing_to_prove,  ///< nothing rides on positions that are moved by hand
  not_connected,     ///< the positions do not carry what the plan says
  not_proved,        ///< the record says that they do; it was not proved of every one
  fault,             ///< proving found it wrong
  proved,
};

[[nodiscard]] Wiring wiring_of(const Record& record, const PlanAnswer& answer);
/// "It is wired so now, and proved.", for the head of a paper.
[[nodiscard]] std::string wiring_stands(const PlanAnswer& answer, Wiring wiring);
/// Before everything else of a kept plan: a fault that was found, each in its own words, or that nothing is proved yet.
void say_wiring(const Record& record, const PlanAnswer& answer, Lines& lines);
/// A backfed breaker of this source that no interlock is written down for; nothing where there is none.
void say_no_interlock(const Record& record, const PlanAnswer& answer, Lines& lines);

}  // namespace ohmstead::plan_words
