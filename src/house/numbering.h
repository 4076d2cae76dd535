#pragma once
// From a space's number to its place on the panel and its leg.

#include <optional>
#include <vector>

#include "house/house.h"

namespace ohmstead {

/// Where a space is, seen from the front: column 0 left, 1 right; row 0 at the top.
struct PanelPlace {
  int column = 0, row = 0;
  auto operator<=>(const PanelPlace&) const = default;
};

/// Place of `space`, or nothing if the panel has no such space.
[[nodiscard]] std::optional<PanelPlace> place_of(const Panel& panel, int space);
/// The space directly below `space` in the same column, or nothing at the bottom.
[[nodiscard]] std::optional<int> space_below(const Panel& panel, int space);
/// Number of rows the panel is drawn with, and of columns (1 or 2).
[[nodiscard]] int row_count(const Panel& panel);
[[nodiscard]] int column_count(const Panel& panel);

/// Leg (1-based) of the panel's own bus at `space`: rows alternate over the legs of the panel.
/// With odd numbers on the left and two legs that is floor((n - 1) / 2) mod 2: 1,2 on leg 1, 3,4 on
/// leg 2 (bus geometry, common practice; no rule of the code). `legs` is 1..3.
[[nodiscard]] int bus_leg(const Panel& panel, int space, int legs);

/// One half or whole space that a pole of a breaker sits in.
struct PolePlace {
  int space = 0;
  Half half = Half::whole;
  auto operator<=>(const PolePlace&) const = default;
};

/// Places of all poles of a breaker, top to bottom. Shorter than `poles` if it runs out of the
/// panel at the bottom.
[[nodiscard]] std::vector<PolePlace> pole_places(const Panel& panel, const Breaker& breaker);

/// What is stamped beside a breaker: "12", "9-11", "4a", "13b-15a".
[[nodiscard]] std::string breaker_number(const Panel& panel, const Breaker& breaker);

/// Legs of a panel's bus: as many as the system has, or the poles of the breaker or positions that
/// feed it, if these are fewer.
[[nodiscard]] int panel_legs(const House& house, const Panel& panel);

}  // namespace ohmstead
