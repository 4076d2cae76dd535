#pragma once
// Writing a house down by taps: one thing at a time, each whole by itself, and the last taken back.

#include <string>
#include <string_view>
#include <vector>

#include "survey/entry.h"

namespace ohmstead {

/// Adds a room on this floor; without one, on the lowest floor from the ground up, which is made where there is none. Throws Error{invalid_input}.
[[nodiscard]] EntryResult with_room(const House& house, Id<Floor> floor, std::string_view name);
/// Adds items to a room, in the words of docs/quick-entry.md: "receptacle", "2l sw", "=bedroom". Throws Error{invalid_input}, {not_found}.
[[nodiscard]] EntryResult with_items(const House& house, Id<Room> room, std::string_view items);
/// Adds a panel: "Main 30 200A".
[[nodiscard]] EntryResult with_panel(const House& house, std::string_view words);
/// Adds breakers to a panel: "1 20 kitchen; 2+4 30 dryer".
[[nodiscard]] EntryResult with_breakers(const House& house, Id<Panel> panel, std::string_view items);
/// Gives a point another name and place. Throws Error{not_found}, Error{invalid_input} where the name is taken in its room.
[[nodiscard]] EntryResult with_name(const House& house, Id<Point> point, const std::string& name, const std::string& place);

/// `now` without what the change from `before` to `after` did: rows it added are gone, rows it changed are as they were. Throws
/// Error{conflict} where such a row was changed since, or is used by what came since; nothing is taken back then.
[[nodiscard]] House taken_back(const House& now, const House& before, const House& after);

}  // namespace ohmstead
