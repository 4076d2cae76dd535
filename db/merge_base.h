#pragma once
// Where two copies of a house parted, and keeping what became of them. The common past is found by the marks that every change
// has, and rebuilt from this file's own history: nothing but marks is read of the other one's.

#include "db/house_file.h"
#include "db/merge.h"
#include "db/stranger.h"

namespace ohmstead {

/// A house that came as a document (JSON, or a saved page), which has no history: its mark follows from what is in it.
[[nodiscard]] OtherCopy copy_of_document(House house);

/// Three houses to be merged.
struct Parting {
  House base, theirs;
  std::int64_t revision = 0;   ///< of this file where they parted; 0: not known
  bool nothing_new = false;    ///< the other copy's last change is in this one already
};

/// Without a common change `base` has the rows that are alike in both, and where `theirs` has what this file had earlier it is taken
/// for an older state and not for a change. `mine` is the house in the file.
[[nodiscard]] Parting parting_of(const HouseFile& file, const House& mine, OtherCopy& other);

/// Writes the merged house as one change, with the marks that came with it; nothing is written where nothing differs and nothing
/// was decided. Throws Error{conflict} if the house in the file is not `mine` any more.
std::int64_t keep_merged(HouseFile& file, const House& mine, const Merged& merged, const OtherCopy& other, const std::string& what);

}  // namespace ohmstead
