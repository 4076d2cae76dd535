#pragma once
// What tracing costs the person who does it, in seconds of work. Every way of working is charged
// here: the sessions of the program, and the ways without a program (tests/trace/by_hand.h).

#include <map>
#include <optional>
#include <set>
#include <span>
#include <vector>

#include "tests/trace/world.h"
#include "trace/manner.h"
#include "trace/step.h"

namespace ohmstead::test {

/// Seconds (domain experience, no source). Walks and looks are given by the house.
inline constexpr double kEnterCost = 5;        ///< entering a room
inline constexpr double kHandleCost = 4;       ///< moving one handle
inline constexpr double kNuisanceCost = 20;    ///< a breaker turned off: clocks, computers
inline constexpr double kRepairCost = 20;      ///< a dead point: wall switch, reset, another lamp
inline constexpr double kTalkCost = 5;         ///< telling a helper of one handle
inline constexpr double kSamePointCost = 1;    ///< with a helper: looking once more without having left
inline constexpr double kLampCost = 10;        ///< putting a plug-in lamp in, or taking it up
inline constexpr double kLampFromDoorCost = 1; ///< a look at such a lamp, without entering
/// Longest time that a breaker may be off which may only be off alone.
inline constexpr double kAloneLimit = 300;

/// What a way of tracing came to.
struct Tally {
  double seconds = 0, slowest_step_ms = 0;
  int wrong = 0;         ///< points given a wrong breaker
  int unresolved = 0;    ///< points without an answer, or wrongly called dead or not on the panel
  int looks = 0;
  int opened = 0;        ///< breakers turned off
  int panel_visits = 0;  ///< 0 with a helper
  int broken_rules = 0;  ///< a breaker that may only be off alone: with another, or for too long
  void add(const Tally& other);
};

/// Follows the person and adds up. Starts at the main panel with everything on. Breakers and points
/// are places in the world's lists.
class CostMeter {
 public:
  /// `house` is what a session works on (house_of, tests/trace/world_house.h); left out where no steps are taken.
  CostMeter(const World& world, const Manner& manner, const House& house = {});

  /// One step of a session, as it will be done.
  void take(const Step& step);

  void open(std::span<const std::size_t> breakers);
  void close(std::span<const std::size_t> breakers);
  void look(std::size_t point);
  /// Tries to bring a dead point to life; the look afterwards is charged by itself.
  void repair(std::size_t point);
  /// Precondition: no more lamps are in use than there are.
  void put_lamp(std::size_t point);
  void take_lamp(std::size_t point);
  /// Precondition: a lamp is in it.
  void look_from_door(std::size_t point);

  /// Where the person is.
  [[nodiscard]] std::size_t room() const { return at_; }
  Tally tally;

 private:
  struct Off {
    double since = 0;
    bool broke_a_rule = false;
  };
  void move_handles(std::span<const std::size_t> breakers);
  void hold_against_rules();
  void walk_to(std::size_t room);
  void go_into(std::size_t room);
  [[nodiscard]] std::size_t room_of(std::size_t point) const { return static_cast<std::size_t>(world_.points[point].room); }

  const World& world_;
  Manner manner_;
  std::map<Id<Point>, std::size_t> point_at_;
  std::map<std::uint64_t, std::size_t> breaker_at_;
  std::size_t at_;
  bool in_room_ = false;    ///< inside, not at its door or only at the panel
  bool at_panel_ = false;   ///< nothing was done elsewhere since a handle was moved
  std::optional<std::size_t> standing_at_;  ///< the point looked at last
  std::map<std::size_t, Off> off_;
  std::set<std::size_t> lamps_in_;
};

}  // namespace ohmstead::test
