// What cannot be true is refused: one clear sentence, the exit code of its kind, nothing changed.

#include <SQLiteCpp/SQLiteCpp.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>

#include "program.h"

namespace ohmstead::whole {
namespace {

using ::testing::HasSubstr;

struct BadEntry {
  const char* line;
  const char* says;
};

class BadInput : public ::testing::Test {
 protected:
  void SetUp() override {
    ASSERT_EQ(folder.run({"new", "a.house"}).code, 0);
    ASSERT_EQ(folder.run({"enter", "-"}, "Kitchen: 2r, dishwasher\nPanel Main 12 spaces, 100 A main: 1 20; 2+4 30 range; 3 15\n").code, 0);
    before = folder.read("a.house");
  }
  /// One sentence on standard error, this exit code, and the house file as it was to the byte.
  void expect_refused(const Ran& ran, int code, const std::string& says) {
    EXPECT_EQ(ran.code, code) << ran.err;
    EXPECT_THAT(ran.err, HasSubstr(says));
    EXPECT_EQ(std::ranges::count(ran.err, '\n'), 1) << ran.err;
    EXPECT_EQ(ran.err.find('\x1b'), std::string::npos);
    EXPECT_LT(ran.err.size(), 700U);
    EXPECT_TRUE(folder.read("a.house") == before);
  }
  Folder folder;
  std::string before;
};

TEST_F(BadInput, contradictory_panels_are_refused) {
  const BadEntry entries[] = {
      {"Panel Main: 3 20", "space 3"},                        // two breakers in one space
      {"Panel Main: 5,9 tied 20", "tie"},                     // a tie across non-neighbours
      {"Panel Main: 6+8+10 30; 7a+7b 30", ""},                // a 2-pole on one leg
      {"Panel Sub 4 spaces from Sub 1: 1 20", "Sub"},         // a subpanel that feeds itself
      {"Kitchen: kettle -100 W", "W"},                        // negative watts
      {"Panel Main: 40 20", "12"},                            // a space the panel does not have
      {"Bath: 3 frobnicators", "frobnicators"},               // an unknown word
  };
  for (const BadEntry& entry : entries) {
    SCOPED_TRACE(entry.line);
    expect_refused(folder.run({"enter", "--line", entry.line}), 4, entry.says);
  }
}

TEST_F(BadInput, unknown_names_are_refused_and_ten_thousand_characters_too) {
  expect_refused(folder.run({"off", "31"}), 4, "31");
  expect_refused(folder.run({"where", "submarine"}), 4, "submarine");
  expect_refused(folder.run({"where", std::string(10'000, 'x')}), 4, "");
  expect_refused(folder.run({"where", "dish\x1b[31mwasher\x07"}), 4, "");
  expect_refused(folder.run({"enter", "--line", "Kitchen: receptacle \"" + std::string(10'000, 'y') + "\""}), 4, "");
  expect_refused(folder.run({"enter", "--line", "Bed\x1b[2Jroom: 2r"}), 4, "");
}

TEST_F(BadInput, words_that_are_no_command_or_option) {
  expect_refused(folder.run({"whare", "dishwasher"}), 2, "Did you mean 'where'?");
  expect_refused(folder.run({"off"}), 2, "HANDLE");
  expect_refused(folder.run({"off", "1", "--loud"}), 2, "--help");
  expect_refused(folder.run({"directory", "--width-mm", "010x"}), 4, "--width-mm");
}

TEST_F(BadInput, files_that_are_no_house_files) {
  std::filesystem::create_directory(folder.at("folder.house"));
  folder.write("empty.house", "");
  folder.write("text.house", "This is not a house file, only words about one.\n");
  folder.write("cut.house", before.substr(0, before.size() / 2));
  std::string foreign = before;
  foreign.replace(68, 4, "ELSE");  // application_id of some other program
  folder.write("foreign.house", foreign);
  std::string newer = before;
  newer.replace(60, 4, std::string("\0\0\0\x63", 4));  // user_version 99
  folder.write("newer.house", newer);
  for (const char* name : {"missing.house", "folder.house", "empty.house", "text.house", "cut.house", "foreign.house"}) {
    SCOPED_TRACE(name);
    expect_refused(folder.run({"--house", name, "status"}), 3, name);
  }
  expect_refused(folder.run({"--house", "newer.house", "status"}), 3, "99");
}

TEST_F(BadInput, an_existing_file_is_never_made_anew) {
  expect_refused(folder.run({"new", "a.house"}), 3, "a.house");
  expect_refused(folder.run({"copy", "a.house"}), 3, "a.house");
}

TEST_F(BadInput, documents_that_are_cut_or_wrong_are_refused_with_the_path_of_the_value) {
  ASSERT_EQ(folder.run({"export", "-o", "a.json"}).code, 0);
  std::string json = folder.read("a.json");
  folder.write("cut.json", json.substr(0, json.size() / 2));
  expect_refused(folder.run({"import", "cut.json", "b.house"}), 4, "");
  const auto poles = json.find("\"poles\": 2");
  ASSERT_NE(poles, std::string::npos);
  folder.write("wrong.json", json.replace(poles, 10, "\"poles\": 9"));
  expect_refused(folder.run({"import", "wrong.json", "b.house"}), 4, "breaker[1].poles");
  EXPECT_FALSE(std::filesystem::exists(folder.at("b.house")));
}

TEST_F(BadInput, a_directory_that_cannot_be_written_leaves_nothing_half) {
  expect_refused(folder.run({"directory", "-o", "no/such/folder/d.pdf"}), 3, "no/such/folder");
  expect_refused(folder.run({"directory", "-o", "d.pdf", "--height-mm", "60"}), 4, "mm");
  EXPECT_FALSE(std::filesystem::exists(folder.at("d.pdf")));
}

TEST_F(BadInput, paths_too_long_for_any_folder_are_refused_shortly) {
  const std::string path(10'000, 'x');
  expect_refused(folder.run({"copy", path}), 3, "...x");
  expect_refused(folder.run({"new", path}), 3, "...x");
  expect_refused(folder.run({"enter", path}), 3, "...x");
  expect_refused(folder.run({"directory", "-o", path}), 3, "...x");
  expect_refused(folder.run({"--house", path, "status"}), 3, "...x");
}

TEST_F(BadInput, a_value_that_is_missing_or_given_twice_is_told_in_plain_words) {
  expect_refused(folder.run({"status", "--house"}), 2, "needs a value");
  expect_refused(folder.run({"--house", "a.house", "--house", "b.house", "status"}), 2, "more often");
}

TEST_F(BadInput, a_trigger_put_into_the_file_never_runs) {
  SQLite::Database db(folder.at("a.house").string(), SQLite::OPEN_READWRITE);
  db.exec("CREATE TRIGGER spoil AFTER INSERT ON change BEGIN DELETE FROM point; END");
  EXPECT_EQ(folder.run({"enter", "--line", "Den: 2r"}).code, 0);
  EXPECT_EQ(db.execAndGet("SELECT count(*) FROM point").getInt(), 5);  // 3 in the kitchen, 2 in the den
}

TEST_F(BadInput, a_line_that_a_tracing_session_cannot_keep_is_refused_and_the_session_goes_on) {
  Talk talk(folder, {"trace", "--json-lines"});
  EXPECT_THAT(talk.receive(), HasSubstr("\"step\":1"));
  talk.send(R"({"do":"answer","answer":"done","who":"\u001b[31m"})");
  EXPECT_THAT(talk.receive(), HasSubstr("control character"));
  talk.send(R"({"do":"answer","answer":"done","at":"yesterday"})");
  EXPECT_THAT(talk.receive(), HasSubstr("UTC"));
  talk.send(R"({"do":"answer","answer":"done","at":"2026-11-25T09:30:00Z"})");
  EXPECT_THAT(talk.receive(), HasSubstr("\"step\":2"));
}

TEST_F(BadInput, a_survey_whose_input_ends_says_so_and_keeps_what_was_answered) {
  const Ran ran = folder.run({"survey"}, "Den\n");
  EXPECT_EQ(ran.code, 1);
  EXPECT_THAT(ran.out, HasSubstr("Every answer given is saved"));
  EXPECT_THAT(folder.run({"status"}).out, HasSubstr("2 rooms"));
}

}  // namespace
}  // namespace ohmstead::whole
