#pragma once
// The card itself: where everything goes, and how large each text can be.

#include <optional>
#include <string>
#include <vector>

#include "print/canvas.h"
#include "print/code_sheet.h"
#include "rules/panel_cells.h"

namespace ohmstead {

/// Everything that is said on the card, before it has a place.
struct CardContent {
  std::string title;      ///< "Panel Main"
  std::string supply;     ///< "120/240 V, fed by the utility. In Garage."
  std::string date;       ///< "2026-11-25"
  std::string revision;   ///< "rev 4"
  std::string main_text;  ///< beside MAIN; "" when the panel has no main breaker
  std::string caution;    ///< what to do before a hand touches a wire
  std::string key;        ///< what every sign used means, or ""
  PanelCells table;
  DirectoryText codes;
  Location location = Location::dry;  ///< of the panel
};

struct PlacedText {
  Area area;
  TextStyle style;
  std::string words;
};
struct PlacedLine {
  double x1 = 0, y1 = 0, x2 = 0, y2 = 0, width_mm = 0;
};

/// One side of the card with every place decided, relative to the card's corner.
struct CardSide {
  std::vector<PlacedText> texts;  ///< in reading order
  std::vector<PlacedLine> lines;
  struct Frame {
    Area area;
    double width_mm = 0;
  };
  std::vector<Frame> frames;
  std::vector<PlacedCode> codes;
};

struct Card {
  CardSide front;
  std::optional<CardSide> back;
  std::vector<std::string> warnings;
};

/// Throws Error{invalid_input} with the smallest size that would do if the card is too small.
[[nodiscard]] Card lay_out_card(const CardContent& content, double width_mm, double height_mm, bool large);

}  // namespace ohmstead
