#include "plan_maker.h"

#include <algorithm>
#include <random>

namespace ohmstead {
namespace {

class Maker {
 public:
  Maker(std::uint64_t seed, const PlanMaking& making) : random_(seed * 7919 + 17), making_(making) {}

  PlanProblem make() {
    make_style();
    make_positions();
    const int circuits = between(making_.least_circuits, making_.most_circuits);
    for (int c = 0; c < circuits; ++c) out_.circuits.push_back(make_circuit());
    pair_multiwires();
    make_source();
    connect();
    if (making_.pins) pin();
    return out_;
  }

 private:
  int between(int least, int most) {
    return least + static_cast<int>(random_() % static_cast<std::uint64_t>(most - least + 1));
  }
  bool chance(int percent) { return between(1, 100) <= percent; }
  int one_of(std::initializer_list<int> values) {
    return *(values.begin() + between(0, static_cast<int>(values.size()) - 1));
  }

  void make_style() {
    out_.source.legs = 2;
    if (making_.odd_sources && chance(8)) out_.source.in_phase = true;
    else if (making_.odd_sources && chance(8)) out_.source.legs = chance(60) ? 1 : 3;
    grain_ = chance(10) ? 1 : one_of({10, 25, 50, 50, 100, 100});
    few_weights_ = chance(40);
    own_leg_percent_ = !making_.own_legs || chance(75) ? 0 : one_of({20, 100});
    pins_ = one_of({0, 0, 2, 4});
    connected_percent_ = one_of({0, 0, 40, 100});
  }

  void make_positions() {
    const int most = between(making_.least_positions, making_.most_positions);
    const int legs = out_.source.legs == 3 ? 3 : 2;
    int tie = 0, leg = 0;
    while (static_cast<int>(out_.positions.size()) < most) {
      const int amps = one_of({15, 15, 20, 20, 20, 30, 0});
      if (chance(40)) {
        for (int k = 0; k < legs; ++k) out_.positions.push_back({k % legs + 1, chance(90) ? amps : 20, tie});
        ++tie;
      } else {
        out_.positions.push_back({chance(90) ? leg + 1 : between(1, legs), amps, -1});
        leg = (leg + 1) % legs;
      }
    }
  }

  PlanLoad make_load(int poles) {
    PlanLoad load;
    load.on_demand = chance(25);
    load.life_safety = chance(4);
    load.weight = few_weights_ ? one_of({0, 10, 20, 50, 100}) : between(0, 1000);
    const bool motor = chance(25), continuous = chance(30);
    const bool uneven = poles > 1 && chance(30);
    const int large = load.on_demand ? 1500 : one_of({60, 300, 700, 1200});
    for (int pole = 0; pole < poles; ++pole) {
      const auto k = static_cast<std::size_t>(pole);
      if (pole == 0 || uneven) load.running[k] = between(1, large / grain_ + 1) * grain_;
      else load.running[k] = load.running[0];
      load.starting[k] = motor ? load.running[k] * between(12, 40) / 10 : load.running[k];
      if (pole > 0 && !uneven) load.starting[k] = load.starting[0];
      load.breaker_ma[k] = load.running[k] * 1000 / 120 * (continuous ? 5 : 4) / 4;
    }
    return load;
  }

  PlanCircuit make_circuit() {
    PlanCircuit circuit;
    if (out_.source.legs == 3 && chance(5)) circuit.poles = 3;
    else if (chance(14)) circuit.poles = 2;
    circuit.amps = circuit.poles == 1 ? one_of({15, 15, 20, 20}) : one_of({20, 30, 40});
    if (chance(5)) circuit.amps = 0;
    circuit.between_legs = circuit.poles > 1 && chance(70);
    for (int k = between(1, 3); k > 0; --k) circuit.loads.push_back(make_load(circuit.poles));
    if (chance(own_leg_percent_)) {
      const int first = between(1, std::max(2, out_.source.legs));
      for (int pole = 0; pole < circuit.poles; ++pole)
        circuit.own_leg[static_cast<std::size_t>(pole)] = (first - 1 + pole) % std::max(circuit.poles, 2) + 1;
    }
    return circuit;
  }

  void pair_multiwires() {
    int number = 0;
    for (std::size_t c = 0; c + 1 < out_.circuits.size(); ++c) {
      PlanCircuit& first = out_.circuits[c];
      PlanCircuit& second = out_.circuits[c + 1];
      if (first.poles > 1 || second.poles > 1 || first.multiwire >= 0 || !chance(7)) continue;
      if ((first.own_leg[0] > 0) != (second.own_leg[0] > 0)) continue;
      first.multiwire = second.multiwire = number++;
      if (first.own_leg[0] > 0 && chance(80)) first.own_leg[0] = 1, second.own_leg[0] = 2;
    }
  }

  void make_source() {
    long long running = 0;
    for (const PlanCircuit& circuit : out_.circuits)
      for (const PlanLoad& load : circuit.loads)
        for (const int watts : load.running) running += load.on_demand ? watts / 4 : watts;
    PlanSource& source = out_.source;
    source.running = std::max<int>(500, static_cast<int>(running * between(10, 90) / 100));
    source.starting = source.running * between(100, 160) / 100;
    const int part = chance(70) ? 100 : between(90, 180);
    for (std::size_t leg = 0; leg < static_cast<std::size_t>(source.legs); ++leg) {
      source.leg_running[leg] = source.running * part / 100 / (source.in_phase ? 1 : source.legs) + 1;
      source.leg_starting[leg] = source.starting * part / 100 / (source.in_phase ? 1 : source.legs) + 1;
    }
  }

  void connect() {
    std::size_t next = 0;
    for (PlanCircuit& circuit : out_.circuits) {
      if (next + static_cast<std::size_t>(circuit.poles) > out_.positions.size() || circuit.own_leg[0] > 0) continue;
      if (!chance(connected_percent_)) {
        next += chance(50) ? 1 : 0;
        continue;
      }
      for (int pole = 0; pole < circuit.poles; ++pole)
        circuit.position_now[static_cast<std::size_t>(pole)] = static_cast<int>(next++);
    }
  }

  void pin() {
    std::vector<int> circuits(out_.circuits.size());
    for (std::size_t c = 0; c < circuits.size(); ++c) circuits[c] = static_cast<int>(c);
    for (int k = 0; k < pins_ && k < static_cast<int>(circuits.size()); ++k) {
      std::swap(circuits[static_cast<std::size_t>(k)], circuits[static_cast<std::size_t>(between(k, static_cast<int>(circuits.size()) - 1))]);
      const int kind = between(0, 9);
      const int position = between(0, static_cast<int>(out_.positions.size()) - 1);
      out_.pins.push_back({kind < 5 ? PinKind::never : kind < 8 ? PinKind::must : PinKind::at, circuits[static_cast<std::size_t>(k)],
                           kind < 8 ? -1 : position});
    }
  }

  std::mt19937_64 random_;
  const PlanMaking& making_;
  PlanProblem out_;
  int grain_ = 1, own_leg_percent_ = 0, pins_ = 0, connected_percent_ = 0;
  bool few_weights_ = false;
};

}  // namespace

PlanProblem random_plan_problem(std::uint64_t seed, const PlanMaking& making) { return Maker(seed, making).make(); }

}  // namespace ohmstead
