#pragma once
// The answers of a tracing session that still stand, as far as taking them back needs to know them.

#include <vector>

#include "house/house.h"

namespace ohmstead {

enum class ActionKind { setting, open, look, close, lamp_taken, withdrawal, found };

/// One answer, as far as taking it back needs to know it.
struct Action {
  ActionKind kind = ActionKind::look;
  Id<Round> round;
  Id<Observation> observation;
  Id<Setting> setting;  ///< also with close: the breaker stays off
  Id<Round> before;     ///< with open: the round that ended with it, handles still open
  Id<Point> point;      ///< lamp_taken: the receptacle it was in; found: the point
};

/// What was answered before this run, oldest first, read from the rows of the house. The order of
/// settings is not recorded.
[[nodiscard]] std::vector<Action> actions_in(const House& house);

/// Did all that stays off now stay off in this round, too?
[[nodiscard]] bool holds_what_stays_off(const House& house, Id<Round> round);

/// Is it a handle that would not come on again?
[[nodiscard]] bool is_told_to_stay_off(const House& house, const HandleRef& handle);
/// All of these: breakers in the order of the house, then others.
[[nodiscard]] std::vector<HandleRef> told_to_stay_off(const House& house);

}  // namespace ohmstead
