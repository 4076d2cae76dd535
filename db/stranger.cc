#include "db/stranger.h"

#include <SQLiteCpp/Backup.h>
#include <SQLiteCpp/SQLiteCpp.h>
#include <sqlite3.h>
#include <stdlib.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <fstream>
#include <set>
#include <string>
#include <vector>

#include "db/connection.h"
#include "db/migrate.h"
#include "db/storage_error.h"
#include "db/table_sql.h"
#include "db/undo.h"
#include "house/invariants.h"

namespace ohmstead {

namespace fs = std::filesystem;
using Clock = std::chrono::steady_clock;

namespace {

constexpr std::chrono::seconds kLongestTime{20};

[[noreturn]] void refuse(const fs::path& path, const std::string& what) {
  throw Error(ErrorKind::storage, quoted(path) + " " + what);
}

/// A folder that only we can enter, with a copy of the file in it; gone when this is.
class PrivateCopy {
 public:
  explicit PrivateCopy(const fs::path& original) {
    std::string name = (fs::temp_directory_path() / "ohmstead-XXXXXX").string();
    if (::mkdtemp(name.data()) == nullptr) refuse(original, "cannot be read: there is no room for a copy in " + quoted(fs::temp_directory_path()) + ".");
    folder_ = name;
    std::error_code failed;
    fs::copy_file(original, file(), failed);
    if (failed) {
      fs::remove_all(folder_, failed);
      refuse(original, "cannot be read. Look at its rights, and at the room on the disk.");
    }
  }
  PrivateCopy(const PrivateCopy&) = delete;
  PrivateCopy& operator=(const PrivateCopy&) = delete;
  ~PrivateCopy() {
    std::error_code ignored;
    fs::remove_all(folder_, ignored);
  }
  [[nodiscard]] fs::path file() const { return folder_ / "stranger.house"; }

 private:
  fs::path folder_;
};

/// Application id and version from the first 100 bytes, before SQLite has seen the file
/// (sqlite.org/fileformat2.html, 1.3: user version at 60, application id at 68, big-endian).
void require_our_header(const fs::path& copy, const fs::path& original) {
  std::array<char, 100> header = {};
  std::ifstream in(copy, std::ios::binary);
  if (!in.read(header.data(), header.size()) || std::string_view(header.data(), 16) != std::string_view("SQLite format 3\0", 16))
    refuse(original, "is not a house file.");
  const auto number = [&](std::size_t at) {
    std::uint32_t value = 0;
    for (std::size_t i = 0; i < 4; ++i) value = value << 8 | static_cast<unsigned char>(header[at + i]);
    return static_cast<std::int32_t>(value);
  };
  if (number(68) != kApplicationId) refuse(original, "is a database of another program, not a house file.");
  if (number(60) < 1) refuse(original, "is not a house file: it has no version.");
  refuse_newer(number(60), newest_version());
}

int past_deadline(void* deadline) { return Clock::now() > *static_cast<const Clock::time_point*>(deadline) ? 1 : 0; }

/// Everything off that a hostile file could use, and tight limits (sqlite.org/security.html).
void harden(sqlite3* db, Clock::time_point& deadline) {
  const std::pair<int, int> switches[] = {
      {SQLITE_DBCONFIG_DEFENSIVE, 1},   {SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0}, {SQLITE_DBCONFIG_ENABLE_TRIGGER, 0},
      {SQLITE_DBCONFIG_ENABLE_VIEW, 0}, {SQLITE_DBCONFIG_DQS_DML, 0},        {SQLITE_DBCONFIG_DQS_DDL, 0},
      {SQLITE_DBCONFIG_ENABLE_LOAD_EXTENSION, 0}};
  for (const auto& [what, value] : switches) {
    int now = -1;
    if (sqlite3_db_config(db, what, value, &now) != SQLITE_OK || now != value)
      throw Error(ErrorKind::storage, "A file from somebody else is not opened: SQLite refuses a safe setting.");
  }
  const std::pair<int, int> limits[] = {
      {SQLITE_LIMIT_LENGTH, 1'000'000}, {SQLITE_LIMIT_SQL_LENGTH, 100'000}, {SQLITE_LIMIT_COLUMN, 100},
      {SQLITE_LIMIT_EXPR_DEPTH, 20},    {SQLITE_LIMIT_VDBE_OP, 25'000},     {SQLITE_LIMIT_ATTACHED, 0},
      {SQLITE_LIMIT_TRIGGER_DEPTH, 10}, {SQLITE_LIMIT_COMPOUND_SELECT, 10}};
  for (const auto& [what, value] : limits) sqlite3_limit(db, what, value);
  sqlite3_progress_handler(db, 1000, past_deadline, &deadline);
}

/// Everything in the schema: kind, name, table and the text that made it.
std::vector<std::string> schema_of(SQLite::Database& db) {
  std::vector<std::string> schema;
  SQLite::Statement items(db, "SELECT type || ' ' || name || ' ' || tbl_name || ' ' || ifnull(sql, '') FROM sqlite_schema");
  while (items.executeStep()) schema.push_back(items.getColumn(0).getString());
  std::ranges::sort(schema);
  return schema;
}

/// The file's schema must be, word for word, what our own steps make up to its version.
void require_our_schema(SQLite::Database& db, const fs::path& original) {
  SQLite::Database ours(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  migrate(ours, schema_steps().first(static_cast<std::size_t>(version_of(db))));
  if (schema_of(db) != schema_of(ours))
    refuse(original, "is not read: it holds a table, index, view or trigger that is not one of ours, or lacks one.");
}

void require_whole(SQLite::Database& db, const fs::path& original) {
  SQLite::Statement pages(db, "PRAGMA quick_check(1)");
  if (!pages.executeStep() || pages.getColumn(0).getString() != "ok") refuse(original, "is damaged.");
  SQLite::Statement keys(db, "PRAGMA foreign_key_check");
  if (keys.executeStep()) refuse(original, "is damaged: a row names another that is not there.");
}

/// Of every change that stands, newest first, and of what came with merges.
std::vector<std::string> marks_of(SQLite::Database& db) {
  const std::vector<FileChange> changes = read_changes(db);
  const std::set<std::int64_t> back = taken_back(changes);
  std::vector<std::string> marks;
  for (auto change = changes.rbegin(); change != changes.rend(); ++change) marks.push_back(change->mark);
  for (const MergedIn& merged : read_merged(db))
    if (!back.contains(merged.revision)) marks.insert(marks.end(), merged.marks.begin(), merged.marks.end());
  std::erase_if(marks, [](const std::string& mark) { return mark.empty() || mark.size() > kLongestMark || !is_utf8(mark); });
  return marks;
}

/// Rows of an older version are read from a copy in memory that was brought up to date.
OtherCopy read_current(SQLite::Database& db, bool with_marks) {
  const auto read = [&](SQLite::Database& from) { return OtherCopy{read_house(from), with_marks ? marks_of(from) : std::vector<std::string>()}; };
  if (version_of(db) == newest_version()) return read(db);
  SQLite::Database copy(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  SQLite::Backup(copy, db).executeStep(-1);
  migrate(copy, schema_steps());
  return read(copy);
}

/// Those of a sound house, which are not too many. Files of an older version have none.
Pictures read_current_pictures(SQLite::Database& db, const House& house) {
  Pictures pictures;
  if (version_of(db) == newest_version()) pictures = read_pictures(db, house);
  require_pictures(house, pictures);
  return pictures;
}

OtherCopy read_stranger(const fs::path& path, bool with_marks) {
  require_regular_file(path);
  std::error_code failed;
  if (fs::file_size(path, failed) > kLargestStrangerFile) refuse(path, "is larger than any house file.");
  const PrivateCopy copy(path);
  require_our_header(copy.file(), path);
  Clock::time_point deadline = Clock::now() + kLongestTime;
  try {
    SQLite::Database db(copy.file().string(), SQLite::OPEN_READONLY | SQLITE_OPEN_NOFOLLOW);
    harden(db.getHandle(), deadline);
    db.exec("PRAGMA cell_size_check = ON; PRAGMA mmap_size = 0");
    require_our_schema(db, path);
    require_whole(db, path);
    OtherCopy other = read_current(db, with_marks);
    require_sound(other.house);
    other.pictures = read_current_pictures(db, other.house);
    return other;
  } catch (const SQLite::Exception& e) {
    throw storage_error(e, path);
  }
}

}  // namespace

House read_stranger_file(const fs::path& path) { return read_stranger(path, false).house; }

OtherCopy read_stranger_copy(const fs::path& path) { return read_stranger(path, true); }

}  // namespace ohmstead
