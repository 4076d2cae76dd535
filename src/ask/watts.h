#pragma once
// Watts, amperes and what a load is called, in words.

#include <string>

#include "backup/figures.h"
#include "rules/calculation.h"

namespace ohmstead {

/// "1,200 W"
[[nodiscard]] std::string watts_text(long long watts);
/// "500 to 1,200 W"; "500 W" where both ends are the same.
[[nodiscard]] std::string range_text(const WattRange& range);
/// "12.5 A"
[[nodiscard]] std::string amps_text(double amps);
/// "freezer (Storage)", "NE bedroom ceiling light": the load and where it is, without saying anything twice.
[[nodiscard]] std::string load_text(const House& house, const Load& load);
/// "nameplate", "measured", "a guess", or who published the figure.
[[nodiscard]] std::string basis_text(FigureBasis basis, const std::string& source);

}  // namespace ohmstead
