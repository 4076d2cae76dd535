#include "db/search.h"

#include <SQLiteCpp/Backup.h>
#include <SQLiteCpp/SQLiteCpp.h>
#include <sqlite3.h>

#include <optional>

#include "db/connection.h"
#include "db/storage_error.h"
#include "db/table_sql.h"

namespace ohmstead {

namespace {

/// As the schema has it (0005_knowledge.sql); here for an index that somebody took away.
constexpr const char* kMakeIndex = R"(CREATE VIRTUAL TABLE IF NOT EXISTS "search" USING fts5("name", "body", tokenize = 'unicode61 remove_diacritics 2');
CREATE TABLE IF NOT EXISTS "search_of" ("revision" INTEGER NOT NULL) STRICT;)";
constexpr double kNameCounts = 4, kBodyCounts = 1;  ///< weights of the two columns
constexpr std::int64_t kNoRevision = -1;

/// The revision that the index is of; kNoRevision where there is none.
std::int64_t indexed_revision(SQLite::Database& db) {
  if (!db.tableExists("search") || !db.tableExists("search_of")) return kNoRevision;
  SQLite::Statement last(db, "SELECT \"revision\" FROM \"search_of\"");
  return last.executeStep() ? last.getColumn(0).getInt64() : kNoRevision;
}

void set_revision(SQLite::Database& db, std::int64_t revision) {
  db.exec("DELETE FROM \"search_of\"");
  SQLite::Statement insert(db, "INSERT INTO \"search_of\" (\"revision\") VALUES (?)");
  insert.bind(1, revision);
  insert.exec();
}

/// Adds and takes away rows of the index.
class IndexWriter {
 public:
  explicit IndexWriter(SQLite::Database& db)
      : insert_(db, "INSERT INTO \"search\" (rowid, \"name\", \"body\") VALUES (?, ?, ?)"), remove_(db, "DELETE FROM \"search\" WHERE rowid = ?") {}
  void add(const SearchDoc& doc) {
    insert_.bind(1, doc.number);
    insert_.bindNoCopy(2, doc.name);
    insert_.bindNoCopy(3, doc.body);
    insert_.exec();
    insert_.reset();
  }
  void remove(std::int64_t number) {
    remove_.bind(1, number);
    remove_.exec();
    remove_.reset();
  }

 private:
  SQLite::Statement insert_, remove_;
};

/// Do two houses differ in anything that the index holds? A step of tracing does not.
bool differ_in_index(const House& a, const House& b) {
  return a.notes != b.notes || a.rooms != b.rooms || a.floors != b.floors || a.points != b.points || a.loads != b.loads || a.breakers != b.breakers ||
         a.panels != b.panels || a.printed != b.printed || a.devices != b.devices || a.sources != b.sources;
}

/// One word, as FTS5 takes it without looking for syntax in it.
std::string quoted_word(const std::string& word) {
  std::string text = "\"";
  for (const char c : word) text += c == '"' ? std::string("\"\"") : std::string(1, c);
  return text + "\"" + (word.size() > 1 ? "*" : "");
}

std::string match_text(std::span<const std::vector<std::string>> words, const char* between) {
  std::string text;
  for (const auto& group : words) {
    std::string any;
    for (const std::string& word : group) any += (any.empty() ? "" : " OR ") + quoted_word(word);
    if (!any.empty()) text += (text.empty() ? "(" : std::string(between) + "(") + any + ")";
  }
  return text;
}

/// Up to `most` + 1 rows.
std::vector<Found> matches(SQLite::Database& db, const std::string& match, std::size_t most) {
  SQLite::Statement rows(db, "SELECT rowid, \"name\", snippet(\"search\", 1, '', '', ' ... ', 24) FROM \"search\" WHERE \"search\" MATCH ? ORDER BY bm25(\"search\", ?, ?), rowid LIMIT ?");
  rows.bind(1, match);
  rows.bind(2, kNameCounts);
  rows.bind(3, kBodyCounts);
  rows.bind(4, static_cast<std::int64_t>(most + 1));
  std::vector<Found> found;
  constexpr std::uint64_t kIdBits = (std::uint64_t{1} << 60) - 1;
  while (rows.executeStep()) {
    const auto number = static_cast<std::uint64_t>(rows.getColumn(0).getInt64());
    found.push_back({static_cast<FoundKind>(number >> 60 & 7), Id<Note>{number & kIdBits}.text(), rows.getColumn(1).getString(), rows.getColumn(2).getString()});
  }
  return found;
}

SearchResult search_in(SQLite::Database& db, std::span<const std::vector<std::string>> words, std::size_t most) {
  SearchResult result;
  if (match_text(words, " AND ").empty()) return result;
  result.found = matches(db, match_text(words, " AND "), most);
  if (result.found.empty() && words.size() > 1) {
    result.all_words = false;
    result.found = matches(db, match_text(words, " OR "), most);
  }
  result.more = result.found.size() > most;
  if (result.more) result.found.resize(most);
  return result;
}

std::int64_t house_revision(SQLite::Database& db) { return db.execAndGet("SELECT ifnull(max(\"revision\"), 0) FROM \"change\"").getInt64(); }

void rebuild_now(SQLite::Database& db) {
  SQLite::Transaction transaction(db, SQLite::TransactionBehavior::IMMEDIATE);
  rebuild_search(db, read_house(db), house_revision(db));
  transaction.commit();
}

/// The index of this file is not true: it is made anew in the file, or, where that cannot be, in memory.
SearchResult search_anew(const std::filesystem::path& path, SQLite::Database& db, std::span<const std::vector<std::string>> words, std::size_t most) {
  if (sqlite3_db_readonly(db.getHandle(), "main") == 0) {  // an older file, brought up to date in memory
    rebuild_now(db);
    return search_in(db, words, most);
  }
  try {
    const auto writer = open_database(path, Access::change);
    rebuild_now(*writer);
    return search_in(*writer, words, most);
  } catch (const Error&) {  // no right to write, or somebody writes now
  } catch (const SQLite::Exception&) {
  }
  SQLite::Database copy(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  SQLite::Backup(copy, db).executeStep(-1);
  rebuild_now(copy);
  return search_in(copy, words, most);
}

}  // namespace

void rebuild_search(SQLite::Database& db, const House& house, std::int64_t revision) {
  db.exec("DROP TABLE IF EXISTS \"search\"");
  db.exec(kMakeIndex);
  IndexWriter writer(db);
  for (const SearchDoc& doc : search_docs(house)) writer.add(doc);
  set_revision(db, revision);
}

void update_search(SQLite::Database& db, const House& before, const House& after, std::int64_t old_revision, std::int64_t revision) {
  if (indexed_revision(db) != old_revision) return rebuild_search(db, after, revision);
  if (differ_in_index(before, after)) {
    const std::vector<SearchDoc> old = search_docs(before), now = search_docs(after);
    IndexWriter writer(db);
    auto was = old.begin();
    for (const SearchDoc& doc : now) {
      for (; was != old.end() && was->number < doc.number; ++was) writer.remove(was->number);
      const bool known = was != old.end() && was->number == doc.number;
      if (known && *was == doc) {
        ++was;
        continue;
      }
      if (known) writer.remove((was++)->number);
      writer.add(doc);
    }
    for (; was != old.end(); ++was) writer.remove(was->number);
  }
  if (revision != old_revision) set_revision(db, revision);
}

SearchResult search_house_file(const std::filesystem::path& path, std::span<const std::vector<std::string>> words, std::size_t most) {
  try {
    const auto db = open_database(path, Access::read);
    if (indexed_revision(*db) != house_revision(*db)) return search_anew(path, *db, words, most);
    try {
      return search_in(*db, words, most);
    } catch (const SQLite::Exception&) {  // a damaged index is no damaged house
      return search_anew(path, *db, words, most);
    }
  } catch (const SQLite::Exception& e) {
    throw storage_error(e, path);
  }
}

}  // namespace ohmstead
