#include "backup/plan_prices.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace ohmstead::planning {
namespace {

constexpr std::size_t kTiedRow = kLimits;
constexpr std::int64_t kVeryLow = std::numeric_limits<std::int64_t>::min() / 4;

struct Use {
  std::size_t row = 0;
  double part = 0;       ///< of the row's scale
  std::int64_t amount = 0;
};
struct Limit {
  std::int64_t most = 0;
  std::int64_t scale = 1;  ///< prices are kept for so much of it
  double part() const { return static_cast<double>(most) / static_cast<double>(scale); }
};

/// The rows, and what each way uses of them.
class Rows {
 public:
  Rows(const Layout& layout, const View& view, const Aim& aim) : layout_(layout), view_(view) {
    for (const int cap : view.cap) add_limit(cap);
    add_limit(layout.tied_poles);
    for (const SlotSet& set : layout.sets) add_limit(set.slots);
    first_tie_ = limit_.size();
    for (const int units : layout.units_of_tie) add_limit(units);
    for (std::size_t a = 0; aim.imbalance >= 0 && a < kMostPoles; ++a)
      for (std::size_t b = 0; b < kMostPoles; ++b) {
        if (a == b || view.cap[a] <= 0 || view.cap[b] <= 0) continue;
        pairs_.push_back({limit_.size(), {a, b}});
        limit_.push_back({aim.imbalance, view.cap[a]});
      }
    if (aim.moves >= 0) {
      moves_row_ = limit_.size();
      limit_.push_back({aim.moves, std::max(1, aim.moves)});
      for (const Unit& unit : layout.units) limit_.back().most -= unit.moves_out;  // what is left out moves so often anyway
    }
    first_.push_back(0);
    for (const Unit& unit : layout.units)
      for (std::size_t w = unit.first; w < unit.last; ++w) {
        if (view.value[w] != kExcluded) add(unit, layout.ways[w]);
        first_.push_back(uses_.size());
      }
  }
  std::size_t size() const { return limit_.size(); }
  const Limit& limit(std::size_t row) const { return limit_[row]; }
  bool must(const Unit& unit) const { return view_.must[static_cast<std::size_t>(&unit - layout_.units.data())] != 0; }
  std::size_t first(std::size_t way) const { return first_[way]; }
  const Use& use(std::size_t k) const { return uses_[k]; }

  /// The best way of a unit at these prices, or -1 to leave it out; `worth` is what it brings.
  int best_way(const Unit& unit, const std::vector<double>& price, double& worth) const {
    int best = -1;
    worth = must(unit) ? -1e300 : 0;
    for (std::size_t w = unit.first; w < unit.last; ++w) {
      if (view_.value[w] == kExcluded) continue;
      double now = static_cast<double>(view_.value[w]);
      for (std::size_t k = first_[w]; k < first_[w + 1]; ++k) now -= price[uses_[k].row] * uses_[k].part;
      if (now > worth) worth = now, best = static_cast<int>(w);
    }
    return best;
  }

 private:
  void add(const Unit& unit, const Way& way) {
    for (std::size_t limit = 0; limit < kLimits; ++limit)
      if (way.running[limit] > 0) add(limit, way.running[limit]);
    if (!unit.pooled && way.tie >= 0) {
      const auto placed = std::count_if(way.positions.begin(), way.positions.end(), [](int p) { return p >= 0; });
      add(kTiedRow, placed);
      if (placed > 1) add(first_tie_ + static_cast<std::size_t>(way.tie), 1);
    }
    for (const int set : way.sets) add(kTiedRow + 1 + static_cast<std::size_t>(set), 1);
    for (const auto& [row, legs] : pairs_)
      if (const int more = way.running[legs.first] - way.running[legs.second]; more != 0) add(row, more);
    if (moves_row_ > 0 && way.moves != unit.moves_out) add(moves_row_, way.moves - unit.moves_out);
  }
  void add(std::size_t row, std::int64_t amount) {
    uses_.push_back({row, static_cast<double>(amount) / static_cast<double>(limit_[row].scale), amount});
  }
  void add_limit(int most) { limit_.push_back({most, std::max(1, most)}); }

  const Layout& layout_;
  const View& view_;
  std::vector<Limit> limit_;
  std::vector<std::pair<std::size_t, std::pair<std::size_t, std::size_t>>> pairs_;  ///< rows of two legs
  std::size_t first_tie_ = 0;
  std::size_t moves_row_ = 0;  ///< 0: none
  std::vector<std::size_t> first_;
  std::vector<Use> uses_;
};

/// The bound in whole numbers. A price may be anything from 0, so it is rounded as it comes.
void make_exact(const Layout& layout, const View& view, const Rows& rows, Prices& prices) {
  std::vector<std::int64_t> price(rows.size());
  prices.bound = 0;
  for (std::size_t row = 0; row < rows.size(); ++row) {
    price[row] = static_cast<std::int64_t>(prices.of_row[row] * static_cast<double>(kScale) / static_cast<double>(rows.limit(row).scale));
    prices.bound += price[row] * rows.limit(row).most;
  }
  prices.reduced.assign(layout.ways.size(), kVeryLow);
  for (const Unit& unit : layout.units) {
    std::int64_t most = rows.must(unit) ? kVeryLow : 0;
    for (std::size_t w = unit.first; w < unit.last; ++w) {
      if (view.value[w] == kExcluded) continue;
      prices.reduced[w] = view.value[w] * kScale;
      for (std::size_t k = rows.first(w); k < rows.first(w + 1); ++k)
        prices.reduced[w] -= price[rows.use(k).row] * rows.use(k).amount;
      most = std::max(most, prices.reduced[w]);
    }
    prices.bound += most;
  }
}

/// One step's outcome: the bound at these prices, and how far each row is from being used up (1: not used at all).
double relax(const Layout& layout, const Rows& rows, Prices& at, std::vector<double>& left) {
  constexpr double kLate = 0.15;
  left.resize(rows.size());
  double bound = 0;
  for (std::size_t row = 0; row < rows.size(); ++row) {
    left[row] = rows.limit(row).part();
    bound += at.of_row[row] * left[row];
  }
  for (double& share : at.share) share *= 1 - kLate;
  for (const Unit& unit : layout.units) {
    double worth = 0;
    const int way = rows.best_way(unit, at.of_row, worth);
    bound += worth;
    if (way < 0) continue;
    const auto w = static_cast<std::size_t>(way);
    at.share[w] += kLate;
    for (std::size_t k = rows.first(w); k < rows.first(w + 1); ++k) left[rows.use(k).row] -= rows.use(k).part;
  }
  for (std::size_t limit = 0; limit < kLimits; ++limit)
    at.usage[limit] = at.usage[limit] * (1 - kLate) + kLate * (1 - left[limit]) * static_cast<double>(rows.limit(limit).most);
  return bound;
}

double squared(const std::vector<double>& left, const std::vector<double>& price) {
  double sum = 0;
  for (std::size_t row = 0; row < left.size(); ++row)
    if (left[row] < 0 || price[row] > 0) sum += left[row] * left[row];
  return sum;
}

bool fits(const Layout& layout, const Cell& cell, const View& view, const Way& way) {
  for (std::size_t limit = 0; limit < kLimits; ++limit)
    if (way.running[limit] > view.cap[limit] || way.extra[limit] > cell.extra_most[limit] ||
        way.running[limit] + way.extra[limit] > layout.most_starting[limit])
      return false;
  return true;
}

}  // namespace

/// It is not denied, and there is room for it if nothing else runs.
bool may_serve(const Layout& layout, const Cell& cell, const Way& way, const OnTop& top) {
  if (cell.denied[top.number]) return false;
  for (std::size_t limit = 0; limit < kLimits; ++limit) {
    const int extra = std::max(cell.extra_least[limit], way.extra[limit]);
    if (way.running[limit] + need_of(layout, top, limit, extra) > layout.most_running[limit]) return false;
  }
  return true;
}

int need_of(const Layout& layout, const OnTop& top, std::size_t limit, int extra) {
  if (top.running[limit] + top.extra[limit] == 0) return 0;
  return std::max(top.needs[limit], layout.most_running[limit] - layout.most_starting[limit] + top.running[limit] + extra);
}

Cell whole_cell(const Layout& layout) {
  Cell cell;
  for (const Unit& unit : layout.units) cell.fate.push_back(unit.must ? Fate::in : Fate::open);
  cell.denied.assign(layout.tops, 0);
  cell.barred.assign(layout.ways.size(), 0);
  for (const Way& way : layout.ways)
    for (std::size_t limit = 0; limit < kLimits; ++limit) cell.extra_most[limit] = std::max(cell.extra_most[limit], way.extra[limit]);
  return cell;
}

View view_of(const Layout& layout, const Cell& cell) {
  View view;
  for (std::size_t limit = 0; limit < kLimits; ++limit) {
    view.cap[limit] = std::min(layout.most_running[limit] - cell.need_least[limit],
                               layout.most_starting[limit] - cell.extra_least[limit]);
    view.empty |= view.cap[limit] < 0;
  }
  view.value.assign(layout.ways.size(), kExcluded);
  for (std::size_t u = 0; u < layout.units.size(); ++u) {
    const Unit& unit = layout.units[u];
    view.must.push_back(cell.fate[u] == Fate::in);
    if (cell.fate[u] == Fate::out) continue;
    bool any = cell.fate[u] != Fate::in;
    for (std::size_t w = unit.first; w < unit.last; ++w) {
      if (cell.barred[w] || !fits(layout, cell, view, layout.ways[w])) continue;
      any = true;
      view.value[w] = layout.ways[w].value;
      for (const OnTop& top : layout.ways[w].on_top)
        if (may_serve(layout, cell, layout.ways[w], top)) view.value[w] += top.value;
    }
    view.empty |= !any;
  }
  return view;
}

Prices find_prices(const Layout& layout, const View& view, const std::vector<double>& before, const Aim& aim) {
  const Rows rows(layout, view, aim);
  Prices at, best;
  at.of_row = before.empty() ? std::vector<double>(rows.size(), 0) : before;
  at.share.assign(layout.ways.size(), 0);
  constexpr double kKept = 0.75;  // of the last step's direction: without it the steps go to and fro between two rows
  const int steps = before.empty() ? 200 : 80;
  double lowest = 1e300, pace = 1;
  int since = 0;
  std::vector<double> left, direction(rows.size(), 0);
  for (int step = 0; step < steps; ++step) {
    const double bound = relax(layout, rows, at, left);
    if (bound < lowest - 1e-9) {
      if (bound < lowest - 1e-4 * (1 + std::abs(lowest))) since = 0;
      lowest = bound;
      best.of_row = at.of_row;
    }
    if (++since > 3) pace *= 0.6, since = 0, at.of_row = best.of_row;
    for (std::size_t row = 0; row < rows.size(); ++row) direction[row] = left[row] + kKept * direction[row];
    const double norm = squared(direction, at.of_row);
    if (norm < 1e-12 || lowest * static_cast<double>(kScale) < static_cast<double>(aim.enough)) break;
    const double low = std::max(static_cast<double>(aim.enough) / static_cast<double>(kScale), 0.0);
    const double length = pace * std::min(bound - low, static_cast<double>(layout.life_worth)) / norm;
    for (std::size_t row = 0; row < rows.size(); ++row) at.of_row[row] = std::max(0.0, at.of_row[row] - length * direction[row]);
  }
  at.of_row = best.of_row;
  make_exact(layout, view, rows, at);
  return at;
}

}  // namespace ohmstead::planning
