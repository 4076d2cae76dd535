#include "db/row_change.h"

#include <gmock/gmock.h>

#include "db/interchange.h"
#include "db/row_change_text.h"
#include "temp_folder.h"
#include "tests/db/random_edits.h"
#include "tests/support/random_house.h"

namespace ohmstead {
namespace {

using ::testing::HasSubstr;
using ::testing::IsEmpty;

/// Through the text that the file keeps.
std::vector<RowChange> through_text(const std::vector<RowChange>& changes) {
  std::vector<RowChange> back;
  for (const RowChange& change : changes) {
    back.push_back(row_change_of_text(change.table, change.id, text_of_row_change(change)));
    EXPECT_EQ(back.back(), change) << text_of_row_change(change);
  }
  return back;
}

TEST(RowChange, any_house_is_led_to_any_other_and_back_in_the_same_order) {
  for (std::uint64_t seed = 1; seed <= 100; ++seed) {
    const House before = random_house(seed, 3);
    House after = seed % 3 == 0 ? random_house(seed + 1, 4) : before;
    std::mt19937_64 random(seed);
    after = edited(after, random, 12);
    if (seed % 2 == 0) std::ranges::shuffle(after.points, random), std::ranges::shuffle(after.observations, random);
    after.printed = before.printed;
    const std::vector<RowChange> changes = through_text(row_changes(before, after));
    House house = before;
    ASSERT_FALSE(apply_changes(house, changes)) << seed;
    ASSERT_EQ(house, after) << seed;
    ASSERT_FALSE(apply_changes(house, turned_round(changes))) << seed;
    ASSERT_EQ(house, before) << seed;
  }
}

TEST(RowChange, an_answer_is_three_rows_and_small) {
  const House before = random_house(5, 6);
  House after = before;
  std::mt19937_64 random(1);
  add_answer(after, random, 5);
  const std::vector<RowChange> changes = row_changes(before, after);
  ASSERT_EQ(changes.size(), 3U);
  std::size_t bytes = 0;
  for (const RowChange& change : changes) bytes += text_of_row_change(change).size();
  EXPECT_LT(bytes, 400U);
  EXPECT_THAT(row_changes(before, before), IsEmpty());
}

TEST(RowChange, what_was_changed_since_is_named) {
  House house = random_house(5, 6);
  const House before = house;
  house.rooms[2].name = "Pantry";
  const std::vector<RowChange> changes = row_changes(before, house);
  house.rooms[2].name = "Larder";
  const auto wrong = apply_changes(house, turned_round(changes));
  ASSERT_TRUE(wrong);
  EXPECT_EQ(wrong->table, "room");
  EXPECT_EQ(wrong->id, house.rooms[2].id.value);
  EXPECT_EQ(wrong->field, "name");
}

TEST(RowChange, a_row_that_is_gone_or_there_already_is_named) {
  const House before = random_house(5, 6);
  House after = before;
  after.notes.push_back({Id<Note>::fresh(), {}, "new"});
  const std::vector<RowChange> changes = row_changes(before, after);
  House twice = after, never = before, other = after;
  EXPECT_TRUE(apply_changes(twice, changes));
  EXPECT_TRUE(apply_changes(never, turned_round(changes)));
  other.notes.back().text = "changed";
  const auto wrong = apply_changes(other, turned_round(changes));
  ASSERT_TRUE(wrong);
  EXPECT_EQ(wrong->field, "text");
}

TEST(RowChange, a_text_that_is_none_is_refused_as_damage) {
  for (const char* text : {"", "{", "[]", "{}", "{\"fields\":[]}", "{\"fields\":{\"name\":\"x\"}}", "{\"added\":-1,\"fields\":{}}",
                           "{\"added\":\"1\",\"fields\":{}}", "{\"order\":[1.5]}", "{\"added\":0,\"fields\":{\"name\":[]}}",
                           "{\"fields\":{\"name\":[[[[[1]]]],2]}}"})
    EXPECT_THAT(message_of(ErrorKind::storage, [&] { (void)row_change_of_text("room", 1, text); }), HasSubstr("damaged")) << text;
  House house = random_house(5, 6);
  for (const RowChange& change : {RowChange{RowChangeKind::changed, "no_table", 1, 0, {}, {}}, RowChange{RowChangeKind::reordered, "room", 0, 0, {}, {0, 0}},
                                  RowChange{RowChangeKind::added, "room", 0, 0, {}, {}},
                                  RowChange{RowChangeKind::added, "room", 77, 0, {{"no_field", {}, std::string("x")}}, {}},
                                  RowChange{RowChangeKind::removed, "dwelling", house.dwelling.id.value, 0, {}, {}}}) {
    House copy = house;
    EXPECT_TRUE(apply_changes(copy, {change})) << change.table;
  }
}

}  // namespace
}  // namespace ohmstead
