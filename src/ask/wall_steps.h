#pragma once
// Internal to the wall sheet: the steps of an outage as items of large print, in the words of the outage board.

#include <functional>
#include <optional>

#include "ask/wall_sheet.h"
#include "backup/food_times.h"
#include "backup/outage_script.h"

namespace ohmstead::wall_words {

/// "3" for a position, "5-6" for tied ones, "12" for a breaker, "MAIN"; what is marked on the handle.
[[nodiscard]] std::string handle_mark(const House& house, const HandleRef& handle);

/// "Handle of T", "Breakers in Main"; empty where they are of several kinds or places.
[[nodiscard]] std::string handle_kind_words(const House& house, const std::vector<HandleRef>& handles);

/// " [2]" behind a fact, by which the small print says who says so; nothing: the sheet has said it before, and leaves it out.
using Cite = std::function<std::optional<std::string>(Fact)>;

/// A part with one item for each step; handles of one device that go the same way one after another are one item. What three or
/// more of them would say goes into `first`, once.
[[nodiscard]] WallPart step_part(const std::string& title, const OutageScript& script, const std::vector<ScriptStep>& steps, const Record& record, const Cite& cite);

}  // namespace ohmstead::wall_words
