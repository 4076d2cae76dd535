// One file out of a house, and a house out of the file, with the real program.

#include <gmock/gmock.h>

#include "program.h"

namespace ohmstead::whole {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

constexpr const char* kLines = "Kitchen: 3r, dishwasher\nHall: 1l\nPanel Main in Hall 12 spaces, 100 A main: 1 20 kitchen; 3 15 hall\n";

TEST(HandOver, a_house_goes_into_a_file_and_comes_back_byte_for_byte) {
  const Folder folder;
  ASSERT_EQ(folder.start_house(kLines).code, 0);
  const Ran wrote = folder.run({"hand-over"});
  ASSERT_EQ(wrote.code, 0) << wrote.err;
  EXPECT_THAT(wrote.out, HasSubstr("Wrote a.html"));
  ASSERT_EQ(folder.run({"import", "a.html", "b.house"}).code, 0);
  EXPECT_EQ(folder.run({"--house", "b.house", "export"}).out, folder.run({"--house", "a.house", "export"}).out);
  const Ran again = folder.run({"--house", "b.house", "hand-over", "-o", "-"});
  EXPECT_THAT(again.out, HasSubstr("<h1>Hillside: what feeds what</h1>"));
}

TEST(HandOver, a_file_that_is_cut_off_or_edited_makes_no_house) {
  const Folder folder;
  ASSERT_EQ(folder.start_house(kLines).code, 0);
  ASSERT_EQ(folder.run({"hand-over"}).code, 0);
  const std::string page = folder.read("a.html");
  folder.write("cut.html", page.substr(0, page.find("\"breaker\"", page.find("id=\"house-record\""))));
  std::string edited = page;
  edited.replace(edited.find("dishwasher", edited.find("id=\"house-record\"")), 10, "dishwashar");
  folder.write("edited.html", edited);
  for (const auto& [name, words] : {std::pair{"cut.html", "cut off"}, {"edited.html", "changed after it was written"}}) {
    const Ran ran = folder.run({"import", name, "b.house"});
    EXPECT_EQ(ran.code, 4);
    EXPECT_THAT(ran.err, HasSubstr(words));
    EXPECT_FALSE(std::filesystem::exists(folder.at("b.house")));
  }
}

TEST(HandOver, a_file_that_cannot_be_written_leaves_the_old_one) {
  const Folder folder;
  ASSERT_EQ(folder.start_house(kLines).code, 0);
  const Ran ran = folder.run({"hand-over", "-o", "nowhere/x.html"});
  EXPECT_EQ(ran.code, 3);
  EXPECT_THAT(ran.err, HasSubstr("there is no such folder"));
}

}  // namespace
}  // namespace ohmstead::whole
