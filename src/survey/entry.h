#pragma once
// Quick entry: a house written down as plain lines, one line a room, one line a panel. The
// language is docs/quick-entry.md; every example on that page is entered by the tests.

#include <string>
#include <string_view>
#include <vector>

#include "house/house.h"

namespace ohmstead {

/// What came of a text.
struct EntryResult {
  House house;                    ///< the house before, and what the text adds; sound
  std::vector<std::string> said;  ///< what was understood, one plain sentence a line of the text
};

/// Enters `text` on top of `before`. Rooms and panels that exist get more; nothing is taken away.
/// All or nothing: throws Error{invalid_input} "line 3: ..." that names the line, the word and
/// what was expected. Never crashes, whatever the bytes; limits are kLongestEntry and those below.
/// Precondition: `before` is sound.
[[nodiscard]] EntryResult enter_text(const House& before, std::string_view text);

/// The same for somebody who answers one question: a refusal names no line.
[[nodiscard]] EntryResult enter_answer(const House& before, std::string_view text);

inline constexpr std::size_t kLongestEntry = 1'000'000;   ///< bytes of a text
inline constexpr std::size_t kLongestEntryLine = 10'000;  ///< bytes of a line with its continuations
inline constexpr std::size_t kMostEntryLines = 10'000;
inline constexpr int kMostOfOneItem = 500;                ///< '500 receptacles'
inline constexpr std::size_t kMostEntryPoints = 5'000;    ///< points of a house that quick entry will add to
inline constexpr std::size_t kMostEntryRooms = 2'000;

}  // namespace ohmstead
