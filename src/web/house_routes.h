#pragma once
// What can be asked of the server about the house: docs/page-api.md, row by row.

#include <vector>

#include "web/house_desk.h"
#include "web/routes.h"

namespace ohmstead::web {

/// Keep the desk alive as long as the routes.
[[nodiscard]] std::vector<Route> house_routes(HouseDesk& desk);

}  // namespace ohmstead::web
