#pragma once
// What can have gone wrong when something is dead: each cause with its weight before anything is looked at, and with what would be
// seen if it were so. What is live under a cause is computed on the feed graph, with contacts taken out, handles moved and sources
// stopped; nothing of it is a rule of thumb. Weights and chances of what people see are common practice, no source
// (docs/diagnosis.md): they decide what is asked first and how many looks it takes.

#include <array>
#include <string>
#include <vector>

#include "feed/liveness.h"

namespace ohmstead {

enum class CauseKind {
  handle_open,     ///< a breaker, main, GFCI, switch or disconnect is off or tripped, or a position stands on the wrong side
  nothing_out,     ///< it is on, and nothing comes out of it: it failed, or a wire at it is loose
  pole_lost,       ///< one pole of a breaker or main gives nothing: one leg is lost behind it
  leg_lost,        ///< one leg of a source is lost
  utility_gone,    ///< the neighbors are dark too
  service_lost,    ///< nothing arrives from the utility, and the neighbors have power
  source_stopped,  ///< the source that carries the house does not run
  neutral_of_service,  ///< open: lights on one leg brighter, on the other dimmer, changing with what is switched on
  neutral_shared,      ///< of one multiwire branch circuit, open: the same on its two circuits
  loose_on_circuit,    ///< a loose wire (or a GFCI that is in no record) in some box of a circuit: only a part of it is dead
  itself,          ///< the lamp or appliance at the point
  not_recorded,    ///< what feeds the point is not known
  two_faults,      ///< two of the others at once
};
OHMSTEAD_WORDS(CauseKind, "handle_open", "nothing_out", "pole_lost", "leg_lost", "utility_gone", "service_lost", "source_stopped",
               "neutral_of_service", "neutral_shared", "loose_on_circuit", "itself", "not_recorded", "two_faults")

struct Cause {
  CauseKind kind = CauseKind::itself;
  HandleRef handle = {};     ///< handle_open, nothing_out, pole_lost; loose_on_circuit: its breaker; neutral_shared: a breaker of it
  int pole = 0;              ///< pole_lost, loose_on_circuit: 1-based
  int source = -1;           ///< leg_lost, source_stopped: 0 the utility, else place in house.sources plus one
  int leg = 0;               ///< leg_lost: 1-based
  std::size_t point = 0;     ///< itself, not_recorded: place in house.points
  std::array<std::size_t, 2> both{};  ///< two_faults: places in Causes::causes
  bool operator==(const Cause&) const = default;
};

/// How a point would be found.
enum class WouldBe : std::uint8_t {
  live, dead,
  half,      ///< either: it is not known which part of the circuit is dead
  part,      ///< part live (240 V with one leg lost): it may do something
  leg_gone,  ///< dead, or dim through a 240 V load that joins the legs
  weak, strong,  ///< on the loaded, on the other leg of an open neutral
  unknown,   ///< the record cannot say
};
/// How a handle would be found.
enum class Stand : std::uint8_t { on, tripped, off, backup };  ///< `on` is also the utility side of a position

struct HandleStand {
  std::uint32_t group = 0;  ///< of the graph's handle
  Stand stand = Stand::on;
};

/// One way in which a cause shows. Handles that are not named stand as usual.
struct Scenario {
  std::size_t cause = 0;
  double weight = 0;
  std::vector<WouldBe> points;  ///< of house.points
  std::vector<HandleStand> handles;
  double neighbors_have_power = 0.96;
  std::vector<double> source_runs;  ///< of the sources of the graph
  std::vector<std::size_t> works_with_other_lamp;  ///< points at which the lamp or appliance is the fault
};

struct CauseInput {
  const House& house;   ///< as found (trace/behind_found.h)
  const Feeds& feeds;
  const Graph& graph;
  const State& base;    ///< where everything stands if nothing is wrong
  Before before = Before::not_known;
  std::vector<std::size_t> complaints;  ///< dead: why it is asked; never empty
  std::vector<std::size_t> also_dead = {};  ///< seen dead since
};

struct Causes {
  std::vector<Cause> causes;
  std::vector<Scenario> scenarios;  ///< of each cause one or more; never empty
  std::vector<WouldBe> base;         ///< with nothing wrong
};

/// Every single cause by which a complaint, or something else seen dead, can be dead.
[[nodiscard]] Causes single_causes(const CauseInput& input);
/// Two of the causes at once, added: those of `likely` (places in causes) with every other. What is dead by either is dead.
void add_pairs(Causes& causes, const std::vector<std::size_t>& likely);

/// How a handle stands in a throw.
[[nodiscard]] Stand stand_of(const GraphHandle& handle, Throw stands);
/// How a complaint that works by the record with nothing wrong is dead by a scenario: may it be?
[[nodiscard]] bool may_be_dead(WouldBe expect);
/// "handle_open breaker:0123456789ab", for the record.
[[nodiscard]] std::string cause_key(const House& house, const Cause& cause);

}  // namespace ohmstead
