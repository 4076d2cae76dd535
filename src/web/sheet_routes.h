#pragma once
// What can be asked of the server about sheets and labels: docs/page-api.md. Nobody's handler waits for a drawing: who asked is parked.

#include <vector>

#include "web/routes.h"
#include "web/sheets.h"

namespace ohmstead::web {

/// Requests for sheets of one device that wait at a time; one more is answered 503.
inline constexpr int kMostSheetWaits = 6;

/// GET /api/sheets, /api/sheets?item=, /api/sheet?item=&page=, /api/sheet.pdf?item=; POST /api/printed. Keep the sheets alive.
[[nodiscard]] std::vector<Route> sheet_routes(Sheets& sheets);

}  // namespace ohmstead::web
