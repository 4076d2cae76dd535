#pragma once
// A whole outage as a list of steps, for a sheet on the wall: what the outage board asks for, one after the other, if
// everything goes well.

#include <vector>

#include "backup/outage_board.h"

namespace ohmstead {

/// A step, and where things stand when it comes.
struct ScriptStep {
  OutageStep step;
  OutageNow now;
};

struct OutageScript {
  House house;
  OutageGear gear;
  std::vector<ScriptStep> away;  ///< from the moment the utility fails until everything runs that can
  std::vector<ScriptStep> home;  ///< from the moment the utility is back until everything is on it again
  bool complete = true;          ///< false: it came to a step that does not go on by itself, such as no_safe_way

  [[nodiscard]] OutageView view(const ScriptStep& step) const { return {house, gear, step.now}; }
};

/// The house as it is when the kept plan is wired, and no outage was logged. Throws Error{not_found} if no plan is kept.
[[nodiscard]] House house_as_planned(House house);

/// Plays the outage board through on this house. Throws as OutageBoard does.
[[nodiscard]] OutageScript outage_script(House house, const Feeds& feeds, std::size_t source);

}  // namespace ohmstead
