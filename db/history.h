#pragma once
// The tables in which a house file keeps its history: every change with who, when, and what it did to which rows. Reading the
// house never looks at them. A history that grows long loses what its oldest changes did, never the list of them.

#include <cstdint>
#include <string>
#include <vector>

#include "db/row_change.h"

namespace SQLite {
class Database;
}

namespace ohmstead {

/// Bytes of row changes that a file keeps: about 100,000 answers of a tracing session. What older changes did is dropped.
inline constexpr std::int64_t kKeptHistoryBytes = 32'000'000;
/// Longest mark of a change that is read.
inline constexpr std::size_t kLongestMark = 64;

/// One line of the file's list of changes.
struct FileChange {
  std::int64_t revision = 0;
  std::string at;    ///< UTC
  std::string what;  ///< what was done
  std::string who;   ///< may be empty
  std::string mark;  ///< the same in every copy of the file, and no other change's
  std::vector<std::int64_t> undoes, redoes;  ///< changes that it took back, or made again, in this order
};

/// What came in with a merge.
struct MergedIn {
  std::int64_t revision = 0;       ///< the change that brought it
  std::vector<std::string> marks;  ///< changes that came with it, the last one of the other file first
};

// All throw SQLite::Exception; what reads texts throws Error{storage} for a damaged history.

[[nodiscard]] std::int64_t read_revision(SQLite::Database& db);
/// Oldest first. Changes of before version 5 get a mark that follows from all before them.
[[nodiscard]] std::vector<FileChange> read_changes(SQLite::Database& db);
/// Writes the change and its rows, and drops the rows of the oldest changes where there are more than `keep_bytes` of them.
void write_change(SQLite::Database& db, const FileChange& change, const std::vector<RowChange>& rows, std::int64_t keep_bytes);
/// What a change did; empty where that is not kept.
[[nodiscard]] std::vector<RowChange> read_row_changes(SQLite::Database& db, std::int64_t revision);
/// The same of the changes that name this id somewhere, newest first, with their revisions; 0: of all.
struct RowsOfChange {
  std::int64_t revision = 0;
  std::vector<RowChange> rows;
};
[[nodiscard]] std::vector<RowsOfChange> read_rows_naming(SQLite::Database& db, std::uint64_t id);
/// The oldest revision that the house can be led back to.
[[nodiscard]] std::int64_t oldest_kept(SQLite::Database& db);

/// `to_theirs`: what leads from the house after the merge to the house that was merged in.
void write_merged(SQLite::Database& db, const MergedIn& merged, const std::vector<RowChange>& to_theirs);
[[nodiscard]] std::vector<MergedIn> read_merged(SQLite::Database& db);
[[nodiscard]] std::vector<RowChange> read_merged_rows(SQLite::Database& db, std::int64_t revision);

}  // namespace ohmstead
