#include "backup/proof_order.h"

#include <algorithm>

#include "backup/figures.h"
#include "backup/plan_problem.h"
#include "backup/start_order.h"
#include "house/index.h"

namespace ohmstead {

namespace {

enum Rank { kLifeSafety, kHurt, kRest };

/// Legs of the source that a line of this unit draws from, 0-based.
std::vector<std::size_t> source_legs(const House& house, const ProofUnit& unit, const ProofLine& line) {
  std::vector<std::size_t> all, own;
  for (const std::size_t p : unit.positions) {
    const int leg = std::clamp(house.positions[p].leg, 1, static_cast<int>(kMostPoles));
    all.push_back(static_cast<std::size_t>(leg - 1));
    if ((line.legs >> (leg - 1) & 1U) != 0) own.push_back(all.back());
  }
  return own.empty() || unit.positions.size() == 1 ? all : own;
}

/// Adds everything wanted in an outage that comes on with this line, on these legs.
void add_line(const House& house, const ProofLine& line, const std::vector<std::size_t>& legs, StartLoad& draw) {
  for (const Load& load : house.loads) {
    const bool here = std::ranges::any_of(line.points, [&](std::size_t p) { return house.points[p].id == load.point; });
    if (!here || wanted_use(load) == LoadUse::not_wanted) continue;
    if (load.importance == Importance::life_safety) draw.rank = kLifeSafety;
    else if (load.hurt_by_power_loss) draw.rank = std::min<int>(draw.rank, kHurt);
    draw.starts_itself = draw.starts_itself || starts_itself(load);
    const LoadFigures figures = figures_of(house, load);
    const int parts = static_cast<int>(legs.size());
    for (const std::size_t leg : legs) draw.running[leg] += planned_running(figures) / parts, draw.starting[leg] += planned_starting(figures) / parts;
  }
}

StartLoad draw_of(const House& house, const ProofWiring& wiring, std::size_t unit) {
  StartLoad draw{.rank = wiring.units[unit].at_risk.empty() ? kRest : kHurt};
  for (const ProofLine& line : wiring.lines)
    if (line.unit == static_cast<int>(unit)) add_line(house, line, source_legs(house, wiring.units[unit], line), draw);
  return draw;
}

StartLoad draw_of(const House& house, const ProofWiring& wiring, Id<Breaker> breaker) {
  StartLoad draw{.rank = kRest};
  for (const ProofLine& line : wiring.lines) {
    std::vector<std::size_t> legs;
    for (std::size_t leg = 0; leg < kMostPoles; ++leg)
      if ((line.legs >> leg & 1U) != 0) legs.push_back(leg);
    if (line.breaker == breaker) add_line(house, line, legs, draw);
  }
  return draw;
}

int starts_with(const StartLoad& draw) {
  int sum = 0;
  for (const int leg : draw.starting) sum += leg;
  return sum;
}

/// Places in `draws`, in an order in which they may start.
std::vector<std::size_t> order_of(const House& house, const ProofWiring& wiring, const std::vector<StartLoad>& draws, const std::vector<StartLoad>& already) {
  const Source* source = find_row(house, wiring.source);
  std::optional<std::vector<std::size_t>> order;
  if (source != nullptr && source->running_watts > 0) order = start_order(plan_source(house, *source), draws, already);
  if (order) return *order;
  order.emplace();
  for (std::size_t i = 0; i < draws.size(); ++i) order->push_back(i);
  std::ranges::stable_sort(*order, [&](std::size_t a, std::size_t b) {
    return draws[a].rank != draws[b].rank ? draws[a].rank < draws[b].rank : starts_with(draws[a]) > starts_with(draws[b]);
  });
  return *order;
}

}  // namespace

std::vector<std::size_t> backup_order(const House& house, const ProofWiring& wiring, const std::vector<std::size_t>& units,
                                      const std::vector<std::size_t>& on) {
  std::vector<StartLoad> draws, already;
  for (const std::size_t u : units) draws.push_back(draw_of(house, wiring, u));
  for (const std::size_t u : on) already.push_back(draw_of(house, wiring, u));
  std::vector<std::size_t> ordered;
  for (const std::size_t i : order_of(house, wiring, draws, already)) ordered.push_back(units[i]);
  return ordered;
}

std::vector<Id<Breaker>> breaker_order(const House& house, const ProofWiring& wiring, const std::vector<Id<Breaker>>& breakers) {
  std::vector<StartLoad> draws;
  for (const Id<Breaker> id : breakers) draws.push_back(draw_of(house, wiring, id));
  std::vector<Id<Breaker>> ordered;
  for (const std::size_t i : order_of(house, wiring, draws, {})) ordered.push_back(breakers[i]);
  return ordered;
}

}  // namespace ohmstead
