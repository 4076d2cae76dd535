#pragma once
// Houses with a kept plan, for the papers: every way in which a source meets a house, and names that are hard to print.

#include <string>
#include <vector>

#include "ask/plan_answer.h"

namespace ohmstead::test {

struct PlannedHouse {
  std::string name;
  Record record;
};

/// Transfer device with positions, a life-safety load, a load on demand, a load without a place.
[[nodiscard]] Record house_with_positions();
/// All of them: positions; sixteen positions; forty breakers behind an interlock; one leg; a battery for a panel; three legs;
/// names of 200 bytes; names with breaks and odd signs.
[[nodiscard]] const std::vector<PlannedHouse>& planned_houses();

}  // namespace ohmstead::test
