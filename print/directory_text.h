#pragma once
// The directory as plain sentences, for the codes: it can be read with no network, on any phone,
// and means the same when a reader shows its line ends as spaces.

#include <cstdint>
#include <string>
#include <vector>

#include "house/house.h"
#include "rules/panel_text.h"
#include "rules/wording.h"

namespace ohmstead {

/// Most bytes in one code of a card.
inline constexpr std::size_t kMostCodeBytes = 450;

/// One space of the panel with everything in it: "4a (20 A) Hall lights;\n4b (15 A) SPARE;\n".
struct SpaceLines {
  int space = 0;
  std::string lines;
};

struct DirectoryText {
  std::string panel;       ///< "Panel Main"
  std::string date, foot;  ///< "2026-11-25 rev 4"; foot explains the signs that are used, or is ""
  int spaces = 0;
  std::vector<SpaceLines> entries;  ///< by space
  std::vector<int> empty_spaces;    ///< ascending
};

/// One piece of the directory, ready to become a code.
struct CodeText {
  std::string text;
  int first_space = 0, last_space = 0;  ///< spaces it speaks for
};

[[nodiscard]] DirectoryText directory_text(const House& house, const Panel& panel, const std::vector<CircuitWords>& words,
                                           const std::string& date_and_revision);

/// Cut into pieces of at most `most_bytes` between spaces, never within one. A space whose lines
/// alone are longer gets a longer piece of its own.
[[nodiscard]] std::vector<CodeText> code_texts(const DirectoryText& directory, std::size_t most_bytes);

/// The pieces if the directory is spread as evenly as possible over at most `pieces`, or none if
/// these would be longer than kMostCodeBytes.
[[nodiscard]] std::vector<CodeText> code_texts_in(const DirectoryText& directory, std::size_t pieces);

}  // namespace ohmstead
