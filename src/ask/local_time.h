#pragma once
// Times of the record as people's clocks show them. The record keeps UTC; who asks says how far their clocks are from it.

#include <functional>
#include <string>

namespace ohmstead {

struct LocalTime {
  /// Seconds that clocks are ahead of UTC (west: below 0) at a moment given in seconds since 1970. Empty: clocks show UTC.
  std::function<long(long)> ahead;
};

/// "02:10" at `2026-11-27T07:10:00Z` five hours west of UTC. What is no moment comes back as it is.
[[nodiscard]] std::string clock_text(const std::string& moment, const LocalTime& local);
/// "Friday 2026-11-27"
[[nodiscard]] std::string day_text(const std::string& moment, const LocalTime& local);
/// "UTC-5", "UTC+5:30", "UTC"
[[nodiscard]] std::string zone_text(const std::string& moment, const LocalTime& local);

}  // namespace ohmstead
