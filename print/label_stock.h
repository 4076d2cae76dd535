#pragma once
// What labels are printed on, by its measures: plain paper to be cut, a sheet of labels, or a tape. All in
// millimetres. No product is known here: whoever has a sheet measures it.

#include <string>

#include "print/canvas.h"

namespace ohmstead {

enum class StockForm { sheet, tape };

struct LabelStock {
  StockForm form = StockForm::sheet;
  // A sheet.
  double page_width_mm = 215.9, page_height_mm = 279.4;
  int columns = 1, rows = 1;
  double label_width_mm = 0, label_height_mm = 0;
  double left_mm = 0, top_mm = 0;                  ///< from the page's corner to the first label's
  double pitch_x_mm = 0, pitch_y_mm = 0;           ///< from one label's edge to the next one's
  double corner_mm = 0;  ///< radius of the labels' corners; half of the lesser side: round
  bool cut_lines = false;  ///< plain paper: dashed lines to cut along
  int start = 1;         ///< the first label to use, counted row by row: of a sheet that was used in part
  double shift_x_mm = 0, shift_y_mm = 0;  ///< everything is printed so much farther right and down
  double printer_margin_mm = 3;  ///< the printer reaches no closer to the edge of the page (common practice, no source)
  // A tape. Its labels are as long as their words need.
  double tape_mm = 0, printable_mm = 0;  ///< height of the tape, and what of it the printer reaches
  bool cut_between = true;  ///< each label is a page of its own, so that the printer cuts; else one long page with cut lines
  double dpi = 300;  ///< dots of the printer: codes are made of whole dots, pictures have this resolution
};

/// What was said of a stock; 0 (or empty) where nothing was. What is left out follows from the rest.
struct StockMeasures {
  double page_width_mm = 0, page_height_mm = 0;
  double label_width_mm = 0, label_height_mm = 0;
  int columns = 0, rows = 0;
  double left_mm = -1, top_mm = -1;   ///< -1: not said
  double pitch_x_mm = 0, pitch_y_mm = 0;
  double corner_mm = 0;
};

/// A sheet of labels. Without `columns` and `rows`: plain paper with cut lines and as many labels as it takes,
/// centred, 5 mm or more from its edges. Throws Error{invalid_input} in one sentence with what would work: a label larger
/// than the page, a pitch smaller than the label, labels that run over the page.
[[nodiscard]] LabelStock sheet_stock(const StockMeasures& measures);

/// A tape of this height. `printable_mm` 0: 1 mm less on either side (common practice, no source). Throws
/// Error{invalid_input} if it is too low for one line of the smallest type, with the lowest that works.
[[nodiscard]] LabelStock tape_stock(double tape_mm, double printable_mm, double dpi);

[[nodiscard]] inline int labels_on_page(const LabelStock& stock) { return stock.columns * stock.rows; }

/// Page and place of label `n` (0 is the first one printed), with start, without shift. Of a sheet only.
struct LabelPlace {
  int page = 0;
  Area area;
};
[[nodiscard]] LabelPlace place_of_label(const LabelStock& stock, int n);

/// What must stay free of print inside a label's edge: for cutting, and for a printer that is a little off.
[[nodiscard]] double inner_margin_mm(const LabelStock& stock);

/// "25.4", up to the next tenth.
[[nodiscard]] std::string mm_text(double mm);
/// "66 x 25.4 mm"
[[nodiscard]] std::string size_text(double width_mm, double height_mm);

}  // namespace ohmstead
