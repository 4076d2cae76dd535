#pragma once
// SHA-256, in the forms in which it is written.

#include <string>
#include <string_view>

namespace ohmstead {

/// 32 bytes.
[[nodiscard]] std::string sha256_bytes(std::string_view text);
/// In hexadecimal, as `sha256sum` gives it.
[[nodiscard]] std::string sha256_text(std::string_view text);
/// In base 64, as a content security policy names a script (CSP level 3, hash-source).
[[nodiscard]] std::string sha256_base64(std::string_view text);

/// Any bytes in hexadecimal, small letters.
[[nodiscard]] std::string hexadecimal(std::string_view bytes);

}  // namespace ohmstead
