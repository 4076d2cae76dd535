#pragma once
// Internal to ask.cc: from the words for a thing to the things, without guessing.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "ask/names.h"
#include "ask/record.h"

namespace ohmstead::ask_detail {

/// What words name. One of three: things; candidates, among which to ask; or neither: nothing fits.
struct FoundThings {
  std::vector<ThingRef> things;      ///< points, or one room or floor, or one breaker, panel, position, handle, source, ...
  std::vector<ThingRef> candidates;
  bool by_slip = false;              ///< only if some word is misspelled
  [[nodiscard]] bool none() const { return things.empty() && candidates.empty(); }
};

/// Points (a load stands for its point), a room or a floor. Several points of one room count as one answer if they have the same name but for
/// its number and the same feed, or if `many` is said. Words such as "breaker" and "outlet" are read over where nothing is called so.
[[nodiscard]] FoundThings find_points(const Record& record, const Names& names, std::string_view words, bool many);

/// What a hand can move. Nothing if the words name no handle.
[[nodiscard]] FoundThings find_handle(const Names& names, std::string_view words);

/// Does it begin with, or hold, a number or a word by which handles are called ("main", "breaker 12", "T3")?
[[nodiscard]] bool says_handle(std::string_view words);

/// Anything else that has a name: panels, sources, transfer devices, boxes.
[[nodiscard]] FoundThings find_other(const Names& names, std::string_view words);

/// The handle of a thing that is one: a panel stands for its main, a position for its throw.
[[nodiscard]] HandleRef handle_of_thing(const ThingRef& thing);
[[nodiscard]] ThingRef thing_of_handle(const HandleRef& handle);

/// Places in house.points of these things: of a room or floor all that are in it.
[[nodiscard]] std::vector<std::size_t> points_of(const House& house, const std::vector<ThingRef>& things);

/// Names of the nearest things to words that fit nothing, at most 3.
[[nodiscard]] std::vector<ThingRef> nearest_to(const Names& names, std::string_view words);

}  // namespace ohmstead::ask_detail
