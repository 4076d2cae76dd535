#pragma once
// Reading UTF-8 that may be broken. Internal to ask.

#include <cstdint>

#include "house/utf8.h"

namespace ohmstead::ask_detail {

using ohmstead::CodePoint, ohmstead::first_code_point;

/// Controls, direction overrides, line separators, invisible marks: what moves, hides or breaks the
/// text around it.
[[nodiscard]] bool is_control(std::uint32_t value);

}  // namespace ohmstead::ask_detail
