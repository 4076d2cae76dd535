#include "house/id.h"

#include <array>
#include <random>

namespace ohmstead {

namespace {
constexpr std::string_view kDigits = "0123456789abcdefghjkmnpqrstvwxyz";
/// Value of each digit's character; -1 for every other one.
constexpr auto kValueOf = [] {
  std::array<signed char, 256> values{};
  values.fill(-1);
  for (std::size_t i = 0; i < kDigits.size(); ++i)
    values[static_cast<unsigned char>(kDigits[i])] = static_cast<signed char>(i);
  return values;
}();
constexpr int kLetters = 12;
constexpr std::uint64_t kMask = (std::uint64_t{1} << 60) - 1;
thread_local std::uint64_t last_value = 0;  ///< 0: not begun
}  // namespace

std::string id_text(std::uint64_t value) {
  std::string text(kLetters, '0');
  for (int i = kLetters - 1; i >= 0; --i, value >>= 5) text[static_cast<std::size_t>(i)] = kDigits[value & 31];
  return text;
}

std::optional<std::uint64_t> parse_id(std::string_view text) {
  if (text.size() != kLetters) return std::nullopt;
  std::uint64_t value = 0;
  for (const char c : text) {
    const signed char digit = kValueOf[static_cast<unsigned char>(c)];
    if (digit < 0) return std::nullopt;
    value = (value << 5) | static_cast<std::uint64_t>(digit);
  }
  return value == 0 ? std::nullopt : std::optional(value);
}

std::uint64_t new_id_value() {
  if (last_value == 0) {
    std::random_device device;
    last_value = ((std::uint64_t{device()} << 32) | device()) & kMask;
  }
  last_value = (last_value + 1) & kMask;
  return last_value != 0 ? last_value : new_id_value();
}

void begin_ids_anew() { last_value = 0; }

}  // namespace ohmstead
