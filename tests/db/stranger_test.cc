#include "db/stranger.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <gmock/gmock.h>

#include <random>

#include "db/house_file.h"
#include "house/invariants.h"
#include "temp_folder.h"
#include "tests/support/random_house.h"

namespace ohmstead {
namespace {

using ::testing::HasSubstr;

TEST(Stranger, a_good_file_is_read_and_stays_as_it_was) {
  const TempFolder folder;
  const House house = random_house(4, 8);
  HouseFile::create(folder / "a.house", house);
  const std::string bytes = read_file(folder / "a.house");
  EXPECT_EQ(read_stranger_file(folder / "a.house"), house);
  EXPECT_EQ(read_file(folder / "a.house"), bytes);
}

TEST(Stranger, whatever_is_not_ours_in_the_schema_is_refused) {
  const char* const added[] = {
      "CREATE VIEW v AS SELECT 1",
      "CREATE TRIGGER t AFTER INSERT ON room BEGIN DELETE FROM room; END",
      "CREATE TABLE extra (x)",
      "CREATE INDEX i ON room (name)",
      "CREATE VIRTUAL TABLE f USING fts5 (x)",
      "ALTER TABLE room ADD COLUMN colour TEXT",
      "DROP TABLE note",
      "DROP TABLE note; CREATE VIEW note AS SELECT '000000000001' AS id, '' AS about, '' AS text, 0 AS is_private, '' AS who, '' AS at",
      "PRAGMA writable_schema = 1; UPDATE sqlite_schema SET sql = replace(sql, ' CHECK', ' DEFAULT (randomblob(900000000)) CHECK') WHERE name = 'point'"};
  for (const char* sql : added) {
    const TempFolder folder;
    HouseFile::create(folder / "a.house", random_house(4, 3));
    SQLite::Database(folder / "a.house", SQLite::OPEN_READWRITE).exec(sql);
    EXPECT_THAT(message_of(ErrorKind::storage, [&] { (void)read_stranger_file(folder / "a.house"); }), HasSubstr("is not read")) << sql;
  }
}

TEST(Stranger, rows_that_cannot_be_are_refused) {
  const std::pair<const char*, ErrorKind> spoiled[] = {
      {"UPDATE room SET name = ''", ErrorKind::invalid_input},
      {"UPDATE room SET name = CAST(x'FF' AS TEXT)", ErrorKind::storage},
      {"UPDATE room SET id = id || 'x'", ErrorKind::storage},
      {"UPDATE panel SET spaces = 9000000000", ErrorKind::storage},
      {"UPDATE room SET floor = '00000000000z'", ErrorKind::storage},
      {"DELETE FROM dwelling", ErrorKind::storage}};
  for (const auto& [sql, kind] : spoiled) {
    const TempFolder folder;
    HouseFile::create(folder / "a.house", random_house(4, 3));
    SQLite::Database(folder / "a.house", SQLite::OPEN_READWRITE).exec(sql);
    EXPECT_FALSE(message_of(kind, [&] { (void)read_stranger_file(folder / "a.house"); }).empty()) << sql;
  }
}

TEST(Stranger, a_hostile_journal_beside_the_file_is_left_aside) {
  const TempFolder folder;
  const House house = random_house(4, 3);
  HouseFile::create(folder / "a.house", house);
  write_file(folder / "a.house-journal", std::string("\xd9\xd5\x05\xf9\x20\xa1\x63\xd7", 8) + std::string(2000, '\xff'));
  EXPECT_EQ(read_stranger_file(folder / "a.house"), house);
}

/// A sound house, or an Error: nothing else may come out of a file with flipped bits.
TEST(Stranger, flipped_bits_and_cut_ends_give_a_sound_house_or_one_sentence) {
  const TempFolder folder;
  HouseFile::create(folder / "a.house", random_house(4, 4));
  const std::string good = read_file(folder / "a.house");
  std::mt19937_64 random(1);
  int refused = 0, read = 0;
  for (int i = 0; i < 400; ++i) {
    std::string bytes = good;
    for (std::uint64_t flips = 1 + random() % 8; flips > 0; --flips) {
      char& byte = bytes[random() % bytes.size()];
      byte = static_cast<char>(byte ^ (1 << random() % 8));
    }
    if (random() % 8 == 0) bytes.resize(random() % bytes.size());
    write_file(folder / "b.house", bytes);
    try {
      EXPECT_TRUE(problems_of(read_stranger_file(folder / "b.house")).empty());
      ++read;
    } catch (const Error&) {
      ++refused;
    }
  }
  std::printf("400 spoiled files: %d refused, %d read\n", refused, read);
  EXPECT_GT(refused, 40);
  EXPECT_GT(read, 40);
}

}  // namespace
}  // namespace ohmstead
