#pragma once
// Taking changes of a house file back, and making them again. Both are changes themselves: history is never rewritten.

#include <cstdint>
#include <set>
#include <vector>

#include "db/house_file.h"

namespace ohmstead {

/// Which changes can be taken back, and which made again, oldest first: the next one is the last. As with any editor, a new
/// change leaves nothing to be made again.
struct UndoStacks {
  std::vector<std::int64_t> done, undone;
};
[[nodiscard]] UndoStacks undo_stacks(const std::vector<FileChange>& changes);

/// Changes that were taken back and not made again.
[[nodiscard]] std::set<std::int64_t> taken_back(const std::vector<FileChange>& changes);

/// What was taken back or made again, in this order, and the revision that did it.
struct Undone {
  std::vector<std::int64_t> revisions;
  std::int64_t revision = 0;
};

/// Takes the last `count` changes back, all or none. Throws Error{not_found} where there are not so many, or it is not kept what
/// they did; {conflict} where something that one changed is not as it left it; {invalid_input} where the house would not be sound.
Undone undo(HouseFile& file, int count);
/// Takes one change back, though others came after it. Throws as undo.
Undone undo_revision(HouseFile& file, std::int64_t revision);
/// Makes again what was taken back last. Throws as undo.
Undone redo(HouseFile& file, int count);

}  // namespace ohmstead
