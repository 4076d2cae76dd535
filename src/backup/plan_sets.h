#pragma once
// Depth-first search through the sets of units that are carried, in or out one after the other. What holds for
// every way of a unit is counted at once: on which leg it comes is left to plan_descent.h, for the few sets that
// are worth it.

#include <cstdint>
#include <vector>

#include "backup/plan_descent.h"

namespace ohmstead::planning {

class SetSearch {
 public:
  SetSearch(const Layout& layout, const Cell& cell, const View& view, const Prices& prices, SearchState& state);

  /// Looks at up to `most` partial plans; false: there are more.
  bool run(std::uint64_t most);

 private:
  struct Take {
    std::size_t set = 0;
    int slots = 0;
  };
  /// Positions of some sizes on some legs.
  struct JointSet {
    std::vector<char> holds;  ///< for each position
    int slots = 0;
  };
  struct Step {
    std::size_t unit = 0;
    bool must = false;
    std::int64_t loss_in = 0, loss_out = 0;    ///< of the bound, x kScale
    std::int64_t moves_in = 0, moves_out = 0;  ///< of the bound on moves, x kScale
    PerLimit running{}, extra{};               ///< at least, in any way
    int extra_leg = 0;                         ///< at least on some leg
    std::vector<Take> takes;                   ///< of the joint sets, at least
    std::vector<const OnTop*> on_top;          ///< in every way
  };
  void count_least(Step& step) const;
  void find_joint_sets();
  std::vector<char> positions_of(const Way& way) const;
  void take_from_sets(Step& step) const;
  void descend(std::size_t depth, const Sums& sums, int extra_leg);
  void go_in(std::size_t depth, const Sums& sums, int extra_leg);
  bool fits(const Sums& next, int extra_leg) const;
  bool has_slots(const Step& step) const;
  std::int64_t lost_on_top(const Sums& sums, int extra_leg) const;
  bool may_balance() const;

  const Layout& layout_;
  const View& view_;
  SearchState& state_;
  Descent descent_;
  std::int64_t bound_ = 0, moves_bound_ = 0;
  int legs_running_ = 0, legs_starting_ = 0, legs_cap_ = 0;  ///< of all legs together
  std::vector<Step> steps_;
  std::vector<JointSet> sets_;
  std::vector<int> left_;
  std::vector<char> in_;
  std::vector<const OnTop*> on_top_;
};

}  // namespace ohmstead::planning
