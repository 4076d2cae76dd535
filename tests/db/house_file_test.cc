#include "db/house_file.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <gmock/gmock.h>

#include "db/back_up.h"
#include "db/check.h"
#include "house/invariants.h"
#include "temp_folder.h"
#include "tests/support/random_house.h"

namespace ohmstead {
namespace {

using ::testing::HasSubstr;

Dwelling flat() { return {Id<Dwelling>::fresh(), "Flat", VoltageSystem::single_230}; }

TEST(HouseFile, a_new_file_holds_the_dwelling_at_revision_1) {
  const TempFolder folder;
  const Dwelling dwelling = flat();
  const HouseFile file = HouseFile::create(folder / "a.house", dwelling);
  EXPECT_EQ(file.revision(), 1);
  EXPECT_EQ(file.changed_at().size(), 20U);
  House expected;
  expected.dwelling = dwelling;
  EXPECT_EQ(file.load(), expected);
  EXPECT_EQ(folder.files(), 1);
}

TEST(HouseFile, create_refuses_a_path_that_is_taken_and_leaves_it_alone) {
  const TempFolder folder;
  write_file(folder / "a.house", "mine");
  EXPECT_THAT(message_of(ErrorKind::storage, [&] { HouseFile::create(folder / "a.house", flat()); }), HasSubstr("already there"));
  EXPECT_EQ(read_file(folder / "a.house"), "mine");
  EXPECT_THAT(message_of(ErrorKind::storage, [&] { HouseFile::create(folder / "no/a.house", flat()); }), HasSubstr("no such folder"));
  EXPECT_EQ(folder.files(), 1);
}

TEST(HouseFile, random_houses_come_back_as_they_were) {
  const TempFolder folder;
  for (std::uint64_t seed = 1; seed <= 150; ++seed) {
    const House house = random_house(seed, 1 + static_cast<int>(seed % 10));
    const auto path = folder / ("h" + std::to_string(seed) + ".house");
    HouseFile::create(path, house);
    ASSERT_EQ(HouseFile::open(path, Access::read).load(), house) << seed;
  }
}

TEST(HouseFile, any_house_can_be_changed_into_any_other) {
  const TempFolder folder;
  HouseFile file = HouseFile::create(folder / "a.house", flat());
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    const House house = random_house(seed, 4);
    EXPECT_EQ(file.change("replaced", [&](House& h) { h = house; }), static_cast<std::int64_t>(seed) + 1);
    ASSERT_EQ(file.load(), house) << seed;
  }
  EXPECT_TRUE(check_house_file(folder / "a.house").empty());
}

TEST(HouseFile, rows_keep_the_order_they_are_given_in) {
  const TempFolder folder;
  House house = random_house(3, 8);
  HouseFile file = HouseFile::create(folder / "a.house", house);
  const auto shuffle = [](House& h) {
    std::swap(h.rooms[1], h.rooms[5]);
    h.rooms.insert(h.rooms.begin() + 3, Room{Id<Room>::fresh(), h.floors[0].id, "put in between"});
    std::reverse(h.points.begin(), h.points.end());
  };
  file.change("moved", shuffle);
  const House loaded = file.load();
  EXPECT_EQ(loaded.rooms[3].name, "put in between");
  EXPECT_EQ(loaded.rooms[1].id, house.rooms[5].id);
  std::reverse(house.points.begin(), house.points.end());
  EXPECT_EQ(loaded.points, house.points);
}

TEST(HouseFile, a_change_writes_only_the_rows_that_differ) {
  const TempFolder folder;
  const House house = random_house(5, 6);
  HouseFile file = HouseFile::create(folder / "a.house", house);
  const auto room_rows = [&] {  // a row that was put in anew has another number
    SQLite::Database spy((folder / "a.house").string(), SQLite::OPEN_READONLY);
    return spy.execAndGet("SELECT group_concat(rowid || id) FROM room").getString();
  };
  const std::string rows = room_rows(), before = read_file(folder / "a.house");
  file.change("renamed", [](House& h) { h.rooms[2].name = "Pantry"; });
  EXPECT_EQ(room_rows(), rows);
  const std::string after = read_file(folder / "a.house");
  std::size_t pages = 0;
  for (std::size_t at = 0; at < std::min(before.size(), after.size()); at += 4096)
    pages += before.compare(at, 4096, after, at, 4096) != 0;
  EXPECT_LE(pages, 10U) << "of " << after.size() / 4096;  // header, room, its index, list of changes, their counters; of the search index what names the room
  EXPECT_GT(after.size() / 4096, 20U);
}

TEST(HouseFile, every_change_is_listed_oldest_first_with_what_was_done) {
  const TempFolder folder;
  HouseFile file = HouseFile::create(folder / "a.house", flat());
  file.change("renamed", [](House& house) { house.dwelling.name = "Other"; });
  file.change("nothing", [](House&) {});
  file.change("renamed again", [](House& house) { house.dwelling.name = "Third"; });
  const std::vector<FileChange> changes = file.changes();
  ASSERT_EQ(changes.size(), 3U);
  for (std::size_t i = 0; i < changes.size(); ++i) {
    EXPECT_EQ(changes[i].revision, static_cast<std::int64_t>(i) + 1);
    EXPECT_EQ(changes[i].at.size(), 20U);
  }
  EXPECT_EQ(changes[1].what, "renamed");
  EXPECT_EQ(changes[2].what, "renamed again");
}

TEST(HouseFile, a_change_that_changes_nothing_writes_nothing) {
  const TempFolder folder;
  HouseFile file = HouseFile::create(folder / "a.house", random_house(5, 6));
  const std::string bytes = read_file(folder / "a.house");
  EXPECT_EQ(file.change("nothing", [](House&) {}), 1);
  EXPECT_EQ(read_file(folder / "a.house"), bytes);
}

TEST(HouseFile, a_request_that_arrives_twice_is_done_once_also_after_the_file_was_opened_again) {
  const TempFolder folder;
  int edits = 0;
  const auto one_more_floor = [&](House& house) { house.floors.push_back({.id = Id<Floor>::fresh(), .name = "Floor " + std::to_string(++edits)}); };
  {
    HouseFile file = HouseFile::create(folder / "a.house", flat());
    EXPECT_FALSE(file.taken("k1"));
    EXPECT_EQ(file.change("a floor", one_more_floor, "k1"), 2);
    EXPECT_EQ(file.change("a floor", one_more_floor, "k1"), 2);
    EXPECT_TRUE(file.taken("k1"));
  }
  HouseFile file = HouseFile::open(folder / "a.house", Access::change);
  EXPECT_TRUE(file.taken("k1"));
  EXPECT_EQ(file.change("a floor", one_more_floor, "k1"), 2);
  EXPECT_EQ(file.change("a floor", one_more_floor, "k2"), 3);
  EXPECT_EQ(file.load().floors.size(), 2U);
  EXPECT_EQ(edits, 2);
  EXPECT_EQ(message_of(ErrorKind::invalid_input, [&] { file.change("a floor", one_more_floor, std::string(65, 'k')); }).substr(0, 7), "The key");
}

TEST(HouseFile, a_change_with_a_key_that_fails_leaves_the_key_free) {
  const TempFolder folder;
  HouseFile file = HouseFile::create(folder / "a.house", flat());
  EXPECT_THROW(file.change("nothing", [](House&) { throw Error(ErrorKind::invalid_input, "no"); }, "k1"), Error);
  EXPECT_FALSE(file.taken("k1"));
}

TEST(HouseFile, a_change_that_fails_leaves_the_file_as_it_was) {
  const TempFolder folder;
  const House house = random_house(5, 6);
  HouseFile file = HouseFile::create(folder / "a.house", house);
  const std::string bytes = read_file(folder / "a.house");
  EXPECT_THAT(message_of(ErrorKind::invalid_input, [&] { file.change("bad", [](House& h) { h.rooms[1].name = ""; }); }),
              HasSubstr("room[1].name"));
  EXPECT_THAT(message_of(ErrorKind::invalid_input, [&] { file.change("bad", [](House& h) { h.rooms[0].name = "\xFF"; }); }),
              HasSubstr("UTF-8"));
  EXPECT_THROW(file.change("thrown", [](House& h) { h.rooms.clear(); throw std::logic_error("x"); }), std::logic_error);
  EXPECT_EQ(read_file(folder / "a.house"), bytes);
  EXPECT_EQ(file.change("good", [](House& h) { h.rooms[1].name = "Den"; }), 2);
}

TEST(HouseFile, each_thing_that_is_no_house_file_gets_its_own_sentence) {
  const TempFolder folder;
  HouseFile::create(folder / "good.house", flat());
  const std::string good = read_file(folder / "good.house");
  std::filesystem::create_directory(folder / "folder.house");
  std::filesystem::create_symlink(folder / "good.house", folder / "link.house");
  write_file(folder / "empty.house", "");
  write_file(folder / "text.house", std::string(5000, 'x'));
  write_file(folder / "cut.house", good.substr(0, 1000));
  write_file(folder / "half.house", good.substr(0, good.size() / 2));
  SQLite::Database(folder / "foreign.house", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE).exec("CREATE TABLE t (x)");
  const std::pair<const char*, const char*> refused[] = {
      {"none.house", "There is no house file"}, {"folder.house", "is a folder"}, {"link.house", "is a link"},
      {"empty.house", "is an empty file"},      {"text.house", "not a house file"}, {"foreign.house", "of another program"},
      {"cut.house", "damaged"},                 {"half.house", "damaged"}};
  for (const auto& [name, words] : refused)
    for (const Access access : {Access::read, Access::change})
      EXPECT_THAT(message_of(ErrorKind::storage, [&] { (void)HouseFile::open(folder / name, access).load(); }), HasSubstr(words)) << name;
}

TEST(HouseFile, a_link_among_the_folders_is_followed) {
  const TempFolder folder;
  std::filesystem::create_directory(folder / "real");
  std::filesystem::create_directory_symlink(folder / "real", folder / "linked");
  HouseFile::create(folder / "linked/a.house", flat());
  EXPECT_EQ(HouseFile::open(folder / "linked/a.house", Access::change).revision(), 1);
}

TEST(HouseFile, a_house_in_the_file_that_cannot_be_is_not_loaded) {
  const TempFolder folder;
  HouseFile::create(folder / "a.house", random_house(5, 6));
  SQLite::Database((folder / "a.house").string(), SQLite::OPEN_READWRITE).exec("UPDATE room SET name = ''");
  const HouseFile file = HouseFile::open(folder / "a.house", Access::read);
  EXPECT_THAT(message_of(ErrorKind::storage, [&] { (void)file.load(); }), HasSubstr("room[0].name"));
  EXPECT_FALSE(check_house_file(folder / "a.house").empty());
}

TEST(HouseFile, reading_leaves_every_byte_as_it_was) {
  const TempFolder folder;
  const House house = random_house(9, 6);
  HouseFile::create(folder / "a.house", house);
  const std::string bytes = read_file(folder / "a.house");
  EXPECT_EQ(HouseFile::open(folder / "a.house", Access::read).load(), house);
  EXPECT_EQ(read_file(folder / "a.house"), bytes);
  EXPECT_EQ(folder.files(), 1);
}

TEST(BackUp, a_copy_is_the_same_house_and_never_replaces_a_file) {
  const TempFolder folder;
  const House house = random_house(11, 6);
  HouseFile file = HouseFile::create(folder / "a.house", house);
  file.change("renamed", [](House& h) { h.dwelling.name = "Cabin"; });
  back_up(folder / "a.house", folder / "b.house");
  const HouseFile copy = HouseFile::open(folder / "b.house", Access::change);
  EXPECT_EQ(copy.load(), file.load());
  EXPECT_EQ(copy.revision(), 2);
  EXPECT_THAT(message_of(ErrorKind::storage, [&] { back_up(folder / "a.house", folder / "b.house"); }), HasSubstr("already there"));
  EXPECT_EQ(folder.files(), 2);
}

TEST(Check, finds_a_reference_to_nothing) {
  const TempFolder folder;
  HouseFile::create(folder / "a.house", random_house(5, 6));
  EXPECT_TRUE(check_house_file(folder / "a.house").empty());
  SQLite::Database((folder / "a.house").string(), SQLite::OPEN_READWRITE).exec("UPDATE room SET floor = '00000000000z'");
  EXPECT_THAT(check_house_file(folder / "a.house").front(), HasSubstr("'room' names a row of 'floor'"));
}

}  // namespace
}  // namespace ohmstead
