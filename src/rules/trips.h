#pragma once
// Breakers that trip often: a handle that only ever is turned on again hides what is wrong behind it.

#include <string>
#include <vector>

#include "house/house.h"

namespace ohmstead {

/// So many trips within so many days is often: common practice, no source.
inline constexpr int kOftenTrips = 3;
inline constexpr int kOftenDays = 90;

/// Trips of one handle on record, without those taken back.
struct TripsOf {
  HandleRef handle;
  int lately = 0;      ///< within kOftenDays before the last one, that one too
  std::string last;    ///< UTC
  std::vector<std::string> causes;  ///< as told, of those, oldest first; each once
  [[nodiscard]] bool often() const { return lately >= kOftenTrips; }
};

/// Every handle that has tripped, in the order of its first trip in the record.
[[nodiscard]] std::vector<TripsOf> trips_by_handle(const House& house);
/// Of one handle: any of a tie stands for the tie. `lately` 0: it has not.
[[nodiscard]] TripsOf trips_of(const House& house, const HandleRef& handle);

/// "tripped 3 times within 90 days: heater; hair dryer", to go on with after the handle's name; "" where it does not trip often.
[[nodiscard]] std::string often_words(const TripsOf& trips);
/// Why that matters, and what to do: one sentence.
inline constexpr const char* kOftenWhy = "A breaker that trips often is overloaded, or something on it is failing, or the breaker is; only turning it on again hides which.";

}  // namespace ohmstead
