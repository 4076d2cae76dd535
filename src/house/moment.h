#pragma once
// Moments as the record writes them: UTC, `2026-11-25T09:30:00Z`.

#include <string>

namespace ohmstead {

/// Seconds since 1970, or -1 for a text that is not a moment.
[[nodiscard]] long seconds_since_1970(const std::string& moment);
/// The moment that many seconds after the start of 1970, 0 or more and before the year 10000.
[[nodiscard]] std::string moment_at(long seconds);
/// Seconds from one moment to the other; 0 where either is not one.
[[nodiscard]] long seconds_between(const std::string& from, const std::string& to);

}  // namespace ohmstead
