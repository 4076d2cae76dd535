#pragma once
// Depth-first search for the ways in which a settled set of units is carried: who is on which leg, tie and size of
// position. Which sets are worth it is for plan_sets.h to say.

#include <cstdint>
#include <vector>

#include "backup/plan_prices.h"

namespace ohmstead::planning {

/// What is looked for: the most valuable plan; of those the best balanced; of those the one with fewest moves.
enum class Goal : std::uint8_t { value, imbalance, moves };

struct Found {
  bool any = false;
  std::vector<int> ways;  ///< of each unit; -1: not carried
  std::int64_t value = 0;
  int imbalance = 0, moves = 0;
};

/// What the parts of one search share.
struct SearchState {
  Goal goal = Goal::value;
  Found best;
  bool done = false;            ///< nothing can be better
  std::uint64_t nodes = 0, most_nodes = 0;
  std::int64_t open_bound = 0;  ///< x kScale: where the search was cut off, no plan is worth more than this
  bool stopped = false;
  std::uint64_t left = 0;       ///< partial plans that this look may still see
  bool cut = false;             ///< it wanted to see more
  bool ended() const { return cut || done; }
  /// Counts one; false: the look is over.
  bool see_one() {
    cut = left == 0;
    if (cut) return false;
    --left;
    ++nodes;
    return true;
  }
};
/// A bound below this (x kScale) cannot lead to what is looked for.
[[nodiscard]] std::int64_t enough(const SearchState& state);

/// Running sums over the units settled so far.
struct Sums {
  PerLimit running{}, extra{};
  std::int64_t bound = 0;        ///< x kScale
  std::int64_t moves_bound = 0;  ///< x kScale
  std::int64_t value = 0;        ///< of loads that run together
  int moves = 0;
  void add(const Way& way);
};

/// A price on value, for a lower bound on moves: price x (value to reach - value) + moves.
[[nodiscard]] std::int64_t price_of_moves(const Layout& layout, const View& view, std::int64_t to_reach);

class Descent {
 public:
  struct Choice {
    int way = -1;
    std::int64_t loss = 0;        ///< of the bound, x kScale, against the best way of the unit
    std::int64_t moves_loss = 0;  ///< of the bound on moves
  };
  Descent(const Layout& layout, const Cell& cell, const View& view, const Prices& prices, SearchState& state);

  /// Looks for the best ways to carry exactly the units that are in; keeps in the state what is better. `from` has
  /// the bounds, and the moves of the units that are out.
  void place(const std::vector<char>& in, const Sums& from);

  const std::vector<Choice>& choices(std::size_t unit) const { return choices_[unit]; }
  const std::vector<const OnTop*>& on_top(int way) const { return tops_[static_cast<std::size_t>(way)]; }
  std::int64_t moves_price() const { return moves_price_; }
  std::size_t legs() const { return legs_; }

 private:
  struct Step {
    std::size_t unit = 0;
    int reach = 0;  ///< how much this and all later units can even out between two legs
  };
  void make_choices(std::size_t unit);
  void sort_units();
  void descend(std::size_t depth, const Sums& sums);
  void take(std::size_t depth, const Choice& choice, const Sums& sums);
  bool worth_going(std::size_t depth, const Sums& next) const;
  bool free_for(const Way& way, std::uint64_t& kinds_seen) const;
  bool within(const Sums& next) const;
  bool on_top_fits(const Sums& sums, const OnTop& top) const;
  std::int64_t lost_on_top(const Sums& sums) const;
  int imbalance(const Sums& sums) const;
  void occupy(const Way& way, int by);
  void finish(const Sums& sums);

  const Layout& layout_;
  const View& view_;
  const Prices& prices_;
  SearchState& state_;
  std::size_t legs_ = 0;
  std::int64_t moves_price_ = 0;
  std::vector<std::vector<Choice>> choices_;     ///< of each unit, the least loss first
  std::vector<std::vector<const OnTop*>> tops_;  ///< of each way, those that a plan of the cell may serve
  std::vector<std::size_t> order_;               ///< units, those that name positions first, then the largest
  std::vector<int> tilt_;           ///< of each unit, how much more a way adds to one leg than to another
  std::vector<Step> steps_;         ///< of the set that is placed
  std::vector<int> left_;           ///< of each slot set
  std::vector<char> taken_;         ///< positions held by units that name theirs
  std::vector<int> taken_of_tie_;   ///< how many of them
  std::vector<int> chosen_;         ///< way of each unit
  std::vector<const OnTop*> on_top_;
};

}  // namespace ohmstead::planning
