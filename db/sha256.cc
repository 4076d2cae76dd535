#include "db/sha256.h"

#include <nettle/sha2.h>

#include <array>
#include <cstdint>

#include "db/base64.h"

namespace ohmstead {

std::string sha256_bytes(std::string_view text) {
  sha256_ctx context;
  sha256_init(&context);
  sha256_update(&context, text.size(), reinterpret_cast<const std::uint8_t*>(text.data()));
  std::array<std::uint8_t, SHA256_DIGEST_SIZE> digest{};
  sha256_digest(&context, digest.size(), digest.data());
  return {digest.begin(), digest.end()};
}

std::string hexadecimal(std::string_view bytes) {
  std::string text;
  for (const char byte : bytes)
    for (const int shift : {4, 0}) text += "0123456789abcdef"[static_cast<unsigned char>(byte) >> shift & 15];
  return text;
}

std::string sha256_text(std::string_view text) { return hexadecimal(sha256_bytes(text)); }

std::string sha256_base64(std::string_view text) { return base64_of(sha256_bytes(text)); }

}  // namespace ohmstead
