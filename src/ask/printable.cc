#include "ask/printable.h"

#include <algorithm>
#include <cstdio>

#include "ask/utf8.h"

namespace ohmstead::terminal {

namespace {

std::string in_brackets(const char* format, unsigned value) {
  char text[24];
  std::snprintf(text, sizeof text, format, value);
  return text;
}

}  // namespace

std::string printable(std::string_view text) {
  const auto is_plain = [](char c) { return c >= ' ' && c < 0x7f; };
  if (std::ranges::all_of(text, is_plain)) return std::string(text);
  std::string out;
  out.reserve(text.size());
  while (!text.empty()) {
    const auto next = ask_detail::first_code_point(text);
    if (next.bytes == 0)
      out += in_brackets("<byte %02X>", static_cast<unsigned char>(text[0]));
    else if (ask_detail::is_control(next.value))
      out += in_brackets("<U+%04X>", next.value);
    else
      out += text.substr(0, next.bytes);
    text.remove_prefix(next.bytes == 0 ? 1 : next.bytes);
  }
  return out;
}

}  // namespace ohmstead::terminal
