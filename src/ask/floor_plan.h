#pragma once
// The floors of a house with their rooms, points and circuit numbers. Rooms are to scale where they were measured; where in a
// room a point is, no record says, so points stand in their room in the order in which they were written down.

#include <string>
#include <vector>

#include "ask/record.h"

namespace ohmstead {

/// A circuit as the plan marks it: by its number, and by a pattern that no other circuit in one of its rooms has.
struct PlanCircuitMark {
  Id<Breaker> breaker;
  std::string label;        ///< "14"; of another panel than the first with its letter: "W5"
  std::string description;  ///< as on the directory (rules/wording.h)
  std::string amps;         ///< "20 A"; "? A"
  int pattern = 0;          ///< 0 .. patterns - 1
};

struct PlanPoint {
  std::size_t point = 0;    ///< place in house.points
  PointKind kind = PointKind::receptacle;
  std::string name;         ///< "receptacle 3 (left of the sink)"
  std::string label;        ///< "14"; "14?" where it is likely or disputed; "?" where nothing is established
  int circuit = -1;         ///< place in FloorPlan::circuits; -1: not established
  std::string standing;     ///< "proved", "declared", "likely", "disputed", "open"
};

struct PlanRoom {
  std::string name;
  bool measured = false;    ///< it has a place on a floor that is drawn to scale
  double left_m = 0, top_m = 0, width_m = 0, depth_m = 0;  ///< from the floor's own west and north edge
  std::vector<PlanPoint> points;
  std::size_t room = 0;     ///< place in house.rooms
};

struct PlanFloor {
  std::string name;         ///< "Middle"; "Workshop" for the only floor of a building
  std::vector<PlanRoom> rooms;  ///< in walking order
  double width_m = 0, depth_m = 0;  ///< of the measured rooms together; 0: none, or they cannot be drawn
  std::string scale;        ///< how it is drawn, a sentence: "Rooms to scale; ..." or "Schematic, not to scale: ..."
};

struct FloorPlan {
  std::vector<PlanFloor> floors;    ///< floors with rooms, from the lowest of each building up
  std::vector<PlanCircuitMark> circuits;  ///< those that feed a point, panel by panel
  std::vector<std::string> letters; ///< "W: panel Workshop"
  std::vector<std::size_t> walk;    ///< all rooms of the house, floors aside, in walking order: places in house.rooms
};

/// The same in plain sentences, for codes: what each number feeds, circuit by circuit, and which points nothing is known of.
[[nodiscard]] std::vector<std::string> floor_plan_lines(const FloorPlan& plan);

/// `patterns`: how many can be told apart by the reader.
[[nodiscard]] FloorPlan floor_plan(const Record& record, int patterns);

}  // namespace ohmstead
