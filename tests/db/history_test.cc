#include "db/history.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <gmock/gmock.h>

#include "db/check.h"
#include "db/history_answer.h"
#include "db/house_file.h"
#include "db/interchange.h"
#include "db/undo.h"
#include "temp_folder.h"
#include "tests/db/random_edits.h"
#include "tests/support/random_house.h"

namespace ohmstead {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

/// A file with so many random changes, and the house after each.
struct Changed {
  HouseFile file;
  std::vector<House> houses;  ///< [0] at revision 1
};

Changed changed_file(const std::filesystem::path& path, std::uint64_t seed, int changes) {
  Changed changed{HouseFile::create(path, random_house(seed, 4)), {}};
  changed.houses.push_back(changed.file.load());
  std::mt19937_64 random(seed);
  while (static_cast<int>(changed.houses.size()) <= changes) {
    const House next = edited(changed.houses.back(), random, 3);
    if (next == changed.houses.back()) continue;
    changed.file.change("edited", [&](House& house) { house = next; });
    changed.houses.push_back(next);
  }
  return changed;
}

TEST(History, the_house_of_every_revision_comes_back_as_it_was) {
  const TempFolder folder;
  for (std::uint64_t seed = 1; seed <= 8; ++seed) {
    const Changed changed = changed_file(folder / ("h" + std::to_string(seed) + ".house"), seed, 12);
    EXPECT_EQ(changed.file.oldest_kept(), 1);
    for (std::size_t i = 0; i < changed.houses.size(); ++i)
      ASSERT_EQ(house_to_json(changed.file.as_of(static_cast<std::int64_t>(i) + 1)), house_to_json(changed.houses[i])) << seed << " " << i;
  }
}

TEST(History, a_revision_that_there_is_not_is_refused) {
  const TempFolder folder;
  const Changed changed = changed_file(folder / "a.house", 1, 3);
  EXPECT_THAT(message_of(ErrorKind::not_found, [&] { (void)changed.file.as_of(0); }), HasSubstr("no revision 0"));
  EXPECT_THAT(message_of(ErrorKind::not_found, [&] { (void)changed.file.as_of(5); }), HasSubstr("the newest is 4"));
}

TEST(History, who_made_a_change_is_kept_or_taken_from_what_it_adds) {
  const TempFolder folder;
  HouseFile file = HouseFile::create(folder / "a.house", random_house(5, 4));
  file.change("a note", [](House& house) { house.notes.push_back({Id<Note>::fresh(), {}, "x", false, "Ben", "2026-01-01T00:00:00Z"}); });
  file.made_by("Ana");
  file.change("another", [](House& house) { house.notes.push_back({Id<Note>::fresh(), {}, "y", false, "Ben", "2026-01-01T00:00:00Z"}); });
  const auto changes = file.changes();
  EXPECT_EQ(changes[0].who, "");
  EXPECT_EQ(changes[1].who, "Ben");
  EXPECT_EQ(changes[2].who, "Ana");
  EXPECT_NE(changes[1].mark, changes[2].mark);
}

TEST(History, of_a_long_history_the_oldest_is_dropped_and_the_list_stays) {
  const TempFolder folder;
  HouseFile file = HouseFile::create(folder / "a.house", random_house(5, 4));
  std::vector<House> houses{file.load()};
  for (int i = 0; i < 40; ++i) {
    ChangeNote note{.what = "a note"};
    note.keep_bytes = 2000;
    file.change(note, [&](House& house) { house.notes.push_back({Id<Note>::fresh(), {}, std::string(100, 'n')}); });
    houses.push_back(file.load());
  }
  EXPECT_EQ(file.changes().size(), 41U);
  const std::int64_t oldest = file.oldest_kept();
  EXPECT_GT(oldest, 20);
  EXPECT_LT(oldest, 32);
  EXPECT_EQ(file.as_of(oldest), houses[static_cast<std::size_t>(oldest) - 1]);
  EXPECT_THAT(message_of(ErrorKind::not_found, [&] { (void)file.as_of(oldest - 1); }), HasSubstr("not kept"));
  EXPECT_THAT(message_of(ErrorKind::not_found, [&] { undo(file, 40); }), HasSubstr("not kept"));
  EXPECT_EQ(file.load(), houses.back());
  ChangeNote note{.what = "larger than all that is kept"};
  note.keep_bytes = 50;
  file.change(note, [&](House& house) { house.notes.push_back({Id<Note>::fresh(), {}, std::string(100, 'n')}); });
  EXPECT_EQ(file.oldest_kept(), file.revision());
}

TEST(History, a_file_of_version_4_gains_one_from_now_on) {
  const TempFolder folder;
  std::filesystem::copy_file(std::string(OHMSTEAD_SOURCE_DIR) + "/tests/old-files/v4.house", folder / "a.house");
  HouseFile file = HouseFile::open(folder / "a.house", Access::change);
  const std::int64_t old = file.revision();
  const House before = file.load();
  EXPECT_EQ(file.oldest_kept(), old);
  EXPECT_THAT(message_of(ErrorKind::not_found, [&] { undo(file, 1); }), HasSubstr("nothing to take back"));
  file.change("renamed", [](House& house) { house.dwelling.name = "New name"; });
  EXPECT_EQ(file.oldest_kept(), old);
  EXPECT_EQ(file.as_of(old), before);
  undo(file, 1);
  EXPECT_EQ(house_to_json(file.load()), house_to_json(before));
}

TEST(History, of_a_thing_is_what_concerns_it_newest_first) {
  const TempFolder folder;
  HouseFile file = HouseFile::create(folder / "a.house", random_house(5, 4));
  const Point point = file.load().points[0];
  file.change("renamed", [&](House& house) { house.points[0].name = "reading lamp"; });
  file.change("something else", [&](House& house) { house.dwelling.name = "Other"; });
  file.change("a load", [&](House& house) { house.loads.push_back({.id = Id<Load>::fresh(), .point = point.id, .name = "bulb", .running_watts = 9}); });
  const HistoryAnswer answer = history_of(file, ThingRef{ThingKind::point, point.id.value}, 100);
  ASSERT_EQ(answer.entries.size(), 2U);
  EXPECT_EQ(answer.entries[0].what, "a load");
  EXPECT_EQ(answer.entries[1].items.at(0).fields.at(0).from, point.name);
  EXPECT_EQ(answer.entries[1].items.at(0).fields.at(0).to, "reading lamp");
  EXPECT_EQ(history_of(file, std::nullopt, 100).entries.size(), 4U);
  EXPECT_EQ(history_of(file, std::nullopt, 1).older, 3U);
  const Lines words = words_of_history(answer);
  ASSERT_EQ(words.size(), 2U);
  EXPECT_THAT(words[1].text, HasSubstr("Revision 2, "));
  EXPECT_THAT(words[1].items.at(0), HasSubstr("name " + point.name + " -> reading lamp"));
}

TEST(History, a_thing_that_is_gone_keeps_its_name_in_it) {
  const TempFolder folder;
  HouseFile file = HouseFile::create(folder / "a.house", random_house(5, 4));
  file.change("a room", [](House& house) { house.rooms.push_back({Id<Room>::fresh(), house.floors.at(0).id, "Den"}); });
  file.change("gone", [](House& house) { house.rooms.pop_back(); });
  const HistoryAnswer answer = history_of(file, std::nullopt, 100);
  EXPECT_EQ(answer.entries[0].items.at(0).thing, "room Den");
  EXPECT_EQ(answer.entries[1].items.at(0).thing, "room Den");
}

TEST(Undo, any_series_of_edits_taken_back_gives_the_house_before_and_made_again_the_one_after) {
  const TempFolder folder;
  for (std::uint64_t seed = 1; seed <= 8; ++seed) {
    const auto path = folder / ("h" + std::to_string(seed) + ".house");
    const std::vector<House> houses = changed_file(path, seed, 10).houses;
    HouseFile file = HouseFile::open(path, Access::change);  // another start of the program
    for (const int back : {1, 3, 6}) {
      undo(file, back);
      ASSERT_EQ(house_to_json(file.load()), house_to_json(houses[houses.size() - 1 - static_cast<std::size_t>(back)])) << seed;
      redo(file, back);
      ASSERT_EQ(house_to_json(file.load()), house_to_json(houses.back())) << seed;
    }
    for (int i = 0; i < 10; ++i) undo(file, 1);
    EXPECT_EQ(house_to_json(file.load()), house_to_json(houses.front()));
    redo(file, 4);
    EXPECT_EQ(house_to_json(file.load()), house_to_json(houses[4]));
    EXPECT_EQ(file.as_of(11), houses[10]) << "history is never rewritten";
    EXPECT_TRUE(check_house_file(path).empty());
  }
}

TEST(Undo, a_new_change_leaves_nothing_to_be_made_again) {
  const TempFolder folder;
  HouseFile file = changed_file(folder / "a.house", 2, 3).file;
  undo(file, 1);
  file.change("renamed", [](House& house) { house.dwelling.name = "Other"; });
  EXPECT_THAT(message_of(ErrorKind::not_found, [&] { redo(file, 1); }), HasSubstr("nothing to make again"));
  EXPECT_THAT(undo_stacks(file.changes()).done, ElementsAre(2, 3, 6));
  EXPECT_THAT(message_of(ErrorKind::not_found, [&] { undo(file, 4); }), HasSubstr("only 3"));
  EXPECT_THAT(message_of(ErrorKind::invalid_input, [&] { undo(file, 0); }), HasSubstr("from 1 on"));
}

TEST(Undo, one_change_in_the_middle_is_taken_back_where_nothing_of_it_was_changed_since) {
  const TempFolder folder;
  HouseFile file = HouseFile::create(folder / "a.house", random_house(5, 4));
  const std::string name = file.load().rooms[0].name;
  file.change("first", [](House& house) { house.rooms[0].name = "Pantry"; });
  file.change("second", [](House& house) { house.dwelling.name = "Other"; });
  undo_revision(file, 2);
  EXPECT_EQ(file.load().rooms[0].name, name);
  EXPECT_EQ(file.load().dwelling.name, "Other");
  EXPECT_THAT(message_of(ErrorKind::not_found, [&] { undo_revision(file, 2); }), HasSubstr("no change that stands now"));
  redo(file, 1);
  file.change("third", [](House& house) { house.rooms[0].name = "Larder"; });
  const House before = file.load();
  const std::string refusal = message_of(ErrorKind::conflict, [&] { undo_revision(file, 2); });
  EXPECT_THAT(refusal, HasSubstr("Revision 2 (first)"));
  EXPECT_THAT(refusal, HasSubstr("room Larder, name,"));
  EXPECT_EQ(file.load(), before);
}

TEST(Undo, changes_that_cancel_each_other_are_taken_back_and_made_again) {
  const TempFolder folder;
  HouseFile file = HouseFile::create(folder / "a.house", random_house(5, 4));
  const House before = file.load();
  file.change("first", [](House& house) { house.dwelling.name = "Other"; });
  file.change("second", [&](House& house) { house.dwelling.name = before.dwelling.name; });
  EXPECT_EQ(undo(file, 2).revision, 4);
  EXPECT_THAT(undo_stacks(file.changes()).done, IsEmpty());
  EXPECT_EQ(file.load(), before);
  EXPECT_TRUE(history_of(file, std::nullopt, 1).entries.at(0).kept) << "it did nothing, and that is known";
  redo(file, 1);
  EXPECT_EQ(file.load().dwelling.name, "Other");
  EXPECT_EQ(file.as_of(4), before);
}

TEST(Undo, what_would_leave_the_house_unsound_is_refused) {
  const TempFolder folder;
  HouseFile file = HouseFile::create(folder / "a.house", random_house(5, 4));
  file.change("a room", [](House& house) { house.rooms.push_back({Id<Room>::fresh(), house.floors.at(0).id, "Den"}); });
  file.change("a point in it", [](House& house) { house.points.push_back({.id = Id<Point>::fresh(), .room = house.rooms.back().id, .name = "lamp"}); });
  const House before = file.load();
  EXPECT_THAT(message_of(ErrorKind::invalid_input, [&] { undo_revision(file, 2); }), HasSubstr("could not be so any more"));
  EXPECT_EQ(file.load(), before);
  EXPECT_EQ(file.revision(), 3);
}

TEST(History, a_damaged_one_is_said_and_the_house_is_read_all_the_same) {
  const TempFolder folder;
  for (const char* sql : {"UPDATE row_change SET text = 'x'", "UPDATE row_change SET \"row\" = ''", "UPDATE row_change SET table_name = 'nothing'",
                          "UPDATE row_change SET text = replace(text, 'added', 'removed')"}) {
    const auto path = folder / "a.house";
    std::filesystem::remove(path);
    HouseFile file = HouseFile::create(path, random_house(5, 4));
    file.change("a room", [](House& house) { house.rooms.push_back({Id<Room>::fresh(), house.floors.at(0).id, "Den"}); });
    SQLite::Database(path.string(), SQLite::OPEN_READWRITE).exec(sql);
    EXPECT_THAT(message_of(ErrorKind::storage, [&] { (void)file.as_of(1); }), HasSubstr("damaged")) << sql;
    EXPECT_EQ(file.load().rooms.back().name, "Den");
    EXPECT_EQ(file.change("goes on", [](House& house) { house.dwelling.name = "Other"; }), 3);
  }
}

}  // namespace
}  // namespace ohmstead
