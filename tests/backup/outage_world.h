#pragma once
// Invented houses for the outage board, and a second reckoning of what may never be advised: its own sums, from the
// rows of the house and the feed graph alone.

#include <random>
#include <string>
#include <vector>

#include "backup/outage_board.h"

namespace ohmstead {

enum class WorldGear { positions, interlock, whole_house, automatic_positions, automatic_whole_house, critical_subpanel };
inline constexpr int kWorldGears = 6;

/// A sound house with one source, its gear, breakers, points with loads and declared feeds.
[[nodiscard]] House outage_house(std::mt19937& random, WorldGear gear);

/// The physical house beside the board: where handles stand, what is live, what is really switched on.
struct OutageWorld {
  State state;
  std::vector<bool> load_on;   ///< in the order of house.loads
  int most_watts = 0;          ///< 0: as on the nameplate
};

/// How many interlocks are broken and sources joined, each source taken as live.
[[nodiscard]] std::size_t faults_of(const Graph& graph, const State& state);

/// What comes on between two states of the house, added up: "" if the source carries and starts it, else what it passes.
[[nodiscard]] std::string passes_limit(const House& house, const Graph& graph, const OutageWorld& before, const OutageWorld& after,
                                       const std::vector<GuestThing>& guests);

}  // namespace ohmstead
