#pragma once
// The one-line diagram on paper: a heavy bar for the bus of each panel, the supply above it, what leaves it below.

#include "ask/one_line.h"
#include "print/paper.h"

namespace ohmstead {

/// Most columns of words beside each other; with more a panel is drawn again by itself, and the first drawing says so.
inline constexpr int kMostOneLineColumns = 6;

/// One block a diagram, its title in the first text; none is higher than a page of `paper`.
[[nodiscard]] PaperBlocks one_line_drawings(const Paper& paper, const OneLine& line);

}  // namespace ohmstead
