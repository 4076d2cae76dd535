#include "db/migrate.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <gmock/gmock.h>

#include <array>
#include <set>

#include "db/check.h"
#include "db/house_file.h"
#include "db/interchange.h"
#include "db/table_sql.h"
#include "temp_folder.h"

namespace ohmstead {
namespace {

using ::testing::HasSubstr;

SQLite::Database memory() { return {":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE}; }

TEST(Migrate, the_steps_are_numbered_from_1_without_a_gap) {
  int expected = 0;
  for (const Migration& step : schema_steps()) EXPECT_EQ(step.to_version, ++expected);
  EXPECT_GE(expected, 1);
}

TEST(Migrate, a_failed_step_keeps_the_version_and_the_tables_before_it) {
  SQLite::Database db = memory();
  const std::array steps{Migration{1, "CREATE TABLE a (id INTEGER PRIMARY KEY)"},
                         Migration{2, "CREATE TABLE b (id INTEGER); ALTER TABLE no_such_table ADD COLUMN x"}};
  EXPECT_THAT(message_of(ErrorKind::storage, [&] { migrate(db, steps); }), HasSubstr("to version 2"));
  EXPECT_EQ(version_of(db), 1);
  EXPECT_TRUE(db.tableExists("a"));
  EXPECT_FALSE(db.tableExists("b"));
}

TEST(Migrate, a_step_that_was_taken_is_not_taken_again) {
  SQLite::Database db = memory();
  const std::array steps{Migration{1, "CREATE TABLE a (id INTEGER PRIMARY KEY)"}};
  migrate(db, steps);
  migrate(db, steps);
  EXPECT_EQ(version_of(db), 1);
}

TEST(Migrate, a_newer_file_is_refused_with_both_numbers_and_not_touched) {
  const TempFolder folder;
  HouseFile::create(folder / "a.house", Dwelling{{}, "Cabin"});
  SQLite::Database(folder / "a.house", SQLite::OPEN_READWRITE).exec("PRAGMA user_version = 77");
  const std::string bytes = read_file(folder / "a.house");
  for (const Access access : {Access::read, Access::change}) {
    const std::string message = message_of(ErrorKind::storage, [&] { (void)HouseFile::open(folder / "a.house", access); });
    EXPECT_THAT(message, HasSubstr("version 77"));
    EXPECT_THAT(message, HasSubstr("up to " + std::to_string(newest_version())));
  }
  EXPECT_EQ(read_file(folder / "a.house"), bytes);
  EXPECT_EQ(folder.files(), 1);
}

/// Compares the columns of one table with the fields of its rows.
template <class Row>
void expect_same_columns(SQLite::Database& db, std::set<std::string>& tables) {
  tables.insert(Row::kTable);
  std::vector<std::string> columns;
  SQLite::Statement info(db, std::string("SELECT name FROM pragma_table_info('") + Row::kTable + "') ORDER BY cid");
  while (info.executeStep()) columns.push_back(info.getColumn(0).getString());
  EXPECT_EQ(columns, column_names<Row>()) << Row::kTable;
}

/// Every word of every enumeration passes its column's CHECK; any other word does not.
template <class Row>
void expect_words_are_checked(SQLite::Database& db) {
  const auto accepts = [&](const std::string& column, const std::string& word) {
    SQLite::Statement sql(db, std::string("SELECT sql FROM sqlite_schema WHERE type = 'table' AND name = '") + Row::kTable + "'");
    sql.executeStep();
    const std::string text = sql.getColumn(0).getString();
    const auto at = text.find("CHECK (\"" + column + "\" IN (");
    if (at == std::string::npos) return false;
    const std::string list = text.substr(at, text.find("))", at) - at);
    return list.find("'" + word + "'") != std::string::npos;
  };
  const Row none{};
  Row::fields(none, [&]<class T>(const char* name, const T&) {
    if constexpr (std::is_enum_v<T>) {
      for (const std::string_view word : words_of(T{})) EXPECT_TRUE(accepts(name, std::string(word))) << Row::kTable << name << word;
      EXPECT_FALSE(accepts(name, "no_such_word"));
    }
  });
}

TEST(Schema, tables_and_columns_are_those_of_the_house_and_no_others) {
  SQLite::Database db = memory();
  migrate(db, schema_steps());
  std::set<std::string> expected = {"change", "merged_mark", "merged_row", "picture", "request", "row_change"}, found;
  expect_same_columns<Dwelling>(db, expected);
  expect_words_are_checked<Dwelling>(db);
  const House house;
  for_each_table(house, [&]<class Row>(const std::vector<Row>&) {
    expect_same_columns<Row>(db, expected);
    expect_words_are_checked<Row>(db);
  });
  SQLite::Statement tables(db, "SELECT name FROM pragma_table_list WHERE schema = 'main' AND name NOT LIKE 'sqlite_%' AND strict");
  while (tables.executeStep()) found.insert(tables.getColumn(0).getString());
  EXPECT_EQ(found, expected);
  EXPECT_EQ(db.execAndGet("PRAGMA application_id").getInt(), kApplicationId);
}

/// Each file of an older version in tests/old-files has beside it the house in it as JSON.
TEST(OldFiles, each_is_brought_up_to_date_and_holds_the_same_house) {
  const std::filesystem::path old_files = std::filesystem::path(OHMSTEAD_SOURCE_DIR) / "tests/old-files";
  int count = 0;
  for (const auto& entry : std::filesystem::directory_iterator(old_files)) {
    if (entry.path().extension() != ".house") continue;
    ++count;
    const TempFolder folder;
    std::filesystem::copy_file(entry.path(), folder / "old.house");
    const House expected = house_from_json(read_file(std::filesystem::path(entry.path()).replace_extension(".json")));
    EXPECT_EQ(HouseFile::open(folder / "old.house", Access::read).load(), expected) << entry.path();
    EXPECT_EQ(read_file(folder / "old.house"), read_file(entry.path())) << "reading changed " << entry.path();
    EXPECT_EQ(HouseFile::open(folder / "old.house", Access::change).load(), expected) << entry.path();
    EXPECT_TRUE(check_house_file(folder / "old.house").empty()) << entry.path();
  }
  EXPECT_GE(count, 1);
}

}  // namespace
}  // namespace ohmstead
