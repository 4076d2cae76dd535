#pragma once
// What the tests of labels share: a house and its labels, and what must hold of every page they are drawn on.

#include <string>
#include <vector>

#include "print/labels.h"
#include "print/recording_canvas.h"

namespace ohmstead::test {

inline constexpr const char* kAsOf = "2026-11-25 rev 12";

[[nodiscard]] LabelOptions options_on(const LabelStock& stock);
/// A sheet of labels of this size.
[[nodiscard]] LabelStock plain_labels(double width, double height);
[[nodiscard]] std::vector<std::size_t> all_points(const House& house);
/// test::example_house() with what follows from it.
[[nodiscard]] const Record& example_record();

RecordingCanvas& draw(const LabelPages& pages, RecordingCanvas& canvas);

/// Nothing cut, over another, or beyond the page; no words under the sizes that are promised.
void check_pages(const LabelPages& pages);

/// Every code, from a PDF drawn by poppler at `dpi`, is read by two programs that are not ours.
void expect_codes_read(const LabelPages& pages, const std::string& pdf, int dpi);

}  // namespace ohmstead::test
