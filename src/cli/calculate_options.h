#pragma once
// What is calculated, read from the options of `ohmstead calculate`.

#include "cli/command.h"
#include "rules/ampacity.h"
#include "rules/load_calculation.h"
#include "rules/voltage_drop.h"

namespace ohmstead {

/// All throw Error{invalid_input} that names the option that is missing or makes no sense.
[[nodiscard]] int edition_of(const Arguments& arguments);
[[nodiscard]] DropCase drop_case(const Arguments& arguments);
[[nodiscard]] AmpacityCase ampacity_case(const Arguments& arguments);
/// Area, circuits, method and items over what `given` has.
void take_load_options(const Arguments& arguments, DwellingCase& given);

}  // namespace ohmstead
