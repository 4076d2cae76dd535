#include "backup/plan_sets.h"

#include <algorithm>
#include <limits>
#include <numeric>
#include <set>

namespace ohmstead::planning {
namespace {

constexpr std::size_t kMostJointSets = 48;  ///< each is a check that may be left out

}  // namespace

SetSearch::SetSearch(const Layout& layout, const Cell& cell, const View& view, const Prices& prices, SearchState& state)
    : layout_(layout), view_(view), state_(state), descent_(layout, cell, view, prices, state) {
  for (std::size_t leg = 0; leg < descent_.legs(); ++leg) {
    legs_cap_ += view.cap[leg];
    legs_running_ += layout.most_running[leg];
    legs_starting_ += layout.most_starting[leg];
  }
  find_joint_sets();
  for (const JointSet& set : sets_) left_.push_back(set.slots);
  in_.assign(layout.units.size(), 0);
  bound_ = prices.bound;
  moves_bound_ = descent_.moves_price() * state.best.value;
  for (std::size_t u = 0; u < layout.units.size(); ++u) {
    Step step{.unit = u, .must = view.must[u] != 0};
    std::int64_t in = std::numeric_limits<std::int64_t>::min() / 4, moves = std::numeric_limits<std::int64_t>::max() / 4;
    for (const Descent::Choice& choice : descent_.choices(u)) {
      in = std::max(in, prices.reduced[static_cast<std::size_t>(choice.way)]);
      const Way& way = at(layout.ways, choice.way);
      moves = std::min(moves, way.moves * kScale - descent_.moves_price() * at(view.value, choice.way));
    }
    const std::int64_t best = step.must ? in : std::max<std::int64_t>(0, in);
    const std::int64_t out_moves = layout.units[u].moves_out * kScale;
    const std::int64_t least = step.must ? moves : std::min(moves, out_moves);
    step.loss_in = best - in, step.loss_out = best;
    step.moves_in = moves - least, step.moves_out = out_moves - least;
    moves_bound_ += least;
    count_least(step);
    take_from_sets(step);
    steps_.push_back(std::move(step));
  }
  std::stable_sort(steps_.begin(), steps_.end(), [](const Step& a, const Step& b) {
    if (a.must != b.must) return a.must;
    return std::max(a.loss_in, a.loss_out) > std::max(b.loss_in, b.loss_out);
  });
}

/// What a unit draws at least, whatever way it is carried in, and the loads on demand that come with every way.
void SetSearch::count_least(Step& step) const {
  const auto& choices = descent_.choices(step.unit);
  if (choices.empty()) return;
  step.running.fill(std::numeric_limits<int>::max());
  step.extra = step.running;
  step.extra_leg = std::numeric_limits<int>::max();
  for (const Descent::Choice& choice : choices) {
    const Way& way = at(layout_.ways, choice.way);
    for (std::size_t limit = 0; limit < kLimits; ++limit) {
      step.running[limit] = std::min(step.running[limit], way.running[limit]);
      step.extra[limit] = std::min(step.extra[limit], way.extra[limit]);
    }
    step.extra_leg = std::min(step.extra_leg, *std::max_element(way.extra.begin(), way.extra.begin() + kMostPoles));
  }
  for (const OnTop* top : descent_.on_top(choices[0].way)) {
    const bool always = std::all_of(choices.begin(), choices.end(), [&](const Descent::Choice& choice) {
      const auto& others = descent_.on_top(choice.way);
      return std::any_of(others.begin(), others.end(), [top](const OnTop* other) { return other->load == top->load; });
    });
    if (always) step.on_top.push_back(top);
  }
}

std::vector<char> SetSearch::positions_of(const Way& way) const {
  std::vector<char> holds(layout_.reserved.size(), 0);
  for (const int p : way.positions)
    if (p >= 0) at(holds, p) = 1;
  if (way.levels != 0)
    for (std::size_t k = 0; k < at(layout_.levels, way.legs[0]).size(); ++k)
      if (way.levels >> k & 1)
        for (const int p : at(layout_.levels, way.legs[0])[k].positions) at(holds, p) = 1;
  return holds;
}

/// All positions that some unit can use, and unions of those.
void SetSearch::find_joint_sets() {
  std::set<std::vector<char>> known;
  for (std::size_t u = 0; u < layout_.units.size(); ++u) {
    std::vector<char> holds(layout_.reserved.size(), 0);
    for (const Descent::Choice& choice : descent_.choices(u)) {
      const std::vector<char> more = positions_of(at(layout_.ways, choice.way));
      for (std::size_t p = 0; p < holds.size(); ++p) holds[p] |= more[p];
    }
    if (std::count(holds.begin(), holds.end(), 1) == 0) continue;
    std::set<std::vector<char>> more{holds};
    for (const auto& other : known) {
      std::vector<char> both = other;
      for (std::size_t p = 0; p < both.size(); ++p) both[p] |= holds[p];
      more.insert(std::move(both));
    }
    if (known.size() + more.size() <= kMostJointSets) known.merge(more);
  }
  for (const auto& holds : known)
    sets_.push_back({holds, static_cast<int>(std::count(holds.begin(), holds.end(), 1))});
}

void SetSearch::take_from_sets(Step& step) const {
  for (std::size_t s = 0; s < sets_.size(); ++s) {
    int least = std::numeric_limits<int>::max();
    for (const Descent::Choice& choice : descent_.choices(step.unit)) {
      const Way& way = at(layout_.ways, choice.way);
      const std::vector<char> holds = positions_of(way);
      int in = 0, all = 0;
      for (std::size_t p = 0; p < holds.size(); ++p) all += holds[p], in += holds[p] && sets_[s].holds[p];
      least = std::min(least, way.levels != 0 ? (in == all ? 1 : 0) : in);
    }
    if (least > 0 && !descent_.choices(step.unit).empty()) step.takes.push_back({s, least});
  }
}

bool SetSearch::run(std::uint64_t most) {
  state_.left = most;
  state_.cut = false;
  Sums start;
  start.bound = bound_;
  start.moves_bound = moves_bound_;
  descend(0, start, 0);
  return !state_.cut;
}

void SetSearch::descend(std::size_t depth, const Sums& sums, int extra_leg) {
  if (state_.goal == Goal::moves && sums.moves_bound > (state_.best.moves - 1) * kScale) return;
  if (depth == steps_.size()) {
    if (may_balance()) descent_.place(in_, sums);
    return;
  }
  const Step& step = steps_[depth];
  const bool in_first = step.must || step.loss_in <= step.loss_out;
  for (const bool in : {in_first, !in_first}) {
    if (sums.bound - (in ? step.loss_in : step.loss_out) < enough(state_) || (!in && step.must)) continue;
    if (!state_.see_one()) return;
    if (in) {
      go_in(depth, sums, extra_leg);
    } else {
      Sums next = sums;
      next.bound -= step.loss_out;
      next.moves_bound += step.moves_out;
      next.moves += layout_.units[step.unit].moves_out;
      descend(depth + 1, next, extra_leg);
    }
    if (state_.ended()) return;
  }
}

void SetSearch::go_in(std::size_t depth, const Sums& sums, int extra_leg) {
  const Step& step = steps_[depth];
  if (descent_.choices(step.unit).empty() || !has_slots(step)) return;
  Sums next = sums;
  next.bound -= step.loss_in;
  next.moves_bound += step.moves_in;
  for (std::size_t limit = 0; limit < kLimits; ++limit) {
    next.running[limit] += step.running[limit];
    next.extra[limit] = std::max(next.extra[limit], step.extra[limit]);
  }
  const int worst = std::max(extra_leg, step.extra_leg);
  if (!fits(next, worst)) return;
  on_top_.insert(on_top_.end(), step.on_top.begin(), step.on_top.end());
  if (next.bound - lost_on_top(next, worst) * kScale >= enough(state_)) {
    for (const Take& take : step.takes) left_[take.set] -= take.slots;
    in_[step.unit] = 1;
    descend(depth + 1, next, worst);
    in_[step.unit] = 0;
    for (const Take& take : step.takes) left_[take.set] += take.slots;
  }
  on_top_.resize(on_top_.size() - step.on_top.size());
}

bool SetSearch::fits(const Sums& next, int extra_leg) const {
  for (std::size_t limit = 0; limit < kLimits; ++limit)
    if (next.running[limit] > view_.cap[limit] || next.running[limit] + next.extra[limit] > layout_.most_starting[limit])
      return false;
  return next.running[kWhole] <= legs_cap_ && next.running[kWhole] + extra_leg <= legs_starting_;
}

bool SetSearch::has_slots(const Step& step) const {
  return std::all_of(step.takes.begin(), step.takes.end(), [this](const Take& take) { return left_[take.set] >= take.slots; });
}

std::int64_t SetSearch::lost_on_top(const Sums& sums, int extra_leg) const {
  std::int64_t lost = 0;
  const int running = sums.running[kWhole];
  for (const OnTop* top : on_top_) {
    const int with = running + top->running[kWhole];
    const int most_extra = std::max(sums.extra[kWhole], top->extra[kWhole]);
    if (with > std::min(layout_.most_running[kWhole], legs_running_) || with + most_extra > layout_.most_starting[kWhole] ||
        with + extra_leg > legs_starting_)
      lost += top->value;
  }
  return lost;
}

/// Two legs differ by a number that the greatest common divisor of the loads lets be small, or not.
bool SetSearch::may_balance() const {
  if (state_.goal == Goal::value || !state_.best.any || descent_.legs() != 2) return true;
  std::int64_t base = 0, step = 0;
  for (std::size_t u = 0; u < in_.size(); ++u) {
    if (!in_[u]) continue;
    const auto& choices = descent_.choices(u);
    const PerLimit& first = at(layout_.ways, choices[0].way).running;
    base += first[0] - first[1];
    for (const Descent::Choice& choice : choices) {
      const PerLimit& other = at(layout_.ways, choice.way).running;
      step = std::gcd(step, static_cast<std::int64_t>(other[0] - other[1]) - (first[0] - first[1]));
    }
  }
  std::int64_t least = std::abs(base);
  if (step > 0) least = std::min(least % step, step - least % step);
  return state_.goal == Goal::imbalance ? least < state_.best.imbalance : least <= state_.best.imbalance;
}

}  // namespace ohmstead::planning
