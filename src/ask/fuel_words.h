#pragma once
// How long a tank or a battery lasts and how much fuel three days take, in sentences.

#include "ask/answer_words.h"
#include "backup/fuel.h"

namespace ohmstead {

/// Of a source that gives `running` watts when everything runs, and `average` as loads go on and off. Empty where nothing is known.
[[nodiscard]] Lines words_of_fuel(const Source& source, int running, int average);

/// "4.5 h", "3 to 5 h"; "1 day 6 h" from a day on.
[[nodiscard]] std::string hours_text(const Range& hours);
/// "12 L (3.2 gal)", "10 to 15 L (2.6 to 4 gal)"; piped gas in cubic meters and cubic feet.
[[nodiscard]] std::string fuel_text(Fuel fuel, const Range& liters);

}  // namespace ohmstead
