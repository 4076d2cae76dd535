#include "db/history_answer.h"

#include <algorithm>
#include <map>
#include <set>

#include "ask/row_names.h"
#include "db/undo.h"

namespace ohmstead {

namespace {

/// Is this field a word of an enumeration? Those are written with _ between words.
bool is_word(const std::string& table, const std::string& field) {
  bool found = false;
  const auto look = [&]<class Row>(const Row& none) {
    Row::fields(none, [&]<class T>(const char* name, const T&) { found = found || (field == name && std::is_enum_v<T>); });
  };
  if (table == Dwelling::kTable) look(Dwelling{});
  const House none;
  for_each_table(none, [&]<class Row>(const std::vector<Row>&) {
    if (table == Row::kTable) look(Row{});
  });
  return found;
}

HistoryItem item_of(const House& house, const RowChange& change) {
  const std::string thing = change.kind == RowChangeKind::reordered ? "rows of " + field_name(change.table) : row_name(house, change.table, change.id);
  HistoryItem item{static_cast<HistoryItemKind>(change.kind), change.table, change.id == 0 ? "" : id_text(change.id), thing, {}};
  for (const FieldChange& field : change.fields)
    item.fields.push_back({field_name(field.name), change.kind == RowChangeKind::added ? "" : cell_words(house, change.table, field.name, field.from),
                           change.kind == RowChangeKind::removed ? "" : cell_words(house, change.table, field.name, field.to)});
  return item;
}

}  // namespace

std::string cell_words(const House& house, const std::string& table, const std::string& field, const Cell& cell) {
  if (std::holds_alternative<std::monostate>(cell)) return "none";
  if (const auto* truth = std::get_if<bool>(&cell)) return *truth ? "yes" : "no";
  if (const auto* number = std::get_if<std::int64_t>(&cell)) return std::to_string(*number);
  const std::string& text = std::get<std::string>(cell);
  if (text.empty()) return "nothing";
  return is_word(table, field) ? field_name(text) : value_name(house, text);
}

House with_all_that_is_gone(House house, const std::vector<RowsOfChange>& history) {
  for (const RowsOfChange& change : history)
    for (const RowChange& row : change.rows)
      if (row.kind == RowChangeKind::removed) (void)apply_changes(house, turned_round({row}));  // one that is there already stays
  return house;
}

HistoryAnswer history_of(const HouseFile& file, const std::optional<ThingRef>& thing, std::size_t most) {
  const std::vector<RowsOfChange> all = file.rows_naming(0);
  const House house = with_all_that_is_gone(file.load(), all);
  const std::vector<FileChange> changes = file.changes();
  const std::set<std::int64_t> undone = taken_back(changes);
  const std::int64_t oldest = file.oldest_kept();
  std::map<std::int64_t, const RowsOfChange*> of_revision;
  const bool whole = !thing || thing->kind == ThingKind::house;
  const std::vector<RowsOfChange> some = whole ? std::vector<RowsOfChange>() : file.rows_naming(thing->id);
  for (const RowsOfChange& change : whole ? all : some) of_revision.emplace(change.revision, &change);
  HistoryAnswer answer;
  if (!whole) answer.thing = row_name(house, std::string(text_of(thing->kind)), thing->id);
  for (auto change = changes.rbegin(); change != changes.rend(); ++change) {
    const auto rows = of_revision.find(change->revision);
    if (!whole && rows == of_revision.end()) continue;
    if (answer.entries.size() == most) {
      ++answer.older;
      continue;
    }
    HistoryEntry entry{change->revision, change->at, change->who, change->what, undone.contains(change->revision), change->revision > oldest, {}};
    if (rows != of_revision.end())
      for (const RowChange& row : rows->second->rows) entry.items.push_back(item_of(house, row));
    answer.entries.push_back(std::move(entry));
  }
  return answer;
}

}  // namespace ohmstead
