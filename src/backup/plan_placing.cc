// From the ways that were chosen to circuits on positions.

#include <algorithm>

#include "backup/plan_search.h"

namespace ohmstead::planning {
namespace {

/// Units that take any position of some sizes, matched to positions one by one with augmenting paths.
class Matching {
 public:
  Matching(const PlanProblem& problem, const Layout& layout) : problem_(problem), layout_(layout) {
    holder_.assign(problem.positions.size(), kFree);
  }
  void hold(int position) { at(holder_, position) = kHeld; }
  void add(int circuit, const Way& way) {
    const int row = static_cast<int>(rows_.size());
    Row made{circuit, {}};
    const int now = at(problem_.circuits, circuit).position_now[0];
    const auto& levels = at(layout_.levels, way.legs[0]);
    for (std::size_t k = 0; k < levels.size(); ++k)
      if (way.levels >> k & 1) made.can.insert(made.can.end(), levels[k].positions.begin(), levels[k].positions.end());
    std::sort(made.can.begin(), made.can.end(), [now](int a, int b) { return std::pair(a != now, a) < std::pair(b != now, b); });
    rows_.push_back(std::move(made));
    std::vector<char> seen(holder_.size(), 0);
    find_place(row, seen);
  }
  void write(std::vector<Placed>& placed) const {
    for (std::size_t p = 0; p < holder_.size(); ++p)
      if (holder_[p] >= 0) placed.push_back({rows_[static_cast<std::size_t>(holder_[p])].circuit, {static_cast<int>(p), -1, -1}, {}});
  }

 private:
  static constexpr int kFree = -1, kHeld = -2;
  struct Row {
    int circuit = 0;
    std::vector<int> can;  ///< the one it is on now first
  };
  bool find_place(int row, std::vector<char>& seen) {
    for (const int p : at(rows_, row).can) {
      if (at(holder_, p) == kHeld || at(seen, p)) continue;
      at(seen, p) = 1;
      if (at(holder_, p) == kFree || find_place(at(holder_, p), seen)) {
        at(holder_, p) = row;
        return true;
      }
    }
    return false;
  }

  const PlanProblem& problem_;
  const Layout& layout_;
  std::vector<int> holder_;
  std::vector<Row> rows_;
};

void place_named(const PlanProblem& problem, const Unit& unit, const Way& way, std::vector<Placed>& placed) {
  std::size_t k = 0;
  for (const int c : unit.circuits) {
    Placed each{c, {-1, -1, -1}, {}};
    for (std::size_t pole = 0; pole < static_cast<std::size_t>(at(problem.circuits, c).poles); ++pole)
      each.position[pole] = way.positions[k++];
    placed.push_back(each);
  }
}

}  // namespace

std::vector<Placed> placed_by(const PlanProblem& problem, const Layout& layout, const std::vector<int>& ways) {
  std::vector<Placed> placed;
  Matching matching(problem, layout);
  for (std::size_t p = 0; p < layout.reserved.size(); ++p)
    if (layout.reserved[p]) matching.hold(static_cast<int>(p));
  std::vector<std::pair<int, int>> pooled;  // circuit, way
  for (std::size_t u = 0; u < ways.size(); ++u) {
    if (ways[u] < 0) continue;
    const Way& way = at(layout.ways, ways[u]);
    for (const int p : way.positions)
      if (p >= 0) matching.hold(p);
    if (layout.units[u].pooled && way.keeps >= 0) {
      matching.hold(way.keeps);
      placed.push_back({layout.units[u].circuits[0], {way.keeps, -1, -1}, {}});
    } else if (layout.units[u].pooled) {
      pooled.push_back({layout.units[u].circuits[0], ways[u]});
    } else {
      place_named(problem, layout.units[u], way, placed);
    }
  }
  std::sort(pooled.begin(), pooled.end());
  for (const auto& [circuit, way] : pooled) matching.add(circuit, at(layout.ways, way));
  matching.write(placed);
  return placed;
}

}  // namespace ohmstead::planning
