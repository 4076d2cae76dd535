#include "db/merge_words.h"

#include <algorithm>

#include "ask/printable.h"
#include "ask/row_names.h"
#include "ask/sentence.h"
#include "db/history_answer.h"
#include "db/row_change.h"

namespace ohmstead {

namespace {

using sentence::capital;

/// Is there a row with this id in a table of this name?
bool has_row(const House& house, const std::string& table, std::uint64_t id) {
  bool found = false;
  for_each_table(house, [&]<class Row>(const std::vector<Row>& rows) {
    found = found || (table == Row::kTable && std::ranges::find(rows, Id<Row>{id}, &Row::id) != rows.end());
  });
  return found;
}

/// "amps 20, old label kitchen" of a row as one house has it; "not there".
std::string row_words(const House& house, const std::string& table, std::uint64_t id) {
  std::string words;
  for_each_table(house, [&]<class Row>(const std::vector<Row>& rows) {
    if (table != Row::kTable) return;
    const auto found = std::ranges::find(rows, Id<Row>{id}, &Row::id);
    if (found == rows.end()) return void(words = "not there");
    words = row_name(house, table, id);
    for (const FieldChange& field : fields_of_row(*found))
      words += ", " + field_name(field.name) + " " + cell_words(house, table, field.name, field.to);
  });
  return words;
}

/// "amps 15, name lamp" of the fields that differ.
std::string cells_words(const House& house, const Conflict& conflict, Cell ThreeCells::*side) {
  std::string words;
  for (const ThreeCells& field : conflict.fields)
    words += (words.empty() ? "" : ", ") + (conflict.kind == ConflictKind::field ? std::string() : field_name(field.name) + " ") +
             cell_words(house, conflict.table, field.name, field.*side);
  return words;
}

std::string plan_words(const House& house) {
  std::string words;
  for (const Planned& planned : house.planned) {
    words += (words.empty() ? "" : ", ") + row_name(house, Breaker::kTable, planned.breaker.value);
    if (planned.position) words += " on " + row_name(house, Position::kTable, planned.position.value);
  }
  return words.empty() ? "no plan" : words;
}

SideBySide together_words(const Merged& merged, const Conflict& conflict) {
  SideBySide words{"What was done here and there cannot be so together. " + conflict.problem, "", "", ""};
  const auto side = [&](const House& own, const House& other) {
    std::string text;
    for (const std::uint64_t id : {conflict.id, conflict.other}) {
      if (id == 0) continue;
      const std::string here = row_words(own, conflict.table, id), there = row_words(other, conflict.table, id);
      if (here != there && here != "not there") text += (text.empty() ? "" : "; and ") + here;
    }
    return text.empty() ? "as it is on this side" : text;
  };
  words.mine = side(merged.mine, merged.theirs), words.theirs = side(merged.theirs, merged.mine);
  const bool only_there = !has_row(merged.mine, conflict.table, conflict.id);
  const bool only_here = !has_row(merged.theirs, conflict.table, conflict.id);
  if (!conflict.problem.starts_with("It names ") || only_there == only_here) return words;
  const std::string name = capital(row_name(only_there ? merged.theirs : merged.mine, conflict.table, conflict.id));
  words.about = name + " is on one side only, and needs what the other side removed.";
  (only_there ? words.mine : words.theirs) = "removed, and this with it";
  (only_there ? words.theirs : words.mine) = "kept, with what it needs";
  return words;
}

}  // namespace

SideBySide side_by_side(const Merged& merged, const Conflict& conflict) {
  const bool here = has_row(merged.mine, conflict.table, conflict.id) || conflict.table == Dwelling::kTable;
  const House& named = here ? merged.mine : merged.theirs;
  const std::string name = capital(row_name(named, conflict.table, conflict.id));
  const std::string before = conflict.has_before ? cells_words(merged.mine, conflict, &ThreeCells::before) : "";
  const std::string mine = cells_words(merged.mine, conflict, &ThreeCells::mine), theirs = cells_words(merged.theirs, conflict, &ThreeCells::theirs);
  switch (conflict.kind) {
    case ConflictKind::field: return {name + ", " + field_name(conflict.fields.at(0).name) + (conflict.has_before ? ": both sides changed it." : ": the two do not agree."), before, mine, theirs};
    case ConflictKind::removed_here: return {name + " was removed here and changed there.", before, "removed", theirs};
    case ConflictKind::removed_there: return {name + " was changed here and removed there.", before, mine, "removed"};
    case ConflictKind::same_place: return {name + " was put there on both sides, and not alike.", "", mine, theirs};
    case ConflictKind::plan: return {"Both sides kept another plan for outages.", "", plan_words(merged.mine), plan_words(merged.theirs)};
    case ConflictKind::together: break;
  }
  return together_words(merged, conflict);
}

std::string brought_words(const House& mine, const House& merged) {
  std::size_t added = 0, removed = 0, changed = 0;
  for (const RowChange& change : row_changes(mine, merged)) {
    added += change.kind == RowChangeKind::added, removed += change.kind == RowChangeKind::removed;
    changed += change.kind == RowChangeKind::changed;
  }
  std::vector<std::string> parts;
  if (added > 0) parts.push_back(sentence::counted(added, "row added", "rows added"));
  if (changed > 0) parts.push_back(std::to_string(changed) + " changed");
  if (removed > 0) parts.push_back(std::to_string(removed) + " removed");
  return parts.empty() ? "nothing came in" : joined(parts);
}

}  // namespace ohmstead
