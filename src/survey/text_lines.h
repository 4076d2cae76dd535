#pragma once
// Internal to quick entry: from text to lines, items and words.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "house/error.h"

namespace ohmstead::entry_detail {

/// A refusal at a line: "line 3: ...".
[[nodiscard]] Error refusal(int line, const std::string& message);

/// A word as it may be shown in a message: in quotes, at most 40 bytes of it.
[[nodiscard]] std::string shown(std::string_view word);

/// One logical line. A physical line that begins with a space continues the one above; the joint
/// is a newline character in `text`, which separates items.
struct Line {
  int number = 0;  ///< 1-based, of its first physical line
  std::string text;
};

/// Splits into logical lines, without comments and empty lines. Throws for a text or a line that
/// is too long, for control characters and for bytes that are not UTF-8.
[[nodiscard]] std::vector<Line> lines_of(std::string_view text);

struct Word {
  std::string text;
  bool quoted = false;
  [[nodiscard]] std::string lower() const;
  /// Is it this word (in small letters), not in quotes?
  [[nodiscard]] bool is(std::string_view word) const { return !quoted && lower() == word; }
};

/// Splits at any of `separators` that is outside double quotes.
[[nodiscard]] std::vector<std::string> split(std::string_view text, std::string_view separators);
/// Words of an item. Characters in `alone` are words of their own wherever they stand, and so is
/// "<-". Throws for a quote that is not closed.
[[nodiscard]] std::vector<Word> words_of(int line, std::string_view text, std::string_view alone);
/// Words from `first` up to `end`, joined by single spaces.
[[nodiscard]] std::string joined(const std::vector<Word>& words, std::size_t first, std::size_t end);

[[nodiscard]] std::string lower(std::string_view text);
[[nodiscard]] std::string trimmed(std::string_view text);
/// A whole number written in decimal digits only ("010" is ten), at most 9 of them.
[[nodiscard]] std::optional<int> whole_number(std::string_view text);
/// A number with perhaps a decimal point, not negative, at most 9 digits before it.
[[nodiscard]] std::optional<double> decimal_number(std::string_view text);
/// Letter changes, insertions, omissions and swaps that lead from one word to the other.
[[nodiscard]] int slips_between(std::string_view a, std::string_view b);

}  // namespace ohmstead::entry_detail
