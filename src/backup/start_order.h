#pragma once
// In which order loads are switched on so that the source never has to give more than it can. Proof: docs/backup.md.

#include <optional>
#include <vector>

#include "backup/plan.h"

namespace ohmstead {

/// One step: a load, or everything that comes on with one handle.
struct StartLoad {
  PerPole running{};        ///< on each leg, voltamperes
  PerPole starting{};       ///< on each leg while it starts, not less than running
  bool starts_itself = false;  ///< once on, it may stop and start again at any time
  int rank = 0;             ///< where there is a choice, smaller comes first (what matters most)
};

/// May `next` be switched on while `on` are on? The running sum with it stays within running, and with the larger of its own
/// start and the largest start of what starts by itself (one motor starts at a time) within starting, on each leg and in all.
[[nodiscard]] bool may_start(const PlanSource& source, const std::vector<StartLoad>& on, const StartLoad& next);

/// Places in `loads` in an order in which each may start after those before it, with `on` running already; nothing if there is no
/// such order. If any order stays within the limits, one is found. Larger starts come first where rank does not say otherwise.
[[nodiscard]] std::optional<std::vector<std::size_t>> start_order(const PlanSource& source, const std::vector<StartLoad>& loads,
                                                                  const std::vector<StartLoad>& on = {});

}  // namespace ohmstead
