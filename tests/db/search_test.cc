#include "db/search.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <random>

#include "ask/search_words.h"
#include "db/house_file.h"
#include "db/interchange.h"
#include "tests/db/temp_folder.h"
#include "tests/support/random_house.h"

namespace ohmstead {
namespace {

House house_with_notes() {
  House house;
  house.dwelling = {Id<Dwelling>::fresh(), "Hill"};
  house.floors = {{Id<Floor>::fresh(), "Ground", "", 0}};
  house.rooms = {{Id<Room>::fresh(), house.floors[0].id, "Kitchen"}};
  Point point;
  point.id = Id<Point>::fresh(), point.room = house.rooms[0].id, point.name = "refrigerator", point.place = "beside the window";
  house.points = {point};
  const auto note = [&](const ThingRef& about, const char* text) { house.notes.push_back({.id = Id<Note>::fresh(), .about = about, .text = text}); };
  note({}, "Gas shut-off: east wall");
  note({ThingKind::point, point.id.value}, "the gasket is new; café blend");
  note({}, "Phone numbers: Zoë 555-0134");
  return house;
}

/// What the index in the file holds.
std::vector<SearchDoc> docs_in(const std::filesystem::path& path) {
  SQLite::Database db(path.string(), SQLite::OPEN_READONLY);
  SQLite::Statement rows(db, "SELECT rowid, name, body FROM search ORDER BY rowid");
  std::vector<SearchDoc> docs;
  while (rows.executeStep()) docs.push_back({rows.getColumn(0).getInt64(), rows.getColumn(1).getString(), rows.getColumn(2).getString()});
  return docs;
}

void run_sql(const std::filesystem::path& path, const char* sql) { SQLite::Database(path.string(), SQLite::OPEN_READWRITE).exec(sql); }

SearchResult find(const std::filesystem::path& path, std::string_view words, std::size_t most = 20) {
  return search_house_file(path, search_words(words), most);
}

std::vector<std::string> texts(const SearchResult& result) {
  std::vector<std::string> all;
  for (const Found& found : result.found) all.push_back(found.text);
  return all;
}

TEST(Search, finds_beginnings_synonyms_and_words_without_their_accents) {
  const TempFolder folder;
  HouseFile::create(folder / "a.house", house_with_notes());
  const std::pair<const char*, std::size_t> cases[] = {{"gas", 2}, {"GASK", 1},   {"cafe", 1},           {"CAFÉ", 1},
                                                       {"zoe", 1}, {"fridge", 2}, {"kitchen window", 1}, {"555", 1},
                                                       {"55", 0},  {"sauna", 0},  {"wall east", 1}};
  for (const auto& [words, count] : cases) EXPECT_EQ(find(folder / "a.house", words).found.size(), count) << words;
}

TEST(Search, a_name_counts_more_than_what_is_written_about_it) {
  const TempFolder folder;
  House house = house_with_notes();
  house.notes.push_back({.id = Id<Note>::fresh(), .text = "the long way round by the kitchen is icy"});
  HouseFile::create(folder / "a.house", house);
  const SearchResult result = find(folder / "a.house", "kitchen");
  ASSERT_FALSE(result.found.empty());
  EXPECT_EQ(result.found.front().kind, FoundKind::room);
  EXPECT_EQ(result.found.back().kind, FoundKind::note);
}

TEST(Search, what_is_left_when_not_all_words_are_there_is_said_to_be_so) {
  const TempFolder folder;
  HouseFile::create(folder / "a.house", house_with_notes());
  const SearchResult result = find(folder / "a.house", "gasket banana");
  EXPECT_FALSE(result.all_words);
  EXPECT_EQ(result.found.size(), 1U);
  EXPECT_TRUE(find(folder / "a.house", "gasket").all_words);
}

TEST(Search, more_than_was_asked_for_is_said) {
  const TempFolder folder;
  HouseFile::create(folder / "a.house", house_with_notes());
  EXPECT_TRUE(find(folder / "a.house", "gas", 1).more);
  EXPECT_EQ(find(folder / "a.house", "gas", 1).found.size(), 1U);
  EXPECT_FALSE(find(folder / "a.house", "gas", 2).more);
}

TEST(Search, nothing_in_a_question_is_syntax) {
  const TempFolder folder;
  HouseFile::create(folder / "a.house", house_with_notes());
  for (const std::string& words :
       {std::string("\""), std::string("gas\" OR \"a"), std::string("NEAR(gas wall, 5)"), std::string("name:gas"), std::string("gas*"),
        std::string("^gas"), std::string("gas AND NOT wall"), std::string("(((("), std::string("-gas + wall"), std::string("{name body}: gas"),
        std::string(100'000, 'g'), std::string("gas \0 wall", 10), std::string("\xff\xfe gas"), std::string("'; DROP TABLE note; --")})
    EXPECT_NO_THROW((void)find(folder / "a.house", words)) << words.substr(0, 40);
  EXPECT_EQ(find(folder / "a.house", "NOT gas").found.size(), 2U) << "'NOT' is a word, and only 'gas' fits";
  EXPECT_FALSE(find(folder / "a.house", "NOT gas").all_words);
  const std::vector<std::vector<std::string>> hostile{{"gas\" OR body : \"wall"}};  // words that no reader of ours makes
  EXPECT_NO_THROW((void)search_house_file(folder / "a.house", hostile, 5));
}

TEST(Search, the_index_is_true_after_every_change) {
  const TempFolder folder;
  const auto path = folder / "a.house";
  HouseFile file = HouseFile::create(path, house_with_notes());
  EXPECT_EQ(docs_in(path), search_docs(file.load()));
  const std::function<void(House&)> edits[] = {
      [](House& house) { house.rooms[0].name = "Galley"; },
      [](House& house) { house.notes.erase(house.notes.begin()); },
      [](House& house) { house.notes[0].text = "new words"; },
      [](House& house) { std::swap(house.notes[0], house.notes[1]); },
      [](House& house) {
        house.printed.push_back({.id = Id<Printed>::fresh(),
                                 .item = "directory:x",
                                 .name = "directory of Main",
                                 .words = "[]",
                                 .at = "2026-01-01T00:00:00Z",
                                 .revision = 1,
                                 .code = "ABCDEF"});
      },
      [](House& house) { house.dwelling.name = "Elsewhere"; },
      [](House& house) { house.notes.clear(); },
  };
  for (const auto& edit : edits) {
    file.change("edited", edit);
    EXPECT_EQ(docs_in(path), search_docs(file.load()));
  }
  EXPECT_EQ(texts(find(path, "gas")).size(), 0U);
}

TEST(Search, the_index_is_true_after_many_edits_of_random_houses) {
  const TempFolder folder;
  std::mt19937_64 random(11);
  for (std::uint64_t seed = 1; seed <= 8; ++seed) {
    const auto path = folder / (std::to_string(seed) + ".house");
    HouseFile file = HouseFile::create(path, random_house(seed, 5));
    for (int edit = 0; edit < 6; ++edit) {
      file.change("edited", [&](House& house) {
        if (!house.notes.empty()) house.notes[random() % house.notes.size()].text = "note " + std::to_string(random() % 100);
        house.points[random() % house.points.size()].place = "place " + std::to_string(random() % 100);
        if (edit % 2 == 0) house.rooms[random() % house.rooms.size()].name = "Room " + std::to_string(seed * 1000 + static_cast<std::uint64_t>(edit));
      });
      ASSERT_EQ(docs_in(path), search_docs(file.load())) << seed << " " << edit;
    }
  }
}

TEST(Search, an_index_that_is_gone_damaged_or_old_is_made_anew) {
  const TempFolder folder;
  const auto path = folder / "a.house";
  const char* spoils[] = {"DROP TABLE search", "DELETE FROM search", "UPDATE search_data SET block = x'00' WHERE id > 10",
                          "DELETE FROM search_data WHERE id > 10"};
  for (const char* spoil : spoils) {
    std::filesystem::remove(path);
    HouseFile::create(path, house_with_notes());
    run_sql(path, spoil);
    if (std::string_view(spoil).starts_with("DELETE FROM search")) run_sql(path, "UPDATE change SET indexed = 0");
    EXPECT_EQ(find(path, "gas").found.size(), 2U) << spoil;
    EXPECT_EQ(docs_in(path).size(), search_docs(house_with_notes()).size()) << spoil;
  }
  run_sql(path, "DROP TABLE search; UPDATE change SET indexed = 0");
  HouseFile file = HouseFile::open(path, Access::change);
  file.change("noted", [](House& house) { house.notes[0].text = "Water: red wheel"; });
  EXPECT_EQ(find(path, "wheel").found.size(), 1U);
}

TEST(Search, an_older_file_is_searched_and_left_as_it_is) {
  const TempFolder folder;
  const std::filesystem::path old = std::filesystem::path(OHMSTEAD_SOURCE_DIR) / "tests/old-files";
  int tried = 0;
  for (const auto& entry : std::filesystem::directory_iterator(old)) {
    if (entry.path().extension() != ".house") continue;
    const auto path = folder / entry.path().filename();
    std::filesystem::copy_file(entry.path(), path);
    const House house = HouseFile::open(path, Access::read).load();
    const std::string before = read_file(path), word = house.rooms.front().name;
    EXPECT_FALSE(find(path, word).found.empty()) << path << word;
    EXPECT_EQ(read_file(path), before);
    HouseFile::open(path, Access::change).change("noted", [](House& h) { h.notes.push_back({.id = Id<Note>::fresh(), .text = "zebra"}); });
    EXPECT_EQ(find(path, "zebra").found.size(), 1U);
    ++tried;
  }
  EXPECT_GE(tried, 1);
}

}  // namespace
}  // namespace ohmstead
