#pragma once
// Random secrets, and how they are kept and compared.

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

namespace ohmstead::web {

/// Letters, digits, '-' and '_' (RFC 4648 part 5) that hold `bytes` random bytes of the kernel.
[[nodiscard]] std::string random_text(std::size_t bytes);
/// Decimal digits, each as likely as the others.
[[nodiscard]] std::string random_digits(std::size_t count);
[[nodiscard]] std::uint64_t random_number();

/// SHA-256: what is kept of a cookie, so that the memory of the server holds nothing that opens it.
using SecretHash = std::array<std::uint8_t, 32>;
[[nodiscard]] SecretHash hash_of(std::string_view text);

/// In a time that depends on nothing but the lengths.
[[nodiscard]] bool same_secret(std::string_view given, std::string_view right);

}  // namespace ohmstead::web
