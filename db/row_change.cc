#include "db/row_change.h"

#include <algorithm>
#include <unordered_map>
#include <unordered_set>

namespace ohmstead {

namespace {

template <class Row>
using Places = std::unordered_map<Id<Row>, std::size_t>;

template <class Row>
RowChange whole_row(RowChangeKind kind, const Row& row, std::size_t place) {
  RowChange change{kind, Row::kTable, row.id.value, place, fields_of_row(row), {}};
  if (kind == RowChangeKind::removed)
    for (FieldChange& field : change.fields) std::swap(field.from, field.to);
  return change;
}

template <class Row>
RowChange changed_row(const Row& before, const Row& after) {
  RowChange change{RowChangeKind::changed, Row::kTable, after.id.value, 0, {}, {}};
  std::vector<Cell> old;
  Row::fields(before, [&](const char*, const auto& field) { old.push_back(cell_of(field)); });
  std::size_t at = 0;
  Row::fields(after, [&](const char* name, const auto& field) {
    Cell cell = cell_of(field);
    if (cell != old[at]) change.fields.push_back({name, std::move(old[at]), std::move(cell)});
    ++at;
  });
  return change;
}

/// Rows are looked at only between the first and the last that differ: a table mostly grows at its end.
template <class Row>
void compare_tables(const std::vector<Row>& before, const std::vector<Row>& after, std::vector<RowChange>& changes) {
  const auto least = std::min(before.size(), after.size());
  std::size_t first = 0, same_at_end = 0;
  while (first < least && before[first] == after[first]) ++first;
  while (same_at_end < least - first && before[before.size() - 1 - same_at_end] == after[after.size() - 1 - same_at_end]) ++same_at_end;
  Places<Row> was, is;
  for (std::size_t i = first; i < before.size() - same_at_end; ++i) was.emplace(before[i].id, i);
  for (std::size_t i = first; i < after.size() - same_at_end; ++i) is.emplace(after[i].id, i);
  Places<Row> rank;  // of the rows that stay, among those before
  for (std::size_t i = 0; i < before.size(); ++i) {
    const bool between = i >= first && i < before.size() - same_at_end;
    if (between && !is.contains(before[i].id)) changes.push_back(whole_row(RowChangeKind::removed, before[i], i));
    else if (between) rank.emplace(before[i].id, first + rank.size());
  }
  std::vector<std::size_t> order;
  for (std::size_t i = first; i < after.size() - same_at_end; ++i)
    if (const auto found = rank.find(after[i].id); found != rank.end()) order.push_back(found->second);
  if (!std::ranges::is_sorted(order)) {
    std::vector<std::size_t> whole(first + order.size() + same_at_end);
    for (std::size_t i = 0; i < whole.size(); ++i) whole[i] = i;
    std::ranges::copy(order, whole.begin() + static_cast<std::ptrdiff_t>(first));
    changes.push_back({RowChangeKind::reordered, Row::kTable, 0, 0, {}, std::move(whole)});
  }
  for (std::size_t i = first; i < after.size() - same_at_end; ++i) {
    const auto old = was.find(after[i].id);
    if (old == was.end()) changes.push_back(whole_row(RowChangeKind::added, after[i], i));
    else if (!(before[old->second] == after[i])) changes.push_back(changed_row(before[old->second], after[i]));
  }
}

/// Sets a field by its name; false if there is none of this name or the value cannot be one.
template <class Row>
bool set_field(Row& row, const FieldChange& change, const Cell& value) {
  bool done = false;
  Row::fields(row, [&](const char* name, auto& field) {
    if (change.name == name) done = read_cell(view_of(value), field) == nullptr;
  });
  return done;
}

template <class Row>
Cell field_of(const Row& row, const std::string& wanted) {
  Cell cell = std::string("\x01");  // what no field holds
  Row::fields(row, [&](const char* name, const auto& field) {
    if (wanted == name) cell = cell_of(field);
  });
  return cell;
}

/// The changes of one table, applied to it.
template <class Row>
class TableChanger {
 public:
  explicit TableChanger(std::vector<Row>& table) : table_(table) {}

  std::optional<NotAsBefore> apply(const std::vector<const RowChange*>& changes) {
    few_ = changes.size() <= kFew;
    index();
    for (const RowChange* change : changes)
      if (change->kind == RowChangeKind::removed && !remove(*change)) return wrong_;
    if (!gone_.empty()) std::erase_if(table_, [&](const Row& row) { return gone_.contains(row.id); });
    for (const RowChange* change : changes)
      if (change->kind == RowChangeKind::reordered && !reorder(change->order)) return NotAsBefore{Row::kTable, 0, ""};
    index();
    std::vector<const RowChange*> added;
    for (const RowChange* change : changes) {
      if (change->kind == RowChangeKind::changed && !edit(*change)) return wrong_;
      if (change->kind == RowChangeKind::added) added.push_back(change);
    }
    std::ranges::stable_sort(added, {}, &RowChange::place);
    for (const RowChange* change : added)
      if (!add(*change)) return wrong_;
    insert_new();
    return std::nullopt;
  }

 private:
  static constexpr std::size_t kFew = 16;  ///< so few rows are looked for one by one, from the end

  bool refuse(const RowChange& change, const std::string& field = "") {
    wrong_ = NotAsBefore{Row::kTable, change.id, field};
    return false;
  }

  void index() {
    at_.clear();
    for (std::size_t i = 0; i < table_.size() && !few_; ++i) at_.emplace(table_[i].id, i);
  }

  /// Place of a row, or the size of the table.
  std::size_t find(std::uint64_t id) const {
    if (few_) {
      std::size_t at = table_.size();
      while (at > 0 && table_[at - 1].id.value != id) --at;
      return at == 0 ? table_.size() : at - 1;
    }
    const auto found = at_.find(Id<Row>{id});
    return found == at_.end() ? table_.size() : found->second;
  }

  bool remove(const RowChange& change) {
    const std::size_t place = find(change.id);
    if (place == table_.size()) return refuse(change);
    const Row& row = table_[place];
    std::vector<FieldChange> now = fields_of_row(row);
    for (FieldChange& field : now) std::swap(field.from, field.to);
    if (now != change.fields) return refuse(change, first_difference(row, change));
    if (few_) table_.erase(table_.begin() + static_cast<std::ptrdiff_t>(place));
    else gone_.insert(row.id);
    return true;
  }

  std::string first_difference(const Row& row, const RowChange& change) const {
    Row usual{};
    usual.id = row.id;
    for (const FieldChange& old : change.fields) set_field(usual, old, old.from);
    const RowChange differs = changed_row(usual, row);
    return differs.fields.empty() ? "" : differs.fields.front().name;
  }

  bool reorder(const std::vector<std::size_t>& order) {
    std::vector<bool> seen(order.size());
    if (order.size() != table_.size()) return false;
    std::vector<Row> rows;
    rows.reserve(order.size());
    for (const std::size_t place : order) {
      if (place >= order.size() || seen[place]) return false;
      seen[place] = true;
      rows.push_back(table_[place]);
    }
    table_ = std::move(rows);
    return true;
  }

  bool edit(const RowChange& change) {
    const std::size_t place = find(change.id);
    if (place == table_.size()) return refuse(change);
    Row& row = table_[place];
    for (const FieldChange& field : change.fields)
      if (field_of(row, field.name) != field.from || !set_field(row, field, field.to)) return refuse(change, field.name);
    return true;
  }

  bool add(const RowChange& change) {
    Row row{};
    row.id = Id<Row>{change.id};
    if (change.id == 0 || find(change.id) != table_.size() || !fresh_.insert(row.id).second) return refuse(change);
    for (const FieldChange& field : change.fields)
      if (field.name == "id" || !set_field(row, field, field.to)) return refuse(change, field.name);
    new_.emplace_back(change.place, std::move(row));
    return true;
  }

  /// Each at its place, counted with the new ones before it; at the end where the table is shorter by now.
  void insert_new() {
    if (new_.size() <= kFew) {
      for (auto& [place, row] : new_)
        table_.insert(table_.begin() + static_cast<std::ptrdiff_t>(std::min(place, table_.size())), std::move(row));
      return;
    }
    std::vector<Row> rows;
    rows.reserve(table_.size() + new_.size());
    auto old = table_.begin();
    for (auto& [place, row] : new_) {
      while (rows.size() < place && old != table_.end()) rows.push_back(std::move(*old++));
      rows.push_back(std::move(row));
    }
    rows.insert(rows.end(), std::make_move_iterator(old), std::make_move_iterator(table_.end()));
    table_ = std::move(rows);
  }

  std::vector<Row>& table_;
  Places<Row> at_;
  bool few_ = false;
  std::unordered_set<Id<Row>> gone_, fresh_;
  std::vector<std::pair<std::size_t, Row>> new_;
  NotAsBefore wrong_;
};

using ByTable = std::unordered_map<std::string, std::vector<const RowChange*>>;

template <class Row>
std::optional<NotAsBefore> apply_to(std::vector<Row>& table, ByTable& by_table) {
  const auto found = by_table.find(Row::kTable);
  if (found == by_table.end()) return std::nullopt;
  const auto changes = std::move(found->second);
  by_table.erase(found);
  return TableChanger<Row>(table).apply(changes);
}

}  // namespace

CellView view_of(const Cell& cell) {
  if (const auto* text = std::get_if<std::string>(&cell)) return std::string_view(*text);
  if (const auto* number = std::get_if<std::int64_t>(&cell)) return *number;
  if (const auto* truth = std::get_if<bool>(&cell)) return *truth;
  return {};
}

std::vector<RowChange> row_changes(const House& before, const House& after) {
  std::vector<RowChange> changes;
  if (before.dwelling != after.dwelling)
    compare_tables(std::vector{before.dwelling}, std::vector{after.dwelling}, changes);
  std::vector<const void*> old_tables;
  for_each_table(before, [&](const auto& table) { old_tables.push_back(&table); });
  std::size_t at = 0;
  for_each_table(after, [&]<class Row>(const std::vector<Row>& table) {
    const auto& old = *static_cast<const std::vector<Row>*>(old_tables[at++]);
    if constexpr (!std::is_same_v<Row, Printed>) compare_tables(old, table, changes);
  });
  return changes;
}

std::vector<RowChange> turned_round(std::vector<RowChange> changes) {
  for (RowChange& change : changes) {
    if (change.kind == RowChangeKind::added) change.kind = RowChangeKind::removed;
    else if (change.kind == RowChangeKind::removed) change.kind = RowChangeKind::added;
    for (FieldChange& field : change.fields) std::swap(field.from, field.to);
    std::vector<std::size_t> back(change.order.size());
    for (std::size_t i = 0; i < back.size(); ++i)
      if (change.order[i] < back.size()) back[change.order[i]] = i;
    change.order = std::move(back);
  }
  return changes;
}

std::optional<NotAsBefore> apply_changes(House& house, const std::vector<RowChange>& changes) {
  ByTable by_table;
  for (const RowChange& change : changes) by_table[change.table].push_back(&change);
  std::vector<Dwelling> dwellings{house.dwelling};
  std::optional<NotAsBefore> wrong = apply_to(dwellings, by_table);
  if (!wrong && dwellings.size() != 1) wrong = NotAsBefore{Dwelling::kTable, house.dwelling.id.value, ""};
  if (!wrong) house.dwelling = dwellings.front();
  for_each_table(house, [&]<class Row>(std::vector<Row>& table) {
    if constexpr (!std::is_same_v<Row, Printed>)
      if (!wrong) wrong = apply_to(table, by_table);
  });
  if (!wrong && !by_table.empty()) wrong = NotAsBefore{by_table.begin()->first, 0, ""};
  return wrong;
}

}  // namespace ohmstead
