#pragma once
// What somebody saw in daily life, without a tracing session: these handles were off, these things
// were dead, those live. It becomes a round of its own and counts as evidence like every other.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "ask/answer_words.h"
#include "ask/names.h"
#include "feed/feeds.h"

namespace ohmstead {

/// One point, as it was seen.
struct SeenPoint {
  std::size_t point = 0;  ///< place in house.points
  bool dead = false;
  bool operator==(const SeenPoint&) const = default;
};

struct Sighting {
  std::vector<HandleRef> off;     ///< each once, in the order in which they were named
  std::vector<SeenPoint> seen;    ///< each point once, in the order of the house
  std::vector<Id<Room>> rooms;    ///< rooms that were named as a whole
  std::string at;                 ///< UTC, `2026-11-25T09:30:00Z`
  std::string who;                ///< may be empty
  std::vector<HandleRef> tripped; ///< those of `off` that went off by themselves
  std::string cause;              ///< what made them trip, as told; may be empty
};

/// Longest text that is read, in bytes.
inline constexpr std::size_t kLongestSaw = 2000;

/// Reads free words (ask/saw_clauses.h) into `into`, in which nothing was seen yet. A thing is a point, several
/// ('hall lights'), or a room or floor: its lights where it was 'dark', 'on', 'off' or 'out', else everything in it; one that is named by itself outdoes its room ('hall dark, hall light on').
/// Throws Error{invalid_input} for what is not understood, naming what was, and for a thing that is
/// said to be both dead and live; Error{not_found} and Error{ambiguous} for its names.
void read_saw(const House& house, const Names& names, std::string_view text, Sighting& into);

/// Handles that the record holds to be off now: those of a tracing session's round under way, and
/// breakers that would not close again.
[[nodiscard]] std::vector<HandleRef> standing_off(const House& house);

/// The house with the sighting in it, as a finished round of daily life, and each trip as a row of its own.
[[nodiscard]] House with_sighting(House house, const Sighting& sighting);

/// The house with the round of daily life that was entered last taken back: its observations and trips stay,
/// withdrawn. None where there is nothing to take back.
[[nodiscard]] std::optional<House> without_last_sighting(House house);

/// What was recorded: with what off, what dead, what live.
[[nodiscard]] Lines words_of_sighting(const House& house, const Names& names, const Sighting& sighting);
/// Points whose feed is known otherwise, better or worse than before: "Hall, ceiling light: was open, now
/// likely breaker 12". `before` and `after` are of the same points.
[[nodiscard]] Lines words_of_change(const Record& before, const Record& after);

}  // namespace ohmstead
