#pragma once
// Loads of a dwelling calculation from words and from the record: which kind of load a name means, and what the record has.

#include <optional>
#include <string>
#include <string_view>

#include "ask/record.h"
#include "rules/load_calculation.h"
#include "rules/voltage_drop.h"

namespace ohmstead {

/// Which kind a name means ("wall oven": cooking, "EV charger": vehicle, "hair dryer": none). `of_240` says whether the load is
/// between the legs: a range, dryer or furnace of 120 V burns gas, and counts as nothing or by its motor. Nothing: a plug-in load that
/// the 3 VA a square foot covers.
[[nodiscard]] std::optional<LoadClass> load_class_of(std::string_view name, bool of_240);

/// Has it a motor of size (pump, air conditioner, disposer)?
[[nodiscard]] bool is_motor(std::string_view name);

/// "range 12 kW", "2 x oven 4 kW", "dishwasher 1200 W 120 V", "room air conditioner 6 A 230 V", "car charger 40 A" (240 V where no
/// volts are said). What no name tells counts as a load of its own kind. Throws Error{invalid_input}.
[[nodiscard]] DwellingItem item_in_words(const std::string& words);

/// Wire, metal, length, volts and 80 % of the rating of a circuit, as recorded; `taken` gets a sentence for each. Throws
/// Error{invalid_input} where the size of the wire is not recorded or in no table; a length that is not recorded stays 0.
[[nodiscard]] DropCase recorded_circuit(const Record& record, Id<Breaker> breaker, std::vector<std::string>& taken);

/// What a record has of the dwelling, and what it does not say.
struct RecordedDwelling {
  DwellingCase given;                 ///< floor_ft2 0: the record has no plan of a room
  std::vector<std::string> assumed;   ///< full sentences
  std::vector<std::string> missing;   ///< full sentences: what should be asked for, and is not counted
  int service_amps = 0;               ///< 0: not known
};
[[nodiscard]] RecordedDwelling recorded_dwelling(const Record& record, int edition);

}  // namespace ohmstead
