#include "backup/leg_sums.h"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>
#include <string>

#include "backup/plan_problem.h"
#include "house/error.h"

namespace ohmstead {

namespace {

using Phasor = std::complex<double>;

double radians(double degrees) { return degrees * std::numbers::pi / 180; }

/// Currents of one load on the legs.
struct Currents {
  std::array<Phasor, kMostPoles> running{};
  std::array<double, kMostPoles> extra{};  ///< amperes more while it starts
};

class Summing {
 public:
  Summing(VoltageSystem system, const PlanSource& source) : system_(system), source_(source), volts_(volts_to_neutral(system)) {
    sums_.legs = std::min(source.legs, leg_count(system));
  }

  LegSums sum(std::span<const LegLoad> loads) {
    std::array<Phasor, kMostPoles> running{};
    std::array<double, kMostPoles> extra{};
    for (const LegLoad& load : loads) {
      check(load);
      add(load);
      const Currents its = currents(load);
      for (std::size_t i = 0; i < kMostPoles; ++i) running[i] += its.running[i], extra[i] = std::max(extra[i], its.extra[i]);
    }
    for (std::size_t i = 0; i < legs(); ++i) sums_.amps[i] = {std::abs(running[i]), std::abs(running[i]) + extra[i]};
    finish();
    return sums_;
  }

 private:
  std::size_t legs() const { return static_cast<std::size_t>(sums_.legs); }
  double angle(std::size_t leg) const { return source_.in_phase ? 0 : radians(leg_angles_deg(system_)[leg]); }

  static int on_legs(const LegLoad& load) { return static_cast<int>(std::ranges::count_if(load.running, [](int va) { return va > 0; })); }

  void check(const LegLoad& load) const {
    for (std::size_t i = 0; i < kMostPoles; ++i) {
      if (load.running[i] < 0 || load.starting[i] < load.running[i])
        throw Error(ErrorKind::invalid_input, "A load needs 0 or more to run and no less to start; correct its watts.");
      if (i >= legs() && load.starting[i] > 0)
        throw Error(ErrorKind::invalid_input, "A load is on leg " + std::to_string(i + 1) + ", which this source does not have; move it to another.");
    }
    if (load.between_legs && on_legs(load) > 0 && (source_.in_phase || on_legs(load) < 2))
      throw Error(ErrorKind::invalid_input, "A load between legs needs two legs at different angles; this source cannot run it.");
    if (!(load.power_factor > 0) || load.power_factor > 1)
      throw Error(ErrorKind::invalid_input, "A power factor is above 0 and at most 1; correct that of the load.");
  }

  void add(const LegLoad& load) {
    int total_extra = 0;
    for (std::size_t i = 0; i < legs(); ++i) {
      LegSum& leg = sums_.leg[i];
      const int extra = load.starting[i] - load.running[i], watts = static_cast<int>(std::lround(load.running[i] * load.power_factor));
      leg.running += load.running[i], leg.running_watts += watts;
      sums_.whole.running += load.running[i], sums_.whole.running_watts += watts;
      largest_extra_[i] = std::max(largest_extra_[i], extra);
      total_extra += extra;
      if (!load.between_legs && load.running[i] > 0)
        neutral_.push_back({.amps = load.running[i] / volts_, .leg = source_.in_phase ? 1 : static_cast<int>(i) + 1, .power_factor = load.power_factor});
    }
    largest_extra_whole_ = std::max(largest_extra_whole_, total_extra);
  }

  /// Two legs: one current goes out on the first and comes back on the second, at the angle of the volts between them.
  /// Otherwise each leg carries its share at its own angle.
  Currents currents(const LegLoad& load) const {
    Currents made;
    const double lag = std::acos(load.power_factor);
    if (load.between_legs && on_legs(load) == 2) {
      const std::size_t first = load.running[0] > 0 ? 0 : 1, second = load.running[2] > 0 ? 2 : 1;
      const Phasor between = std::polar(volts_, angle(first)) - std::polar(volts_, angle(second));
      const double running = load.running[first] + load.running[second], starting = load.starting[first] + load.starting[second];
      const Phasor current = std::polar(running / std::abs(between), std::arg(between) - lag);
      made.running[first] = current, made.running[second] = -current;
      made.extra[first] = made.extra[second] = (starting - running) / std::abs(between);
      return made;
    }
    for (std::size_t i = 0; i < legs(); ++i)
      made.running[i] = std::polar(load.running[i] / volts_, angle(i) - lag), made.extra[i] = (load.starting[i] - load.running[i]) / volts_;
    return made;
  }

  static void leave(LegSum& sum, int extra, int most_running, int most_starting) {
    sum.starting = sum.running + extra;
    sum.left_running = most_running - sum.running, sum.left_starting = most_starting - sum.starting;
  }

  void finish() {
    int largest = 0, smallest = legs() == 0 ? 0 : sums_.leg[0].running;
    for (std::size_t i = 0; i < legs(); ++i) {
      leave(sums_.leg[i], largest_extra_[i], source_.leg_running[i], source_.leg_starting[i]);
      largest = std::max(largest, sums_.leg[i].running), smallest = std::min(smallest, sums_.leg[i].running);
    }
    leave(sums_.whole, largest_extra_whole_, source_.running, source_.starting);
    sums_.imbalance_percent = largest == 0 ? 0 : 100.0 * (largest - smallest) / largest;
    sums_.neutral_amps = neutral_amps(system_, neutral_);
  }

  VoltageSystem system_;
  const PlanSource& source_;
  double volts_;
  LegSums sums_;
  PerPole largest_extra_{};
  int largest_extra_whole_ = 0;
  std::vector<LegCurrent> neutral_;
};

}  // namespace

LegSums leg_sums(VoltageSystem system, const PlanSource& source, std::span<const LegLoad> loads) { return Summing(system, source).sum(loads); }

std::vector<LegLoad> leg_loads(const BackupCase& backup, const Plan& plan) {
  std::vector<LegLoad> loads;
  for (const Placed& placed : plan.placed) {
    const PlanCircuit& circuit = backup.problem.circuits.at(static_cast<std::size_t>(placed.circuit));
    const CarriedCircuit& carried = backup.circuits.at(static_cast<std::size_t>(placed.circuit));
    for (std::size_t i = 0; i < circuit.loads.size(); ++i) {
      const PlanLoad& load = circuit.loads[i];
      if (load.on_demand) continue;
      LegLoad made{.power_factor = carried.loads.at(i).figures.power_factor};
      for (std::size_t pole = 0; pole < static_cast<std::size_t>(circuit.poles); ++pole) {
        const int position = placed.position[pole];
        const int leg = position >= 0 ? backup.problem.positions.at(static_cast<std::size_t>(position)).leg : circuit.own_leg[pole];
        if (leg < 1) continue;
        made.running[static_cast<std::size_t>(leg - 1)] += load.running[pole];
        made.starting[static_cast<std::size_t>(leg - 1)] += load.starting[pole];
      }
      made.between_legs = std::ranges::count_if(made.running, [](int va) { return va > 0; }) > 1;
      loads.push_back(made);
    }
  }
  return loads;
}

}  // namespace ohmstead
