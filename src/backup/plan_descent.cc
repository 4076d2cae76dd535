#include "backup/plan_descent.h"

#include <algorithm>
#include <limits>

namespace ohmstead::planning {
namespace {

template <class T>
auto& at(T& rows, int index) { return rows[static_cast<std::size_t>(index)]; }

/// How much more a way adds to one leg than to another, at most.
int tilt(const Way& way, std::size_t legs) {
  if (legs < 2) return 0;
  const auto [least, most] = std::minmax_element(way.running.begin(), way.running.begin() + static_cast<std::ptrdiff_t>(legs));
  return *most - *least;
}

}  // namespace

std::int64_t enough(const SearchState& state) {
  if (!state.best.any) return std::numeric_limits<std::int64_t>::min() / 8;
  return (state.best.value + (state.goal == Goal::value ? 1 : 0)) * kScale;
}

Descent::Descent(const Layout& layout, const Cell& cell, const View& view, const Prices& prices, SearchState& state)
    : layout_(layout), cell_(cell), view_(view), prices_(prices), state_(state) {
  while (legs_ < kMostPoles && layout.most_running[legs_] > 0) ++legs_;
  tops_.resize(layout.ways.size());
  for (std::size_t w = 0; w < layout.ways.size(); ++w)
    for (const OnTop& top : layout.ways[w].on_top)
      if (allowed(cell, top)) tops_[w].push_back(&top);
  for (const SlotSet& set : layout.sets) left_.push_back(set.slots);
  taken_.assign(layout.reserved.size(), 0);
  int ties = 0;
  for (const Way& way : layout.ways) ties = std::max(ties, way.tie + 1);
  taken_of_tie_.assign(static_cast<std::size_t>(ties), 0);
  chosen_.assign(layout.units.size(), -1);
  make_steps();
}

void Descent::make_steps() {
  if (state_.goal == Goal::moves) price_moves();
  for (std::size_t u = 0; u < layout_.units.size(); ++u) {
    Step step{.unit = u};
    add_choices(step);
    steps_.push_back(std::move(step));
  }
  sort_steps();
  int reach = 0;
  for (auto step = steps_.rbegin(); step != steps_.rend(); ++step) {
    int most = 0;
    for (const Choice& choice : step->choices)
      if (choice.way >= 0) most = std::max(most, tilt(at(layout_.ways, choice.way), legs_));
    step->reach = reach += most;
  }
  moves_start_ = moves_price_ * state_.best.value;
  for (Step& step : steps_) {
    std::int64_t least = std::numeric_limits<std::int64_t>::max();
    for (const Choice& choice : step.choices) least = std::min(least, choice.moves_loss);
    for (Choice& choice : step.choices) choice.moves_loss -= least;
    moves_start_ += least;
  }
}

void Descent::add_choices(Step& step) const {
  const Unit& unit = layout_.units[step.unit];
  std::int64_t most = unit.must ? std::numeric_limits<std::int64_t>::min() : 0;
  if (!unit.must) step.choices.push_back({-1, 0, unit.moves_out * kScale});
  for (std::size_t w = unit.first; w < unit.last; ++w) {
    const Way& way = layout_.ways[w];
    if (view_.value[w] == kExcluded || (way.keeps >= 0 && state_.goal != Goal::moves)) continue;
    most = std::max(most, prices_.reduced[w]);
    step.choices.push_back({static_cast<int>(w), prices_.reduced[w], way.moves * kScale - moves_price_ * view_.value[w]});
  }
  for (Choice& choice : step.choices) choice.loss = most - choice.loss;
  std::stable_sort(step.choices.begin(), step.choices.end(), [this](const Choice& a, const Choice& b) {
    if (state_.goal == Goal::moves && a.moves_loss != b.moves_loss) return a.moves_loss < b.moves_loss;
    return a.loss != b.loss ? a.loss < b.loss : a.way > b.way;
  });
}

/// Units that name their positions first; then, to find the value, those whose choice matters most to the bound;
/// for the balance, the largest loads.
void Descent::sort_steps() {
  const auto weight = [this](const Step& step) {
    std::int64_t in = std::numeric_limits<std::int64_t>::max(), out = in, watts = 0;
    for (const Choice& choice : step.choices) {
      std::int64_t& least = choice.way >= 0 ? in : out;
      least = std::min(least, choice.loss);
      if (choice.way >= 0) watts = std::max<std::int64_t>(watts, at(layout_.ways, choice.way).running[kWhole]);
    }
    return state_.goal == Goal::value ? std::max(in, out) : watts;
  };
  std::vector<std::pair<std::pair<int, std::int64_t>, Step>> keyed;
  for (Step& step : steps_)
    keyed.push_back({{layout_.units[step.unit].holds ? 0 : 1, -weight(step)}, std::move(step)});
  std::stable_sort(keyed.begin(), keyed.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  for (std::size_t k = 0; k < keyed.size(); ++k) steps_[k] = std::move(keyed[k].second);
}

/// A price on value that makes sum(price x (best value - value) + moves) a good lower bound on moves.
void Descent::price_moves() {
  std::vector<std::int64_t> prices{0};
  for (std::size_t w = 0; w < layout_.ways.size(); ++w)
    if (view_.value[w] > 0) prices.push_back(layout_.ways[w].moves * kScale / view_.value[w]);
  std::sort(prices.begin(), prices.end());
  prices.erase(std::unique(prices.begin(), prices.end()), prices.end());
  std::int64_t highest = std::numeric_limits<std::int64_t>::min();
  for (const std::int64_t price : prices) {
    std::int64_t bound = price * state_.best.value;
    for (const Unit& unit : layout_.units) {
      std::int64_t least = unit.must ? std::numeric_limits<std::int64_t>::max() : unit.moves_out * kScale;
      for (std::size_t w = unit.first; w < unit.last; ++w)
        if (view_.value[w] != kExcluded) least = std::min(least, layout_.ways[w].moves * kScale - price * view_.value[w]);
      bound += least;
    }
    if (bound > highest) highest = bound, moves_price_ = price;
  }
}

int Descent::least_moves() const { return static_cast<int>((std::max<std::int64_t>(0, moves_start_) + kScale - 1) / kScale); }

bool Descent::run(std::uint64_t most) {
  left_to_look_ = most;
  cut_ = false;
  Sums start;
  start.bound = prices_.bound;
  start.moves_bound = moves_start_;
  descend(0, start);
  return !cut_;
}

void Descent::descend(std::size_t depth, const Sums& sums) {
  if (depth == steps_.size()) return finish(sums);
  std::uint64_t kinds_seen = 0;
  for (const Choice& choice : steps_[depth].choices) {
    if (sums.bound - choice.loss < enough(state_)) {
      if (state_.goal != Goal::moves) break;  // they come in the order of loss
      continue;
    }
    if (choice.way >= 0 && !free_for(at(layout_.ways, choice.way), kinds_seen)) continue;
    if (!take(depth, choice, sums)) return;
  }
}

/// Goes on with a choice; false: no more plans are to be looked at.
bool Descent::take(std::size_t depth, const Choice& choice, const Sums& sums) {
  if (left_to_look_ == 0) {
    cut_ = true;
    return false;
  }
  --left_to_look_;
  ++state_.nodes;
  const Step& step = steps_[depth];
  const Sums next = with(sums, choice, step);
  chosen_[step.unit] = choice.way;
  if (choice.way < 0) {
    if (worth_going(depth, next)) descend(depth + 1, next);
    return !cut_ && !state_.done;
  }
  if (!within(next)) return true;
  const Way& way = at(layout_.ways, choice.way);
  const auto& tops = at(tops_, choice.way);
  on_top_.insert(on_top_.end(), tops.begin(), tops.end());
  if (worth_going(depth, next)) {
    occupy(way, 1);
    descend(depth + 1, next);
    occupy(way, -1);
  }
  on_top_.resize(on_top_.size() - tops.size());
  return !cut_ && !state_.done;
}

Descent::Sums Descent::with(const Sums& sums, const Choice& choice, const Step& step) const {
  Sums next = sums;
  next.bound -= choice.loss;
  next.moves_bound += choice.moves_loss;
  if (choice.way < 0) {
    next.moves += layout_.units[step.unit].moves_out;
    return next;
  }
  const Way& way = at(layout_.ways, choice.way);
  for (std::size_t limit = 0; limit < kLimits; ++limit) {
    next.running[limit] += way.running[limit];
    next.extra[limit] = std::max(next.extra[limit], way.extra[limit]);
  }
  next.value += way.value;
  next.moves += way.moves;
  return next;
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

int Descent::imbalance(const Sums& sums) const {
  const auto [least, most] =
      std::minmax_element(sums.running.begin(), sums.running.begin() + static_cast<std::ptrdiff_t>(legs_));
  return *most - *least;
}

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
