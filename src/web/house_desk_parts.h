#pragma once
// Internal to HouseDesk: the tracing session that its devices share.

#include "web/house_desk.h"
#include "web/request_key.h"

namespace ohmstead::web {

/// Its steps have numbers that no earlier session of this or another run had, so that an answer on its way is not taken for another's.
struct HouseDesk::Tracing {
  TraceOptions options;
  TraceSession session;
  TraceDesk desk;
  Tracing(const House& house, const NowFn& now, std::uint64_t first) : options{.now = now}, session(house), desk(session, options) {
    desk.number = static_cast<int>(first % 1'000'000'000);
  }
};

}  // namespace ohmstead::web
