#include "db/base64.h"

#include <nettle/base64.h>

#include <cstdint>

namespace ohmstead {

std::string base64_of(std::string_view bytes) {
  std::string text(BASE64_ENCODE_RAW_LENGTH(bytes.size()), '\0');
  base64_encode_raw(text.data(), bytes.size(), reinterpret_cast<const std::uint8_t*>(bytes.data()));
  return text;
}

std::optional<std::string> from_base64(std::string_view text) {
  base64_decode_ctx reader;
  base64_decode_init(&reader);
  std::string bytes(BASE64_DECODE_LENGTH(text.size()), '\0');
  std::size_t length = bytes.size();
  if (base64_decode_update(&reader, &length, reinterpret_cast<std::uint8_t*>(bytes.data()), text.size(), text.data()) == 0) return std::nullopt;
  if (base64_decode_final(&reader) == 0) return std::nullopt;
  bytes.resize(length);
  if (base64_of(bytes) != text) return std::nullopt;  // spaces, and bits that do not count
  return bytes;
}

}  // namespace ohmstead
