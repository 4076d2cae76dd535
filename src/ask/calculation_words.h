#pragma once
// Calculations in words, for a terminal: each step on a line with how it came about and the rule behind it.

#include "ask/answer_words.h"
#include "ask/dwelling_items.h"
#include "rules/add_load.h"
#include "rules/ampacity.h"
#include "rules/neutral_current.h"
#include "rules/voltage_drop.h"

namespace ohmstead {

/// The result first, then the steps as items, the notes, and who decides.
[[nodiscard]] Lines words_of_load(const LoadAnswer& answer);
[[nodiscard]] Lines words_of_drop(const DropAnswer& answer);
[[nodiscard]] Lines words_of_ampacity(const AmpacityAnswer& answer);
[[nodiscard]] Lines words_of_neutral(const NeutralAnswer& answer);
[[nodiscard]] Lines words_of_add(const RecordedDwelling& dwelling, const DwellingItem& added, const AddAnswer& answer);
/// What was assumed and what is missing of a dwelling from the record.
[[nodiscard]] Lines words_of_gaps(const RecordedDwelling& dwelling);

}  // namespace ohmstead
