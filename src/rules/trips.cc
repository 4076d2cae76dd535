#include "rules/trips.h"

#include <algorithm>

#include "house/index.h"
#include "house/moment.h"

namespace ohmstead {

namespace {

constexpr long kDaySeconds = 24L * 3600;

/// The breaker a tie is named after; else the handle itself.
HandleRef first_of_tie(const House& house, const HandleRef& handle) {
  if (handle.kind != HandleKind::breaker) return handle;
  const Breaker* breaker = find_row(house, Id<Breaker>{handle.id});
  return breaker != nullptr && breaker->tie ? HandleRef{HandleKind::breaker, breaker->tie.value} : handle;
}

}  // namespace

TripsOf trips_of(const House& house, const HandleRef& handle) {
  TripsOf trips{first_of_tie(house, handle), 0, "", {}};
  std::vector<const Trip*> all;
  for (const Trip& trip : house.trips)
    if (!trip.withdrawn && first_of_tie(house, trip.handle) == trips.handle) all.push_back(&trip);
  std::ranges::stable_sort(all, {}, [](const Trip* trip) { return trip->at; });
  if (all.empty()) return trips;
  trips.last = all.back()->at;
  for (const Trip* trip : all) {
    if (seconds_between(trip->at, trips.last) > kOftenDays * kDaySeconds) continue;
    ++trips.lately;
    if (!trip->cause.empty() && std::ranges::find(trips.causes, trip->cause) == trips.causes.end()) trips.causes.push_back(trip->cause);
  }
  return trips;
}

std::vector<TripsOf> trips_by_handle(const House& house) {
  std::vector<TripsOf> all;
  for (const Trip& trip : house.trips) {
    const HandleRef handle = first_of_tie(house, trip.handle);
    if (trip.withdrawn || std::ranges::find(all, handle, &TripsOf::handle) != all.end()) continue;
    all.push_back(trips_of(house, handle));
  }
  return all;
}

std::string often_words(const TripsOf& trips) {
  if (!trips.often()) return "";
  std::string text = "tripped " + std::to_string(trips.lately) + " times within " + std::to_string(kOftenDays) + " days";
  for (const std::string& cause : trips.causes) text += (&cause == &trips.causes.front() ? ": " : "; ") + cause;
  return text;
}

}  // namespace ohmstead
