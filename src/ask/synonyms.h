#pragma once
// What people say, and the trade's word for it. The tables are data (synonyms.cc): one line for
// each thing of a house.

#include <span>
#include <string_view>

namespace ohmstead {

/// The words on one line mean the same; the first stands for all.
struct Synonyms {
  std::string_view meaning;
  std::string_view also;  ///< separated by spaces, folded, in the singular
};

/// A phrase of several words and the words it is read as.
struct Phrase {
  std::string_view said;
  std::string_view read_as;
};

[[nodiscard]] std::span<const Synonyms> synonyms();
[[nodiscard]] std::span<const Phrase> phrases();

}  // namespace ohmstead
