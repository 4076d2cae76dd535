// Questions, notes and searches, put to the real program.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "program.h"

namespace ohmstead::whole {
namespace {

using Json = nlohmann::json;
using ::testing::HasSubstr;
using ::testing::Not;

class Asked : public ::testing::Test {
 protected:
  void SetUp() override {
    ASSERT_EQ(folder
                  .start_house("Kitchen: 2r, 1l, freezer 100 W, receptacle with aquarium 90 W\nHall: 2r, ceiling light\n"
                               "Panel Main in Hall 14 spaces, 100 A main: 1 20; 3 15; 12 15 kühlen; 14 15\n"
                               "Kitchen freezer <- Main 12 by Ana\nKitchen receptacle 3 <- Main 14 by Ana\n")
                  .code,
              0);
  }
  Folder folder;
};

TEST_F(Asked, the_breaker_of_the_aquarium_in_a_childs_words) {
  const Ran ran = folder.run({"ask", "which", "switch", "makes", "the", "fishies", "go?"});
  EXPECT_EQ(ran.code, 0) << ran.out << ran.err;
  EXPECT_THAT(ran.out, HasSubstr("Main panel breaker 14"));
  EXPECT_THAT(ran.out, HasSubstr("(Asked: what feeds Kitchen receptacle 3)"));
}

TEST_F(Asked, a_sitting_remembers_what_was_asked) {
  const Ran ran = folder.run({"ask"}, "which breaker for the freezer\nwhat else is on that circuit\nwhich breaker for the light\nhall\n");
  EXPECT_THAT(ran.out, HasSubstr("nothing else that has been traced is on it"));
  EXPECT_THAT(ran.out, HasSubstr("Which one?"));
  EXPECT_THAT(ran.out, HasSubstr("Hall ceiling light: what feeds it is not traced yet"));
}

TEST_F(Asked, as_json_one_document_or_one_a_line) {
  const Json json = Json::parse(folder.run({"ask", "--json", "which breaker for the freezer"}).out);
  EXPECT_EQ(json["kind"], "feeds");
  EXPECT_EQ(json["things"][0]["name"], "Kitchen freezer");
  EXPECT_EQ(json["asks_back"], false);
  const Ran lines = folder.run({"ask", "--json"}, "is it safe to touch the wires\n\xff\xfe\n");
  const std::size_t end = lines.out.find('\n');
  EXPECT_EQ(Json::parse(lines.out.substr(0, end))["kind"], "danger");
  EXPECT_EQ(Json::parse(lines.out.substr(end))["asks_back"], true);
  EXPECT_EQ(lines.code, 1);
}

TEST_F(Asked, notes_are_added_shown_changed_and_removed) {
  EXPECT_EQ(folder.run({"note", "list"}).code, 1);
  EXPECT_EQ(folder.run({"note", "add", "Gas", "shut-off:", "east wall"}).code, 0);
  EXPECT_EQ(folder.run({"note", "add", "--about", "freezer", "--private", "--who", "Ana", "key is with Ona"}).code, 0);
  EXPECT_THAT(folder.run({"where", "freezer"}).out, HasSubstr("Noted: Kitchen freezer: key is with Ona (private, Ana"));
  EXPECT_EQ(Json::parse(folder.run({"where", "freezer", "--json"}).out)["notes"].size(), 1U);
  EXPECT_THAT(folder.run({"ask", "where is the gas valve"}).out, HasSubstr("east wall"));
  EXPECT_EQ(folder.run({"note", "edit", "gas", "Gas shut-off: west wall"}).code, 0);
  EXPECT_EQ(folder.run({"note", "edit", "2", "--not-private"}).code, 0);
  const Json list = Json::parse(folder.run({"note", "list", "--json"}).out);
  EXPECT_EQ(list["notes"][0]["text"], "Gas shut-off: west wall");
  EXPECT_EQ(list["notes"][0]["topic"], "Gas shut-off");
  EXPECT_EQ(list["notes"][1]["private"], false);
  EXPECT_EQ(list["notes"][1]["who"], "Ana");
  EXPECT_EQ(folder.run({"note", "remove", "1"}).code, 0);
  EXPECT_THAT(folder.run({"note", "list"}).out, Not(HasSubstr("Gas")));
}

TEST_F(Asked, a_note_that_cannot_be_kept_changes_nothing) {
  const std::string before = folder.read("a.house");
  for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{{"note", "add", ""},
                                                                                     {"note", "add", "a\nb"},
                                                                                     {"note", "add", "--about", "unicorn", "x"},
                                                                                     {"note", "edit", "7", "x"},
                                                                                     {"note", "remove", "gas"},
                                                                                     {"note", "sing", "x"}}) {
    const Ran ran = folder.run(words);
    EXPECT_NE(ran.code, 0) << words[1];
    EXPECT_THAT(ran.err, HasSubstr("ohmstead: "));
  }
  EXPECT_EQ(folder.read("a.house"), before);
}

TEST_F(Asked, find_looks_in_all_that_is_written_down) {
  ASSERT_EQ(folder.run({"note", "add", "Gas shut-off: \xc3\xa9st wall"}).code, 0);
  EXPECT_THAT(folder.run({"find", "gas", "est"}).out, HasSubstr("note: Gas shut-off"));
  EXPECT_THAT(folder.run({"find", "kuhl"}).out, HasSubstr("breaker: Main breaker 12"));
  EXPECT_THAT(folder.run({"find", "fish", "tank"}).out, HasSubstr("load: aquarium"));
  EXPECT_EQ(folder.run({"find", "\"' OR gus* NEAR("}).code, 1) << "words, and none of them is there";
  EXPECT_THAT(folder.run({"find", "***"}).err, HasSubstr("no word in that"));
  const Json json = Json::parse(folder.run({"find", "--json", "--most", "1", "kitchen"}).out);
  EXPECT_EQ(json["found"].size(), 1U);
  EXPECT_EQ(json["more"], true);
}

TEST_F(Asked, what_is_imported_is_found) {
  ASSERT_EQ(folder.run({"note", "add", "Water: red wheel"}).code, 0);
  ASSERT_EQ(folder.run({"export", "-o", "a.json"}).code, 0);
  ASSERT_EQ(folder.run({"import", "a.json", "b.house"}).code, 0);
  EXPECT_THAT(folder.run({"--house", "b.house", "find", "wheel"}).out, HasSubstr("Water"));
  ASSERT_EQ(folder.run({"--house", "a.house", "copy", "c.house"}).code, 0);
  EXPECT_THAT(folder.run({"--house", "c.house", "find", "wheel"}).out, HasSubstr("Water"));
}

}  // namespace
}  // namespace ohmstead::whole
