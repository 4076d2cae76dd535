#include "house/utf8.h"

namespace ohmstead {

std::size_t utf8_length(std::string_view text) {
  const auto byte = [&](std::size_t i) { return i < text.size() ? static_cast<unsigned char>(text[i]) : 0U; };
  const unsigned first = byte(0), second = byte(1);
  if (first < 0x80) return 1;
  const auto follow = [&](std::size_t from, std::size_t to) {
    for (std::size_t i = from; i < to; ++i)
      if (byte(i) < 0x80 || byte(i) > 0xBF) return false;
    return true;
  };
  if (first >= 0xC2 && first <= 0xDF) return follow(1, 2) ? 2 : 0;
  if (first >= 0xE0 && first <= 0xEF) {
    const bool in_range = second >= (first == 0xE0 ? 0xA0U : 0x80U) && second <= (first == 0xED ? 0x9FU : 0xBFU);
    return in_range && follow(2, 3) ? 3 : 0;
  }
  if (first >= 0xF0 && first <= 0xF4) {
    const bool in_range = second >= (first == 0xF0 ? 0x90U : 0x80U) && second <= (first == 0xF4 ? 0x8FU : 0xBFU);
    return in_range && follow(2, 4) ? 4 : 0;
  }
  return 0;
}

bool is_utf8(std::string_view text) {
  while (!text.empty()) {
    const std::size_t length = utf8_length(text);
    if (length == 0) return false;
    text.remove_prefix(length);
  }
  return true;
}

CodePoint first_code_point(std::string_view text) {
  const std::size_t length = utf8_length(text);
  if (length == 0) return {};
  const auto at = [&](std::size_t i) { return static_cast<std::uint32_t>(static_cast<unsigned char>(text[i])); };
  if (length == 1) return {at(0), 1};
  std::uint32_t value = at(0) & (0x7Fu >> length);
  for (std::size_t i = 1; i < length; ++i) value = value << 6 | (at(i) & 0x3Fu);
  return {value, length};
}

}  // namespace ohmstead
