#pragma once
// The table of a card: rows, numbers, descriptions, marks and handle ties, at their places.

#include <string>
#include <vector>

#include "print/directory_page.h"

namespace ohmstead {

/// Least height of an ordinary row, so that two lines of a description fit.
[[nodiscard]] double least_row_mm(bool large);
/// Least width of the table, so that a description of full length fits its cell.
[[nodiscard]] double least_table_width_mm(const PanelCells& table, bool large);
/// Sum of the row weights: the table's height is this many ordinary rows.
[[nodiscard]] double rows_of(const PanelCells& table);

/// Draws the table into `area`, its heavy frame on the edges, and reports labels that were cut.
void lay_out_table(const PanelCells& table, const Area& area, bool large, Card& card);

}  // namespace ohmstead
