#pragma once
// Internal to the answers: dangers that the liveness of one state does not show, because a source
// that is dead now can come back, a device can move by itself, or the record does not know.

#include <utility>
#include <vector>

#include "ask/record.h"
#include "feed/isolate.h"
#include "feed/what_if.h"

namespace ohmstead::dangers {

/// Terminals that closed contacts join in this state, every source taken as live: a dead line can
/// come back at any time, and a generator joined to a dead one feeds it.
[[nodiscard]] std::vector<std::pair<int, int>> joined_terminals(const Graph& graph, State state);

/// The other half of a split receptacle shares its enclosure, whether or not the box is recorded.
[[nodiscard]] std::vector<StaysLive> live_mates(const Record& record, const Change& change, const State& after);

/// Points and switches in the box of a point that goes off (`gone`) whose own feed is not known:
/// they may stay live.
struct NotKnownNear {
  std::size_t gone = 0;
  ThingRef near;
  bool operator==(const NotKnownNear&) const = default;
};
[[nodiscard]] std::vector<NotKnownNear> not_known_near(const Record& record, const Change& change);

/// Automatic transfer devices that lose their normal side: they move by themselves, and what they
/// carry comes back on from their source.
[[nodiscard]] std::vector<Id<TransferDevice>> devices_that_will_move(const Record& record, const State& before,
                                                                     const State& after);

/// With these groups open and every other handle free to stand in any throw, can a conductor of
/// unknown supply reach a conductor of the box?
[[nodiscard]] bool reaches_unknown(const Record& record, const InBox& box, const std::vector<std::uint32_t>& open);

}  // namespace ohmstead::dangers
