// history, undo, redo, --as-of and merge as people use them.

#include <gmock/gmock.h>

#include <chrono>
#include <nlohmann/json.hpp>
#include <random>
#include <thread>

#include "db/check.h"
#include "db/house_file.h"
#include "db/interchange.h"
#include "program.h"

namespace ohmstead::whole {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;
using Json = nlohmann::json;

constexpr const char* kHouse = "Kitchen: 4r 2l, dishwasher\nHall: 2r 1l\nPanel Main 12 spaces, 100 A main: 1 20 kitchen; 3 15; 5 15\n";

/// a.house and b.house, copies that parted.
void part(Folder& folder) {
  ASSERT_EQ(folder.start_house(kHouse).code, 0);
  std::filesystem::copy_file(folder.at("a.house"), folder.at("b.house"));
  ASSERT_EQ(folder.run({"enter", "--house", "a.house", "--line", "Den: 1l", "--who", "Ana"}).code, 0);
  ASSERT_EQ(folder.run({"enter", "--house", "b.house", "--line", "Attic: 1l", "--who", "Ben"}).code, 0);
}

TEST(History, tells_what_when_and_who_and_the_record_as_it_was) {
  Folder folder;
  part(folder);
  const Ran all = folder.run({"history", "--house", "a.house"});
  EXPECT_EQ(all.code, 0) << all.err;
  EXPECT_THAT(all.out, HasSubstr("Ana: entered"));
  EXPECT_THAT(all.out, HasSubstr("Room Den added"));
  const Json json = Json::parse(folder.run({"history", "den", "--house", "a.house", "--json"}).out);
  EXPECT_EQ(json.at("changes").size(), 1U);
  EXPECT_EQ(json.at("changes").at(0).at("who"), "Ana");
  const Ran then = folder.run({"status", "--as-of", "2", "--house", "a.house"});
  EXPECT_THAT(then.out, HasSubstr("As of revision 2, "));
  EXPECT_THAT(folder.run({"where", "den light", "--house", "a.house"}).out, HasSubstr("Den"));
  EXPECT_EQ(folder.run({"where", "den light", "--as-of", "2", "--house", "a.house"}).code, 4);
  EXPECT_EQ(folder.run({"export", "--as-of", "2", "--house", "a.house"}).out, folder.run({"export", "--as-of", "2", "--house", "b.house"}).out);
  EXPECT_THAT(folder.run({"off", "1", "--as-of", "1999-01-01", "--house", "a.house"}).err, HasSubstr("begun on"));
  EXPECT_THAT(folder.run({"off", "1", "--as-of", "yesterday", "--house", "a.house"}).err, HasSubstr("--as-of takes"));
}

TEST(History, undo_and_redo_go_back_and_forth_over_starts_of_the_program) {
  Folder folder;
  part(folder);
  const std::string after = folder.run({"export", "--house", "a.house"}).out, before = folder.run({"export", "--as-of", "2", "--house", "a.house"}).out;
  const Ran undone = folder.run({"undo", "--house", "a.house"});
  EXPECT_EQ(undone.code, 0) << undone.err;
  EXPECT_THAT(undone.out, HasSubstr("Took back revision 3"));
  EXPECT_EQ(folder.run({"export", "--house", "a.house"}).out, before);
  EXPECT_THAT(folder.run({"history", "--house", "a.house"}).out, HasSubstr("(taken back)"));
  EXPECT_EQ(folder.run({"redo", "--house", "a.house"}).code, 0);
  EXPECT_EQ(folder.run({"export", "--house", "a.house"}).out, after);
  const Ran refused = folder.run({"undo", "--revision", "2", "--house", "a.house"});
  EXPECT_EQ(refused.code, 4);
  EXPECT_THAT(refused.err, HasSubstr("cannot be taken back"));
  for (const char* number : {"0", "-1", "x", "1.5", "99999999999999999999"}) EXPECT_NE(folder.run({"undo", "--house", "a.house", "--", number}).code, 0) << number;
  EXPECT_EQ(folder.run({"export", "--house", "a.house"}).out, after);
}

TEST(Merge, brings_in_what_the_other_has_and_says_so) {
  Folder folder;
  part(folder);
  const std::string other = folder.read("b.house");
  EXPECT_EQ(folder.run({"merge", "b.house", "--show", "--house", "a.house"}).code, 1);
  const Ran merged = folder.run({"merge", "b.house", "--mine", "--house", "a.house"});
  EXPECT_EQ(merged.code, 0) << merged.err;
  EXPECT_THAT(merged.out, HasSubstr("rows added"));
  EXPECT_EQ(folder.read("b.house"), other);
  EXPECT_THAT(folder.run({"where", "attic light", "--house", "a.house"}).out, HasSubstr("Attic"));
  EXPECT_THAT(folder.run({"merge", "b.house", "--mine", "--house", "a.house"}).out, HasSubstr("nothing new"));
  EXPECT_EQ(folder.run({"merge", "b.house", "--show", "--house", "a.house"}).code, 0);
}

TEST(Merge, asks_line_by_line_and_changes_nothing_unless_all_is_decided) {
  Folder folder;
  part(folder);
  EXPECT_EQ(folder.run({"enter", "--house", "a.house", "--line", "Panel Main: 7 20 den"}).code, 0);
  EXPECT_EQ(folder.run({"enter", "--house", "b.house", "--line", "Panel Main: 7 15 attic"}).code, 0);
  const std::string before = folder.read("a.house");
  const Ran stopped = folder.run({"merge", "b.house", "--house", "a.house"});
  EXPECT_EQ(stopped.code, 1);
  EXPECT_THAT(stopped.err, HasSubstr("nothing was merged"));
  EXPECT_EQ(folder.read("a.house"), before);
  const Json asked = Json::parse(stopped.out.substr(0, stopped.out.find('\n')));
  EXPECT_EQ(asked.at("type"), "conflict");
  EXPECT_EQ(asked.at("kind"), "same_place");
  const Json take{{"do", "take"}, {"key", asked.at("key")}, {"side", "theirs"}};
  const Ran done = folder.run({"merge", "b.house", "--house", "a.house"}, "nonsense\n{\"do\":\"take\",\"key\":\"other\",\"side\":\"mine\"}\n" + take.dump() + "\n");
  EXPECT_EQ(done.code, 0) << done.err;
  EXPECT_THAT(done.out, HasSubstr("\"changed\":true"));
  EXPECT_THAT(folder.run({"export", "--house", "a.house"}).out, HasSubstr("\"attic\""));
}

TEST(Merge, what_is_no_copy_of_this_house_is_refused_and_nothing_is_changed) {
  Folder folder;
  part(folder);
  EXPECT_EQ(folder.run({"new", "other.house"}).code, 0);
  folder.write("text.json", "{\"format\":\"something\"}");
  folder.write("empty.house", "");
  const std::string before = folder.read("a.house");
  const Ran different = folder.run({"merge", "other.house", "--mine", "--house", "a.house"});
  EXPECT_EQ(different.code, 4);
  EXPECT_THAT(different.err, HasSubstr("two different houses"));
  for (const char* other : {"text.json", "empty.house", "none.house", "none.json"}) EXPECT_NE(folder.run({"merge", other, "--mine", "--house", "a.house"}).code, 0) << other;
  EXPECT_EQ(folder.run({"merge", "b.house", "--mine", "--theirs", "--house", "a.house"}).code, 4);
  EXPECT_EQ(folder.read("a.house"), before);
}

TEST(MergeKill, a_merge_that_is_killed_leaves_both_files_whole) {
  Folder folder;
  part(folder);
  const std::string start = folder.read("a.house"), other = folder.read("b.house");
  const auto begin = std::chrono::steady_clock::now();
  ASSERT_EQ(folder.run({"merge", "b.house", "--mine", "--house", "a.house"}).code, 0);
  const auto whole_merge = std::chrono::duration_cast<std::chrono::microseconds>(std::chrono::steady_clock::now() - begin).count();
  const House after = HouseFile::open(folder.at("a.house"), Access::read).load();
  std::mt19937 random(3);
  int merged = 0;
  for (int kills = 0; kills < 60; ++kills) {
    folder.write("a.house", start);
    std::filesystem::remove(folder.at("a.house-journal"));
    {
      Talk talk(folder, {"merge", "b.house", "--mine", "--house", "a.house"});
      std::this_thread::sleep_for(std::chrono::microseconds(random() % static_cast<unsigned>(whole_merge + whole_merge / 4)));
      talk.kill();
    }
    ASSERT_TRUE(check_house_file(folder.at("a.house")).empty()) << kills;
    const HouseFile file = HouseFile::open(folder.at("a.house"), Access::read);
    const bool whole = file.revision() == 4;
    merged += whole;
    EXPECT_EQ(file.load().rooms.size(), whole ? after.rooms.size() : after.rooms.size() - 1) << kills;
    EXPECT_EQ(folder.read("b.house"), other);
  }
  std::printf("%d of 60 merges were done when they were killed\n", merged);
}

}  // namespace
}  // namespace ohmstead::whole
