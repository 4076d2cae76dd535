#pragma once
// Depth-first search through the plans of a cell: units one after the other, each in every way that can still matter.

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
};
/// A bound below this (x kScale) cannot lead to what is looked for.
[[nodiscard]] std::int64_t enough(const SearchState& state);

class Descent {
 public:
  Descent(const Layout& layout, const Cell& cell, const View& view, const Prices& prices, SearchState& state);

  /// Looks at up to `most` partial plans; false: there are more.
  bool run(std::uint64_t most);

  /// No plan of the cell has fewer moves, if it is worth as much as the best one.
  int least_moves() const;

 private:
  struct Choice {
    int way = -1;
    std::int64_t loss = 0;        ///< of the bound, x kScale
    std::int64_t moves_loss = 0;  ///< of the bound on moves, x kScale
  };
  struct Step {
    std::size_t unit = 0;
    std::vector<Choice> choices;  ///< the least loss first
    int reach = 0;                ///< how much this and all later units can even out between two legs
  };
  struct Sums {
    PerLimit running{}, extra{};
    std::int64_t bound = 0;        ///< x kScale
    std::int64_t moves_bound = 0;  ///< x kScale
    std::int64_t value = 0;        ///< of loads that run together
    int moves = 0;
  };

  void make_steps();
  void add_choices(Step& step) const;
  void sort_steps();
  void price_moves();
  void descend(std::size_t depth, const Sums& sums);
  bool take(std::size_t depth, const Choice& choice, const Sums& sums);
  bool worth_going(std::size_t depth, const Sums& next) const;
  bool free_for(const Way& way, std::uint64_t& kinds_seen) const;
  Sums with(const Sums& sums, const Choice& choice, const Step& step) const;
  bool within(const Sums& next) const;
  bool on_top_fits(const Sums& sums, const OnTop& top) const;
  std::int64_t lost_on_top(const Sums& sums) const;
  int imbalance(const Sums& sums) const;
  void occupy(const Way& way, int by);
  void finish(const Sums& sums);

  const Layout& layout_;
  const Cell& cell_;
  const View& view_;
  const Prices& prices_;
  SearchState& state_;
  std::size_t legs_ = 0;
  std::vector<Step> steps_;
  std::vector<std::vector<const OnTop*>> tops_;  ///< of each way, those that the cell allows
  std::int64_t moves_price_ = 0, moves_start_ = 0;
  std::vector<int> left_;           ///< of each slot set
  std::vector<char> taken_;         ///< positions held by units that name theirs
  std::vector<int> taken_of_tie_;   ///< how many of them
  std::vector<int> chosen_;         ///< of each unit
  std::vector<const OnTop*> on_top_;
  std::uint64_t left_to_look_ = 0;
  bool cut_ = false;
};

}  // namespace ohmstead::planning
