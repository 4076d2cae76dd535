#pragma once
// Internal to quick entry: the numbers of breakers as they are typed.

#include <optional>
#include <string_view>
#include <vector>

#include "house/numbering.h"

namespace ohmstead::entry_detail {

/// "7", "5a", "2+4", "2-4-6", "17a+19b": the places of one breaker's poles (1..3), or nothing.
[[nodiscard]] std::optional<std::vector<PolePlace>> parse_places(std::string_view word);

}  // namespace ohmstead::entry_detail
