#pragma once
// The connecting worksheet: what whoever is qualified to do the wiring does, step by step, so that the house is
// wired as the kept plan (house.planned) says. Plain values; the sentences are in ask/worksheet_words.h.
//
// Every step has a key that is the same in every plan in which the step is the same, so that what was ticked stays
// ticked. Ticks are rows of house.ticks.

#include <string>
#include <vector>

#include "house/house.h"

namespace ohmstead {

enum class WorkKind {
  permit,           ///< before: what local code wants, a permit, a licensed electrician
  neutral_fits,     ///< before: the source's neutral (bonded or floating) fits the transfer gear
  readings,         ///< before: the directions of the makers are at hand, and every wire to be moved is known
  people,           ///< before: loads hurt by a power loss have another supply
  sources_stopped,  ///< before: the source is stopped and cannot feed, and so is every other
  main_off,         ///< before: the main is off
  test_dead,        ///< before: tested dead
  disconnect,       ///< position: what it carries now goes back to its own breaker
  connect,          ///< position: the wire of one pole of a breaker goes through it
  unchanged,        ///< position: it carries what the plan says already; look that it is so
  keep_on,          ///< no wiring: this breaker stays on in an outage
  off_list,         ///< no wiring: all other breakers of that panel are off in an outage
  bars,             ///< after: neutral and ground bars
  torque,           ///< after: every terminal that was touched
  labels,           ///< after: positions (or handles) are labeled
  signs,            ///< after: at the inlet and at the service disconnect
  checked,          ///< after: somebody else has checked it, as local code wants
  power_up,         ///< after: main on with every position on the utility
  prove,            ///< after: a proving session
  try_interlock,    ///< after: by hand, with the source stopped: backfed breaker and main are never on together
  first_run,        ///< after: once as in an outage, looking at what comes on and what does not
};
OHMSTEAD_WORDS(WorkKind, "permit", "neutral_fits", "readings", "people", "sources_stopped", "main_off", "test_dead", "disconnect",
               "connect", "unchanged", "keep_on", "off_list", "bars", "torque", "labels", "signs", "checked", "power_up", "prove", "try_interlock",
               "first_run")

/// What must be known at a step of one circuit, beside what the step says.
enum class WorkCaution {
  multiwire,           ///< it shares a neutral with `partners`: both are moved together, on opposite legs, handles tied
  two_pole,            ///< one pole of a two-pole circuit: tied positions on opposite legs
  receptacles_of_20,   ///< the position is rated below the breaker (15 A, 20 A): 20 A receptacles may not stay on it
  two_wires,           ///< first wire that is moved: which of a position's wires goes where
  multiwire_never,     ///< it shares a neutral, and the source's output is on one leg or bridged to all: never with this source
  protection_bypassed, ///< its breaker is a GFCI or AFCI one: on backup that protection may be bypassed
};
OHMSTEAD_WORDS(WorkCaution, "multiwire", "two_pole", "receptacles_of_20", "two_wires", "multiwire_never", "protection_bypassed")

struct WorkStep {
  WorkKind kind = WorkKind::permit;
  std::string key;            ///< what a tick names, such as "connect:POSITION:BREAKER.1"
  Id<Position> position;      ///< disconnect, connect, unchanged
  Id<Breaker> breaker;        ///< the same, and keep_on
  int pole = 1;               ///< of that breaker
  Id<Panel> panel;            ///< off_list
  std::vector<Id<Load>> loads;         ///< people
  std::vector<Id<Breaker>> partners;   ///< circuits that share its neutral
  std::vector<WorkCaution> cautions;
  bool done = false;          ///< ticked
  std::string at, who;        ///< of the tick
  bool operator==(const WorkStep&) const = default;
  [[nodiscard]] bool moves_wire() const { return kind == WorkKind::disconnect || kind == WorkKind::connect; }
  /// Must be ticked before the plan counts as the wiring that stands.
  [[nodiscard]] bool is_wiring() const { return moves_wire() || kind == WorkKind::bars || kind == WorkKind::torque; }
};

struct Worksheet {
  Id<Source> source;             ///< what the plan is for; none: not known
  bool wires_move = false;       ///< false: nothing is to be wired (interlock, or it is wired as planned)
  bool connected = false;        ///< it was wired by this worksheet, as recorded: what was ticked for that is shown as done
  std::vector<WorkStep> steps;   ///< in the order in which they are done
};

/// The worksheet of the kept plan. Throws Error{not_found} if no plan is kept.
[[nodiscard]] Worksheet worksheet(const House& house);

/// Ticks a step. A step that was ticked stays as it is. Throws Error{not_found} for a key that is in no step of now.
void tick_step(House& house, const std::string& key, const std::string& at, const std::string& who);
/// Takes the tick back; false if there was none.
bool untick_step(House& house, const std::string& key);

/// Steps of the wiring that are not ticked yet (places in `steps`).
[[nodiscard]] std::vector<std::size_t> wiring_not_done(const Worksheet& sheet);

/// Writes the kept plan into the positions, as the wiring that stands now. Its ticks stay, as the record of that work: they are shown as
/// long as it is wired so, and tick no step of a later wiring. What was proved of a wiring that is no more counts no longer (backup/proving.h). Throws Error{invalid_input}
/// and changes nothing if wiring steps are not ticked.
void plan_is_connected(House& house);

}  // namespace ohmstead
