#pragma once
// The truth about a house's circuits, from a second file, so that tracing can be played against it.

#include <string_view>
#include <vector>

#include "feed/feeds.h"

namespace ohmstead {

/// How a point behaves before anything was opened.
enum class AtStart {
  live,
  comes_alive,  ///< dead, until a switch, a reset or a new bulb
  dead_for_good,
};

struct Truth {
  Feeds feeds;                    ///< standing proved; open for a point that is dead for good
  std::vector<AtStart> at_start;  ///< in the order of house.points
  std::vector<bool> stray;        ///< on a circuit that nobody would guess
};

/// Reads the lines `room,point,hot,panel,breaker,pole,dead_at_start,stray` below a heading with
/// these words. One line for each hot of each point; panel, breaker and pole are empty for a point
/// that is dead for good. Breakers by their number ("9-11", "4a"). A device has the feed of the
/// points behind it. Throws Error{invalid_input} "truth, line 3: ..." for unknown names, a hot that
/// is missing or given twice, and points behind one device that disagree.
[[nodiscard]] Truth read_truth(const House& house, std::string_view csv);

/// Only the feeds of read_truth.
[[nodiscard]] Feeds truth_feeds(const House& house, std::string_view csv);

}  // namespace ohmstead
