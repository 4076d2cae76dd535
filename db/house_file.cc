#include "db/house_file.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <sqlite3.h>

#include <ctime>

#include "db/connection.h"
#include "db/migrate.h"
#include "db/output_file.h"
#include "db/search.h"
#include "db/storage_error.h"
#include "db/table_sql.h"
#include "house/invariants.h"

namespace ohmstead {

namespace fs = std::filesystem;

namespace {

std::string utc_now() {
  const std::time_t now = std::time(nullptr);
  std::tm parts = {};
  gmtime_r(&now, &parts);
  char text[32];
  return {text, std::strftime(text, sizeof text, "%Y-%m-%dT%H:%M:%SZ", &parts)};
}

std::int64_t read_revision(SQLite::Database& db) {
  return db.execAndGet("SELECT ifnull(max(\"revision\"), 0) FROM \"change\"").getInt64();
}

void add_revision(SQLite::Database& db, std::int64_t revision, const std::string& what) {
  SQLite::Statement insert(db, "INSERT INTO \"change\" (\"revision\", \"at\", \"what\", \"indexed\") VALUES (?, ?, ?, 1)");  // search.h keeps it true
  insert.bind(1, revision);
  insert.bind(2, utc_now());
  insert.bind(3, what);
  insert.exec();
}

bool is_taken(SQLite::Database& db, const std::string& key) {
  SQLite::Statement find(db, "SELECT 1 FROM \"request\" WHERE \"key\" = ?");
  find.bind(1, key);
  return find.executeStep();
}

/// Rows are in the order in which they came, and the oldest go.
void add_key(SQLite::Database& db, const std::string& key, std::int64_t revision) {
  SQLite::Statement insert(db, "INSERT INTO \"request\" (\"key\", \"revision\") VALUES (?, ?)");
  insert.bind(1, key);
  insert.bind(2, revision);
  insert.exec();
  db.exec("DELETE FROM \"request\" WHERE rowid <= (SELECT max(rowid) FROM \"request\") - " + std::to_string(kKeptKeys));
}

/// Fills the new, empty file at `path`. It becomes a house file only when it is given its name, so
/// nothing has to be safe before that. The references of a sound house need no second check, and
/// while some of them point forward SQLite would look for each row's children: docs/decisions/0011.
void fill_new_file(const fs::path& path, const House& house) {
  SQLite::Database db(path.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE | SQLITE_OPEN_NOFOLLOW);
  db.exec("PRAGMA journal_mode = MEMORY; PRAGMA synchronous = OFF; PRAGMA foreign_keys = OFF");
  migrate(db, schema_steps());
  SQLite::Transaction transaction(db, SQLite::TransactionBehavior::IMMEDIATE);
  write_difference(db, House{}, house);
  add_revision(db, 1, "create");
  rebuild_search(db, house);
  transaction.commit();
}

/// Is a house only another because of what was printed?
bool differs_in_print_only(const House& before, House after) {
  after.printed = before.printed;
  return after == before;
}

/// Throws Error{storage} for the first contradiction in a house that was read from `path`.
void require_sound_file(const House& house, const fs::path& path) {
  const auto problems = problems_of(house);
  if (problems.empty()) return;
  throw Error(ErrorKind::storage, quoted(path) + " holds a house that cannot be: " + problems.front().path + ": " +
                                      problems.front().message);
}

}  // namespace

HouseFile::HouseFile(fs::path path, std::unique_ptr<SQLite::Database> db) : path_(std::move(path)), db_(std::move(db)) {}
HouseFile::HouseFile(HouseFile&&) noexcept = default;
HouseFile& HouseFile::operator=(HouseFile&&) noexcept = default;
HouseFile::~HouseFile() = default;

HouseFile HouseFile::create(const fs::path& path, const Dwelling& dwelling) {
  House house;
  house.dwelling = dwelling;
  if (!house.dwelling.id) house.dwelling.id = Id<Dwelling>::fresh();
  return create(path, house);
}

HouseFile HouseFile::create(const fs::path& path, const House& house) {
  require_sound(house);
  try {
    std::error_code failed;
    if (fs::exists(fs::symlink_status(path, failed)))
      throw Error(ErrorKind::storage, quoted(path) + " is already there; a new house file never replaces one. Give another name.");
    write_through_neighbour(path, Replace::no, [&](const fs::path& neighbour) { fill_new_file(neighbour, house); });
  } catch (const SQLite::Exception& e) {
    throw storage_error(e, path);
  } catch (const fs::filesystem_error& e) {
    throw Error(ErrorKind::storage, quoted(path) + " cannot be made: " + e.code().message() + ".");
  } catch (const Error& e) {
    if (e.kind == ErrorKind::output) throw Error(ErrorKind::storage, e.what());
    throw;
  }
  return open(path, Access::change);
}

HouseFile HouseFile::open(const fs::path& path, Access access) { return {path, open_database(path, access)}; }

House HouseFile::load() const {
  try {
    SQLite::Transaction one_moment(*db_);
    House house = read_house(*db_);
    require_sound_file(house, path_);
    return house;
  } catch (const SQLite::Exception& e) {
    throw storage_error(e, path_);
  }
}

std::int64_t HouseFile::revision() const {
  try {
    return read_revision(*db_);
  } catch (const SQLite::Exception& e) {
    throw storage_error(e, path_);
  }
}

std::int64_t HouseFile::version_of_others() const {
  try {
    return db_->execAndGet("PRAGMA data_version").getInt64();
  } catch (const SQLite::Exception& e) {
    throw storage_error(e, path_);
  }
}

std::string HouseFile::changed_at() const {
  try {
    SQLite::Statement last(*db_, "SELECT \"at\" FROM \"change\" ORDER BY \"revision\" DESC LIMIT 1");
    return last.executeStep() ? last.getColumn(0).getString() : std::string();
  } catch (const SQLite::Exception& e) {
    throw storage_error(e, path_);
  }
}

std::vector<FileChange> HouseFile::changes() const {
  try {
    std::vector<FileChange> changes;
    SQLite::Statement rows(*db_, "SELECT \"revision\", \"at\", \"what\" FROM \"change\" ORDER BY \"revision\"");
    while (rows.executeStep()) changes.push_back({rows.getColumn(0).getInt64(), rows.getColumn(1).getString(), rows.getColumn(2).getString()});
    return changes;
  } catch (const SQLite::Exception& e) {
    throw storage_error(e, path_);
  }
}

bool HouseFile::taken(const std::string& key) const {
  try {
    return is_taken(*db_, key);
  } catch (const SQLite::Exception& e) {
    throw storage_error(e, path_);
  }
}

std::int64_t HouseFile::change(const std::string& what, const std::function<void(House&)>& edit, const std::string& key) {
  if (key.size() > kLongestKey || !is_utf8(key)) throw Error(ErrorKind::invalid_input, "The key of a request is no text of at most 64 bytes; nothing was changed.");
  if (!is_utf8(what)) throw Error(ErrorKind::invalid_input, "What was done is not text in UTF-8; nothing was changed.");
  try {
    SQLite::Transaction transaction(*db_, SQLite::TransactionBehavior::IMMEDIATE);
    if (!key.empty() && is_taken(*db_, key)) return read_revision(*db_);
    const House before = read_house(*db_);
    require_sound_file(before, path_);
    House after = before;
    edit(after);
    require_sound(after);
    std::int64_t revision = read_revision(*db_);
    if (!write_difference(*db_, before, after)) return revision;
    update_search(*db_, before, after);
    if (!differs_in_print_only(before, after)) add_revision(*db_, ++revision, what);
    if (!key.empty()) add_key(*db_, key, revision);
    transaction.commit();
    return revision;
  } catch (const SQLite::Exception& e) {
    throw storage_error(e, path_);
  }
}

}  // namespace ohmstead
