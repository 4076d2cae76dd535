// Breakers that trip often, by the trips on record.

#include "rules/findings_look.h"
#include "rules/plain_words.h"
#include "rules/trips.h"

namespace ohmstead::findings_detail {

namespace {

/// What is named in a finding, and how it is called; kind `house` for what has no name of its own.
std::pair<ThingRef, std::string> tripped_thing(const House& house, const HandleRef& handle) {
  switch (handle.kind) {
    case HandleKind::breaker: return {thing(Id<Breaker>{handle.id}), breaker_label(house, Id<Breaker>{handle.id})};
    case HandleKind::main: return {thing(Id<Panel>{handle.id}), "The main breaker of " + panel_label(house, Id<Panel>{handle.id})};
    case HandleKind::position:
    case HandleKind::position_breaker: return {thing(Id<Position>{handle.id}), "A transfer position's breaker"};
    case HandleKind::device:
      if (const Handle* row = find_row(house, Id<Handle>{handle.id})) {
        const Device* device = find_row(house, row->device);
        if (device != nullptr) return {{ThingKind::device, device->id.value}, with_capital(printable(device->name))};
      }
      break;
    case HandleKind::none: break;
  }
  return {{}, "A breaker"};
}

}  // namespace

void find_trips(Look& look) {
  for (const TripsOf& trips : trips_by_handle(look.house())) {
    if (!trips.often()) continue;
    const auto [what, name] = tripped_thing(look.house(), trips.handle);
    look.add("trips_often", Severity::fix, {what}, name + " " + printable(often_words(trips)) + ".", kOftenWhy);
    look.cite("common practice, no source");
  }
}

}  // namespace ohmstead::findings_detail
