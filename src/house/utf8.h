#pragma once
// UTF-8 as RFC 3629 has it: what every text of the record must be.

#include <cstddef>
#include <cstdint>
#include <string_view>

namespace ohmstead {

/// Length in bytes of the character at the front of `text`, or 0 if there is none: no overlong
/// forms, no halves of a surrogate pair, nothing above U+10FFFF (RFC 3629 section 4).
[[nodiscard]] std::size_t utf8_length(std::string_view text);
[[nodiscard]] bool is_utf8(std::string_view text);

/// One code point from the start of a text.
struct CodePoint {
  std::uint32_t value = 0;
  std::size_t bytes = 0;  ///< 0: the first byte begins no character
};
/// Precondition: `text` is not empty.
[[nodiscard]] CodePoint first_code_point(std::string_view text);

}  // namespace ohmstead
