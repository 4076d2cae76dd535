#pragma once
// Base 64 (RFC 4648, section 4), for bytes in documents and in saved pages.

#include <optional>
#include <string>
#include <string_view>

namespace ohmstead {

[[nodiscard]] std::string base64_of(std::string_view bytes);
/// The bytes again; nothing for a text that base64_of does not give.
[[nodiscard]] std::optional<std::string> from_base64(std::string_view text);

}  // namespace ohmstead
