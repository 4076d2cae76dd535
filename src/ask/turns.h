#pragma once
// Taking turns: when the wishes do not all fit on the source at once, which circuits are on when, and the fuel for it.

#include "ask/answer_words.h"
#include "ask/names.h"
#include "backup/plan_problem.h"
#include "backup/rotation.h"

namespace ohmstead {

/// A circuit that takes turns, in the order of the loads of the rotation.
struct TurnsCircuit {
  int circuit = 0;                  ///< place in BackupCase::circuits
  RotationLoad needs;
  bool assumed = false;             ///< how long it may be off is a habit, not published
};

struct TurnsAnswer {
  BackupCase backup;                ///< loads of circuits that take turns count as on demand in it
  Plan plan;                        ///< where everything rides
  std::vector<TurnsCircuit> circuits;
  RotationLoad always;              ///< what never takes turns, as one
  bool any_always = false;          ///< then it is the last of the loads of the rotation
  Rotation rotation;
  std::vector<LoadTime> times;      ///< watts in each slot
};

/// A circuit takes turns if all that must run on it may be off for a while (rotation_need) and none of it is for life
/// safety. Throws as backup_case; Error{invalid_input} if more than kMostRotationLoads would take turns.
[[nodiscard]] TurnsAnswer turns_for(const Record& record, std::size_t source);

/// The timetable: what to switch when, a bar for each circuit, fuel, and what is assumed.
[[nodiscard]] Lines words_of_turns(const Record& record, const TurnsAnswer& answer);

}  // namespace ohmstead
