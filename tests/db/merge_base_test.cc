#include "db/merge_base.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <gmock/gmock.h>

#include "db/check.h"
#include "db/interchange.h"
#include "db/merge_words.h"
#include "db/undo.h"
#include "temp_folder.h"
#include "tests/db/random_edits.h"
#include "tests/support/random_house.h"

namespace ohmstead {
namespace {

using ::testing::HasSubstr;
using ::testing::IsEmpty;

/// Two copies of one file.
struct TwoCopies {
  TempFolder folder;
  HouseFile a, b;

  explicit TwoCopies(const House& house = random_house(5, 4)) : a(HouseFile::create(folder / "a.house", house)), b(copied()) {}
  HouseFile copied() {
    std::filesystem::copy_file(folder / "a.house", folder / "b.house");
    return HouseFile::open(folder / "b.house", Access::change);
  }
};

/// Merges a copy into a file, each question decided for `side`; how many were asked, -1: there was nothing new.
int merge_in(HouseFile& into, OtherCopy other, Side side = Side::mine) {
  const House mine = into.load();
  const Parting parting = parting_of(into, mine, other);
  if (parting.nothing_new) return -1;
  Decisions decisions;
  for (;;) {
    const Merged merged = merge_houses(parting.base, mine, parting.theirs, decisions);
    if (merged.open.empty()) return keep_merged(into, mine, merged, other, "merged"), static_cast<int>(decisions.size());
    for (const Conflict& conflict : merged.open) {
      const SideBySide words = side_by_side(merged, conflict);
      EXPECT_FALSE(words.about.empty() || words.mine.empty() || words.theirs.empty()) << conflict.key;
      decisions[conflict.key] = side;
    }
  }
}

int merge_files(HouseFile& into, const HouseFile& from, Side side = Side::mine) { return merge_in(into, read_stranger_copy(from.path()), side); }

void note(HouseFile& file, const std::string& text) {
  file.change("a note", [&](House& house) { house.notes.push_back({Id<Note>::fresh(), {}, text}); });
}
void rename_room(HouseFile& file, const std::string& name) {
  file.change("renamed", [&](House& house) { house.rooms.at(0).name = name; });
}

TEST(MergeBase, copies_that_parted_are_one_again_and_merging_again_finds_nothing_new) {
  TwoCopies two;
  const std::size_t notes = two.a.load().notes.size();
  note(two.a, "in a"), note(two.b, "in b"), rename_room(two.b, "Office");
  EXPECT_EQ(merge_files(two.a, two.b), 0);
  EXPECT_EQ(two.a.load().notes.size(), notes + 2);
  EXPECT_EQ(two.a.load().rooms.at(0).name, "Office");
  EXPECT_EQ(two.a.revision(), 3);
  EXPECT_EQ(merge_files(two.a, two.b), -1);
  EXPECT_EQ(merge_files(two.b, two.a), 0);
  EXPECT_EQ(house_to_json(two.b.load()), house_to_json(two.a.load()));
  EXPECT_EQ(merge_files(two.b, two.a), -1);
  EXPECT_EQ(merge_files(two.a, two.b), 0);
  EXPECT_TRUE(check_house_file(two.a.path()).empty());
}

TEST(MergeBase, what_was_decided_is_not_asked_again_and_what_is_new_is) {
  TwoCopies two;
  rename_room(two.a, "Pantry"), rename_room(two.b, "Larder");
  EXPECT_EQ(merge_files(two.a, two.b, Side::mine), 1);
  EXPECT_EQ(two.a.load().rooms.at(0).name, "Pantry");
  EXPECT_EQ(merge_files(two.a, two.b), -1);
  note(two.b, "later");
  EXPECT_EQ(merge_files(two.a, two.b), 0);
  EXPECT_EQ(two.a.load().rooms.at(0).name, "Pantry");
  EXPECT_EQ(two.a.load().notes.back().text, "later");
  rename_room(two.b, "Store");
  EXPECT_EQ(merge_files(two.a, two.b, Side::theirs), 1) << "what they say now was not decided about";
  EXPECT_EQ(two.a.load().rooms.at(0).name, "Store");
}

TEST(MergeBase, what_was_removed_or_taken_back_on_one_side_stays_so) {
  TwoCopies two;
  note(two.a, "gone soon");
  std::filesystem::remove(two.folder / "b.house");
  two.b = two.copied();
  undo(two.a, 1);
  const House before = two.a.load();
  EXPECT_EQ(merge_files(two.a, two.b), -1) << "the other one is only older";
  note(two.b, "new");
  EXPECT_EQ(merge_files(two.a, two.b), 0);
  EXPECT_EQ(two.a.load().notes.size(), before.notes.size() + 1);
  EXPECT_EQ(two.a.load().notes.back().text, "new");
}

TEST(MergeBase, a_merge_that_was_taken_back_can_be_done_again) {
  TwoCopies two;
  note(two.a, "in a"), note(two.b, "in b");
  const House before = two.a.load();
  merge_files(two.a, two.b);
  undo(two.a, 1);
  EXPECT_EQ(house_to_json(two.a.load()), house_to_json(before));
  EXPECT_EQ(merge_files(two.a, two.b), 0);
  EXPECT_EQ(two.a.load().notes.size(), before.notes.size() + 1);
}

TEST(MergeBase, a_merge_that_left_mine_as_it_was_is_taken_back_like_any_other) {
  TwoCopies two;
  rename_room(two.b, "Larder");
  std::filesystem::remove(two.folder / "a.house");
  two.a = HouseFile::create(two.folder / "a.house", two.b.load());  // begun anew: no change in common
  two.a.change("renamed", [](House& house) { house.rooms.at(1).name = "Pantry"; });
  rename_room(two.b, "Store");
  const House before = two.a.load();
  ASSERT_GE(merge_files(two.a, two.b, Side::mine), 1);
  ASSERT_EQ(two.a.load(), before);
  EXPECT_EQ(undo(two.a, 1).revision, 4);
  EXPECT_EQ(merge_files(two.a, two.b, Side::theirs), 1) << "it is asked again";
  EXPECT_EQ(undo(two.a, 2).revision, 6);
  EXPECT_NE(two.a.load().rooms.at(1).name, "Pantry");
}

TEST(MergeBase, a_third_copy_that_brings_the_same_is_known) {
  TwoCopies two;
  std::filesystem::copy_file(two.folder / "a.house", two.folder / "c.house");
  HouseFile c = HouseFile::open(two.folder / "c.house", Access::change);
  rename_room(two.a, "Pantry"), rename_room(c, "Larder");
  EXPECT_EQ(merge_files(two.b, c), 0);
  EXPECT_EQ(merge_files(two.a, two.b, Side::mine), 1);
  EXPECT_EQ(merge_files(two.a, c), -1);
}

TEST(MergeBase, one_thing_that_both_added_stays_one_when_more_hangs_on_it_later) {
  TwoCopies two;
  const auto add = [](HouseFile& file) {
    file.change("a room", [](House& house) { house.rooms.push_back({Id<Room>::fresh(), house.floors.at(0).id, "New den"}); });
  };
  add(two.a), add(two.b);
  const std::size_t rooms = two.a.load().rooms.size();
  EXPECT_EQ(merge_files(two.a, two.b), 0);
  two.b.change("a lamp", [](House& house) { house.points.push_back({.id = Id<Point>::fresh(), .room = house.rooms.back().id, .name = "den lamp"}); });
  EXPECT_EQ(merge_files(two.a, two.b), 0);
  const House merged = two.a.load();
  EXPECT_EQ(merged.rooms.size(), rooms);
  EXPECT_EQ(merged.points.back().name, "den lamp");
  EXPECT_EQ(row(merged, merged.points.back().room).name, "New den");
}

TEST(MergeBase, a_document_that_is_an_older_state_brings_nothing) {
  TwoCopies two;
  note(two.a, "kept"), rename_room(two.a, "Pantry");
  const House then = two.a.load();
  rename_room(two.a, "Larder");
  two.a.change("no notes", [](House& house) { house.notes.clear(); });
  const House now = two.a.load();
  EXPECT_EQ(merge_in(two.a, copy_of_document(house_from_json(house_to_json(then)))), 0);
  EXPECT_EQ(house_to_json(two.a.load()), house_to_json(now));
}

TEST(MergeBase, of_a_document_what_is_new_comes_in_and_what_differs_is_asked_once) {
  TwoCopies two;
  House theirs = two.a.load();
  rename_room(two.a, "Pantry");
  theirs.rooms.at(1).name = "Their room";
  theirs.notes.push_back({Id<Note>::fresh(), {}, "theirs"});
  EXPECT_EQ(merge_in(two.a, copy_of_document(theirs), Side::theirs), 1);
  EXPECT_EQ(two.a.load().rooms.at(0).name, "Pantry") << "they have what it was before";
  EXPECT_EQ(two.a.load().rooms.at(1).name, "Their room");
  EXPECT_EQ(two.a.load().notes.back().text, "theirs");
  EXPECT_EQ(merge_in(two.a, copy_of_document(theirs)), -1);
}

TEST(MergeBase, what_differs_is_shown_side_by_side_in_words) {
  TwoCopies two;
  const std::string before = two.a.load().rooms.at(0).name;
  rename_room(two.a, "Pantry"), rename_room(two.b, "Larder");
  const House mine = two.a.load();
  OtherCopy other = read_stranger_copy(two.b.path());
  const Parting parting = parting_of(two.a, mine, other);
  EXPECT_EQ(parting.revision, 1);
  const Merged merged = merge_houses(parting.base, mine, parting.theirs, {});
  ASSERT_EQ(merged.open.size(), 1U);
  const SideBySide words = side_by_side(merged, merged.open[0]);
  EXPECT_EQ(words.about, "Room Pantry, name: both sides changed it.");
  EXPECT_EQ(words.before, before);
  EXPECT_EQ(words.mine, "Pantry");
  EXPECT_EQ(words.theirs, "Larder");
  const Merged strangers = merge_houses(House{}, mine, parting.theirs, {});
  ASSERT_FALSE(strangers.open.empty());
  EXPECT_THAT(side_by_side(strangers, strangers.open[0]).about, HasSubstr("the two do not agree"));
  EXPECT_EQ(brought_words(mine, merged.house), "nothing came in");
}

TEST(MergeBase, nothing_is_written_if_the_house_was_changed_meanwhile) {
  TwoCopies two;
  note(two.b, "in b");
  const House mine = two.a.load();
  OtherCopy other = read_stranger_copy(two.b.path());
  const Parting parting = parting_of(two.a, mine, other);
  note(two.a, "meanwhile");
  const Merged merged = merge_houses(parting.base, mine, parting.theirs, {});
  EXPECT_THAT(message_of(ErrorKind::conflict, [&] { keep_merged(two.a, mine, merged, other, "merged"); }), HasSubstr("Another program"));
  EXPECT_EQ(two.a.load().notes.back().text, "meanwhile");
}

TEST(MergeBase, a_foreign_list_of_changes_may_hold_anything_and_its_row_changes_are_not_read) {
  TwoCopies two;
  note(two.b, "in b");
  for (const char* sql : {"UPDATE row_change SET text = 'spoiled'", "UPDATE \"change\" SET mark = ''", "UPDATE \"change\" SET mark = hex(zeroblob(500))",
                          "UPDATE \"change\" SET undoes = '1 2 x 99999999999999999999'", "INSERT INTO merged_mark VALUES (1, 0, CAST(x'ff' AS TEXT))"}) {
    SQLite::Database((two.folder / "b.house").string(), SQLite::OPEN_READWRITE).exec(sql);
    EXPECT_GE(merge_files(two.a, two.b), -1) << sql;
  }
  EXPECT_TRUE(check_house_file(two.a.path()).empty());
}

TEST(MergeBase, random_copies_merged_both_ways_are_alike) {
  for (std::uint64_t seed = 1; seed <= 10; ++seed) {
    TwoCopies two(random_house(seed, 3));
    std::mt19937_64 random(seed);
    for (HouseFile* file : {&two.a, &two.b})
      for (int i = 0; i < 3; ++i) {
        const House next = edited(file->load(), random, 4);
        file->change("edited", [&](House& house) { house = next; });
      }
    merge_files(two.a, two.b, Side::mine);
    merge_files(two.b, two.a, Side::theirs);
    ASSERT_EQ(house_to_json(two.a.load()), house_to_json(two.b.load())) << seed;
  }
}

}  // namespace
}  // namespace ohmstead
