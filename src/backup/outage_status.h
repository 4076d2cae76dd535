#pragma once
// How the house stands in an outage: what is on, how much more may be switched on where, what is without power for too
// long. Plain values; the sentences are in ask/outage_words.h.

#include <optional>

#include "backup/fuel_left.h"

namespace ohmstead {

/// Points at which the same is left; nobody has to know what a leg is.
struct RoomLeft {
  int watts = 0;                    ///< steady watts that may still be switched on at any one of these points
  std::vector<std::size_t> points;  ///< places in house.points
};

/// A load that may be without power only for so long, and is.
struct OffLoad {
  std::size_t load = 0;       ///< place in house.loads
  std::string since;          ///< UTC
  long minutes = 0;           ///< so long already
  int longest_min = 0;        ///< so long it may be
  [[nodiscard]] long left() const { return longest_min - minutes; }
};

struct OutageStatus {
  std::string at;                   ///< UTC; what it was asked for
  OutagePhase phase = OutagePhase::none;
  bool running = false;
  long minutes = 0;                 ///< since the outage began
  PlanSource limits;
  PerPole drawn{};                  ///< on each leg, running
  int drawn_in_all = 0;
  std::vector<Consumer> on;         ///< what draws now, most worth first
  std::vector<Consumer> dark;       ///< closed or switched on, and nothing came on: without power, and counted all the same
  std::vector<OffLoad> left_out;    ///< stays off after an overload
  std::vector<Consumer> waiting;    ///< wanted and carried, and without power or switched off to make room
  std::vector<std::size_t> not_carried;  ///< wanted all the time, but on no circuit of this source
  std::vector<std::size_t> life_without_power;  ///< places in house.loads: what keeps somebody alive
  std::vector<RoomLeft> left;       ///< most first; empty while the source does not run
  std::vector<OffLoad> off_loads;   ///< what has least time left first
  std::optional<Range> tank_hours;  ///< on a full tank or battery at what is drawn now
  std::optional<FuelLeft> fuel;     ///< what is left of it, by what was drawn so far
};

/// `at`: now, UTC.
[[nodiscard]] OutageStatus outage_status(const OutageView& view, const std::string& at);

}  // namespace ohmstead
