#pragma once
// Reading UTF-8 that may be broken. Internal to ask.

#include <cstdint>
#include <string>
#include <string_view>

namespace ohmstead::ask_detail {

/// One code point from the start of a text.
struct CodePoint {
  std::uint32_t value = 0;
  std::size_t bytes = 0;  ///< 0: the first byte begins no UTF-8 sequence
};

/// Precondition: `text` is not empty. Overlong forms, surrogates and values past U+10FFFF are not UTF-8.
[[nodiscard]] CodePoint first_code_point(std::string_view text);

/// Controls, direction overrides, line separators, invisible marks: what moves, hides or breaks the
/// text around it.
[[nodiscard]] bool is_control(std::uint32_t value);

}  // namespace ohmstead::ask_detail
