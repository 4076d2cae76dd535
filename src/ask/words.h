#pragma once
// A person's words, made comparable: capitals, accents and plurals aside, with the synonyms of the
// trade, and a measure of how far a typing slip is from a word.

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace ohmstead {

/// Longest text, in bytes, that is looked at as a name; longer ones fit nothing.
inline constexpr std::size_t kLongestQuery = 500;

/// One word of a name.
struct Word {
  std::string text;     ///< folded, singular: "receptacle", "3way", "12"
  std::string meaning;  ///< the one word that stands for all its synonyms: "outlet" gives "receptacle"
  bool number = false;  ///< begins with a digit and is one: "3", "12"
  bool operator==(const Word&) const = default;
};

/// Small letters without accents, one space between words, none at the ends. Punctuation inside
/// stays. Bytes that are not UTF-8 and control characters count as spaces.
[[nodiscard]] std::string folded(std::string_view text);

/// The words of a text: folded, in the singular, without "the", "in", "of" and the like, with
/// phrases such as "hot water tank" turned into the trade's name of the thing.
[[nodiscard]] std::vector<Word> words_of_text(std::string_view text);

/// Is it a word that people use for things of a house? Such a word is never taken for a slip.
[[nodiscard]] bool is_known_word(std::string_view folded_singular);

/// All words that stand for this meaning, itself included; none where there is no other.
[[nodiscard]] const std::vector<std::string_view>& said_for(std::string_view meaning);

/// Is it a word that carries no meaning in a name, such as "the"?
[[nodiscard]] bool is_loose_word(std::string_view folded_word);

/// Slips between two words (letter left out, added, changed, or two neighbours swapped), counted
/// only up to `most`; more comes back as `most` + 1.
[[nodiscard]] int slips_between(std::string_view a, std::string_view b, int most);

/// How many slips are forgiven in a word of this many letters: none below 4, one below 8, else two.
[[nodiscard]] int slips_forgiven(std::size_t letters);

}  // namespace ohmstead
