#pragma once
// The picture of a plan on paper: one column of blocks a leg, as high as their watts, against what the source gives.
// Everything is told by outline, hatching and words; nothing by colour.

#include "backup/plan_picture.h"
#include "print/paper.h"

namespace ohmstead {

/// What the signs in the drawing mean, in one sentence.
inline constexpr const char* kDrawingKey =
    "Hatched: runs together with the others, largest at the bottom. Dashed outline: switched on when wanted, one such thing at a time. "
    "Narrow box on the left: what the largest start takes on top, for a moment. Heavy line: what the source gives for hours; dashed line: for a start.";

/// Not higher than `most_mm`: where a leg carries more blocks than have room for their words, the smallest are named
/// together, with their number and their sum.
[[nodiscard]] PaperBlock plan_drawing(const House& house, const PlanPicture& picture, double width_mm, double most_mm);

}  // namespace ohmstead
