#include "backup/plan_search.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <utility>

#include "backup/plan_measure.h"

namespace ohmstead::planning {
namespace {

constexpr std::uint64_t kFirstLook = 500;      ///< partial plans of a cell before it is parted, to find the value
constexpr std::uint64_t kLaterLook = 50'000;  ///< for the later goals, where a better bound on value helps less
constexpr std::uint64_t kLegLook = 100'000;   ///< before it is settled who comes on which leg
constexpr int kMostParting = 60;

/// Where a cell could be parted: what is above `middle` does not fit with the watts that are used now.
struct Parting {
  std::size_t limit = 0;
  bool of_needs = false;
  int middle = -1;   ///< the largest that stays in the lower half
  int above = -1;    ///< the smallest that is not in it
  double stake = 0;  ///< value that hangs on it
};

/// How much value sits above `middle`, and the numbers next to it.
class Stakes {
 public:
  void add(int number, double value) { at_[number] += value; }
  /// Parts what is above `least` (which the cell reserves already) in two of about the same value.
  Parting parting(std::size_t limit, bool of_needs, double fits, int least) const {
    Parting found{.limit = limit, .of_needs = of_needs, .middle = std::max(0, least)};
    double all = 0, below = 0;
    for (const auto& [number, value] : at_) {
      if (number <= least) continue;
      all += value + kEach;
      if (number > fits) found.stake += value;
    }
    for (const auto& [number, value] : at_) {
      if (number <= least) continue;
      if (found.above >= 0) found.middle = found.above;
      found.above = number;
      if (below >= all / 2) break;
      below += value + kEach;
    }
    return found;
  }

 private:
  static constexpr double kEach = 1e-3;
  std::map<int, double> at_;
};

}  // namespace

PlanSearch::PlanSearch(const PlanProblem& problem, const Layout& layout, std::uint64_t most_nodes)
    : problem_(problem), layout_(layout) {
  state_.most_nodes = most_nodes;
}

Plan PlanSearch::run(Depth depth) {
  if (layout_.impossible) return {};
  look_for(Goal::value);
  if (state_.best.any && !state_.stopped && depth == Depth::all_goals) {
    look_for(Goal::imbalance);
    keep_real_moves();
    if (!state_.stopped) look_for(Goal::moves);
  }
  return finished();
}

void PlanSearch::look_for(Goal goal) {
  state_.goal = goal;
  state_.done = goal == Goal::imbalance && state_.best.imbalance == 0;
  Part all;
  if (!state_.done && make_part(whole_cell(layout_), nullptr, all)) explore(std::move(all));
}

bool PlanSearch::make_part(const Cell& cell, const Part* from, Part& out) const {
  out.cell = cell;
  out.view = view_of(layout_, cell);
  if (out.view.empty) return false;
  const Found& best = state_.best;
  Aim aim{.enough = enough(state_)};
  if (state_.goal != Goal::value) aim.imbalance = best.imbalance - (state_.goal == Goal::imbalance ? 1 : 0);
  if (state_.goal == Goal::moves) aim.moves = std::max(0, best.moves - 1);
  out.prices = find_prices(layout_, out.view, from ? from->prices.of_row : std::vector<double>{}, aim);
  out.depth = from ? from->depth + 1 : 0;
  return true;
}

void PlanSearch::explore(Part part) {
  if (state_.done || part.prices.bound < enough(state_)) return;
  const std::uint64_t left = state_.most_nodes - std::min(state_.most_nodes, state_.nodes);
  if (left == 0) {
    state_.stopped = true;
    state_.open_bound = std::max(state_.open_bound, part.prices.bound);
    return;
  }
  const Halves halves = halves_of(part);
  if (!halves.any || halves.look > 0) {
    SetSearch sets(layout_, part.cell, part.view, part.prices, state_);
    if (sets.run(halves.any ? std::min(left, halves.look) : left)) return;
  }
  if (!halves.any || state_.nodes >= state_.most_nodes) {
    state_.stopped = true;
    state_.open_bound = std::max(state_.open_bound, part.prices.bound);
    return;
  }
  std::vector<Part> next;
  for (const Cell& half : halves.cells)
    if (Part made; make_part(half, &part, made)) next.push_back(std::move(made));
  std::stable_sort(next.begin(), next.end(), [](const Part& a, const Part& b) { return a.prices.bound > b.prices.bound; });
  for (Part& each : next) explore(std::move(each));
}

PlanSearch::Halves PlanSearch::halves_of(const Part& part) const {
  Halves out;
  out.cells = {part.cell, part.cell};
  out.any = part_by_life(part, out.cells);
  if (out.any || part.depth >= kMostParting) return out;
  out.look = state_.goal == Goal::value ? kFirstLook : kLaterLook;
  out.any = part_by_reserve(part, out.cells) || part_by_unit(part, out.cells);
  if (out.any) return out;
  out.look = kLegLook;
  out.any = part_by_leg(part, out.cells);
  return out;
}

/// With and without what needs more of the watts that are kept free, where most value hangs on it.
bool PlanSearch::part_by_reserve(const Part& part, std::array<Cell, 2>& halves) const {
  Parting best;
  for (std::size_t limit = 0; limit < kLimits; ++limit) {
    if (layout_.most_running[limit] == 0) continue;
    Stakes needs, extras;
    for (std::size_t w = 0; w < layout_.ways.size(); ++w) {
      if (part.view.value[w] == kExcluded) continue;
      const Way& way = layout_.ways[w];
      extras.add(way.extra[limit], part.prices.share[w] * static_cast<double>(part.view.value[w]));
      for (const OnTop& top : way.on_top)
        if (may_serve(layout_, part.cell, way, top))
          needs.add(need_of(layout_, top, limit, part.cell.extra_least[limit]), part.prices.share[w] * static_cast<double>(top.value));
    }
    const double used = part.prices.usage[limit];
    for (const Parting& each :
         {needs.parting(limit, true, layout_.most_running[limit] - used, part.cell.need_least[limit]),
          extras.parting(limit, false, layout_.most_starting[limit] - used, part.cell.extra_least[limit])})
      if (each.stake > best.stake + 1e-9) best = each;
  }
  if (best.stake <= 1e-9) return false;
  if (best.of_needs) {
    deny_above(halves[0], best.limit, best.middle);
    halves[1].need_least[best.limit] = best.above;
  } else {
    halves[0].extra_most[best.limit] = best.middle;
    halves[1].extra_least[best.limit] = best.above;
  }
  return true;
}

void PlanSearch::deny_above(Cell& cell, std::size_t limit, int middle) const {
  for (const Way& way : layout_.ways)
    for (const OnTop& top : way.on_top)
      if (need_of(layout_, top, limit, cell.extra_least[limit]) > middle) cell.denied[top.number] = 1;
}

/// In and out of a unit with a life-safety load that runs together. A bound that carries a part of it is worth
/// more than all importance, so nothing can be cut before its fate is settled.
bool PlanSearch::part_by_life(const Part& part, std::array<Cell, 2>& halves) const {
  for (std::size_t u = 0; u < layout_.units.size(); ++u) {
    if (part.cell.fate[u] != Fate::open) continue;
    for (std::size_t w = layout_.units[u].first; w < layout_.units[u].last; ++w) {
      if (part.view.value[w] < layout_.life_worth) continue;
      halves[0].fate[u] = Fate::in;
      halves[1].fate[u] = Fate::out;
      return true;
    }
  }
  return false;
}

/// In and out of the unit about which the prices are least decided.
bool PlanSearch::part_by_unit(const Part& part, std::array<Cell, 2>& halves) const {
  double most = 0;
  std::size_t unit = 0;
  for (std::size_t u = 0; u < layout_.units.size(); ++u) {
    if (part.cell.fate[u] != Fate::open) continue;
    double in = 0;
    int watts = 1;
    for (std::size_t w = layout_.units[u].first; w < layout_.units[u].last; ++w) {
      in += part.prices.share[w];
      watts = std::max(watts, layout_.ways[w].running[kWhole]);
    }
    const double undecided = std::min(in, 1 - in);
    if (undecided > 0.02 && undecided * watts > most) most = undecided * watts, unit = u;
  }
  if (most <= 0) return false;
  halves[0].fate[unit] = Fate::in;
  halves[1].fate[unit] = Fate::out;
  return true;
}

/// The unit about whose leg the prices are least decided: carried with its first pole on one leg, or not so.
bool PlanSearch::part_by_leg(const Part& part, std::array<Cell, 2>& halves) const {
  double most = 0;
  std::size_t unit = 0;
  int chosen = 0;
  for (std::size_t u = 0; u < layout_.units.size(); ++u) {
    std::array<double, kMostPoles> on{};
    int watts = 1;
    for (std::size_t w = layout_.units[u].first; w < layout_.units[u].last; ++w) {
      on[static_cast<std::size_t>(layout_.ways[w].legs[0])] += part.prices.share[w];
      watts = std::max(watts, layout_.ways[w].running[kWhole]);
    }
    const auto leg = std::max_element(on.begin(), on.end());
    const double undecided = std::accumulate(on.begin(), on.end(), -*leg);
    if (undecided > 0.02 && undecided * watts > most) most = undecided * watts, unit = u, chosen = static_cast<int>(leg - on.begin());
  }
  if (most <= 0) return false;
  halves[0].fate[unit] = Fate::in;
  for (std::size_t w = layout_.units[unit].first; w < layout_.units[unit].last; ++w)
    (layout_.ways[w].legs[0] == chosen ? halves[1] : halves[0]).barred[w] = 1;
  return true;
}

void PlanSearch::keep_real_moves() { state_.best.moves = placed().score.moves - layout_.fixed_moves; }

Plan PlanSearch::placed() const { return measured_plan(problem_, placed_by(problem_, layout_, state_.best.ways)); }

Plan PlanSearch::finished() const {
  Plan plan;
  if (state_.best.any) plan = placed();
  plan.nodes = state_.nodes;
  if (!state_.best.any && !state_.stopped) return plan;
  plan.end = state_.stopped ? PlanEnd::stopped : PlanEnd::optimal;
  plan.bound = plan.score;
  if (state_.stopped) {
    const std::int64_t value = state_.goal == Goal::value ? state_.open_bound / kScale : state_.best.value;
    plan.bound.life_safety = static_cast<int>(value / layout_.life_worth);
    plan.bound.importance = value % layout_.life_worth;
    if (state_.goal != Goal::moves) plan.bound.imbalance = 0;
    plan.bound.moves = std::min(layout_.fixed_moves, plan.score.moves);
  }
  return plan;
}

}  // namespace ohmstead::planning

namespace ohmstead {
namespace {

Plan searched(const PlanProblem& problem, std::uint64_t most_nodes, planning::Depth depth) {
  check_plan_problem(problem);
  const planning::Layout layout = planning::make_layout(problem);
  return planning::PlanSearch(problem, layout, most_nodes).run(depth);
}

}  // namespace

Plan best_plan(const PlanProblem& problem, std::uint64_t most_nodes) {
  return searched(problem, most_nodes, planning::Depth::all_goals);
}

/// The load gets a value above all others together, so that serving it comes first.
Plan best_plan_serving(const PlanProblem& problem, int circuit, int load, std::uint64_t most_nodes) {
  check_plan_problem(problem);
  planning::Layout layout = planning::make_layout(problem);
  std::int64_t above_all = 1;
  for (const PlanCircuit& each : problem.circuits) above_all += layout.life_worth * static_cast<std::int64_t>(each.loads.size() + 1);
  for (const planning::Unit& unit : layout.units) {
    int number = load;
    for (const int c : unit.circuits) {
      if (c == circuit) {
        for (std::size_t w = unit.first; w < unit.last; ++w)
          for (planning::OnTop& top : layout.ways[w].on_top)
            if (top.load == number) top.value += above_all;
      }
      number += c < circuit ? static_cast<int>(problem.circuits[static_cast<std::size_t>(c)].loads.size()) : 0;
    }
  }
  Plan plan = planning::PlanSearch(problem, layout, most_nodes).run(planning::Depth::all_goals);
  for (const Placed& at : plan.placed)
    if (at.circuit == circuit && at.served[static_cast<std::size_t>(load)]) return plan;
  return {};
}

Plan most_served_plan(const PlanProblem& problem, std::uint64_t most_nodes) {
  return searched(problem, most_nodes, planning::Depth::value_only);
}

}  // namespace ohmstead
