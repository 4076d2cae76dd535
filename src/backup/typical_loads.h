#pragma once
// The table of typical loads: what appliances take when nobody read a nameplate. Each figure says who published it;
// a range covers all credible published figures. A power factor is in none of these sources, so none is here.

#include <span>
#include <string_view>

#include "backup/figures.h"

namespace ohmstead {

/// Tenths: starting watts for each running watt. {10, 10}: it starts with what it runs with.
struct StartRatio {
  int low = 10, high = 10;
};

/// One row. Watts of one piece.
struct TypicalLoad {
  std::string_view name;
  std::string_view other_words;     ///< words that mean the same, parted by '|'
  bool any_kind = false;            ///< any word may stand before it: "insulin refrigerator" is one, "boot dryer" is no dryer
  WattRange running;
  std::string_view running_source;  ///< who published it, or "common practice, no source", or "from memory"
  WattRange starting;               ///< {0, 0}: it starts with what it runs with
  std::string_view starting_source;
  StartRatio ratio;                 ///< where only running watts are known
  int duty_percent = 0;             ///< share of the time it usually runs; 0: not known
  bool starts_itself = false;       ///< a thermostat, float or pressure switch starts it
};

[[nodiscard]] std::span<const TypicalLoad> typical_loads();

/// "lights" without a number: so many lamps (a county government's table counts four).
inline constexpr int kLightsOfARoom = 4;

struct TypicalMatch {
  const TypicalLoad* row = nullptr;  ///< null: no such name
  int pieces = 1;                    ///< 3 for "3 lights"
};

/// The row that a name means. Letters' case, hyphens, plurals, a number at the end, a place ("in the garage") and words
/// that change nothing ("old", "Joe's", a room) do not matter; the longest words that fit at the end of what is named decide,
/// so that "hair dryer" is no dryer. A name with another word in front of a general one ("boot dryer") is not known.
[[nodiscard]] TypicalMatch find_typical_load(std::string_view name);

}  // namespace ohmstead
