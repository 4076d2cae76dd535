#pragma once
// What a page asks about its own device, and how it hears that something changed.

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "web/changes.h"
#include "web/pairing.h"
#include "web/routes.h"

namespace ohmstead::web {

/// The page's own files, for anybody.
[[nodiscard]] std::vector<Route> file_routes();

/// POST /api/pair. Keep the pairing alive; the cookie has this name.
[[nodiscard]] Route pair_route(Pairing& pairing, const std::string& cookie_name);

/// Requests for news of one device that wait at a time; one more is answered 503, so that no device takes the places of all.
inline constexpr int kMostWaits = 4;

/// GET /api/wait. `revision` is that of the house now. Keep the counter alive.
[[nodiscard]] Route wait_route(const ChangeCounter& changes, std::function<std::int64_t()> revision);

}  // namespace ohmstead::web
