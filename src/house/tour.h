#pragma once
// In which order to walk through rooms.

#include <span>
#include <vector>

namespace ohmstead {

/// A short round trip from room `from` through all `rooms` to room `home`: cheapest insertion,
/// then 2-opt until nothing gets shorter. `seconds` is the matrix of house/walking.h. The rooms
/// come back in walking order. Deterministic: equal tours keep the order of `rooms`.
[[nodiscard]] std::vector<std::size_t> walking_order(const std::vector<std::vector<int>>& seconds, std::size_t from,
                                                     std::size_t home, std::span<const std::size_t> rooms);

/// Seconds of such a walk.
[[nodiscard]] int walk_seconds(const std::vector<std::vector<int>>& seconds, std::size_t from, std::size_t home,
                               std::span<const std::size_t> order);

}  // namespace ohmstead
