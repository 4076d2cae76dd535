#pragma once
// From a house to the plain numbers of a plan, and back: which circuits could be carried in an outage by one source,
// what each would draw, and which positions there are.

#include <string>
#include <vector>

#include "backup/figures.h"
#include "backup/plan.h"
#include "feed/feeds.h"

namespace ohmstead {

/// A load on a circuit of the plan.
struct CarriedLoad {
  std::size_t load = 0;       ///< place in house.loads
  std::size_t point = 0;      ///< place in house.points
  LoadUse use = LoadUse::together;
  LoadFigures figures;
  Standing standing = Standing::open;  ///< how well it is known that this breaker feeds it
};

/// One pole of a breaker, 1-based.
struct BreakerPole {
  Id<Breaker> breaker;
  int pole = 1;
  bool operator==(const BreakerPole&) const = default;
};

/// A circuit of the plan, in the order of PlanProblem::circuits; `loads` in the order of PlanCircuit::loads.
struct CarriedCircuit {
  Id<Breaker> breaker;                  ///< the first of its breakers, if two untied poles feed one load
  std::vector<BreakerPole> poles;       ///< in the order of the poles of the plan
  std::vector<CarriedLoad> loads;       ///< wanted ones
  std::vector<std::size_t> unwanted;    ///< places in house.loads: on the same circuit, to be left off
  bool gfci_or_afci = false;            ///< its breaker protects people: the protection may be bypassed by the transfer wiring
};

/// Something that the plan rests on and that is not sure, or that a reader must know first. One sentence each is made
/// in backup/plan_words.h.
struct PlanDoubt {
  enum class Kind {
    feed_only_likely,     ///< `load`: which breaker feeds it is not proved
    feed_not_known,       ///< `load` is wanted, and nothing is known of its feed: it is not in the plan
    figures_guessed,      ///< `load`: its watts are a guess
    no_figures,           ///< `load`: no watts at all: it counts as nothing
    fed_twice,            ///< `load`: two breakers feed one conductor of it: mend that first; it is not in the plan
    out_of_reach,         ///< `load`: its panel is neither near the transfer device nor behind the source
    breaker_not_read,     ///< `breaker`: its rating is not known
    starting_not_known,   ///< the source's starting watts are not recorded: its running watts are taken
    leg_share_assumed,    ///< the source's most on one leg is not recorded: an equal share is taken
  };
  Kind kind = Kind::feed_not_known;
  Id<Load> load;
  Id<Breaker> breaker;
  bool operator==(const PlanDoubt&) const = default;
};

/// How the source meets the house.
enum class Hookup {
  positions,   ///< transfer device with positions: circuits are wired to it
  interlock,   ///< a backfed breaker interlocked with the main: panel breakers are chosen that stay on
  subpanel,    ///< whole-house device or critical-loads subpanel: the same, for every panel behind it
};

struct BackupCase {
  std::size_t source = 0;               ///< place in house.sources
  Hookup hookup = Hookup::positions;
  PlanProblem problem;
  std::vector<CarriedCircuit> circuits; ///< in the order of problem.circuits
  std::vector<Id<Position>> positions;  ///< in the order of problem.positions
  std::vector<PlanDoubt> doubts;
};

/// The problem of one source. Every wanted load whose feed is likely or better is on the circuit of its breaker; a circuit with
/// nothing wanted is not in it, unless it is connected to a position now or is pinned. Throws Error{invalid_input} or {not_found}, each with one sentence on what to do: no
/// source; no running watts; the source feeds no transfer device, interlocked breaker or panel; nothing wanted; a pin that cannot be.
[[nodiscard]] BackupCase backup_case(const House& house, const Feeds& feeds, std::size_t source);

/// The source that is meant when none is named: the only one. Throws Error{not_found} with the names if there are none or several.
[[nodiscard]] std::size_t the_only_source(const House& house);

/// What a source gives, inlet and cord included, on the legs of this house.
[[nodiscard]] PlanSource plan_source(const House& house, const Source& source);

/// The kept plan (house.planned) as a plan of this problem, its sums and score computed; `placed` is empty where none is kept.
[[nodiscard]] Plan kept_plan(const House& house, const BackupCase& backup);

/// Rows of house.planned for a plan, ids fresh.
[[nodiscard]] std::vector<Planned> planned_rows(const BackupCase& backup, const Plan& plan);

}  // namespace ohmstead
