#pragma once
// The history of a house file as an answer (ask/history_words.h).

#include <optional>

#include "ask/history_words.h"
#include "db/house_file.h"

namespace ohmstead {

/// Of the house, or of one thing of it: the changes of its own row and of rows that name it. The newest `most` of them.
[[nodiscard]] HistoryAnswer history_of(const HouseFile& file, const std::optional<ThingRef>& thing, std::size_t most);

/// A value as people say it; `table` and `field` tell what it is.
[[nodiscard]] std::string cell_words(const House& house, const std::string& table, const std::string& field, const Cell& cell);

/// The house with every row that its history has seen go: unsound, and only good for what things are called.
[[nodiscard]] House with_all_that_is_gone(House house, const std::vector<RowsOfChange>& history);

}  // namespace ohmstead
