#pragma once
// Labels on sheets, plain paper or tape: laid out once, then given out as a PDF, or page by page as SVG or PNG.
// Everything is made in memory.

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "ask/label_items.h"
#include "print/label_stock.h"
#include "print/paper.h"

namespace ohmstead {

struct LabelOptions {
  LabelStock stock;
  std::string date;           ///< YYYY-MM-DD, on every label but number dots
  std::int64_t revision = 0;  ///< of the record, 0 or more
  bool codes = true;        ///< on plates and panels
  bool strip_codes = false;  ///< on cells of strips
  std::optional<Location> location;  ///< where all of them will hang; none: as the record tells of each
  double strip_pitch_mm = 25.4;  ///< from one breaker or position to the next: 1 in (common practice, no source)
  double strip_height_mm = 0;    ///< across a strip; 0: 60 mm beside breakers, 38 mm above positions, with codes 65
  /// Check code of the label with this key, six characters; none: its place stays empty.
  std::function<std::string(const std::string& key)> check_code;
};

/// A page ready to be drawn.
struct LabelPage {
  double width_mm = 0, height_mm = 0;
  PaperBlock content;
};

struct LabelPages {
  std::vector<LabelPage> pages;
  int labels = 0;
  std::vector<std::string> code_texts;  ///< exactly what each code holds, in order
  std::vector<std::string> warnings;    ///< full sentences: what was left out or has no glyphs, and labels without room for a code
};

/// Labels of any kind, in their order. Throws Error{invalid_input} if they are too small for what is required, with the
/// smallest size that works; if the printer does not reach to where something must be printed; for a date or revision that cannot be.
[[nodiscard]] LabelPages lay_out_labels(const std::vector<LabelItem>& items, const LabelOptions& options);

/// Strips, on pages of the stock's size or on its tape; in pieces where they are longer than the page. Throws as above.
[[nodiscard]] LabelPages lay_out_strips(const std::vector<LabelStrip>& strips, const LabelOptions& options);

/// A page to be held against a sheet of labels, with their outlines and middles, and one with rulers in millimetres and
/// inches; of a tape one piece with both.
[[nodiscard]] LabelPages lay_out_test_page(const LabelStock& stock);

void draw_label_page(const LabelPage& page, Canvas& canvas);

/// All pages in one document. The same pages, title and date give the same bytes.
[[nodiscard]] std::string labels_pdf(const LabelPages& pages, const std::string& title, const std::string& date);
[[nodiscard]] std::string label_page_svg(const LabelPage& page);
/// Black and white alone, for the printer's own resolution.
[[nodiscard]] std::string label_page_png(const LabelPage& page, double dpi);

}  // namespace ohmstead
