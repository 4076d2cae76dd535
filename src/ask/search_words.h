#pragma once
// Words to look for in everything that is written down: each with the other words for the same thing.

#include <string>
#include <string_view>
#include <vector>

namespace ohmstead {

/// Words of one meaning, folded (words.h); any of them will do, also as the beginning of a longer word.
using SearchWord = std::vector<std::string>;

/// Most words that are looked for; further ones are left out.
inline constexpr std::size_t kMostSearchWords = 16;

/// Every run of letters and digits is a word, whatever else stands in the text: nothing in it is syntax. Words such as "the" count
/// only where there are no others. Empty: there is nothing to look for.
[[nodiscard]] std::vector<SearchWord> search_words(std::string_view text);

}  // namespace ohmstead
