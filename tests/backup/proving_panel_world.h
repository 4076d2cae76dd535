#pragma once
// An invented house whose source comes onto its panel as a whole, wired as the record says or not, and somebody who answers a proving session
// in it. What is live is worked out here from the wires, not by the feed graph.

#include <set>
#include <vector>

#include "prover_counts.h"

namespace ohmstead::test {

struct PanelWorld {
  House house;
  Id<Source> source;
  bool whole_house = false;  ///< a double-throw switch; else a backfed breaker with an interlock

  // The truth
  bool way_blocked = true, main_blocked = true;  ///< what the interlock does
  int source_leg[2] = {1, 2};                    ///< of each leg of the panel; 0: no wire
  bool leaks[2] = {false, false};                ///< this leg of the panel stays on the street though it is parted
  std::vector<int> really_on;                    ///< for each breaker: the one that its circuit is really on; -1: on none
  std::set<int> from_street;                     ///< breakers whose first pole's circuit is joined to the street past everything
  std::set<std::size_t> broken;                  ///< points that never work

  [[nodiscard]] int place_of(Id<Breaker> breaker) const;
  [[nodiscard]] bool is_kept(int breaker) const;
  /// Does this point work with everything standing so?
  [[nodiscard]] bool works(std::size_t point, const ProofState& state) const;
  /// Would the source be joined to the street?
  [[nodiscard]] bool meets(const ProofState& state) const;
  [[nodiscard]] int leg_of(int breaker, int pole) const;  ///< of the panel, 0-based

 private:
  struct Live { int source = -1, leg = 0; };  ///< source -1: dead; 0: the street; 1: the source
  [[nodiscard]] bool is_on(int breaker, const ProofState& state) const;
  [[nodiscard]] std::vector<Live> bus(int leg, const ProofState& state) const;  ///< all that feed it
  [[nodiscard]] Live wire(int breaker, int pole, const ProofState& state) const;
};

/// A house of this seed: 4 to 9 rooms, 8 to 20 circuits, every point declared, a plan that keeps 2 to 7 of them.
[[nodiscard]] PanelWorld random_panel_world(unsigned seed);

/// Answers every step. Unlawful: the source would meet the street, as the record or the truth has it.
struct PanelProver : ProverCounts {
  explicit PanelProver(const PanelWorld& of, double reading_error = 0, unsigned seed = 1) : ProverCounts(reading_error, seed), world(of) {}
  ProofAnswer answer(const ProvingSession& session);
  const PanelWorld& world;
};

}  // namespace ohmstead::test
