#pragma once
// A timetable for loads that do not all fit at once: freezer, refrigerator, pump, heat take turns, each gets its
// share of the time and none is off longer than it may. The day repeats one cycle of equal slots. Method and proof: docs/backup.md.

#include <cstdint>
#include <span>
#include <vector>

#include "backup/fuel.h"
#include "backup/start_order.h"

namespace ohmstead {

struct RotationLoad {
  StartLoad draw;           ///< on the legs; starts_itself: at any time while it is switched on
  int share_percent = 100;  ///< of the cycle that it must be switched on, 0..100; at least one slot
  int longest_off_min = 0;  ///< in one go; 0: it is never switched off
};

/// What a load of a house needs of a rotation: its duty (figures.h) and how long it may be off (food_times.h).
struct RotationNeed {
  int share_percent = 100;
  int longest_off_min = 0;
  bool assumed = false;     ///< how long it may be off is a habit without a source (heat 2 h, well pump 4 h), or not known: never off
};
[[nodiscard]] RotationNeed rotation_need(const Load& load);

/// A cycle is cut into equal slots; switching is done where slots meet.
struct RotationTime {
  int cycle_min = 240, slot_min = 30;
};
inline constexpr std::size_t kMostRotationLoads = 12;
inline constexpr int kMostRotationSlots = 16;

enum class RotationEnd : std::uint8_t {
  found,       ///< and proven: no timetable of these slots switches loads on less often
  impossible,  ///< proven: there is none
  stopped,     ///< the search was cut off; what it had found by then, if anything, is given
};

/// What a person does where two slots meet: all of `off`, then `on` one after the other. A load in both is stopped for a moment
/// so that another can start.
struct RotationStep {
  int at_min = 0;                    ///< from the beginning of the cycle
  std::vector<std::size_t> off, on;  ///< places in the loads
  bool operator==(const RotationStep&) const = default;
};

struct Rotation {
  RotationEnd end = RotationEnd::impossible;
  RotationTime time;
  std::vector<std::uint32_t> on;    ///< for each load: bit k, it is on in slot k; empty if none was found
  std::vector<std::size_t> begin;   ///< slot 0 for the first time: switch these on in this order
  std::vector<RotationStep> steps;  ///< of every further cycle, ascending; the one at 0 follows the last slot
  int switchings = 0;               ///< times in a cycle that a load is switched on after a slot or more off: the least there can be
  std::vector<std::size_t> never_fits;  ///< loads that this source cannot start even alone; then it is impossible
  std::uint64_t nodes = 0;
};

/// The timetable with the fewest switchings. In every slot all that is on stays within the limits, may start in some order, and
/// what starts by itself may do so at any time. Limit of work: `most_nodes`. Throws Error{invalid_input} for more than
/// kMostRotationLoads loads or kMostRotationSlots slots, slots that do not divide the cycle, or a share outside 0..100.
[[nodiscard]] Rotation rotation(const PlanSource& source, const std::vector<RotationLoad>& loads, RotationTime time,
                                std::uint64_t most_nodes = 10'000'000);

/// The one of several cycles that switches least often a day; the first of equals. Impossible if it is with each.
[[nodiscard]] Rotation best_rotation(const PlanSource& source, const std::vector<RotationLoad>& loads, std::span<const RotationTime> times);
/// Cycles that are tried where nobody names one: 2, 3, 4, 6 and 8 hours in 15 and 30 minutes.
[[nodiscard]] std::span<const RotationTime> usual_rotation_times();

/// Watts in each slot, for fuel_for and hours_on_tank. A load that is on longer than its share takes no more in all than in its share.
[[nodiscard]] std::vector<LoadTime> rotation_times(const Rotation& rotation, const std::vector<RotationLoad>& loads);

}  // namespace ohmstead
