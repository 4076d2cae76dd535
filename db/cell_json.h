#pragma once
// The value of a field as JSON, for any JSON type that takes null, truth values, numbers and texts.

#include "db/cell.h"

namespace ohmstead {

template <class Json>
[[nodiscard]] Json json_of_cell(const Cell& cell) {
  return std::visit(
      [](const auto& value) -> Json {
        if constexpr (std::is_same_v<std::decay_t<decltype(value)>, std::monostate>) return nullptr;
        else return value;
      },
      cell);
}

}  // namespace ohmstead
