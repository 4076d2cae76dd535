#pragma once
// Two copies of one house that went different ways, put together again: plain values, no files. Where only one side changed
// something, that holds; what both added is united; what both changed differently is a conflict, decided one by one. Where there
// is no conflict it does not matter which side is mine, and what is merged in already changes nothing.

#include <map>
#include <string>
#include <vector>

#include "db/cell.h"
#include "house/house.h"

namespace ohmstead {

enum class Side { mine, theirs };
OHMSTEAD_WORDS(Side, "mine", "theirs")

enum class ConflictKind {
  field,          ///< both changed this field of a row
  removed_here,   ///< removed in mine, changed in theirs
  removed_there,  ///< the other way round
  same_place,     ///< both added it (a breaker into one space, a room of one name), and not alike
  plan,           ///< both kept another plan
  together,       ///< what each side did is right by itself, but not both: `problem` says why
};
OHMSTEAD_WORDS(ConflictKind, "field", "removed_here", "removed_there", "same_place", "plan", "together")

/// What a field holds on either side, and held before they parted.
struct ThreeCells {
  std::string name;
  Cell before, mine, theirs;
  bool operator==(const ThreeCells&) const = default;
};

struct Conflict {
  std::string key;    ///< names it in decisions; the same in every merge of the same three houses
  ConflictKind kind = ConflictKind::field;
  std::string table;
  std::uint64_t id = 0;  ///< of the row; 0 with plan
  bool has_before = false;
  std::vector<ThreeCells> fields;  ///< those that differ
  std::string problem;   ///< together: one sentence; it tells of the house with the changes of both
  std::uint64_t other = 0;  ///< together: the row that it cannot be together with, where there is one
};

/// What was decided, by key of the conflict.
using Decisions = std::map<std::string, Side>;

struct Merged {
  House house;                  ///< sound; where nothing is decided, mine holds
  std::vector<Conflict> open;   ///< conflicts that are not decided; deciding some may bring others to light
  std::size_t decided = 0;      ///< conflicts that are
  House mine, theirs;           ///< the two sides, with the ids that conflicts and the merged house use
};

/// Merges two sound houses that both come from `base`. Without a common past `base` holds the rows that are alike in both.
/// Throws Error{invalid_input} if they are not copies of one house (another id of the dwelling), {conflict} if what was decided
/// cannot be brought together.
[[nodiscard]] Merged merge_houses(const House& base, const House& mine, const House& theirs, const Decisions& decisions);

}  // namespace ohmstead
