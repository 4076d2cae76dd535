#pragma once
// Internal to backup_case: makes the plain problem of a plan from a house, step by step.

#include <unordered_map>

#include "backup/plan_problem.h"
#include "feed/graph.h"
#include "feed/liveness.h"
#include "house/index.h"

namespace ohmstead::backup_detail {

class CaseBuilder {
 public:
  CaseBuilder(const House& house, const Feeds& feeds, std::size_t source);
  [[nodiscard]] BackupCase build();

 private:
  /// Two breakers that feed the two hots of one thing are one circuit.
  struct Group {
    std::vector<std::size_t> breakers;  ///< places in house.breakers, ascending
    bool between_legs = false;          ///< something on it needs two legs
    int circuit = -1;                   ///< in the case, once something asks for it
  };

  void find_positions();
  void find_panels_behind();
  void join_breakers_of_one_point();
  void add_loads();
  void add_load(std::size_t at);
  void put_on_circuit(std::size_t at, const CarriedLoad& carried, const Feed& feed);
  void add_connected_and_pinned();
  void join_multiwire();
  void number_multiwire(int number, const std::vector<std::size_t>& members);
  void add_positions_now();
  void add_pins();
  void add_doubts();
  void require_something() const;

  /// The pole that carries this one: itself, or of the feeder of a panel that is too far from the transfer device.
  [[nodiscard]] std::optional<BreakerPole> carrying(BreakerPole pole) const;
  [[nodiscard]] bool is_behind(const Panel& panel) const;  ///< comes on whole when the source runs
  [[nodiscard]] bool is_near(const Panel& panel) const;    ///< its circuits can be wired to a position
  [[nodiscard]] bool rides_by_feeder(const Panel& panel) const;  ///< its feeder, or that of a panel ahead of it, is on a position
  [[nodiscard]] bool is_connected(Id<Breaker> breaker) const;
  [[nodiscard]] const Breaker& breaker_at(std::size_t at) const { return house_.breakers[at]; }
  int circuit_of(std::size_t breaker);                     ///< made if it is not there yet
  [[nodiscard]] int pole_in(int circuit, BreakerPole pole) const;  ///< 0-based
  [[nodiscard]] PlanLoad plan_load(const CarriedLoad& carried, const Feed& feed, int circuit) const;
  [[nodiscard]] int leg_now(std::size_t breaker, int pole) const;

  const House& house_;
  const Feeds& feeds_;
  const Source& source_;
  BackupCase case_;
  Graph graph_;
  Liveness live_;
  Index<Breaker> breaker_index_;
  Index<Panel> panel_index_;
  std::vector<std::size_t> group_of_;  ///< for each breaker, its place in groups_
  std::vector<Group> groups_;
  std::vector<bool> panel_behind_;
};

}  // namespace ohmstead::backup_detail
