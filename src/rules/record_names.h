#pragma once
// What things of a record are called in findings and on paper, in few words.

#include <string>
#include <vector>

#include "house/house.h"

namespace ohmstead {

/// "a", "a and b", "a, b and c"
[[nodiscard]] std::string joined(const std::vector<std::string>& parts);

/// Name of a panel as it may stand on paper: without persons; "Panel 2" where nothing is left.
[[nodiscard]] std::string panel_label(const House& house, Id<Panel> panel);
/// "Main 9-11": panel and number. "not recorded" for a breaker that is not in the house.
[[nodiscard]] std::string breaker_label(const House& house, Id<Breaker> breaker);
/// "Kitchen receptacle 3": room and name of house.points[point].
[[nodiscard]] std::string point_label(const House& house, std::size_t point);

/// What the legs of a panel are joined to above it, `hot` being the leg: poles of its feeder, directly or through transfer positions.
struct LineSide {
  int hot = 1;
  Id<Breaker> breaker;
  int pole = 1;
};
[[nodiscard]] std::vector<LineSide> line_side(const House& house, const Panel& panel);
/// The breaker that feeds a panel, directly or through transfer positions; none at the service or where nothing is known.
[[nodiscard]] Id<Breaker> feeder_of(const House& house, const Panel& panel);

}  // namespace ohmstead
