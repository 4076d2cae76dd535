#include "plan_milp.h"

#include <coin/Cbc_C_Interface.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <memory>
#include <numeric>
#include <set>
#include <stdexcept>
#include <string>

namespace ohmstead {
namespace {

struct Term {
  int column = 0;
  double times = 0;
};
using Terms = std::vector<Term>;
struct Row {
  Terms terms;
  double right = 0;
  char sense = 'L';
};

struct ModelEnd {
  void operator()(Cbc_Model* model) const { Cbc_deleteModel(model); }
};

/// Where a pole may be: one position, or any of those that have the same leg and the same breaker.
struct Place {
  int leg = 0, amps = 0, tie = -1;
  std::vector<int> positions;
};

/// The model. Columns: `carried` of each circuit, `on` of each pole and place it may take, `keeps` of a single pole that
/// stays on its position, `tie` of each group and tie, `serves` of each load on demand, its poles by leg; sums of watts
/// and the worst extra on each leg (0: in all). A circuit of one pole that nothing binds to a position takes one of a
/// kind: which one of equal positions it is makes no other plan, and CBC would try them all.
class Milp {
 public:
  Milp(const PlanProblem& problem, int seconds) : problem_(problem), seconds_(seconds) {
    legs_ = problem.source.legs;
    make_places();
    make_circuits();
    make_positions_once();
    make_groups();
    make_sums();
    make_loads();
    make_pins();
    make_imbalance();
  }

  std::optional<MilpAnswer> solve() {
    if (!maximise(worth(), common_of(worth()))) return std::nullopt;
    add_row(worth(), std::round(value_), kMore);
    if (!maximise({{imbalance_, -1}}, static_cast<double>(std::max(1LL, common_watts_)))) throw std::runtime_error("CBC lost its plan at the balance");
    add_row({{imbalance_, 1}}, -std::round(value_), kLess);
    if (!maximise(stays_, 1)) throw std::runtime_error("CBC lost its plan at the moves");
    return answer();
  }

 private:
  static constexpr char kLess = 'L', kMore = 'G', kEqual = 'E';

  int column(double lower, double upper, bool whole) {
    lower_.push_back(lower), upper_.push_back(upper), whole_.push_back(whole);
    return columns_++;
  }
  int binary() { return column(0, 1, true); }

  void add_row(const Terms& terms, double right, char sense) {
    std::map<int, double> sum;
    for (const Term& term : terms) sum[term.column] += term.times;
    rows_.push_back({{}, right, sense});
    for (const auto& [c, times] : sum)
      if (times != 0) rows_.back().terms.push_back({c, times});
  }

  /// A fresh model for each goal: nothing of an earlier solve is left in it.
  std::unique_ptr<Cbc_Model, ModelEnd> model_for(const std::vector<double>& objective, double gap) const {
    std::unique_ptr<Cbc_Model, ModelEnd> model(Cbc_newModel());
    Cbc_setParameter(model.get(), "log", "0");
    Cbc_setParameter(model.get(), "ratio", "0");
    Cbc_setParameter(model.get(), "cuts", "off");  // both cost it more time here than they save
    Cbc_setParameter(model.get(), "heur", "off");
    Cbc_setAllowableGap(model.get(), gap);
    Cbc_setParameter(model.get(), "sec", std::to_string(seconds_).c_str());
    Cbc_setObjSense(model.get(), -1);
    for (int c = 0; c < columns_; ++c) {
      const auto k = static_cast<std::size_t>(c);
      Cbc_addCol(model.get(), "", lower_[k], upper_[k], objective[k], whole_[k] ? 1 : 0, 0, nullptr, nullptr);
    }
    for (const Row& row : rows_) {
      std::vector<int> columns;
      std::vector<double> times;
      for (const Term& term : row.terms) columns.push_back(term.column), times.push_back(term.times);
      Cbc_addRow(model.get(), "", static_cast<int>(columns.size()), columns.data(), times.data(), row.sense, row.right);
    }
    return model;
  }

  static double common_of(const Terms& terms) {
    long long common = 0;
    for (const Term& term : terms) common = std::gcd(common, std::llround(term.times));
    return static_cast<double>(std::max(1LL, common));
  }

  /// `step`: all values that the objective can have are multiples of it. CBC need not look for less.
  bool maximise(const Terms& terms, double step) {
    std::vector<double> objective(static_cast<std::size_t>(columns_), 0);
    for (const Term& term : terms) objective[static_cast<std::size_t>(term.column)] += term.times;
    const auto model = model_for(objective, 0.999 * step);
    Cbc_solve(model.get());
    if (Cbc_isProvenInfeasible(model.get())) return false;
    if (!Cbc_isProvenOptimal(model.get())) throw std::runtime_error("CBC ended without a proof");
    const double* found = Cbc_getColSolution(model.get());
    solution_.assign(found, found + columns_);
    value_ = 0;
    for (int c = 0; c < columns_; ++c) {
      const auto k = static_cast<std::size_t>(c);
      if (whole_[k]) solution_[k] = std::round(solution_[k]);
      value_ += objective[k] * solution_[k];
    }
    return true;
  }

  const PlanCircuit& circuit(int c) const { return problem_.circuits[static_cast<std::size_t>(c)]; }
  const PlanPosition& position(int p) const { return problem_.positions[static_cast<std::size_t>(p)]; }
  int circuits() const { return static_cast<int>(problem_.circuits.size()); }
  int positions() const { return static_cast<int>(problem_.positions.size()); }
  const Place& place(int p) const { return places_[static_cast<std::size_t>(p)]; }

  /// Each position is a place, and so are all of one leg and one breaker together.
  void make_places() {
    std::map<std::pair<int, int>, Place> kinds;
    for (int p = 0; p < positions(); ++p) {
      const PlanPosition& each = position(p);
      places_.push_back({each.leg, each.amps, each.tie, {p}});
      Place& kind = kinds[{each.leg, each.amps}];
      kind.leg = each.leg, kind.amps = each.amps;
      kind.positions.push_back(p);
    }
    for (const auto& [key, kind] : kinds) places_.push_back(kind);
  }
  /// It takes a place of a kind: the places after the positions. Others take positions.
  bool takes_a_kind(int c) const {
    return circuit(c).poles == 1 && circuit(c).multiwire < 0 &&
           std::ranges::none_of(problem_.pins, [c](const PlanPin& pin) { return pin.circuit == c && pin.kind == PinKind::at; });
  }
  std::pair<int, int> places_for(int c) const {
    return takes_a_kind(c) ? std::pair(positions(), static_cast<int>(places_.size())) : std::pair(0, positions());
  }

  /// Rule 1 for one pole and one place.
  bool may(int c, int pole, int p) const {
    const auto k = static_cast<std::size_t>(pole);
    if (place(p).leg > legs_) return false;
    if (place(p).amps == 0) return true;
    if (circuit(c).amps > 0 && place(p).amps > circuit(c).amps) return false;
    double ma = 0;
    for (const PlanLoad& load : circuit(c).loads)
      if (!load.on_demand) ma += load.breaker_ma[k];
    return ma <= 1000.0 * place(p).amps;
  }

  void make_circuits() {
    for (int c = 0; c < circuits(); ++c) {
      carried_.push_back(binary());
      for (int pole = 0; pole < circuit(c).poles; ++pole) {
        if (const int own = circuit(c).own_leg[static_cast<std::size_t>(pole)]; own > 0) {
          if (own > legs_) add_row({{carried_.back(), 1}}, 0, kEqual);
          continue;
        }
        Terms places{{carried_.back(), -1}};
        for (auto [p, last] = places_for(c); p < last; ++p) {
          if (!may(c, pole, p)) continue;
          const int on = on_[{c, pole, p}] = binary();
          places.push_back({on, 1});
        }
        add_row(places, 0, kEqual);
      }
    }
    for (const auto& [key, on] : on_) {
      const auto& [c, pole, p] = key;
      const int now = circuit(c).position_now[static_cast<std::size_t>(pole)];
      if (now == p && p < positions()) stays_.push_back({on, 1});
      if (p < positions() || std::ranges::find(place(p).positions, now) == place(p).positions.end()) continue;
      const int keeps = keeps_[c] = binary();
      add_row({{keeps, 1}, {on, -1}}, 0, kLess);
      stays_.push_back({keeps, 1});
    }
    for (int c = 0; c < circuits(); ++c)  // a pole without a position that gets none has not moved
      for (int pole = 0; pole < circuit(c).poles; ++pole) {
        const auto k = static_cast<std::size_t>(pole);
        ++poles_;
        if (circuit(c).position_now[k] >= 0) continue;
        if (circuit(c).own_leg[k] > 0) ++always_stay_;
        else stays_.push_back({carried_[static_cast<std::size_t>(c)], -1}), ++always_stay_;
      }
  }

  void make_positions_once() {
    for (int p = 0; p < static_cast<int>(places_.size()); ++p) {
      Terms all;
      for (const auto& [key, on] : on_)
        if (std::get<2>(key) == p || (p >= positions() && std::ranges::find(place(p).positions, std::get<2>(key)) != place(p).positions.end()))
          all.push_back({on, 1});
      for (const auto& [c, keeps] : keeps_)
        if (circuit(c).position_now[0] == p) all.push_back({keeps, 1});
      add_row(all, static_cast<double>(place(p).positions.size()), kLess);
    }
  }

  /// The pole is on the leg (1-based), as terms that sum to 0 or 1.
  Terms on_leg(int c, int pole, int leg) const {
    if (const int own = circuit(c).own_leg[static_cast<std::size_t>(pole)]; own > 0)
      return own == leg ? Terms{{carried_[static_cast<std::size_t>(c)], 1}} : Terms{};
    Terms terms;
    for (auto [p, last] = places_for(c); p < last; ++p)
      if (const auto found = on_.find({c, pole, p}); found != on_.end() && place(p).leg == leg) terms.push_back({found->second, 1});
    return terms;
  }

  void make_groups() {
    std::map<int, std::vector<int>> multiwire;
    for (int c = 0; c < circuits(); ++c) {
      if (circuit(c).multiwire >= 0) multiwire[circuit(c).multiwire].push_back(c);
      else if (circuit(c).poles > 1) make_group({c});
    }
    for (const auto& [number, group] : multiwire) make_group(group);
  }

  /// Rule 2.
  void make_group(const std::vector<int>& group) {
    std::vector<std::pair<int, int>> poles, placed;
    for (const int c : group)
      for (int pole = 0; pole < circuit(c).poles; ++pole) {
        poles.emplace_back(c, pole);
        if (circuit(c).own_leg[static_cast<std::size_t>(pole)] == 0) placed.emplace_back(c, pole);
      }
    const int first = carried_[static_cast<std::size_t>(group[0])];
    for (const int c : group) add_row({{carried_[static_cast<std::size_t>(c)], 1}, {first, -1}}, 0, kEqual);
    if (problem_.source.in_phase || static_cast<int>(poles.size()) > legs_) add_row({{first, 1}}, 0, kEqual);
    for (int leg = 1; leg <= kMostPoles; ++leg) {
      Terms sum;
      for (const auto& [c, pole] : poles)
        for (const Term& term : on_leg(c, pole, leg)) sum.push_back(term);
      add_row(sum, 1, kLess);
    }
    if (placed.size() < 2) return;
    std::map<int, int> tie;
    for (int p = 0; p < positions(); ++p)
      if (position(p).tie >= 0 && !tie.contains(position(p).tie)) tie[position(p).tie] = binary();
    for (const auto& [c, pole] : placed) {
      std::map<int, Terms> by_tie;
      for (const auto& [number, column] : tie) by_tie[number] = {{column, -1}};
      for (int p = 0; p < positions(); ++p) {
        const auto found = on_.find({c, pole, p});
        if (found == on_.end()) continue;
        if (position(p).tie < 0) upper_[static_cast<std::size_t>(found->second)] = 0;
        else by_tie[position(p).tie].push_back({found->second, 1});
      }
      for (const auto& [number, terms] : by_tie) add_row(terms, 0, kEqual);
    }
  }

  double limit(int leg, bool starting) const {
    const PlanSource& source = problem_.source;
    if (leg == 0) return starting ? source.starting : source.running;
    const auto k = static_cast<std::size_t>(leg - 1);
    return starting ? source.leg_starting[k] : source.leg_running[k];
  }
  /// terms x (1 where the pole is on the leg); leg 0: where the circuit is carried.
  Terms where(int c, int pole, int leg, double times) const {
    Terms terms = leg == 0 ? Terms{{carried_[static_cast<std::size_t>(c)], 1}} : on_leg(c, pole, leg);
    for (Term& term : terms) term.times *= times;
    return terms;
  }

  /// Rule 3.
  void make_sums() {
    for (int leg = 0; leg <= legs_; ++leg) {
      sum_.push_back(column(0, limit(leg, false), false));
      worst_.push_back(column(0, limit(leg, true), false));
      Terms all{{sum_.back(), -1}};
      for (int c = 0; c < circuits(); ++c)
        for (int pole = 0; pole < circuit(c).poles; ++pole)
          for (const PlanLoad& load : circuit(c).loads)
            if (!load.on_demand)
              for (const Term& term : where(c, pole, leg, load.running[static_cast<std::size_t>(pole)])) {
                all.push_back(term);
                common_watts_ = std::gcd(common_watts_, std::llround(term.times));
              }
      add_row(all, 0, kEqual);
      add_row({{sum_.back(), 1}, {worst_.back(), 1}}, limit(leg, true), kLess);
      for (int c = 0; c < circuits(); ++c) make_worst(c, leg);
    }
  }
  void make_worst(int c, int leg) {
    std::set<PerPole> seen;
    for (const PlanLoad& load : circuit(c).loads) {
      PerPole extra{};
      for (std::size_t k = 0; k < extra.size(); ++k) extra[k] = load.starting[k] - load.running[k];
      if (load.on_demand || extra == PerPole{} || !seen.insert(extra).second) continue;
      Terms terms{{worst_.back(), -1}};
      for (int pole = 0; pole < circuit(c).poles; ++pole)
        for (const Term& term : where(c, pole, leg, extra[static_cast<std::size_t>(pole)])) terms.push_back(term);
      add_row(terms, 0, kLess);
    }
  }

  void make_loads() {
    life_worth_ = 1;
    for (const PlanCircuit& each : problem_.circuits)
      for (const PlanLoad& load : each.loads) life_worth_ += load.life_safety ? 0 : load.weight;
    for (int c = 0; c < circuits(); ++c)
      for (const PlanLoad& load : circuit(c).loads) {
        const int served = load.on_demand ? on_demand(c, load) : carried_[static_cast<std::size_t>(c)];
        worth_.push_back({served, static_cast<double>(load.life_safety ? life_worth_ : load.weight)});
      }
  }

  /// Rules 1 and 4. `by_leg`: the load is served and the pole is on the leg.
  int on_demand(int c, const PlanLoad& load) {
    const int serves = binary();
    add_row({{serves, 1}, {carried_[static_cast<std::size_t>(c)], -1}}, 0, kLess);
    std::map<std::pair<int, int>, Terms> by_leg;
    for (int pole = 0; pole < circuit(c).poles; ++pole) {
      const auto k = static_cast<std::size_t>(pole);
      if (circuit(c).own_leg[k] == 0) large_enough(c, pole, load, serves);
      Terms all{{serves, -1}};
      for (int leg = 1; leg <= legs_; ++leg) {
        const int here = column(0, 1, false);
        all.push_back({here, 1});
        by_leg[{pole, leg}] = {{here, 1}};
        Terms at_most = where(c, pole, leg, -1);
        at_most.push_back({here, 1});
        add_row(at_most, 0, kLess);
      }
      add_row(all, 0, kEqual);
    }
    for (int leg = 0; leg <= legs_; ++leg) room_on_top(c, load, leg, [&](int pole) {
      return leg == 0 ? Terms{{serves, 1}} : by_leg[{pole, leg}];
    });
    return serves;
  }
  void large_enough(int c, int pole, const PlanLoad& load, int serves) {
    const auto k = static_cast<std::size_t>(pole);
    double ma = load.breaker_ma[k];
    for (const PlanLoad& other : circuit(c).loads)
      if (!other.on_demand) ma += other.breaker_ma[k];
    Terms terms{{serves, 1}};
    for (auto [p, last] = places_for(c); p < last; ++p)
      if (const auto found = on_.find({c, pole, p}); found != on_.end() && (place(p).amps == 0 || ma <= 1000.0 * place(p).amps))
        terms.push_back({found->second, -1});
    add_row(terms, 0, kLess);
  }
  template <class Served>
  void room_on_top(int c, const PlanLoad& load, int leg, const Served& served) {
    const auto l = static_cast<std::size_t>(leg);
    Terms running{{sum_[l], 1}}, starting{{sum_[l], 1}};
    for (int pole = 0; pole < circuit(c).poles; ++pole)
      for (const Term& term : served(pole)) {
        running.push_back({term.column, term.times * load.running[static_cast<std::size_t>(pole)]});
        starting.push_back({term.column, term.times * load.starting[static_cast<std::size_t>(pole)]});
      }
    add_row(running, limit(leg, false), kLess);
    add_row(starting, limit(leg, true), kLess);
    running.push_back({worst_[l], 1});
    add_row(running, limit(leg, true), kLess);
  }

  void make_pins() {
    for (const PlanPin& pin : problem_.pins) {
      const int carried = carried_[static_cast<std::size_t>(pin.circuit)];
      add_row({{carried, 1}}, pin.kind == PinKind::never ? 0 : 1, kEqual);
      if (pin.kind != PinKind::at) continue;
      const auto found = on_.find({pin.circuit, 0, pin.position});
      add_row(found == on_.end() ? Terms{{carried, 0}} : Terms{{found->second, 1}}, 1, kEqual);
    }
  }

  void make_imbalance() {
    imbalance_ = column(0, 1e7, true);
    for (int a = 1; a <= legs_; ++a)
      for (int b = 1; b <= legs_; ++b)
        if (a != b)
          add_row({{sum_[static_cast<std::size_t>(a)], 1}, {sum_[static_cast<std::size_t>(b)], -1}, {imbalance_, -1}}, 0, kLess);
  }

  const Terms& worth() const { return worth_; }

  MilpAnswer answer() const {
    MilpAnswer out;
    const auto is_on = [this](int column) { return solution_[static_cast<std::size_t>(column)] > 0.5; };
    for (int c = 0; c < circuits(); ++c)
      if (is_on(carried_[static_cast<std::size_t>(c)])) out.placed.push_back({c, {-1, -1, -1}, {}});
    seat(out.placed, is_on);
    long long worth = 0, stays = always_stay_;
    for (const Term& term : worth_) worth += is_on(term.column) ? std::llround(term.times) : 0;
    for (const Term& term : stays_) stays += is_on(term.column) ? std::llround(term.times) : 0;
    out.score.life_safety = static_cast<int>(worth / life_worth_);
    out.score.importance = worth % life_worth_;
    out.score.imbalance = static_cast<int>(std::llround(solution_[static_cast<std::size_t>(imbalance_)]));
    // A pole that is on a position now and loses it, or comes to another one, has moved.
    out.score.moves = static_cast<int>(poles_ - stays);
    return out;
  }

  /// Positions for the poles: first who has one of its own, then who keeps its position, then the rest.
  template <class IsOn>
  void seat(std::vector<Placed>& placed, const IsOn& is_on) const {
    std::set<int> taken;
    const auto put = [&](int c, int pole, int p) {
      taken.insert(p);
      for (Placed& at : placed)
        if (at.circuit == c) at.position[static_cast<std::size_t>(pole)] = p;
    };
    for (const auto& [key, on] : on_)
      if (is_on(on) && std::get<2>(key) < positions()) put(std::get<0>(key), std::get<1>(key), std::get<2>(key));
    for (const auto& [c, keeps] : keeps_)
      if (is_on(keeps)) put(c, 0, circuit(c).position_now[0]);
    for (const auto& [key, on] : on_) {
      const auto& [c, pole, kind] = key;
      if (!is_on(on) || kind < positions() || (keeps_.contains(c) && is_on(keeps_.at(c)))) continue;
      for (const int p : place(kind).positions)
        if (!taken.contains(p)) {
          put(c, pole, p);
          break;
        }
    }
  }

  const PlanProblem& problem_;
  int seconds_ = 0;
  std::vector<Place> places_;
  std::map<int, int> keeps_;
  std::vector<double> lower_, upper_;
  std::vector<bool> whole_;
  std::vector<Row> rows_;
  int legs_ = 0, columns_ = 0;
  std::vector<int> carried_, sum_, worst_;
  std::map<std::tuple<int, int, int>, int> on_;
  Terms worth_, stays_;
  long long poles_ = 0, always_stay_ = 0, life_worth_ = 1;
  int imbalance_ = -1;
  std::vector<double> solution_;
  double value_ = 0;
  long long common_watts_ = 0;
};

}  // namespace

std::optional<MilpAnswer> best_by_milp(const PlanProblem& problem, int seconds) { return Milp(problem, seconds).solve(); }

}  // namespace ohmstead
