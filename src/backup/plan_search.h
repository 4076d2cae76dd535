#pragma once
// The whole search for the best plan: the cells it is parted into, and the three goals one after the other.

#include "backup/plan_sets.h"

namespace ohmstead::planning {

/// Where a search is to end.
enum class Depth : std::uint8_t { value_only, all_goals };

/// Searches all plans of the layout. `place` turns ways into a plan (its score counts real moves).
class PlanSearch {
 public:
  PlanSearch(const PlanProblem& problem, const Layout& layout, std::uint64_t most_nodes);
  [[nodiscard]] Plan run(Depth depth);

 private:
  struct Part {
    Cell cell;
    View view;
    Prices prices;
    int depth = 0;  ///< how often it was parted
  };
  void look_for(Goal goal);
  void explore(Part part);
  /// What a part is parted into, once `look` partial plans did not settle it; not `any`: it is searched to its end.
  struct Halves {
    std::array<Cell, 2> cells;
    std::uint64_t look = 0;
    bool any = false;
  };
  Halves halves_of(const Part& part) const;
  bool part_by_life(const Part& part, std::array<Cell, 2>& halves) const;
  bool part_by_reserve(const Part& part, std::array<Cell, 2>& halves) const;
  bool part_by_unit(const Part& part, std::array<Cell, 2>& halves) const;
  bool part_by_leg(const Part& part, std::array<Cell, 2>& halves) const;
  void deny_above(Cell& cell, std::size_t limit, int middle) const;
  bool make_part(const Cell& cell, const Part* from, Part& out) const;
  void keep_real_moves();
  Plan placed() const;
  Plan finished() const;

  const PlanProblem& problem_;
  const Layout& layout_;
  SearchState state_;
};

/// The plan that the ways stand for: singles get the lowest position that does, and stay where they can.
[[nodiscard]] std::vector<Placed> placed_by(const PlanProblem& problem, const Layout& layout, const std::vector<int>& ways);

}  // namespace ohmstead::planning

namespace ohmstead {

/// Like best_plan, but only life safety and importance are the best that can be; balance and moves are as they come.
[[nodiscard]] Plan most_served_plan(const PlanProblem& problem, std::uint64_t most_nodes = 20'000'000);

/// The best of the plans that serve this load on demand; `impossible` if none does.
[[nodiscard]] Plan best_plan_serving(const PlanProblem& problem, int circuit, int load, std::uint64_t most_nodes = 20'000'000);

}  // namespace ohmstead
