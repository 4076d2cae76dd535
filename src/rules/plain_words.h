#pragma once
// Words made fit to print: names from the record may hold anything, what is printed may not.

#include <string>
#include <string_view>

namespace ohmstead {

/// The text with every control, direction-override and line-separator character turned into a
/// space, broken UTF-8 into U+FFFD, and runs of spaces into one; no space at either end.
[[nodiscard]] std::string printable(std::string_view text);

/// Number of characters (code points) of a UTF-8 text.
[[nodiscard]] std::size_t character_count(std::string_view text);

/// As many whole words from the start as fit into `most` characters; empty if the first word
/// alone is longer. Words that lead nowhere at the end ("and", "of", "&") are dropped with the rest.
[[nodiscard]] std::string whole_words(std::string_view text, std::size_t most);

/// A name without the person in it: words such as "Bob's" are dropped, because a directory may not
/// depend on who lives in a room today (NFPA 70 408.4(A)). "Bob's room" becomes "room".
[[nodiscard]] std::string without_person(std::string_view name);

inline constexpr std::size_t kLongestInText = 24;  ///< characters of a name inside a longer text

/// A name of the record as it may stand on a label: printable, without persons, without the signs
/// that mean something there ("?" and ";"), at most `most` characters of whole words. May be empty.
[[nodiscard]] std::string label_name(std::string_view name, std::size_t most);

/// The name without a number at its end: "counter receptacle 3" gives "counter receptacle".
[[nodiscard]] std::string without_number(std::string_view name);
/// The number at the end of a name as text, or "".
[[nodiscard]] std::string number_at_end(std::string_view name);

/// The plural of an English noun phrase: "light" gives "lights", "smoke alarm" "smoke alarms".
/// Left alone when it does not end in a plain letter or is plural already.
[[nodiscard]] std::string plural(const std::string& noun);

/// First letter made capital, or small where it is an ordinary word ("TV" stays).
[[nodiscard]] std::string with_capital(std::string text);
[[nodiscard]] std::string without_capital(std::string text);

/// Is `part` in `text`, capitals aside (ASCII)?
[[nodiscard]] bool holds_word(std::string_view text, std::string_view part);

}  // namespace ohmstead
