#pragma once
// A panel as a table: which cell stands where, before any size is known.

#include <string>
#include <vector>

#include "house/house.h"
#include "rules/wording.h"

namespace ohmstead {

/// One cell: neighbouring places of one breaker in one column, or one empty place. Rows are
/// counted in halves, because a tandem splits its row: row 3 is halves 6 and 7.
struct PanelCell {
  Id<Breaker> breaker;  ///< none: an empty place
  int column = 0;
  int first_half = 0, halves = 2;
  std::vector<std::string> numbers;  ///< one for each place, top to bottom: {"9", "11"}, {"4a"}
  std::string text;                  ///< description; "" for an empty place
  std::string mark;                  ///< transfer position, or ""
  int amps = 0;                      ///< 0: not known
};

/// Breakers whose handles are tied together, from half to half (both included) of a column.
struct TieBracket {
  int column = 0, first_half = 0, last_half = 0;
};

struct PanelCells {
  int columns = 2;
  std::vector<double> row_weights;  ///< 1; 0.62 for a row with nothing in it, 1.75 for one with a tandem
  std::vector<PanelCell> cells;     ///< row by row, left before right
  std::vector<TieBracket> ties;
};

inline constexpr double kEmptyRowWeight = 0.62;
inline constexpr double kTandemRowWeight = 1.75;

/// `words` are those of panel_words() for this panel.
[[nodiscard]] PanelCells panel_cells(const House& house, const Panel& panel, const std::vector<CircuitWords>& words);

}  // namespace ohmstead
