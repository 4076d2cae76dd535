#pragma once
// What is to run now, and in which order it is started: everything that draws or is wanted, most worth first, as far
// as the source can carry and start it. What keeps somebody alive comes first and is never switched off to make room.

#include <optional>
#include <vector>

#include "backup/outage_now.h"

namespace ohmstead {

/// A load of the record or a guest's thing that this source could carry.
struct Consumer {
  int load = -1, guest = -1;  ///< place in house.loads, or in OutageNow::guests
  int unit = -1;              ///< place in OutageGear::units
  int worth = 0;
  bool on = false;            ///< draws from the source now
  bool wanted = false;        ///< to run if there is room
  bool forced = false;        ///< it cannot be switched off
  bool would_start = false;   ///< it is off only because its unit is, and starts when that is closed
  StartLoad draw;
  [[nodiscard]] bool life() const { return worth >= kLifeWorth; }
};

/// All of them, loads in the order of the house and then guests.
[[nodiscard]] std::vector<Consumer> consumers_now(const OutageGear& gear, const OutageNow& now);

/// A unit to be closed (`consumer` -1), or one consumer on a closed unit to be switched on.
struct StartStep {
  int unit = -1, consumer = -1;
  bool operator==(const StartStep&) const = default;
};

struct OutageTarget {
  std::vector<Consumer> consumers;
  std::vector<bool> runs;   ///< for each consumer: it is to run
  std::vector<bool> apart;  ///< it is switched on by itself, after its unit was closed without it
  std::vector<bool> unit_on;
  /// What is to be started, in an order that never passes a limit from where things stand; nothing if something that
  /// runs must be switched off for a while first.
  std::optional<std::vector<StartStep>> order;
};

/// Deterministic: among equals, planned circuits first, then larger draws, then the order of the house. `ways`: the
/// source is let into the panels behind it, or can be.
[[nodiscard]] OutageTarget outage_target(const OutageGear& gear, const OutageNow& now, bool ways = true);

/// Do these consumers stay within the limits, of the source and of the unit that each hangs on?
[[nodiscard]] bool within_limits(const OutageGear& gear, const PlanSource& limits, const std::vector<Consumer>& on);

/// Sum of what starts when all these come on at once.
[[nodiscard]] StartLoad started_together(const std::vector<Consumer>& consumers);

[[nodiscard]] bool is_on(const OutageGear& gear, const OutageNow& now, std::size_t unit);

}  // namespace ohmstead
