#pragma once
// Reading and writing the tables of a house file, row by row, for any row type. Nothing here knows
// a table by name: names come from each row's `kTable` and `fields`.

#include <SQLiteCpp/SQLiteCpp.h>

#include <filesystem>
#include <string>
#include <vector>

#include "db/cell.h"
#include "house/house.h"

struct sqlite3_stmt;

namespace ohmstead {

/// Names of the columns of a row type, in the order of its fields; the first is "id".
template <class Row>
[[nodiscard]] std::vector<std::string> column_names() {
  std::vector<std::string> names;
  const Row none{};
  Row::fields(none, [&](const char* name, const auto&) { names.emplace_back(name); });
  return names;
}

/// Statements on one table. Every name is quoted: some are words of SQL.
[[nodiscard]] std::string select_sql(const std::string& table, const std::vector<std::string>& columns);
[[nodiscard]] std::string insert_sql(const std::string& table, const std::vector<std::string>& columns);
[[nodiscard]] std::string update_sql(const std::string& table, const std::vector<std::string>& columns);
[[nodiscard]] std::string delete_sql(const std::string& table);

/// Reads the rows of one query. A whole house is read for every answer, and the library's own
/// statement costs a shared pointer for each cell.
class RowReader {
 public:
  /// Throws SQLite::Exception.
  RowReader(const SQLite::Database& db, const std::string& sql);
  ~RowReader();
  RowReader(const RowReader&) = delete;
  RowReader& operator=(const RowReader&) = delete;
  /// Goes to the next row; false at the end. Throws SQLite::Exception.
  [[nodiscard]] bool next();
  /// Value of a column of this row. The text is valid until the next one.
  [[nodiscard]] CellView column(int index) const;

 private:
  sqlite3* db_;
  sqlite3_stmt* statement_ = nullptr;
};

void bind_cell(SQLite::Statement& statement, int index, const Cell& cell);
/// Throws Error{storage} for a value in `table`, row `number` (from 0), that cannot be one.
[[noreturn]] void throw_bad_value(const char* table, std::size_t number, const char* field, Complaint complaint);

/// Every row of the table, in the order of entry.
template <class Row>
[[nodiscard]] std::vector<Row> read_table(SQLite::Database& db) {
  RowReader reader(db, select_sql(Row::kTable, column_names<Row>()));
  std::vector<Row> rows;
  while (reader.next()) {
    Row& row = rows.emplace_back();
    int index = 0;
    Row::fields(row, [&](const char* name, auto& field) {
      if (const Complaint complaint = read_cell(reader.column(index++), field))
        throw_bad_value(Row::kTable, rows.size() - 1, name, complaint);
    });
  }
  return rows;
}

/// The whole house as the file has it, unchecked beyond its single values. Throws Error{storage}
/// for a value that cannot be one, SQLite::Exception for the rest.
[[nodiscard]] House read_house(SQLite::Database& db);

/// Writes what differs between `before` (as the file has it) and `after`; true if anything did.
/// Must be inside a transaction. A text that is not UTF-8 throws Error{invalid_input}.
bool write_difference(SQLite::Database& db, const House& before, const House& after);

}  // namespace ohmstead
