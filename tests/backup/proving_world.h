#pragma once
// An invented house with a transfer device that is wired as the record says, or not; and somebody who answers a proving session in it.
// What is live is worked out here from the wires, not by the feed graph.

#include <vector>

#include "prover_counts.h"

namespace ohmstead::test {

/// How one position is really wired.
struct Wired {
  int breaker = -1;          ///< place in house.breakers of the circuit that is on it; -1: none
  int pole = 1;
  bool utility_side = true;  ///< it passes the utility
  bool backup_side = true;   ///< it passes the source
  bool turned_round = false; ///< its two wires are exchanged: the source goes to the breaker
  bool parallel = false;     ///< the circuit is joined to its breaker past the position, too
  int leg = 1;               ///< of the source
};

struct ProvingWorld {
  House house;
  std::vector<Wired> wires;  ///< in the order of house.positions
  Id<Source> source;

  /// Wires as the record has them.
  void wire_as_recorded();
  /// Place in house.positions of the position with this number.
  [[nodiscard]] std::size_t at(int number) const;
  /// Place in house.breakers.
  [[nodiscard]] std::size_t breaker_in(int space) const;
  /// Does this point work with everything standing so?
  [[nodiscard]] bool works(std::size_t point, const ProofState& state, const ProofWiring& wiring) const;

 private:
  struct Live { int source = -1, leg = 0; };  ///< source -1: dead; 0: the utility; 1: the source
  [[nodiscard]] Live bus(int leg, const std::vector<Throw>& stands, const ProofState& state) const;
  [[nodiscard]] Live wire(int breaker, int pole, const std::vector<Throw>& stands, const ProofState& state) const;
  [[nodiscard]] int utility_leg(int breaker, int pole) const;
  [[nodiscard]] std::vector<Throw> stands_of(const ProofState& state, const ProofWiring& wiring) const;
};

/// A house of this seed: 4 to 9 rooms, 8 to 20 circuits, 2 to 10 positions, tied pairs on two-pole circuits among them. Every point is declared.
[[nodiscard]] ProvingWorld random_world(unsigned seed);

/// Answers every step. Unlawful: two sources on a circuit, or what may only be off alone off together with others.
struct Prover : ProverCounts {
  explicit Prover(const ProvingWorld& of, double reading_error = 0, unsigned seed = 1) : ProverCounts(reading_error, seed), world(of) {}
  ProofAnswer answer(const ProvingSession& session);
  const ProvingWorld& world;

 private:
  void judge(const ProvingSession& session);
};

}  // namespace ohmstead::test
