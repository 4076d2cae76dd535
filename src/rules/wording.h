#pragma once
// What is written beside a breaker. The words are computed from the record, never typed: rooms
// and uses in permanent words, each circuit told from all others of its panel, an unused breaker
// called SPARE, and no word that depends on who lives where (NFPA 70 408.4(A)).

#include <string>
#include <vector>

#include "feed/feeds.h"
#include "house/house.h"

namespace ohmstead {

/// Most characters of a description.
inline constexpr std::size_t kLongestDescription = 50;

enum class CircuitUse {
  described,   ///< it feeds points: "Kitchen counter receptacles, dishwasher"
  not_traced,  ///< nothing is known of what it feeds: "? not traced yet", or if looked for "? nothing found yet"
  spare,       ///< every point is known to be fed elsewhere, and nothing is recorded on it: "SPARE"
  feeder,      ///< it feeds another panel: "Subpanel 'Workshop'"
  inlet,       ///< backfed from a source: "INLET from generator: keep OFF unless main is OFF"
};

/// One breaker in words. A use with "?" is likely, open or disputed: not yet to be relied on.
struct CircuitWords {
  Id<Breaker> breaker;
  CircuitUse use = CircuitUse::not_traced;
  std::string text;        ///< one line, 1..kLongestDescription characters, no control characters
  std::string mark;        ///< transfer position that carries it, "G3" or "G3-4"; empty: none
  bool uncertain = false;  ///< some use in it carries "?"
};

/// Words of all breakers of a panel, in the order of house.breakers. No two texts are the same,
/// except SPARE and those of breakers of which nothing is known.
[[nodiscard]] std::vector<CircuitWords> panel_words(const House& house, const Feeds& feeds, Id<Panel> panel);

/// The text alone, of one breaker. Throws Error{not_found} if the house has no such breaker.
[[nodiscard]] std::string circuit_description(const House& house, const Feeds& feeds, Id<Breaker> breaker);

/// The letter that marks the positions of a transfer device on a directory: G for a generator's, B
/// for a battery inverter's, the next free letter where there are several.
[[nodiscard]] char mark_letter(const House& house, Id<TransferDevice> device);

}  // namespace ohmstead
