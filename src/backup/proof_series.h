#pragma once
// The cheapest series of rounds that proves which position carries which circuit, with the utility on: in each round some positions
// are off, and some circuits are looked at. One at a time, or in codes: with several off at once in ceil(log2(n + 1)) rounds, in which
// every position has a pattern of its own. What is proved and why: docs/backup.md.

#include <cstddef>
#include <vector>

namespace ohmstead {

/// What is proved: a circuit that a position should carry.
struct SeriesUnit {
  bool alone = false;               ///< it is never off together with another
  std::vector<std::size_t> rooms;   ///< where its points are looked at, one for each look it needs
  int look_seconds = 0;             ///< all its looks of one round, without walking
};

/// What a series costs.
struct SeriesCosts {
  std::vector<std::vector<int>> walk;  ///< seconds between rooms
  std::size_t device_room = 0;
  int handle_seconds = 3;              ///< to move one handle (common practice, no source)
  int round_seconds = 10;              ///< to open the device and find the handles, each round (common practice, no source)
};

struct SeriesRound {
  std::vector<std::size_t> off;     ///< places in the units; empty: everything as on an ordinary day
  std::vector<std::size_t> looks;   ///< units that are looked at
  bool operator==(const SeriesRound&) const = default;
};
using Series = std::vector<SeriesRound>;

/// After the right answers to all looks of a series, only the wiring that should be fits them: for each unit by itself, that it is
/// cut by its own position and no other, that it is not fed when that is off, and that it is fed when it is on. `units` is their number.
[[nodiscard]] bool proves(const Series& series, std::size_t units);

[[nodiscard]] int seconds_of(const Series& series, const std::vector<SeriesUnit>& units, const SeriesCosts& costs);

/// One position at a time: n rounds and one in which everything is on.
[[nodiscard]] Series one_at_a_time(const std::vector<SeriesUnit>& units);
/// Codes for blocks of positions of these sizes, in the order of the units that need not be alone; the rest one at a time.
[[nodiscard]] Series in_codes(const std::vector<SeriesUnit>& units, const std::vector<std::size_t>& blocks);

/// The cheapest of one at a time and of all divisions into blocks of 3 to 15 (of more than 16 positions:
/// blocks of one size). Every one of them proves.
/// With few units no series of any kind is cheaper (tests/backup/proof_series_test.cc tries them all).
[[nodiscard]] Series cheapest_series(const std::vector<SeriesUnit>& units, const SeriesCosts& costs);

}  // namespace ohmstead
