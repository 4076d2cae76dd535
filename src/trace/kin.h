#pragma once
// Which units are likely to hang on one breaker, before anything was opened: receptacles of one
// room, lights apart from receptacles, alarms together, appliances by themselves. Domain
// experience without a source; used for what is asked first and how many looks a proof takes.

#include <vector>

#include "house/house.h"
#include "trace/readings.h"

namespace ohmstead {

/// What a unit is, as far as it tells with what it shares a breaker.
enum class Sort {
  light,       ///< lights, and fans, which mostly hang with them
  receptacle,
  counter,     ///< receptacles of a kitchen
  bath,        ///< of a bathroom
  outside,     ///< of a garage, of an outside wall
  alarm,
  own,         ///< an appliance, or a receptacle named for one
  two_hots,    ///< needs more than one hot
};
inline constexpr std::size_t kSorts = 8;
inline constexpr int kNearSeconds = 8;  ///< between rooms that a circuit may well run through on its way

[[nodiscard]] Sort sort_of(const House& house, const Unit& unit);
/// Outside or in a garage, by the names of the point and its room.
[[nodiscard]] bool is_outside(const House& house, const Point& point);

/// Units of one sort in one room.
struct KinGroup {
  long room = -1;  ///< place in house.rooms; -1: in none
  Sort sort = Sort::receptacle;
  bool operator==(const KinGroup&) const = default;
};

class Kin {
 public:
  Kin() = default;
  Kin(const House& house, const Readings& readings);
  [[nodiscard]] const std::vector<KinGroup>& groups() const { return groups_; }
  /// Place in groups() of each unit; -1 for a device with nothing behind it.
  [[nodiscard]] const std::vector<long>& group_of_unit() const { return group_of_unit_; }
  /// Seconds between rooms, as in house/walking.h; empty for a house of very many rooms.
  [[nodiscard]] const std::vector<std::vector<int>>& walk() const { return walk_; }
  /// Chance, 0..1, that a unit of the one group and one of the other share a breaker.
  [[nodiscard]] double chance(std::size_t a, std::size_t b) const;

 private:
  std::vector<KinGroup> groups_;
  std::vector<long> group_of_unit_;
  std::vector<Id<Floor>> floor_of_room_;
  std::vector<std::vector<int>> walk_;
};

}  // namespace ohmstead
