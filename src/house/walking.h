#pragma once
// How long it takes to walk from room to room: given by the householder, else from the plan.

#include <vector>

#include "house/house.h"

namespace ohmstead {

/// Seconds between every two rooms (row and column in the order of house.rooms), symmetric, zero
/// on the diagonal, shortest path over all given walks and neighbouring rectangles. Rectangles
/// that touch are neighbours: time is the distance of their centres at 1.2 m/s. A floor apart
/// costs 12 s of stairs, another building 45 s (both common practice, no source). Where nothing
/// at all is known two rooms are 10 s apart.
/// In a record of more than 500 rooms such guessed times are not shortened by ways through others.
[[nodiscard]] std::vector<std::vector<int>> walking_seconds(const House& house);

}  // namespace ohmstead
