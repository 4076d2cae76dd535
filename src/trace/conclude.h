#pragma once
// Which breaker feeds what, concluded from observations and declarations. A feed is never typed
// over its evidence: every call computes it again from the rows of the house.

#include <vector>

#include "feed/feeds.h"
#include "trace/belief.h"
#include "trace/kin.h"
#include "trace/readings.h"

namespace ohmstead {

/// Belief from which a feed may be proved.
inline constexpr double kProvedBelief = 0.99;
/// Belief from which it is called likely.
inline constexpr double kLikelyBelief = 0.5;

/// What is concluded for one feed unit.
struct UnitConclusion {
  Feed feed;
  std::vector<Candidate> candidates;  ///< most believed first, adding up to 1
  bool seen_dead = false;    ///< with the first candidate's own handle open
  bool seen_live = false;    ///< with it closed
  bool unexplained = false;  ///< nothing listed explains this: live with every breaker open that could feed it
  bool dead_anyway = false;  ///< a point of it is dead with nothing open, and none of it was seen live since
};

/// Everything the session, the answers and the screens need of a house's evidence.
struct Conclusions {
  Readings readings;
  std::vector<Way> ways;
  std::vector<UnitConclusion> units;  ///< in the order of readings.units
  Kin kin;                            ///< which units are likely to share a breaker
};

[[nodiscard]] Conclusions conclude_units(const House& house);

/// Feeds for the feed graph. Standings:
/// - proved: belief >= 0.99, seen dead with exactly its device open (its own handle; others that
///   were open at the time are ruled out by other readings) and live with it closed. Looks outrank
///   words: a proof stands also against a declaration.
/// - disputed: readings contradict each other or a declaration, and neither side wins yet.
/// - declared: somebody said so and no reading speaks against it.
/// - likely: belief >= 0.5 with at least one reading; open: the rest.
/// All points behind a device have the feed of the outermost device. The pole of a single-hot
/// unit on a breaker of several poles is the declared one, else pole 1 (it cannot be seen).
[[nodiscard]] Feeds conclude(const House& house);
[[nodiscard]] Feeds feeds_of(const House& house, const Conclusions& conclusions);

/// Does this breaker feed nothing? True when every unit it could feed is settled on another one or
/// was seen live with this one open, and there is at least one. Throws Error{not_found}.
[[nodiscard]] bool seems_spare(const House& house, Id<Breaker> breaker);
[[nodiscard]] bool seems_spare(const House& house, const Conclusions& conclusions, Id<Breaker> breaker);

}  // namespace ohmstead
