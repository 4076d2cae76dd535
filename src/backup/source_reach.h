#pragma once
// What of a house stands behind a source: panels that come on whole with it, the handles that let it into them, and what
// must be off before.

#include <vector>

#include "feed/liveness.h"
#include "feed/restore.h"
#include "house/house.h"

namespace ohmstead {

struct SourceReach {
  std::vector<bool> behind;     ///< in the order of house.panels: it comes on whole when the source is let in, or hangs on one that does
  std::vector<Move> off_first;  ///< mains (or feeders, or interlocked breakers) that part these panels from the utility
  std::vector<Move> ways;       ///< positions that feed a panel to backup, backfed breakers on
  std::vector<std::uint32_t> breakers;  ///< groups of breakers in these panels that circuits hang on, in the order of the house
};

[[nodiscard]] SourceReach source_reach(const House& house, const Graph& graph, Id<Source> source);

/// Does this position carry a panel as a whole: of a whole-house device, or the supply of a subpanel?
[[nodiscard]] bool feeds_panel(const House& house, const Position& position);

}  // namespace ohmstead
