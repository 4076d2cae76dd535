#include "db/undo.h"

#include <algorithm>

#include "ask/row_names.h"
#include "house/error.h"
#include "house/invariants.h"

namespace ohmstead {

namespace {

enum class Way { back, again };

std::string quoted_what(const HouseFile& file, std::int64_t revision) {
  for (const FileChange& change : file.changes())
    if (change.revision == revision) return "Revision " + std::to_string(revision) + " (" + change.what + ")";
  return "Revision " + std::to_string(revision);
}

std::string cannot(Way way, const std::string& what) {
  return what + (way == Way::back ? " cannot be taken back: " : " cannot be made again: ");
}

/// Leads the house over one change. Throws for what is not as it was.
void lead(House& house, const HouseFile& file, std::int64_t revision, Way way) {
  std::vector<RowChange> rows = file.row_changes(revision);
  if (revision <= file.oldest_kept()) throw Error(ErrorKind::not_found, cannot(way, quoted_what(file, revision)) + "what it did is not kept in this file; nothing was changed.");
  if (way == Way::back) rows = turned_round(std::move(rows));
  const House before = house;
  if (const auto wrong = apply_changes(house, rows)) {
    const std::string field = wrong->field.empty() ? "" : ", " + field_name(wrong->field) + ",";
    throw Error(ErrorKind::conflict, cannot(way, quoted_what(file, revision)) + row_name(before, wrong->table, wrong->id) + field +
                                         " is not as it was left then; nothing was changed.");
  }
}

Undone go(HouseFile& file, const std::vector<std::int64_t>& revisions, Way way) {
  std::string list;
  for (const std::int64_t revision : revisions) list += (list.empty() ? "" : ", ") + std::to_string(revision);
  ChangeNote note{.what = std::string(way == Way::back ? "took back" : "made again") + " revision" + (revisions.size() > 1 ? "s " : " ") + list};
  (way == Way::back ? note.undoes : note.redoes) = revisions;
  const std::int64_t revision = file.change(note, [&](House& house) {
    for (const std::int64_t one : revisions) lead(house, file, one, way);
    const auto problems = problems_of(house);
    if (!problems.empty())
      throw Error(ErrorKind::invalid_input, cannot(way, revisions.size() == 1 ? quoted_what(file, revisions[0]) : "Revisions " + list) +
                                                "the house could not be so any more. " + problems.front().message + " Nothing was changed.");
  });
  return {revisions, revision};
}

/// The last `count` of a stack, the last one first.
std::vector<std::int64_t> last_of(const std::vector<std::int64_t>& stack, int count, const std::string& what) {
  if (count < 1) throw Error(ErrorKind::invalid_input, "How many changes is a number from 1 on.");
  if (static_cast<std::size_t>(count) > stack.size())
    throw Error(ErrorKind::not_found, stack.empty() ? "There is nothing " + what + "." : "There are only " + std::to_string(stack.size()) + " changes " + what + "; nothing was changed.");
  return {stack.rbegin(), stack.rbegin() + count};
}

}  // namespace

UndoStacks undo_stacks(const std::vector<FileChange>& changes) {
  UndoStacks stacks;
  const auto move = [](std::int64_t revision, std::vector<std::int64_t>& from, std::vector<std::int64_t>& to) {
    const auto found = std::ranges::find(from.rbegin(), from.rend(), revision);
    if (found == from.rend()) return;
    from.erase(std::next(found).base());
    to.push_back(revision);
  };
  for (const FileChange& change : changes) {
    if (change.revision <= 1) continue;
    for (const std::int64_t revision : change.undoes) move(revision, stacks.done, stacks.undone);
    for (const std::int64_t revision : change.redoes) move(revision, stacks.undone, stacks.done);
    if (!change.undoes.empty() || !change.redoes.empty()) continue;
    stacks.done.push_back(change.revision);
    stacks.undone.clear();
  }
  return stacks;
}

std::set<std::int64_t> taken_back(const std::vector<FileChange>& changes) {
  std::set<std::int64_t> back;
  for (const FileChange& change : changes) {
    back.insert(change.undoes.begin(), change.undoes.end());
    for (const std::int64_t revision : change.redoes) back.erase(revision);
  }
  return back;
}

Undone undo(HouseFile& file, int count) {
  return go(file, last_of(undo_stacks(file.changes()).done, count, "to take back"), Way::back);
}

Undone undo_revision(HouseFile& file, std::int64_t revision) {
  const UndoStacks stacks = undo_stacks(file.changes());
  if (std::ranges::find(stacks.done, revision) == stacks.done.end())
    throw Error(ErrorKind::not_found, "Revision " + std::to_string(revision) + " is no change that stands now; `ohmstead history` lists them.");
  return go(file, {revision}, Way::back);
}

Undone redo(HouseFile& file, int count) {
  return go(file, last_of(undo_stacks(file.changes()).undone, count, "to make again"), Way::again);
}

}  // namespace ohmstead
