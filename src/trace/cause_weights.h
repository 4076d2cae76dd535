#pragma once
// Internal to causes: how often each happens, relative to a breaker that trips (1). Common practice, no source.

#include "house/house.h"

namespace ohmstead::trace_detail {

/// Two faults have this times the weight that two independent ones would have; they are looked for only when no single one fits.
inline constexpr double kTwoAtOnce = 0.1;

class CauseWeights {
 public:
  CauseWeights(const House& house, Before before) : house_(house), before_(before) {}

  /// It tripped by itself; 0 for what does not trip. More where it tripped lately.
  [[nodiscard]] double trips(const HandleRef& handle) const;
  /// A hand left it off, or on the wrong side.
  [[nodiscard]] double left_off(const HandleRef& handle) const;
  /// It is on and gives nothing: it failed, or a wire at it is loose.
  [[nodiscard]] double fails(const HandleRef& handle) const;
  [[nodiscard]] double pole(const HandleRef& handle) const { return handle.kind == HandleKind::main ? 0.05 : 0.04; }
  [[nodiscard]] double leg(int source) const { return (source == 0 ? 0.15 : 0.1) * after(Before::storm, 4); }
  [[nodiscard]] double utility() const { return 2 * after(Before::storm, 5); }
  [[nodiscard]] double service() const { return 0.15 * after(Before::storm, 4); }
  [[nodiscard]] double stopped() const { return 2; }
  [[nodiscard]] double neutral() const { return 0.06 * after(Before::storm, 3); }
  [[nodiscard]] double shared_neutral() const { return 0.05 * after(Before::work_done, 5); }
  [[nodiscard]] double loose() const { return 0.5 * after(Before::work_done, 4); }
  [[nodiscard]] double itself(PointKind kind) const { return kind == PointKind::light ? 1.5 : 0.7; }
  [[nodiscard]] double not_recorded() const { return 2; }

 private:
  [[nodiscard]] double after(Before what, double times) const { return before_ == what ? times : 1; }
  [[nodiscard]] const Device* device_of(const HandleRef& handle) const;

  const House& house_;
  Before before_;
};

}  // namespace ohmstead::trace_detail
