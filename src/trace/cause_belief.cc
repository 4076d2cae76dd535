#include "trace/cause_belief.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace ohmstead {

namespace {

/// Chances of dead, dim, live, bright. Nobody takes an ordinary lamp for one that burns too bright.
using Chances = std::array<double, 4>;

Chances by_eye(WouldBe expect) {
  switch (expect) {
    case WouldBe::live: return {0.03, 0.01, 0.959, 0.001};
    case WouldBe::dead: return {0.9595, 0.01, 0.03, 0.0005};
    case WouldBe::half: return {0.484, 0.02, 0.495, 0.001};
    case WouldBe::part: return {0.559, 0.20, 0.24, 0.001};
    case WouldBe::leg_gone: return {0.769, 0.15, 0.08, 0.001};
    case WouldBe::weak: return {0.18, 0.45, 0.365, 0.005};
    case WouldBe::strong: return {0.05, 0.02, 0.38, 0.55};
    case WouldBe::unknown: break;
  }
  return {0.40, 0.02, 0.575, 0.005};
}

Chances by_meter(WouldBe expect) {
  switch (expect) {
    case WouldBe::live: return {0.015, 0.01, 0.97, 0.005};
    case WouldBe::dead: return {0.97, 0.01, 0.015, 0.005};
    case WouldBe::half: return {0.49, 0.01, 0.49, 0.01};
    case WouldBe::part: return {0.60, 0.20, 0.195, 0.005};
    case WouldBe::leg_gone: return {0.70, 0.27, 0.02, 0.01};
    case WouldBe::weak: return {0.06, 0.85, 0.08, 0.01};
    case WouldBe::strong: return {0.01, 0.01, 0.10, 0.88};
    case WouldBe::unknown: break;
  }
  return {0.40, 0.02, 0.57, 0.01};
}

/// Why it is asked was looked at more closely than anything that is looked at in passing.
Chances by_complaint(WouldBe expect) {
  Chances eye = by_eye(expect);
  if (expect == WouldBe::live) eye = {0.01, 0.02, 0.969, 0.001};
  return eye;
}

double at_point(const Scenario& scenario, const Clue& clue) {
  const LookQuestion& question = clue.question;
  WouldBe expect = scenario.points[question.point];
  const bool other_works = question.what == LookAt::other_lamp && std::ranges::find(scenario.works_with_other_lamp, question.point) != scenario.works_with_other_lamp.end();
  if (other_works) expect = WouldBe::live;
  const Chances chances = question.what == LookAt::complaint ? by_complaint(expect) : question.meter ? by_meter(expect) : by_eye(expect);
  return chances[static_cast<std::size_t>(clue.saw)];
}

static_assert(static_cast<int>(LookSaw::dead) == 0 && static_cast<int>(LookSaw::bright) == 3);

/// Chances that a handle that stands so looks off, tripped, as it should.
double at_handle(const GraphHandle& handle, Stand stand, LookSaw saw) {
  if (handle.ref.kind == HandleKind::position) {
    const LookSaw is = stand == Stand::off ? LookSaw::off : stand == Stand::backup ? LookSaw::backup : LookSaw::on;
    return saw == is ? 0.94 : 0.03;
  }
  const auto of = [&](double off, double tripped, double on) { return saw == LookSaw::off ? off : saw == LookSaw::tripped ? tripped : on; };
  switch (stand) {
    case Stand::tripped: return of(0.10, 0.80, 0.10);  // some breakers do not show that they tripped
    case Stand::off: return of(0.94, 0.03, 0.03);
    default: break;
  }
  return of(0.02, 0.02, 0.96);
}

double of_handle(const Graph& graph, const Scenario& scenario, const Clue& clue) {
  const GraphHandle& handle = graph.handles[clue.question.handle];
  const auto named = std::ranges::find(scenario.handles, handle.group, &HandleStand::group);
  const Stand stand = named == scenario.handles.end() ? clue.question.usual : named->stand;
  if (clue.question.what == LookAt::handle) return at_handle(handle, stand, clue.saw);
  // A cure: it was moved to where it belongs.
  if (stand == clue.question.usual) return clue.saw == LookSaw::works ? 0.03 : clue.saw == LookSaw::trips_again ? 0.02 : 0.95;
  return clue.saw == LookSaw::works ? 0.80 : clue.saw == LookSaw::trips_again ? (stand == Stand::tripped ? 0.17 : 0.12) : stand == Stand::tripped ? 0.03 : 0.08;
}

double entropy(const std::vector<double>& chances) {
  double bits = 0;
  for (const double chance : chances)
    if (chance > 0) bits -= chance * std::log2(chance);
  return bits;
}

}  // namespace

std::span<const LookSaw> answers_to(const LookQuestion& question, const Graph& graph) {
  static constexpr std::array kPoint{LookSaw::dead, LookSaw::dim, LookSaw::live, LookSaw::bright};
  static constexpr std::array kHandle{LookSaw::off, LookSaw::tripped, LookSaw::on};
  static constexpr std::array kPosition{LookSaw::off, LookSaw::on, LookSaw::backup};
  static constexpr std::array kYesNo{LookSaw::yes, LookSaw::no};
  static constexpr std::array kCure{LookSaw::works, LookSaw::still_dead, LookSaw::trips_again};
  switch (question.what) {
    case LookAt::complaint:
    case LookAt::point:
    case LookAt::other_lamp: return kPoint;
    case LookAt::handle: break;
    case LookAt::neighbors:
    case LookAt::source: return kYesNo;
    case LookAt::cure: return kCure;
    case LookAt::caution: return {};
  }
  if (graph.handles[question.handle].ref.kind == HandleKind::position) return kPosition;
  return kHandle;
}

double chance_of(const Graph& graph, const Scenario& scenario, const Clue& clue) {
  switch (clue.question.what) {
    case LookAt::complaint:
    case LookAt::point:
    case LookAt::other_lamp: return at_point(scenario, clue);
    case LookAt::handle:
    case LookAt::cure: return of_handle(graph, scenario, clue);
    case LookAt::neighbors: return clue.saw == LookSaw::yes ? scenario.neighbors_have_power : 1 - scenario.neighbors_have_power;
    case LookAt::source: {
      const double runs = scenario.source_runs[static_cast<std::size_t>(clue.question.source)];
      return clue.saw == LookSaw::yes ? runs : 1 - runs;
    }
    case LookAt::caution: break;
  }
  return 1;
}

CauseBelief::CauseBelief(const Causes& causes, const Graph& graph, std::span<const Clue> clues)
    : causes_(causes), graph_(graph), of_cause_(causes.causes.size(), 0) {
  double sum = 0;
  for (const Scenario& scenario : causes.scenarios) {
    double weight = scenario.weight, least = 1;
    for (const Clue& clue : clues) {
      const double chance = chance_of(graph, scenario, clue);
      weight *= chance, least = std::min(least, chance);
    }
    one_fits_ = one_fits_ || (least >= kFits && causes.causes[scenario.cause].kind != CauseKind::two_faults);
    of_scenario_.push_back(weight);
    sum += weight;
  }
  for (std::size_t s = 0; s < of_scenario_.size(); ++s) {
    of_scenario_[s] = sum > 0 ? of_scenario_[s] / sum : 1.0 / static_cast<double>(of_scenario_.size());
    of_cause_[causes.scenarios[s].cause] += of_scenario_[s];
  }
}

std::vector<std::size_t> CauseBelief::ranked() const {
  std::vector<std::size_t> order(of_cause_.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::stable_sort(order, std::ranges::greater{}, [&](std::size_t c) { return of_cause_[c]; });
  return order;
}

double CauseBelief::gain(const LookQuestion& question) const {
  double after = 0;
  std::vector<double> of_cause(of_cause_.size());
  for (const LookSaw saw : answers_to(question, graph_)) {
    std::ranges::fill(of_cause, 0);
    double sum = 0;
    for (std::size_t s = 0; s < of_scenario_.size(); ++s) {
      if (of_scenario_[s] < 1e-9) continue;
      const double weight = of_scenario_[s] * chance_of(graph_, causes_.scenarios[s], {question, saw});
      of_cause[causes_.scenarios[s].cause] += weight, sum += weight;
    }
    if (sum <= 0) continue;
    for (double& chance : of_cause) chance /= sum;
    after += sum * entropy(of_cause);
  }
  return entropy(of_cause_) - after;
}

}  // namespace ohmstead
