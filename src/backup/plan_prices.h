#pragma once
// An upper bound on what plans can be worth, from prices on what they use up: watts on each leg and in all, tied
// positions, positions of each size. For any prices of 0 or more,
//   worth <= sum of price x limit + sum over the units of the best of (value - price x use), or of being left out.
// Good prices are looked for by subgradient steps; the bound is then worked out in whole numbers, so that it holds.

#include <cstdint>
#include <vector>

#include "backup/plan_units.h"

namespace ohmstead::planning {

inline constexpr std::int64_t kScale = 1024;  ///< bounds and prices are counted in 1/1024 of a value
inline constexpr std::int64_t kExcluded = -1;

enum class Fate : std::uint8_t { open, in, out };

/// A part of all plans: those in which the largest need of a load on demand that is served, and the largest extra
/// watts of a start, are within these on each limit, and the fate of some units is settled. A plan may lie in several
/// cells; together they miss none.
struct Cell {
  PerLimit need_least{}, need_most{};
  PerLimit extra_least{}, extra_most{};
  std::vector<Fate> fate;  ///< of each unit
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
[[nodiscard]] bool allowed(const Cell& cell, const OnTop& top);

struct Prices {
  std::vector<double> of_row;           ///< in value for the whole of the limit; empty: none yet
  std::vector<std::int64_t> reduced;    ///< of each way: value less price of what it uses, x kScale; excluded: very low
  std::int64_t bound = 0;               ///< x kScale
  std::array<double, kLimits> usage{};  ///< of each limit, in the plans that the prices are drawn to
  std::vector<double> share;            ///< how often each way was the best one, 0..1, late ones counted more
};

/// Prices for a cell, starting from those of `before`. Stops early once the bound is below `enough` (x kScale).
[[nodiscard]] Prices find_prices(const Layout& layout, const View& view, const std::vector<double>& before,
                                 std::int64_t enough);

}  // namespace ohmstead::planning
