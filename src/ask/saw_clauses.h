#pragma once
// Free words about something seen in daily life, cut into clauses: '12 tripped, and the hall went
// dark; kitchen still on'. Only the form is looked at here; what the names mean is decided with the
// house at hand (ask/saw.h).

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace ohmstead {

/// What a clause says of the things it names.
enum class SawKind {
  handle_off,   ///< 'tripped', 'turned off': said of a breaker or another handle only
  off_or_dead,  ///< 'off', 'out': of a handle that it was off, of a thing that it was dead
  dead,         ///< 'dark', 'went dead', 'lost power'
  live,         ///< 'on', 'still works'
};

struct SawClause {
  SawKind kind = SawKind::dead;
  std::vector<std::string> names;  ///< as said, in small letters, without 'the', 'when' and the like; not empty
  bool of_light = false;           ///< 'dark', 'on', 'off', 'out': said of a whole room, that is what its lights show
  bool went_off = false;           ///< 'went off', which of an alarm can also mean that it sounded
  bool tripped = false;            ///< 'tripped', 'popped': it went off by itself
  bool operator==(const SawClause&) const = default;
};

struct SawClauses {
  std::vector<SawClause> understood;
  std::vector<std::string> not_understood;  ///< parts of the text, as said
  bool operator==(const SawClauses&) const = default;
};

/// Cuts at ',', ';', ':', '.', '&', line ends and 'and', 'but', 'while', 'so'. Names without a word for
/// how they were belong to the next clause: '12 and 14 tripped'. A clause with 'not', 'or', 'maybe'
/// and the like is not understood, but for 'not working'.
[[nodiscard]] SawClauses saw_clauses(std::string_view text);

/// The whole text as one clause about one thing, whatever stands in its name.
[[nodiscard]] std::optional<SawClause> one_saw_clause(std::string_view text);

}  // namespace ohmstead
