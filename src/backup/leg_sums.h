#pragma once
// Numbers that a person can check with a pencil: what each leg carries and starts, in watts and amperes, what the neutral
// carries, and how far the legs are apart. Method: docs/backup.md.

#include <array>
#include <span>
#include <vector>

#include "backup/plan.h"
#include "house/voltage.h"

namespace ohmstead {

struct BackupCase;

/// A load that is on, with the legs of the source it is on.
struct LegLoad {
  PerPole running{};        ///< on each leg; voltamperes where the power factor is known, else watts
  PerPole starting{};       ///< on each leg while it starts, not less than running
  double power_factor = 1;  ///< 0 < pf <= 1, lagging
  bool between_legs = false;  ///< from leg to leg: it draws nothing through the neutral. Otherwise each leg's share goes to neutral
};

struct LegSum {
  int running = 0;           ///< sum of the loads, as a plan counts it
  int starting = 0;          ///< that sum and the largest start on top: one motor starts at a time
  int running_watts = 0;     ///< real power: voltamperes times power factor
  int left_running = 0, left_starting = 0;  ///< up to the limit of the source; below 0: so much too much
  bool operator==(const LegSum&) const = default;
};

struct LegAmps {
  double running = 0;   ///< magnitude of the sum of the currents
  double starting = 0;  ///< that and the largest start on top: at most this
};

struct LegSums {
  int legs = 0;
  std::array<LegSum, kMostPoles> leg{};
  std::array<LegAmps, kMostPoles> amps{};
  LegSum whole;
  double neutral_amps = 0;
  double imbalance_percent = 0;  ///< see kImbalanceDefinition
};

/// There are several definitions of imbalance; this is ours, said wherever the number is shown.
inline constexpr const char* kImbalanceDefinition = "100 x (largest leg - smallest leg) / largest leg, of what runs";

/// Sums of `loads` at the nominal volts of `system`. A source that is in phase, or has one leg, adds all currents up in the neutral.
/// Throws Error{invalid_input} for a load on a leg that the source or the system does not have, one between legs that does not have
/// two or more legs at different angles, numbers below 0, a start below its running, or a power factor outside (0, 1].
[[nodiscard]] LegSums leg_sums(VoltageSystem system, const PlanSource& source, std::span<const LegLoad> loads);

/// The loads of a plan that run together, on the legs where the plan puts them.
[[nodiscard]] std::vector<LegLoad> leg_loads(const BackupCase& backup, const Plan& plan);

}  // namespace ohmstead
