#pragma once
// What two copies disagree on, side by side in plain words.

#include <string>
#include <vector>

#include "db/merge.h"

namespace ohmstead {

struct SideBySide {
  std::string about;  ///< one sentence: "Kitchen dishwasher, running watts: both sides changed it."
  std::string before; ///< what it was before they parted; empty: not known, or nothing to be said
  std::string mine, theirs;
};

[[nodiscard]] SideBySide side_by_side(const Merged& merged, const Conflict& conflict);

/// What a merge brought, for people: "3 rows added, 2 changed, 1 removed"; "nothing came in".
[[nodiscard]] std::string brought_words(const House& mine, const House& merged);

}  // namespace ohmstead
