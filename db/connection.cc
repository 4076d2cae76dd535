#include "db/connection.h"

#include <SQLiteCpp/Backup.h>
#include <SQLiteCpp/SQLiteCpp.h>
#include <sqlite3.h>

#include "db/migrate.h"
#include "db/output_file.h"
#include "db/storage_error.h"

namespace ohmstead {

namespace fs = std::filesystem;

namespace {

[[noreturn]] void refuse(const std::string& sentence) { throw Error(ErrorKind::storage, sentence); }

/// The path with links among its folders resolved, so that only a link at its end is refused.
fs::path resolved(const fs::path& path) {
  std::error_code failed;
  const fs::path folder = fs::canonical(path.has_parent_path() ? path.parent_path() : fs::path("."), failed);
  return failed ? path : folder / path.filename();
}

void set_and_check(SQLite::Database& db, const std::string& pragma, const std::string& value, const std::string& expected) {
  const std::string got = db.execAndGet("PRAGMA " + pragma + " = " + value).getString();
  if (got != expected) refuse("The house file refuses the setting " + pragma + " = " + value + " (it says '" + got + "').");
}

void set_and_read_back(SQLite::Database& db, const std::string& pragma, const std::string& value, int expected) {
  db.exec("PRAGMA " + pragma + " = " + value);
  if (db.execAndGet("PRAGMA " + pragma).getInt() != expected) refuse("The house file refuses the setting " + pragma + " = " + value + ".");
}

/// Did a program die in the middle of a change? Then its journal must be played back, which needs
/// a connection that may write.
bool has_journal(const fs::path& path) {
  std::error_code failed;
  const auto size = fs::file_size(path.string() + "-journal", failed);
  return !failed && size > 0;
}

std::unique_ptr<SQLite::Database> connect(const fs::path& path, Access access) {
  const bool write = access == Access::change || has_journal(path);
  // One thread for each HouseFile (house_file.h), so SQLite need not lock for each cell that is read.
  const int flags = (write ? SQLite::OPEN_READWRITE : SQLite::OPEN_READONLY) | SQLITE_OPEN_NOFOLLOW | SQLITE_OPEN_NOMUTEX;
  auto db = std::make_unique<SQLite::Database>(resolved(path).string(), flags, kBusyTimeoutMs);
  if (access == Access::change && sqlite3_db_readonly(db->getHandle(), "main") != 0)
    refuse(quoted(path) + " cannot be changed: the file is read-only. Give yourself the right to write it.");
  return db;
}

/// Triggers and views are never ours; in a file that somebody changed they could undo what we write.
void switch_off_foreign_code(SQLite::Database& db) {
  for (const int what : {SQLITE_DBCONFIG_ENABLE_TRIGGER, SQLITE_DBCONFIG_ENABLE_VIEW})
    if (sqlite3_db_config(db.getHandle(), what, 0, nullptr) != SQLITE_OK)
      refuse("The house file refuses a safe setting.");
}

/// A copy in memory, brought up to date there.
std::unique_ptr<SQLite::Database> current_in_memory(SQLite::Database& old) {
  auto copy = std::make_unique<SQLite::Database>(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  SQLite::Backup(*copy, old).executeStep(-1);
  migrate(*copy, schema_steps());
  return copy;
}

/// NAME.before-vN, or NAME.before-vN-2 and so on if that is taken.
fs::path free_name(const fs::path& path, int version) {
  const std::string base = path.string() + ".before-v" + std::to_string(version);
  fs::path name = base;
  for (int i = 2; fs::exists(fs::symlink_status(name)); ++i) name = base + "-" + std::to_string(i);
  return name;
}

}  // namespace

void require_regular_file(const fs::path& path) {
  std::error_code failed;
  const fs::file_status status = fs::symlink_status(path, failed);
  if (status.type() == fs::file_type::not_found)
    refuse("There is no house file " + quoted(path) + ". Look at the spelling, or make a new one.");
  if (failed) refuse(quoted(path) + " cannot be looked at: " + failed.message() + ".");
  if (fs::is_symlink(status)) refuse(quoted(path) + " is a link, and a house file is not opened through a link: give the path of the file itself.");
  if (fs::is_directory(status)) refuse(quoted(path) + " is a folder, not a house file.");
  if (!fs::is_regular_file(status)) refuse(quoted(path) + " is not a regular file.");
  const auto size = fs::file_size(path, failed);
  if (!failed && size == 0) refuse(quoted(path) + " is an empty file, not a house file. Remove it, or give another path.");
}

void require_our_file(SQLite::Database& db, const fs::path& path, int newest) {
  if (db.execAndGet("PRAGMA application_id").getInt() != kApplicationId)
    refuse(quoted(path) + " is a database of another program, not a house file.");
  refuse_newer(version_of(db), newest);
}

void set_up_for_writing(SQLite::Database& db) {
  set_and_check(db, "journal_mode", "DELETE", "delete");
  set_and_read_back(db, "synchronous", "EXTRA", 3);
  set_and_read_back(db, "foreign_keys", "ON", 1);
  set_and_read_back(db, "trusted_schema", "OFF", 0);
}

void copy_database(SQLite::Database& db, const fs::path& to) {
  std::error_code failed;
  if (fs::exists(fs::symlink_status(to, failed))) refuse(quoted(to) + " is already there; a copy never replaces a file.");
  write_through_neighbour(to, Replace::no, [&](const fs::path& neighbour) {
    SQLite::Statement copy(db, "VACUUM INTO ?");
    copy.bind(1, neighbour.string());
    copy.executeStep();
  });
}

std::unique_ptr<SQLite::Database> open_database(const fs::path& path, Access access) {
  require_regular_file(path);
  try {
    auto db = connect(path, access);
    switch_off_foreign_code(*db);
    require_our_file(*db, path, newest_version());
    const int version = version_of(*db);
    if (access == Access::read) return version < newest_version() ? current_in_memory(*db) : std::move(db);
    set_up_for_writing(*db);
    if (version < newest_version()) {
      copy_database(*db, free_name(path, version));
      migrate(*db, schema_steps());
    }
    return db;
  } catch (const SQLite::Exception& e) {
    throw storage_error(e, path);
  }
}

}  // namespace ohmstead
