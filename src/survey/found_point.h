#pragma once
// Something that is there but was never written down, found while the house is traced.

#include <optional>
#include <string>
#include <vector>

#include "house/house.h"

namespace ohmstead {

struct FoundPoint {
  Id<Room> room;
  PointKind kind = PointKind::receptacle;
  std::string name;   ///< empty: the kind, with the next free number where there are several
  std::string place;  ///< 'behind the shelf'; may be empty
  std::optional<int> hots;  ///< none: as such a thing usually has, not more than the house has legs
};

/// The rows to add to the house. A name that quick entry knows ('freezer', 'dryer') brings its usual
/// load along; nothing else is guessed.
struct FoundRows {
  Point point;
  std::vector<Load> loads;
};

/// Throws Error{not_found} for a room that is not in the house, Error{invalid_input} for a name that
/// is taken in it or hots that the house has not.
[[nodiscard]] FoundRows rows_of_found(const House& house, const FoundPoint& found);

/// The name that a found thing of this kind would get in this room: "receptacle 4".
[[nodiscard]] std::string free_point_name(const House& house, Id<Room> room, PointKind kind);

}  // namespace ohmstead
