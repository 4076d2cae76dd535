#pragma once
// Internal to the wall sheet: the steps of an outage as items of large print.

#include "ask/wall_sheet.h"
#include "backup/outage_script.h"

namespace ohmstead::wall_words {

/// "3" for a position, "5-6" for tied ones, "12" for a breaker, "MAIN"; what is marked on the handle.
[[nodiscard]] std::string handle_mark(const House& house, const HandleRef& handle);
/// One item for each step. `house` is wired as planned.
[[nodiscard]] std::vector<WallItem> step_items(const House& house, const Feeds& feeds, const Names& names, std::size_t source,
                                               const std::vector<OutageStep>& steps);

}  // namespace ohmstead::wall_words
