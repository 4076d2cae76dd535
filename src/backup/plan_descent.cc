#include "backup/plan_descent.h"

#include <algorithm>
#include <limits>

namespace ohmstead::planning {
namespace {

int spread(const PerLimit& watts, std::size_t legs) {
  const auto [least, most] = std::minmax_element(watts.begin(), watts.begin() + static_cast<std::ptrdiff_t>(legs));
  return *most - *least;
}

}  // namespace

std::int64_t enough(const SearchState& state) {
  if (!state.best.any) return std::numeric_limits<std::int64_t>::min() / 8;
  return (state.best.value + (state.goal == Goal::value ? 1 : 0)) * kScale;
}

void Sums::add(const Way& way) {
  for (std::size_t limit = 0; limit < kLimits; ++limit) {
    running[limit] += way.running[limit];
    extra[limit] = std::max(extra[limit], way.extra[limit]);
  }
  value += way.value;
  moves += way.moves;
}

std::int64_t price_of_moves(const Layout& layout, const View& view, std::int64_t to_reach) {
  std::vector<std::int64_t> prices{0};
  for (std::size_t w = 0; w < layout.ways.size(); ++w)
    if (view.value[w] > 0) prices.push_back(layout.ways[w].moves * kScale / view.value[w]);
  std::sort(prices.begin(), prices.end());
  prices.erase(std::unique(prices.begin(), prices.end()), prices.end());
  std::int64_t highest = std::numeric_limits<std::int64_t>::min(), best = 0;
  for (const std::int64_t price : prices) {
    std::int64_t bound = price * to_reach;
    for (std::size_t u = 0; u < layout.units.size(); ++u) {
      const Unit& unit = layout.units[u];
      std::int64_t least = view.must[u] ? std::numeric_limits<std::int64_t>::max() : unit.moves_out * kScale;
      for (std::size_t w = unit.first; w < unit.last; ++w)
        if (view.value[w] != kExcluded) least = std::min(least, layout.ways[w].moves * kScale - price * view.value[w]);
      bound += least;
    }
    if (bound > highest) highest = bound, best = price;
  }
  return best;
}

Descent::Descent(const Layout& layout, const Cell& cell, const View& view, const Prices& prices, SearchState& state)
    : layout_(layout), view_(view), prices_(prices), state_(state) {
  while (legs_ < kMostPoles && layout.most_running[legs_] > 0) ++legs_;
  tops_.resize(layout.ways.size());
  int ties = 0;
  for (std::size_t w = 0; w < layout.ways.size(); ++w) {
    ties = std::max(ties, layout.ways[w].tie + 1);
    for (const OnTop& top : layout.ways[w].on_top)
      if (may_serve(layout, cell, layout.ways[w], top)) tops_[w].push_back(&top);
  }
  for (const SlotSet& set : layout.sets) left_.push_back(set.slots);
  taken_.assign(layout.reserved.size(), 0);
  taken_of_tie_.assign(static_cast<std::size_t>(ties), 0);
  chosen_.assign(layout.units.size(), -1);
  if (state_.goal == Goal::moves) moves_price_ = price_of_moves(layout, view, state.best.value);
  choices_.resize(layout.units.size());
  tilt_.assign(layout.units.size(), 0);
  for (std::size_t u = 0; u < layout.units.size(); ++u) make_choices(u);
  sort_units();
}

void Descent::make_choices(std::size_t unit) {
  std::int64_t most = std::numeric_limits<std::int64_t>::min(), least_moves = std::numeric_limits<std::int64_t>::max();
  std::vector<Choice>& choices = choices_[unit];
  for (std::size_t w = layout_.units[unit].first; w < layout_.units[unit].last; ++w) {
    const Way& way = layout_.ways[w];
    if (view_.value[w] == kExcluded || (way.keeps >= 0 && state_.goal != Goal::moves)) continue;
    choices.push_back({static_cast<int>(w), prices_.reduced[w], way.moves * kScale - moves_price_ * view_.value[w]});
    most = std::max(most, prices_.reduced[w]);
    least_moves = std::min(least_moves, choices.back().moves_loss);
    tilt_[unit] = std::max(tilt_[unit], spread(way.running, legs_));
  }
  for (Choice& choice : choices) choice.loss = most - choice.loss, choice.moves_loss -= least_moves;
  std::stable_sort(choices.begin(), choices.end(), [this](const Choice& a, const Choice& b) {
    if (state_.goal == Goal::moves && a.moves_loss != b.moves_loss) return a.moves_loss < b.moves_loss;
    return a.loss < b.loss;
  });
}

void Descent::sort_units() {
  std::vector<std::pair<std::pair<int, int>, std::size_t>> keyed;
  for (std::size_t u = 0; u < layout_.units.size(); ++u) {
    int watts = 0;
    for (const Choice& choice : choices_[u]) watts = std::max(watts, at(layout_.ways, choice.way).running[kWhole]);
    keyed.push_back({{layout_.units[u].holds ? 0 : 1, -watts}, u});
  }
  std::sort(keyed.begin(), keyed.end());
  for (const auto& [key, unit] : keyed) order_.push_back(unit);
}

void Descent::place(const std::vector<char>& in, const Sums& from) {
  steps_.clear();
  for (const std::size_t unit : order_) {
    chosen_[unit] = -1;
    if (in[unit]) steps_.push_back({unit, 0});
  }
  int reach = 0;
  for (auto step = steps_.rbegin(); step != steps_.rend(); ++step) step->reach = reach += tilt_[step->unit];
  Sums start;
  start.bound = from.bound;
  start.moves_bound = from.moves_bound;
  start.moves = from.moves;
  descend(0, start);
}

void Descent::descend(std::size_t depth, const Sums& sums) {
  if (depth == steps_.size()) return finish(sums);
  std::uint64_t kinds_seen = 0;
  for (const Choice& choice : choices_[steps_[depth].unit]) {
    if (sums.bound - choice.loss < enough(state_)) {
      if (state_.goal != Goal::moves) break;  // they come in the order of loss
      continue;
    }
    if (!free_for(at(layout_.ways, choice.way), kinds_seen)) continue;
    if (!state_.see_one()) return;
    take(depth, choice, sums);
    if (state_.ended()) return;
  }
}

void Descent::take(std::size_t depth, const Choice& choice, const Sums& sums) {
  const Way& way = at(layout_.ways, choice.way);
  Sums next = sums;
  next.bound -= choice.loss;
  next.moves_bound += choice.moves_loss;
  next.add(way);
  if (!within(next)) return;
  chosen_[steps_[depth].unit] = choice.way;
  const auto& tops = at(tops_, choice.way);
  on_top_.insert(on_top_.end(), tops.begin(), tops.end());
  if (worth_going(depth, next)) {
    occupy(way, 1);
    descend(depth + 1, next);
    occupy(way, -1);
  }
  on_top_.resize(on_top_.size() - tops.size());
}

bool Descent::within(const Sums& next) const {
  for (std::size_t limit = 0; limit < kLimits; ++limit)
    if (next.running[limit] > view_.cap[limit] ||
        next.running[limit] + next.extra[limit] > layout_.most_starting[limit])
      return false;
  return true;
}

bool Descent::worth_going(std::size_t depth, const Sums& next) const {
  if (next.bound - lost_on_top(next) * kScale < enough(state_)) return false;
  if (state_.goal == Goal::value || !state_.best.any) return true;
  const int reach = depth + 1 < steps_.size() ? steps_[depth + 1].reach : 0;
  const int least = imbalance(next) - reach;
  if (state_.goal == Goal::imbalance) return least < state_.best.imbalance;
  return least <= state_.best.imbalance && next.moves_bound <= (state_.best.moves - 1) * kScale;
}

/// Are the positions there, and is this the first way of its kind on ties that are free?
bool Descent::free_for(const Way& way, std::uint64_t& kinds_seen) const {
  for (const int set : way.sets)
    if (at(left_, set) == 0) return false;
  for (const int p : way.positions)
    if (p >= 0 && at(taken_, p)) return false;
  if (way.keeps >= 0) return !at(taken_, way.keeps);
  if (state_.goal == Goal::moves || way.kind < 0 || way.kind >= 64 || at(taken_of_tie_, way.tie) > 0) return true;
  const std::uint64_t bit = std::uint64_t{1} << way.kind;
  if (kinds_seen & bit) return false;
  kinds_seen |= bit;
  return true;
}

void Descent::occupy(const Way& way, int by) {
  for (const int set : way.sets) at(left_, set) -= by;
  for (const int p : way.positions)
    if (p >= 0) at(taken_, p) = by > 0;
  if (way.tie >= 0) at(taken_of_tie_, way.tie) += by;
}

bool Descent::on_top_fits(const Sums& sums, const OnTop& top) const {
  for (std::size_t limit = 0; limit < kLimits; ++limit) {
    const int running = sums.running[limit] + top.running[limit];
    if (running > layout_.most_running[limit] ||
        running + std::max(sums.extra[limit], top.extra[limit]) > layout_.most_starting[limit])
      return false;
  }
  return true;
}

std::int64_t Descent::lost_on_top(const Sums& sums) const {
  std::int64_t lost = 0;
  for (const OnTop* top : on_top_)
    if (!on_top_fits(sums, *top)) lost += top->value;
  return lost;
}

int Descent::imbalance(const Sums& sums) const { return spread(sums.running, legs_); }

void Descent::finish(const Sums& sums) {
  std::int64_t value = sums.value;
  for (const OnTop* top : on_top_)
    if (on_top_fits(sums, *top)) value += top->value;
  Found& best = state_.best;
  const int balance = imbalance(sums);
  bool better = !best.any || value > best.value;
  if (best.any && value == best.value && state_.goal != Goal::value)
    better = state_.goal == Goal::imbalance ? balance < best.imbalance
                                            : balance == best.imbalance && sums.moves < best.moves;
  if (!better) return;
  best = {true, chosen_, value, balance, sums.moves};
  if (state_.goal == Goal::imbalance) state_.done = balance == 0;
}

}  // namespace ohmstead::planning
