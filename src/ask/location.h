#pragma once
// How damp it is where a sheet or label will hang, in the words of NFPA 70 article 100 (from memory): it decides how strong
// and how large its codes are.

#include "house/enum_text.h"
#include "house/house.h"

namespace ohmstead {

enum class Location {
  dry,   ///< indoors
  damp,  ///< moisture now and then: a cellar, a crawl space, a barn, under the roof of a porch
  wet,   ///< exposed to the weather: a wall outside, a deck, a yard
};
OHMSTEAD_WORDS(Location, "dry", "damp", "wet")

/// As the name of the room tells, in any case: "Back porch" is damp, "Yard" wet; a room that tells nothing, or none, is dry.
[[nodiscard]] Location location_of(const House& house, Id<Room> room);

}  // namespace ohmstead
