#pragma once
// What a set of open handles does to the breakers' circuits: the bridge from "these handles were
// open" to "these breakers' poles were dead", through mains, subpanel feeders, ties and transfer
// positions. Computed on the feed graph, so every kind of panel arrangement is read the same way.

#include <cstdint>
#include <span>
#include <vector>

#include "house/house.h"

namespace ohmstead {

/// The effect of one set of open handles, everything else as usual.
struct Effect {
  /// For each breaker (order of house.breakers), bit p-1: pole p of its circuit is dead.
  std::vector<std::uint8_t> dead_poles;
  /// For each breaker: its own handle, or one tied to it, was opened by hand.
  std::vector<bool> own_handle;
  bool nothing_open = true;   ///< an ordinary day
  bool device_open = false;   ///< something was open that makes points dead and no breaker: a wall switch, GFCI or
                              ///< disconnect, or a transfer position whose circuit is not recorded
  [[nodiscard]] bool whole_breaker_dead(std::size_t breaker, int poles) const {
    return dead_poles[breaker] == (1U << poles) - 1U;
  }
};

/// Effect of one set of handles. A handle that is not in the house has none. One of a 3-way pair has no
/// 'off': it counts as moved the other way than usual. A panel whose supply is not known counts as live unless a handle of its
/// own is open.
[[nodiscard]] Effect effect_of(const House& house, std::span<const HandleRef> open);

/// Effects of all rounds, in the order of house.rounds. Rounds with the same handles share the work.
[[nodiscard]] std::vector<Effect> effects_of_rounds(const House& house);

}  // namespace ohmstead
