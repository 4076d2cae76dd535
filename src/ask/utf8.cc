#include "ask/utf8.h"

namespace ohmstead::ask_detail {

bool is_control(std::uint32_t c) {
  const auto within = [c](std::uint32_t low, std::uint32_t high) { return c >= low && c <= high; };
  return c < 0x20 || within(0x7F, 0x9F) || c == 0xAD || c == 0x61C || c == 0x180E || within(0x200B, 0x200F) ||
         within(0x2028, 0x202E) || within(0x2060, 0x206F) || c == 0xFEFF || within(0xFFF9, 0xFFFB) ||
         within(0xE0000, 0xE007F);
}

}  // namespace ohmstead::ask_detail
