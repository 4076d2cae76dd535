#pragma once
// The options of `ohmstead labels` as values: stock, strips, and which points are meant.

#include <optional>
#include <vector>

#include "ask/names.h"
#include "cli/command.h"
#include "print/labels.h"

namespace ohmstead {

/// What is printed where nothing is said of the label's size.
struct UsualLabel {
  double width_mm = 65, height_mm = 32;
};

/// Everything but date and revision. Throws Error{invalid_input} naming the option.
[[nodiscard]] LabelOptions label_options(const Arguments& arguments, UsualLabel usual);

/// Points that --of, --room and --panel mean, room by room; all where none is given. Throws as Names do.
[[nodiscard]] std::vector<std::size_t> points_meant(const Record& record, const Names& names, const Arguments& arguments);

}  // namespace ohmstead
