#pragma once
// The one-line diagram of a house: sources, mains, panels, feeders, transfer devices and interlocks, found by following
// the contacts of the feed graph from each source. Every device is named and rated; what is not recorded says so.

#include <string>
#include <vector>

#include "ask/record.h"

namespace ohmstead {

/// What is drawn for a device, by the trade's single-line symbols.
enum class OneLineSymbol {
  utility, not_known,             ///< where a supply begins
  generator, battery,             ///< a source of the house
  inlet,                          ///< plug and inlet of a source that comes by cord
  breaker,
  transfer,                       ///< double throw: utility side from above, backup side from beside it
};

struct OneLineDevice {
  OneLineSymbol symbol = OneLineSymbol::breaker;
  std::string name;                ///< "Main breaker", "Breaker 30-32", "Generator"
  std::vector<std::string> words;  ///< ratings: "200 A", "rating not read"
  HandleRef handle;                ///< what a hand moves there; none for a source, an inlet, or several handles
  std::vector<OneLineDevice> other_side;  ///< transfer: its backup side, from the source to the switch
};

/// A chain that leaves the bus of a panel and ends at another panel or at circuits.
struct OneLineBranch {
  std::vector<OneLineDevice> chain;  ///< from the bus down
  int panel = -1;                    ///< place in OneLine::panels; -1: it ends at circuits
  std::string ends;                  ///< "6 circuits: Main 1, 14, 16b, ..."; empty where a panel follows
};

struct OneLinePanel {
  Id<Panel> panel;
  std::string name;                     ///< "Panel Main"
  std::vector<std::string> words;       ///< place, spaces
  std::vector<OneLineDevice> supply;    ///< of one that hangs on no other panel: from the supply down to its bus
  std::vector<std::vector<OneLineDevice>> backfed;  ///< from a source down to the bus, through its backfed breaker
  std::vector<std::string> interlocks;  ///< one for each of `backfed`: "interlocked with the main: ..." or that none is recorded
  std::vector<bool> interlocked;        ///< one for each of `backfed`: a dashed line to the main
  std::vector<OneLineBranch> branches;
  std::string circuits;                 ///< "26 branch circuits"; empty: none
};

struct OneLine {
  std::vector<OneLinePanel> panels;   ///< in the order of house.panels
  std::vector<std::size_t> roots;     ///< those that hang on no other panel
  std::vector<std::string> notes;     ///< sources that nothing is fed from, and other things no line can show
};

/// Most backfed breakers that are drawn at one panel; further ones are named in the notes.
inline constexpr std::size_t kMostBackfed = 3;

[[nodiscard]] OneLine one_line(const Record& record);

}  // namespace ohmstead
