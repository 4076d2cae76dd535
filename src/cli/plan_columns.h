#pragma once
// The picture of a plan for a terminal: one column of blocks a leg, side by side.

#include <string>
#include <vector>

#include "backup/plan_picture.h"

namespace ohmstead {

/// Lines of at most `width` columns (38 or more). The heights of blocks and of what is left go with their watts, but every block
/// has a line of its own.
[[nodiscard]] std::vector<std::string> plan_columns(const House& house, const PlanPicture& picture, std::size_t width);

}  // namespace ohmstead
