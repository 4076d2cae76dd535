#include "ask/utf8.h"

#include <array>

namespace ohmstead::ask_detail {

namespace {

std::size_t sequence_length(std::uint32_t first) {
  if (first < 0x80) return 1;
  if (first >= 0xC2 && first < 0xE0) return 2;
  if (first >= 0xE0 && first < 0xF0) return 3;
  return first >= 0xF0 && first < 0xF5 ? 4 : 0;
}

}  // namespace

CodePoint first_code_point(std::string_view text) {
  const auto at = [&](std::size_t i) { return static_cast<std::uint32_t>(static_cast<unsigned char>(text[i])); };
  const std::size_t length = sequence_length(at(0));
  if (length == 1) return {at(0), 1};
  if (length == 0 || text.size() < length) return {};
  std::uint32_t value = at(0) & (0x7Fu >> length);
  for (std::size_t i = 1; i < length; ++i) {
    if ((at(i) & 0xC0u) != 0x80u) return {};
    value = value << 6 | (at(i) & 0x3Fu);
  }
  constexpr std::array<std::uint32_t, 5> kSmallest{0, 0, 0x80, 0x800, 0x10000};
  const bool surrogate = value >= 0xD800 && value < 0xE000;
  if (value < kSmallest[length] || value > 0x10FFFF || surrogate) return {};
  return {value, length};
}

bool is_control(std::uint32_t c) {
  const auto within = [c](std::uint32_t low, std::uint32_t high) { return c >= low && c <= high; };
  return c < 0x20 || within(0x7F, 0x9F) || c == 0xAD || c == 0x61C || c == 0x180E || within(0x200B, 0x200F) ||
         within(0x2028, 0x202E) || within(0x2060, 0x206F) || c == 0xFEFF || within(0xFFF9, 0xFFFB) ||
         within(0xE0000, 0xE007F);
}

}  // namespace ohmstead::ask_detail
