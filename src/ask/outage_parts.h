#pragma once
// Internal to the words of the outage board: parts that several of them use.

#include <string>
#include <vector>

#include "ask/outage_words.h"

namespace ohmstead::outage_words {

/// "freezer (Storage), oxygen concentrator (NE bedroom)"
[[nodiscard]] std::vector<std::string> load_names(const House& house, const std::vector<Id<Load>>& loads);
[[nodiscard]] std::string source_name(const OutageView& view);
[[nodiscard]] bool is_engine(const OutageView& view);
/// A load of the record, or a guest's thing with where it is.
[[nodiscard]] std::string consumer_name(const OutageView& view, const Consumer& one);
/// "3 h 20 min", "45 min"
[[nodiscard]] std::string minutes_text(long minutes);
/// What keeps somebody alive and has no power: said before all else.
void say_life(const OutageView& view, const std::vector<std::size_t>& loads, Lines& lines);
/// What hangs on a unit: its loads, and its other points by room.
[[nodiscard]] std::vector<std::string> comes_on_items(const OutageView& view, int unit);

}  // namespace ohmstead::outage_words
