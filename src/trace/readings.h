#pragma once
// Observations gathered by feed unit. A unit is what has one feed of its own: a point that stands
// directly on its circuit, or an outermost device with everything behind it. Whatever feeds the
// unit feeds all points of it.

#include <vector>

#include "house/house.h"
#include "trace/effect.h"

namespace ohmstead {

/// One look at a point of the unit that says something about its breaker.
struct Reading {
  std::size_t round = 0;  ///< place in house.rounds
  std::size_t point = 0;  ///< place in house.points
  bool dead = false;
};

/// A feed unit and its evidence.
struct Unit {
  Id<Point> point;                  ///< the point itself, or
  Id<Device> device;                ///< the outermost device
  std::vector<std::size_t> points;  ///< places in house.points; empty for a device with nothing behind it
  int hots = 1;                     ///< hot conductors that must be fed
  std::vector<Reading> readings;    ///< counted ones, oldest first
  std::vector<Reading> discounted;  ///< dead for another reason than a breaker, see below
};

/// Everything read from the observations of a house.
///
/// Only observations count that were not withdrawn and say live or dead. Two kinds of dead reading
/// say nothing about a breaker and are set aside: those made while a wall switch, GFCI or
/// disconnect was open, and those of a point that was dead with nothing open (a burnt bulb, a wall
/// switch, a tripped GFCI; or one mistake). Of such an unbroken run of dead readings only those
/// count that come right after a live one, in the first round of the run: it went dead when something
/// was opened then. In later rounds it was perhaps dead because it does not come back by itself.
struct Readings {
  std::vector<Effect> effects;            ///< of house.rounds
  std::vector<Unit> units;                ///< devices first, in the order of the house, then points
  std::vector<std::size_t> unit_of_point; ///< in the order of house.points
  std::vector<std::size_t> unit_of_device;///< in the order of house.devices
  /// For each point: its last readings are dead ones, among them one with nothing open.
  std::vector<bool> dead_anyway;
};

/// Looks that were not withdrawn and say live or dead, of each of house.points, oldest first.
[[nodiscard]] std::vector<std::vector<Reading>> looks_in_time(const House& house);

[[nodiscard]] Readings read_observations(const House& house);

}  // namespace ohmstead
