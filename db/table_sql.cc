#include "db/table_sql.h"

#include <sqlite3.h>

#include <optional>
#include <unordered_map>

#include "house/error.h"

namespace ohmstead {

namespace {

std::string in_quotes(const std::string& name) { return "\"" + name + "\""; }

/// Items joined by ", ".
template <class F>
std::string list(const std::vector<std::string>& names, const F& item) {
  std::string text;
  for (std::size_t i = 0; i < names.size(); ++i) text += (i == 0 ? "" : ", ") + item(names[i]);
  return text;
}

/// Binds all fields of a row, first field to parameter 1.
template <class Row>
void bind_row(SQLite::Statement& statement, const Row& row) {
  int index = 0;
  Row::fields(row, [&](const char* name, const auto& field) {
    const Cell cell = cell_of(field);
    if (const auto* text = std::get_if<std::string>(&cell); text != nullptr && !is_utf8(*text))
      throw Error(ErrorKind::invalid_input,
                  std::string("The ") + name + " of a " + Row::kTable + " is not text in UTF-8; nothing was changed.");
    bind_cell(statement, ++index, cell);
  });
}

/// The statements that change one table, each prepared when first needed.
template <class Row>
class TableWriter {
 public:
  explicit TableWriter(SQLite::Database& db) : db_(db) {}
  void insert(const Row& row) { run(insert_, row, [] { return insert_sql(Row::kTable, column_names<Row>()); }); }
  void update(const Row& row) { run(update_, row, [] { return update_sql(Row::kTable, column_names<Row>()); }); }
  void remove(const Row& row) {
    if (!remove_) remove_.emplace(db_, delete_sql(Row::kTable));
    bind_cell(*remove_, 1, cell_of(row.id));
    remove_->exec();
    remove_->reset();
  }

 private:
  template <class Sql>
  void run(std::optional<SQLite::Statement>& statement, const Row& row, const Sql& sql) {
    if (!statement) statement.emplace(db_, sql());
    bind_row(*statement, row);
    statement->exec();
    statement->reset();
  }
  SQLite::Database& db_;
  std::optional<SQLite::Statement> insert_, update_, remove_;
};

/// New rows go to the end of a table by themselves. Where rows stand in another order than before,
/// everything from the first such place on is taken out and put in again.
template <class Row>
bool write_table(SQLite::Database& db, const std::vector<Row>& before, const std::vector<Row>& after) {
  if (before == after) return false;
  TableWriter<Row> writer(db);
  std::unordered_map<Id<Row>, const Row*> old, kept;
  for (const Row& row : before) old.emplace(row.id, &row);
  for (const Row& row : after) kept.emplace(row.id, &row);
  std::vector<const Row*> remaining;  // old rows that stay, in their order
  for (const Row& row : before) {
    if (kept.contains(row.id)) remaining.push_back(&row);
    else writer.remove(row);
  }
  std::size_t in_place = 0;
  while (in_place < remaining.size() && remaining[in_place]->id == after[in_place].id) ++in_place;
  for (std::size_t i = in_place; i < remaining.size(); ++i) writer.remove(*remaining[i]);
  for (std::size_t i = 0; i < after.size(); ++i) {
    if (i >= in_place) writer.insert(after[i]);
    else if (!(*remaining[i] == after[i])) writer.update(after[i]);
  }
  return true;
}

}  // namespace

std::string select_sql(const std::string& table, const std::vector<std::string>& columns) {
  return "SELECT " + list(columns, in_quotes) + " FROM " + in_quotes(table) + " ORDER BY rowid";
}

std::string insert_sql(const std::string& table, const std::vector<std::string>& columns) {
  return "INSERT INTO " + in_quotes(table) + " (" + list(columns, in_quotes) + ") VALUES (" +
         list(columns, [](const std::string&) { return std::string("?"); }) + ")";
}

std::string update_sql(const std::string& table, const std::vector<std::string>& columns) {
  std::string set;
  for (std::size_t i = 1; i < columns.size(); ++i)
    set += (i == 1 ? "" : ", ") + in_quotes(columns[i]) + " = ?" + std::to_string(i + 1);
  return "UPDATE " + in_quotes(table) + " SET " + set + " WHERE \"id\" = ?1";
}

std::string delete_sql(const std::string& table) { return "DELETE FROM " + in_quotes(table) + " WHERE \"id\" = ?1"; }

RowReader::RowReader(const SQLite::Database& db, const std::string& sql) : db_(db.getHandle()) {
  if (sqlite3_prepare_v2(db_, sql.c_str(), static_cast<int>(sql.size()), &statement_, nullptr) != SQLITE_OK)
    throw SQLite::Exception(db_);
}

RowReader::~RowReader() { sqlite3_finalize(statement_); }

bool RowReader::next() {
  const int result = sqlite3_step(statement_);
  if (result != SQLITE_ROW && result != SQLITE_DONE) throw SQLite::Exception(db_, result);
  return result == SQLITE_ROW;
}

CellView RowReader::column(int index) const {
  switch (sqlite3_column_type(statement_, index)) {
    case SQLITE_NULL: return {};
    case SQLITE_INTEGER: return std::int64_t{sqlite3_column_int64(statement_, index)};
    case SQLITE_TEXT: {
      const auto* text = reinterpret_cast<const char*>(sqlite3_column_text(statement_, index));
      return std::string_view(text == nullptr ? "" : text, static_cast<std::size_t>(sqlite3_column_bytes(statement_, index)));
    }
    default: return false;  // a real number or a blob: no field is one
  }
}

void bind_cell(SQLite::Statement& statement, int index, const Cell& cell) {
  if (const auto* text = std::get_if<std::string>(&cell)) statement.bind(index, *text);
  else if (const auto* number = std::get_if<std::int64_t>(&cell)) statement.bind(index, *number);
  else if (const auto* truth = std::get_if<bool>(&cell)) statement.bind(index, *truth ? 1 : 0);
  else statement.bind(index);
}

void throw_bad_value(const char* table, std::size_t number, const char* field, Complaint complaint) {
  throw Error(ErrorKind::storage, "The house file is damaged: " + std::string(table) + "[" + std::to_string(number) +
                                      "]." + field + " must be " + complaint + ".");
}

House read_house(SQLite::Database& db) {
  House house;
  const auto dwellings = read_table<Dwelling>(db);
  if (dwellings.size() != 1)
    throw Error(ErrorKind::storage, "The house file is damaged: it must have one dwelling and has " +
                                        std::to_string(dwellings.size()) + ".");
  house.dwelling = dwellings.front();
  for_each_table(house, [&]<class Row>(std::vector<Row>& table) { table = read_table<Row>(db); });
  return house;
}

bool write_difference(SQLite::Database& db, const House& before, const House& after) {
  bool changed = false;
  if (before.dwelling != after.dwelling)
    changed = write_table<Dwelling>(db, before.dwelling.id ? std::vector{before.dwelling} : std::vector<Dwelling>{}, {after.dwelling});
  std::vector<const void*> old_tables;
  for_each_table(before, [&](const auto& table) { old_tables.push_back(&table); });
  std::size_t at = 0;
  for_each_table(after, [&]<class Row>(const std::vector<Row>& table) {
    changed |= write_table(db, *static_cast<const std::vector<Row>*>(old_tables[at++]), table);
  });
  return changed;
}

}  // namespace ohmstead
