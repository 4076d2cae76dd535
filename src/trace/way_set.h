#pragma once
// Ways of supply that are open together.

#include <algorithm>
#include <vector>

namespace ohmstead {

/// Places in the ways, rising.
using WaySet = std::vector<std::size_t>;

[[nodiscard]] inline bool holds(const WaySet& set, std::size_t way) { return std::ranges::binary_search(set, way); }

[[nodiscard]] inline WaySet with(WaySet set, std::size_t way) {
  set.insert(std::ranges::lower_bound(set, way), way);
  return set;
}

/// What is in the one and not in the other.
[[nodiscard]] inline WaySet without(const WaySet& set, const WaySet& other) {
  WaySet rest;
  std::ranges::set_difference(set, other, std::back_inserter(rest));
  return rest;
}

}  // namespace ohmstead
