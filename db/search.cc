#include "db/search.h"

#include <SQLiteCpp/Backup.h>
#include <SQLiteCpp/SQLiteCpp.h>
#include <sqlite3.h>

#include "db/connection.h"
#include "db/storage_error.h"
#include "db/table_sql.h"

namespace ohmstead {

namespace {

/// As the schema has it (0005_knowledge.sql); here for an index that somebody took away.
constexpr const char* kMakeIndex =
    R"(CREATE VIRTUAL TABLE IF NOT EXISTS "search" USING fts5("name", "body", tokenize = 'unicode61 remove_diacritics 2'))";

/// Was the index true at the last change? It stands beside that, so that an answer writes no page more.
bool is_indexed(SQLite::Database& db) {
  SQLite::Statement last(db, "SELECT \"indexed\" FROM \"change\" ORDER BY \"revision\" DESC LIMIT 1");
  return last.executeStep() && last.getColumn(0).getInt() == 1;
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
  const bool number = word.find_first_not_of("0123456789") == std::string::npos;  // 12 is not 120
  return text + "\"" + (word.size() > 1 && !number ? "*" : "");
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

/// Up to `most` + 1 rows. Ordered by "rank", FTS5 sorts by itself and reads the texts of these rows alone; the name counts four times.
std::vector<Found> matches(SQLite::Database& db, const std::string& match, std::size_t most) {
  SQLite::Statement rows(db,
                         "SELECT rowid, \"name\", snippet(\"search\", 1, '', '', ' ... ', 24) FROM \"search\" WHERE \"search\" MATCH ? AND rank "
                         "MATCH 'bm25(4.0, 1.0)' ORDER BY rank LIMIT ?");
  rows.bind(1, match);
  rows.bind(2, static_cast<std::int64_t>(most + 1));
  std::vector<Found> found;
  constexpr std::uint64_t kIdBits = (std::uint64_t{1} << 60) - 1;
  while (rows.executeStep()) {
    const auto number = static_cast<std::uint64_t>(rows.getColumn(0).getInt64());
    found.push_back(
        {static_cast<FoundKind>(number >> 60 & 7), Id<Note>{number & kIdBits}.text(), rows.getColumn(1).getString(), rows.getColumn(2).getString()});
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

void rebuild_now(SQLite::Database& db) {
  SQLite::Transaction transaction(db, SQLite::TransactionBehavior::IMMEDIATE);
  rebuild_search(db, read_house(db));
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

void rebuild_search(SQLite::Database& db, const House& house) {
  db.exec(kMakeIndex);
  if (SQLite::Statement any(db, "SELECT 1 FROM \"search\" LIMIT 1"); any.executeStep()) {
    any.reset();
    db.exec("DROP TABLE \"search\"");
    db.exec(kMakeIndex);
  }
  IndexWriter writer(db);
  for (const SearchDoc& doc : search_docs(house)) writer.add(doc);
  db.exec("UPDATE \"change\" SET \"indexed\" = 1 WHERE \"revision\" = (SELECT max(\"revision\") FROM \"change\")");
}

void update_search(SQLite::Database& db, const House& before, const House& after) {
  if (!is_indexed(db)) return rebuild_search(db, after);
  if (!differ_in_index(before, after)) return;
  if (!db.tableExists("search")) return rebuild_search(db, after);
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

SearchResult search_house_file(const std::filesystem::path& path, std::span<const std::vector<std::string>> words, std::size_t most) {
  try {
    const auto db = open_database(path, Access::read);
    try {
      const SQLite::Transaction one_moment(*db);
      if (is_indexed(*db)) return search_in(*db, words, most);
    } catch (const SQLite::Exception&) {  // a damaged index is no damaged house
    }
    return search_anew(path, *db, words, most);
  } catch (const SQLite::Exception& e) {
    throw storage_error(e, path);
  }
}

}  // namespace ohmstead
