#pragma once
// An upper bound on what plans can be worth, from prices on what they use up: watts on each leg and in all, each tie, tied
// positions, positions of each size, and where it is asked for the watts by which one leg exceeds another, and moves.
// For any prices of 0 or more,
//   worth <= sum of price x limit + sum over the units of the best of (value - price x use), or of being left out.
// Good prices are looked for by subgradient steps; the bound is then worked out in whole numbers, so that it holds.

#include <cstdint>
#include <vector>

#include "backup/plan_units.h"

namespace ohmstead::planning {

inline constexpr std::int64_t kScale = 1024;  ///< bounds and prices are counted in 1/1024 of a value
inline constexpr std::int64_t kExcluded = -1;

enum class Fate : std::uint8_t { open, in, out };

/// A part of all plans: those that serve none of the loads on demand that are denied, keep as much of the running watts
/// for one as `need_least`, have their largest extra watts of a start between these two on each limit, and carry or
/// leave out the units whose fate is settled. A plan may lie in several cells; together they miss none.
struct Cell {
  PerLimit need_least{};
  PerLimit extra_least{}, extra_most{};
  std::vector<Fate> fate;    ///< of each unit
  std::vector<char> denied;  ///< of each load on demand, by its number
  std::vector<char> barred;  ///< of each way: not in this part
};

/// What the ways of a layout are worth within a cell.
struct View {
  bool empty = false;                ///< nothing at all can be carried in this cell, or a unit that must be cannot
  PerLimit cap{};                    ///< of the running watts of the loads that run together
  std::vector<char> must;            ///< of each unit: it may not be left out
  std::vector<std::int64_t> value;   ///< of each way, with every load on demand that the cell allows; or kExcluded
};
[[nodiscard]] Cell whole_cell(const Layout& layout);
[[nodiscard]] View view_of(const Layout& layout, const Cell& cell);
/// May a plan of this cell that carries a unit in this way serve this load of it on demand?
[[nodiscard]] bool may_serve(const Layout& layout, const Cell& cell, const Way& way, const OnTop& top);
/// What must be left of the running watts for it, beside a load that starts with so much more than it runs with.
[[nodiscard]] int need_of(const Layout& layout, const OnTop& top, std::size_t limit, int extra);

struct Prices {
  std::vector<double> of_row;           ///< in value for the whole of the limit; empty: none yet
  std::vector<std::int64_t> reduced;    ///< of each way: value less price of what it uses, x kScale; excluded: very low
  std::int64_t bound = 0;               ///< x kScale
  std::array<double, kLimits> usage{};  ///< of each limit, in the plans that the prices are drawn to
  std::vector<double> share;            ///< how often each way was the best one, 0..1, late ones counted more
};

/// What prices are to be found for.
struct Aim {
  std::int64_t enough = 0;  ///< x kScale: a bound below it will do
  int imbalance = -1;       ///< only plans whose legs differ by at most so much; -1: any
  int moves = -1;           ///< only plans with at most so many moves; -1: any
};
/// Prices for a cell, starting from those of `before` (of the same kind of aim), if there are any.
[[nodiscard]] Prices find_prices(const Layout& layout, const View& view, const std::vector<double>& before, const Aim& aim);

}  // namespace ohmstead::planning
