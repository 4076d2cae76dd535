#pragma once
// Every enumeration that is stored or exchanged has one list of words, in the order of its
// enumerators. These words are frozen: they are in house files and in interchange documents.

#include <optional>
#include <span>
#include <string_view>

namespace ohmstead {


template <class E>
[[nodiscard]] std::string_view text_of(E value) {
  return words_of(value)[static_cast<std::size_t>(value)];
}

template <class E>
[[nodiscard]] std::optional<E> parse_enum(std::string_view text) {
  const auto words = words_of(E{});
  for (std::size_t i = 0; i < words.size(); ++i)
    if (words[i] == text) return static_cast<E>(i);
  return std::nullopt;
}

}  // namespace ohmstead

/// Declares the words of an enumeration, in the order of its enumerators.
#define OHMSTEAD_WORDS(Enum, ...)                                         \
  inline std::span<const std::string_view> words_of(Enum) {               \
    static constexpr std::string_view kWords[] = {__VA_ARGS__};           \
    return kWords;                                                        \
  }
