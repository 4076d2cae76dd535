#pragma once
// The problem as the search sees it: units (circuits that are carried together or not at all), the ways in which
// each can be carried, and the limits they share. Inside of best_plan only.

#include <cstdint>
#include <vector>

#include "backup/plan.h"

namespace ohmstead::planning {

/// A row by an index that is not negative.
template <class T>
auto& at(T& rows, int index) { return rows[static_cast<std::size_t>(index)]; }

inline constexpr std::size_t kWhole = kMostPoles;  ///< place of the source as a whole, after its legs
inline constexpr std::size_t kLimits = kMostPoles + 1;
using PerLimit = std::array<int, kLimits>;  ///< on each leg, and in all

/// A load on demand of a unit that is carried in some way.
struct OnTop {
  int load = 0;                 ///< which one of its unit
  std::size_t number = 0;       ///< among all of the layout
  PerLimit running{}, extra{};  ///< extra: starting less running
  PerLimit needs{};             ///< what must be left of the running watts for it, beside loads that start with nothing
  std::int64_t value = 0;
};

/// One way to carry a unit.
struct Way {
  PerLimit running{}, extra{};  ///< loads that run together; extra: the largest among them
  std::int64_t value = 0;       ///< of the loads that run together
  std::vector<OnTop> on_top;    ///< what the positions' breakers let be served on demand
  PerPole legs{-1, -1, -1};     ///< of each pole of the unit, 0-based
  std::vector<int> positions;   ///< of each pole; empty: any position of `levels` on its leg
  std::uint32_t levels = 0;     ///< breaker sizes of its leg that do, one bit each
  std::vector<int> sets;        ///< slot sets of which it takes one
  int tie = -1;                 ///< tie that it takes positions of
  int kind = -1;                ///< ways of one kind on ties that are still free are worth the same, moves apart
  int keeps = -1;               ///< it stays on this position
  int moves = 0;
};

struct Unit {
  std::vector<int> circuits;  ///< ascending
  int poles = 0;
  bool must = false;
  bool pooled = false;        ///< one pole that takes any position of a size: placed after those that hold certain ones
  bool holds = false;         ///< its ways name the positions
  int moves_out = 0;          ///< if it is not carried
  std::size_t first = 0, last = 0;  ///< its ways
};

/// Positions of one leg with the same breaker.
struct Level {
  int amps = 0;
  std::vector<int> positions;
};

/// Positions of some sizes on one leg: they carry no more units than they are (Hall's condition).
struct SlotSet {
  int leg = 0;
  std::uint32_t levels = 0;
  int slots = 0;
};

struct Layout {
  bool impossible = false;   ///< a pin cannot be met, whatever else is carried
  std::vector<Unit> units;
  std::vector<Way> ways;
  std::array<std::vector<Level>, kMostPoles> levels;
  std::vector<SlotSet> sets;
  std::vector<char> reserved;  ///< positions that a pin keeps for its circuit
  std::vector<int> units_of_tie;  ///< of each tie, how many units of several poles it has positions for
  int tied_poles = 0;        ///< positions that a unit of several poles can use
  int fixed_moves = 0;       ///< of circuits that cannot be carried
  std::size_t tops = 0;      ///< how many loads on demand all ways have
  std::int64_t life_worth = 1;  ///< value of one life-safety load: more than all others together
  PerLimit most_running{}, most_starting{};
};

[[nodiscard]] Layout make_layout(const PlanProblem& problem);

/// One pole of a unit, in the order of its circuits.
struct PoleRef {
  int circuit = 0;
  std::size_t pole = 0;
};
[[nodiscard]] std::vector<PoleRef> poles_of(const PlanProblem& problem, const Unit& unit);

/// The position that a pin holds for pole 1 of the circuit; -1: none.
[[nodiscard]] int pinned_position(const PlanProblem& problem, int circuit);

/// Adds the ways of a unit to the layout; levels and `reserved` must be there.
void add_ways(const PlanProblem& problem, Layout& layout, Unit& unit);

/// Fills the slot sets, and the sets that each way takes from.
void add_slot_sets(const PlanProblem& problem, Layout& layout);

}  // namespace ohmstead::planning
