#pragma once
// What a change did to the rows of a house, as plain values: made from the house before and after it, and applied to a house
// forwards or, turned round, backwards. With the places of rows, so that a house comes back in its own order. What was printed
// is no part of it.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "db/cell.h"
#include "house/house.h"

namespace ohmstead {

/// One field of a row, by its name in the file. Of an added row `from` is null, of a removed one `to`.
struct FieldChange {
  std::string name;
  Cell from, to;
  bool operator==(const FieldChange&) const = default;
};

enum class RowChangeKind { added, removed, changed, reordered };
OHMSTEAD_WORDS(RowChangeKind, "added", "removed", "changed", "reordered")

struct RowChange {
  RowChangeKind kind = RowChangeKind::changed;
  std::string table;
  std::uint64_t id = 0;             ///< of the row; 0 with reordered
  std::size_t place = 0;            ///< added: where it stands after the change; removed: where it stood before
  std::vector<FieldChange> fields;  ///< changed: those that differ; added, removed: those that are not as usual
  std::vector<std::size_t> order;   ///< reordered: for each row that was there before and after, its place among these before
  bool operator==(const RowChange&) const = default;
};

/// Every row that differs, in the order of the tables. Nothing of what was printed.
[[nodiscard]] std::vector<RowChange> row_changes(const House& before, const House& after);

/// The same change turned round.
[[nodiscard]] std::vector<RowChange> turned_round(std::vector<RowChange> changes);

/// What kept a change from being applied: the row, or the field, is not as it was before the change.
struct NotAsBefore {
  std::string table;
  std::uint64_t id = 0;
  std::string field;  ///< empty: the row as a whole is missing, or there already, or is no such thing
};

/// Does to `house` what the change did to another. If something that it changed is not as it was before it, that comes back and
/// `house` is spoiled. A house that has other rows besides keeps them. The result may be unsound.
[[nodiscard]] std::optional<NotAsBefore> apply_changes(House& house, const std::vector<RowChange>& changes);

/// The rows of one kind as texts: all fields of the row that differ from the usual, by name.
template <class Row>
[[nodiscard]] std::vector<FieldChange> fields_of_row(const Row& row) {
  std::vector<FieldChange> fields;
  std::vector<Cell> usual;
  const Row none{};
  Row::fields(none, [&](const char*, const auto& field) { usual.push_back(cell_of(field)); });
  std::size_t at = 0;
  Row::fields(row, [&](const char* name, const auto& field) {
    Cell cell = cell_of(field);
    if (at != 0 && cell != usual[at]) fields.push_back({name, {}, std::move(cell)});
    ++at;
  });
  return fields;
}

/// A cell as something that was read.
[[nodiscard]] CellView view_of(const Cell& cell);

}  // namespace ohmstead
