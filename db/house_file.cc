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

/// Whom the rows name that a change adds, if it is one person.
std::string named_in(const std::vector<RowChange>& rows) {
  std::string who;
  for (const RowChange& row : rows)
    for (const FieldChange& field : row.fields) {
      const auto* name = std::get_if<std::string>(&field.to);
      if (field.name != "who" || row.kind != RowChangeKind::added || name == nullptr || name->empty()) continue;
      if (!who.empty() && who != *name) return "";
      who = *name;
    }
  return who;
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
void fill_new_file(const fs::path& path, const House& house, const Pictures& pictures) {
  SQLite::Database db(path.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE | SQLITE_OPEN_NOFOLLOW);
  db.exec("PRAGMA journal_mode = MEMORY; PRAGMA synchronous = OFF; PRAGMA foreign_keys = OFF");
  migrate(db, schema_steps());
  SQLite::Transaction transaction(db, SQLite::TransactionBehavior::IMMEDIATE);
  write_difference(db, House{}, house);
  write_pictures(db, pictures);
  write_change(db, {1, utc_now(), "create", "", id_text(new_id_value()), {}, {}}, {}, kKeptHistoryBytes);
  rebuild_search(db, house);
  transaction.commit();
}

FileChange file_change(const ChangeNote& note, std::int64_t revision, const std::string& who) {
  return {revision, utc_now(), note.what, who, id_text(new_id_value()), note.undoes, note.redoes};
}

[[noreturn]] void throw_damaged_history(std::int64_t revision) {
  throw Error(ErrorKind::storage, "The history in this house file is damaged at revision " + std::to_string(revision) + ", so it cannot go back behind it; the house itself is not concerned.");
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

HouseFile HouseFile::create(const fs::path& path, const House& house, const Pictures& pictures) {
  require_sound(house);
  require_pictures(house, pictures);
  try {
    std::error_code failed;
    if (fs::exists(fs::symlink_status(path, failed)))
      throw Error(ErrorKind::storage, quoted(path) + " is already there; a new house file never replaces one. Give another name.");
    write_through_neighbour(path, Replace::no, [&](const fs::path& neighbour) { fill_new_file(neighbour, house, pictures); });
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

/// What `ask` finds in the file, its failures in words.
template <class F>
auto HouseFile::asked(const F& ask) const {
  try {
    return ask();
  } catch (const SQLite::Exception& e) {
    throw storage_error(e, path_);
  }
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
  return asked([&] { return read_revision(*db_); });
}

std::int64_t HouseFile::version_of_others() const {
  return asked([&] { return db_->execAndGet("PRAGMA data_version").getInt64(); });
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
  return asked([&] { return read_changes(*db_); });
}

void HouseFile::hold_at_most(int kib) {
  asked([&] { return db_->exec("PRAGMA cache_size = -" + std::to_string(kib)); });
}

bool HouseFile::taken(const std::string& key) const {
  return asked([&] { return is_taken(*db_, key); });
}

std::optional<std::string> HouseFile::picture(const std::string& sha256) const {
  return asked([&] {
    auto bytes = read_picture(*db_, sha256);
    if (bytes && !is_picture_of(sha256, *bytes)) throw Error(ErrorKind::storage, quoted(path_) + " is damaged: a picture in it is not the one that was put in.");
    return bytes;
  });
}

Pictures HouseFile::pictures(const House& house) const {
  Pictures pictures;
  for (const Photo& photo : house.photos)
    for (const std::string& sha256 : {photo.picture, photo.small})
      if (auto bytes = picture(sha256)) pictures[sha256] = std::move(*bytes);
  return pictures;
}

DroppedPictures HouseFile::forget_pictures() {
  return asked([&] {
    SQLite::Transaction transaction(*db_, SQLite::TransactionBehavior::IMMEDIATE);
    const DroppedPictures dropped = drop_pictures_without_photo(*db_);
    transaction.commit();
    return dropped;
  });
}

std::int64_t HouseFile::change(const std::string& what, const std::function<void(House&)>& edit, const std::string& key) {
  return change(ChangeNote{.what = what, .key = key}, edit);
}

std::int64_t HouseFile::change(const ChangeNote& note, const std::function<void(House&)>& edit) {
  if (note.key.size() > kLongestKey || !is_utf8(note.key)) throw Error(ErrorKind::invalid_input, "The key of a request is no text of at most 64 bytes; nothing was changed.");
  if (!is_utf8(note.what) || !is_utf8(who_)) throw Error(ErrorKind::invalid_input, "What was done, or by whom, is not text in UTF-8; nothing was changed.");
  try {
    SQLite::Transaction transaction(*db_, SQLite::TransactionBehavior::IMMEDIATE);
    if (!note.key.empty() && is_taken(*db_, note.key)) return read_revision(*db_);
    const House before = read_house(*db_);
    require_sound_file(before, path_);
    House after = before;
    edit(after);
    require_sound(after);
    require_pictures(after, note.pictures);
    std::int64_t revision = read_revision(*db_);
    const std::vector<RowChange> rows = ohmstead::row_changes(before, after);
    const bool differs = write_difference(*db_, before, after);
    const bool is_told = !note.merged.empty() || !note.undoes.empty() || !note.redoes.empty();  // though no row may differ by it
    if (!differs && !is_told) return revision;
    update_search(*db_, before, after);
    write_pictures(*db_, note.pictures);
    if (!rows.empty() || is_told) write_change(*db_, file_change(note, ++revision, who_.empty() ? named_in(rows) : who_), rows, note.keep_bytes);
    if (!note.merged.empty()) write_merged(*db_, {revision, note.merged}, ohmstead::row_changes(after, *note.theirs));
    if (!note.key.empty()) add_key(*db_, note.key, revision);
    transaction.commit();
    return revision;
  } catch (const SQLite::Exception& e) {
    throw storage_error(e, path_);
  }
}

std::int64_t HouseFile::oldest_kept() const {
  return asked([&] { return ohmstead::oldest_kept(*db_); });
}

std::vector<RowChange> HouseFile::row_changes(std::int64_t revision) const {
  return asked([&] { return read_row_changes(*db_, revision); });
}

std::vector<RowsOfChange> HouseFile::rows_naming(std::uint64_t id) const {
  return asked([&] { return read_rows_naming(*db_, id); });
}

std::vector<MergedIn> HouseFile::merged() const {
  return asked([&] { return read_merged(*db_); });
}

House HouseFile::back_to(std::int64_t revision) const {
  const std::int64_t newest = read_revision(*db_), oldest = ohmstead::oldest_kept(*db_);
  if (revision < 1 || revision > newest) throw Error(ErrorKind::not_found, "There is no revision " + std::to_string(revision) + " of this house; the newest is " + std::to_string(newest) + ".");
  if (revision < oldest) throw Error(ErrorKind::not_found, "What was changed before revision " + std::to_string(oldest) + " is not kept in this file, so the house cannot be led back to revision " + std::to_string(revision) + ".");
  House house = read_house(*db_);
  for (std::int64_t at = newest; at > revision; --at)
    if (apply_changes(house, turned_round(read_row_changes(*db_, at)))) throw_damaged_history(at);
  return house;
}

House HouseFile::as_of(std::int64_t revision) const {
  return asked([&] {
    SQLite::Transaction one_moment(*db_);
    House house = back_to(revision);
    require_sound_file(house, path_);
    return house;
  });
}

House HouseFile::merged_house(std::int64_t revision) const {
  return asked([&] {
    SQLite::Transaction one_moment(*db_);
    House house = back_to(revision);
    if (apply_changes(house, read_merged_rows(*db_, revision))) throw_damaged_history(revision);
    require_sound_file(house, path_);
    return house;
  });
}

}  // namespace ohmstead
