#include "db/history.h"

#include <SQLiteCpp/SQLiteCpp.h>

#include <sstream>

#include "db/row_change_text.h"
#include "db/sha256.h"
#include "house/error.h"

namespace ohmstead {

namespace {

std::string list_text(const std::vector<std::int64_t>& revisions) {
  std::string text;
  for (const std::int64_t revision : revisions) text += (text.empty() ? "" : " ") + std::to_string(revision);
  return text;
}

std::vector<std::int64_t> list_of_text(const std::string& text) {
  std::istringstream in(text);
  std::vector<std::int64_t> revisions;
  for (std::int64_t revision = 0; in >> revision;) revisions.push_back(revision);
  return revisions;
}

void insert_rows(SQLite::Database& db, const std::string& table, std::int64_t revision, const std::vector<RowChange>& rows,
                 std::int64_t& bytes) {
  if (rows.empty()) return;
  SQLite::Statement insert(db, "INSERT INTO \"" + table + "\" (\"revision\", \"number\", \"table_name\", \"row\", \"text\") VALUES (?, ?, ?, ?, ?)");
  std::int64_t number = 0;
  for (const RowChange& row : rows) {
    const std::string text = text_of_row_change(row);
    insert.bind(1, revision), insert.bind(2, number++), insert.bind(3, row.table);
    insert.bind(4, row.id == 0 ? std::string() : id_text(row.id)), insert.bind(5, text);
    insert.exec();
    insert.reset();
    bytes += static_cast<std::int64_t>(text.size());
  }
}

/// Columns: table, row, text.
RowChange row_of(SQLite::Statement& rows, int first) {
  const std::string row = rows.getColumn(first + 1).getString();
  return row_change_of_text(rows.getColumn(first).getString(), parse_id(row).value_or(0), rows.getColumn(first + 2).getString());
}

std::vector<RowChange> read_rows(SQLite::Database& db, const std::string& table, std::int64_t revision) {
  SQLite::Statement rows(db, "SELECT \"table_name\", \"row\", \"text\" FROM \"" + table + "\" WHERE \"revision\" = ? ORDER BY \"number\"");
  rows.bind(1, revision);
  std::vector<RowChange> changes;
  while (rows.executeStep()) changes.push_back(row_of(rows, 0));
  return changes;
}

/// Lets go of what the oldest changes did, until no more than `keep_bytes` are left.
void drop_oldest(SQLite::Database& db, std::int64_t newest_bytes, std::int64_t keep_bytes) {
  SQLite::Statement oldest(db, "SELECT c.\"revision\", c.\"kept_bytes\" FROM \"change\" c WHERE c.\"revision\" = (SELECT min(\"revision\") FROM \"row_change\")");
  while (oldest.executeStep()) {
    // What the oldest one and all before it had is not there any more once it is dropped.
    SQLite::Statement before(db, "SELECT ifnull(max(\"kept_bytes\"), 0) FROM \"change\" WHERE \"revision\" < ?");
    before.bind(1, oldest.getColumn(0).getInt64());
    if (!before.executeStep() || newest_bytes - before.getColumn(0).getInt64() <= keep_bytes) return;
    const std::int64_t gone = oldest.getColumn(0).getInt64();
    oldest.reset();
    for (const char* table : {"row_change", "merged_row"}) {
      SQLite::Statement drop(db, std::string("DELETE FROM \"") + table + "\" WHERE \"revision\" <= ?");
      drop.bind(1, gone);
      drop.exec();
    }
  }
}

}  // namespace

std::int64_t read_revision(SQLite::Database& db) {
  return db.execAndGet("SELECT ifnull(max(\"revision\"), 0) FROM \"change\"").getInt64();
}

std::vector<FileChange> read_changes(SQLite::Database& db) {
  std::vector<FileChange> changes;
  std::string before;
  SQLite::Statement rows(db, "SELECT \"revision\", \"at\", \"what\", \"who\", \"mark\", \"undoes\", \"redoes\" FROM \"change\" ORDER BY \"revision\"");
  while (rows.executeStep()) {
    FileChange change{rows.getColumn(0).getInt64(), rows.getColumn(1).getString(), rows.getColumn(2).getString(), rows.getColumn(3).getString(),
                      rows.getColumn(4).getString(), list_of_text(rows.getColumn(5).getString()), list_of_text(rows.getColumn(6).getString())};
    if (change.mark.empty()) change.mark = before = sha256_text(before + "\n" + change.at + "\n" + change.what);
    changes.push_back(std::move(change));
  }
  return changes;
}

void write_change(SQLite::Database& db, const FileChange& change, const std::vector<RowChange>& rows, std::int64_t keep_bytes) {
  std::int64_t bytes = db.execAndGet("SELECT ifnull((SELECT \"kept_bytes\" FROM \"change\" ORDER BY \"revision\" DESC LIMIT 1), 0)").getInt64();
  insert_rows(db, "row_change", change.revision, rows, bytes);
  SQLite::Statement insert(db, "INSERT INTO \"change\" (\"revision\", \"at\", \"what\", \"who\", \"mark\", \"undoes\", \"redoes\", \"kept_bytes\", \"indexed\") VALUES (?, ?, ?, ?, ?, ?, ?, ?, 1)");  // search.h keeps it true
  insert.bind(1, change.revision), insert.bind(2, change.at), insert.bind(3, change.what), insert.bind(4, change.who);
  insert.bind(5, change.mark), insert.bind(6, list_text(change.undoes)), insert.bind(7, list_text(change.redoes)), insert.bind(8, bytes);
  insert.exec();
  drop_oldest(db, bytes, keep_bytes);
}

std::vector<RowChange> read_row_changes(SQLite::Database& db, std::int64_t revision) { return read_rows(db, "row_change", revision); }

std::vector<RowsOfChange> read_rows_naming(SQLite::Database& db, std::uint64_t id) {
  SQLite::Statement rows(db, std::string("SELECT \"revision\", \"table_name\", \"row\", \"text\" FROM \"row_change\"") +
                                 (id == 0 ? "" : " WHERE \"row\" = ?1 OR instr(\"text\", ?1)") + " ORDER BY \"revision\" DESC, \"number\"");
  if (id != 0) rows.bind(1, id_text(id));
  std::vector<RowsOfChange> found;
  while (rows.executeStep()) {
    const std::int64_t revision = rows.getColumn(0).getInt64();
    if (found.empty() || found.back().revision != revision) found.push_back({revision, {}});
    found.back().rows.push_back(row_of(rows, 1));
  }
  return found;
}

std::int64_t oldest_kept(SQLite::Database& db) {
  // Behind the newest change of which it is not known what it did: the first, one of before version 5, one whose texts were dropped. One that did
  // nothing to any row is none of these: it took no bytes, or what came with it is there.
  return db
      .execAndGet(
          "SELECT ifnull(max(c.\"revision\"), 0) FROM \"change\" c WHERE c.\"revision\" < ifnull((SELECT min(\"revision\") FROM \"row_change\"), c.\"revision\" + 1)"
          " AND (c.\"revision\" = 1 OR c.\"mark\" = '' OR (NOT EXISTS (SELECT 1 FROM \"merged_row\" m WHERE m.\"revision\" = c.\"revision\")"
          " AND c.\"kept_bytes\" > (SELECT b.\"kept_bytes\" FROM \"change\" b WHERE b.\"revision\" = c.\"revision\" - 1)))")
      .getInt64();
}

void write_merged(SQLite::Database& db, const MergedIn& merged, const std::vector<RowChange>& to_theirs) {
  std::int64_t number = 0, bytes = 0;
  for (const std::string& mark : merged.marks) {
    SQLite::Statement insert(db, "INSERT INTO \"merged_mark\" (\"revision\", \"number\", \"mark\") VALUES (?, ?, ?)");
    insert.bind(1, merged.revision), insert.bind(2, number++), insert.bind(3, mark);
    insert.exec();
  }
  insert_rows(db, "merged_row", merged.revision, to_theirs, bytes);
  SQLite::Statement count(db, "UPDATE \"change\" SET \"kept_bytes\" = \"kept_bytes\" + ? WHERE \"revision\" = ?");
  count.bind(1, bytes), count.bind(2, merged.revision);
  count.exec();
}

std::vector<MergedIn> read_merged(SQLite::Database& db) {
  std::vector<MergedIn> merged;
  SQLite::Statement rows(db, "SELECT \"revision\", \"mark\" FROM \"merged_mark\" ORDER BY \"revision\", \"number\"");
  while (rows.executeStep()) {
    if (merged.empty() || merged.back().revision != rows.getColumn(0).getInt64()) merged.push_back({rows.getColumn(0).getInt64(), {}});
    merged.back().marks.push_back(rows.getColumn(1).getString());
  }
  return merged;
}

std::vector<RowChange> read_merged_rows(SQLite::Database& db, std::int64_t revision) { return read_rows(db, "merged_row", revision); }

}  // namespace ohmstead
