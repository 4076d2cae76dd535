// Everything printed into a folder, and what is no longer true of it after a change.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "db/house_file.h"
#include "program.h"

namespace ohmstead::whole {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;

class Print : public ::testing::Test {
 protected:
  void SetUp() override {
    const Ran ran = folder.start_house(
          "Cellar: freezer 100/400 W !, furnace 500/1200 W !\nKitchen: 2r\nPanel Main in Cellar 20 spaces, 100 A main: 1 15; 3 15; 5 20\n"
          "Panel Barn in Kitchen 6 spaces from Main 5: 1 15\n"
          "Generator G 3600/4500 W 120/240\nTransfer T in Cellar 3 positions from G: 1 15; 2 15; 3 15\n"
          "By J.\nCellar freezer <- Main 1\nCellar furnace <- Main 3\n");
    ASSERT_EQ(ran.code, 0) << ran.err;
    ASSERT_EQ(folder.run({"plan", "--keep"}).code, 0);
  }
  void enter(const std::string& lines) {
    const Ran ran = folder.run({"enter", "-"}, lines);
    ASSERT_EQ(ran.code, 0) << ran.err;
  }
  House house() const { return HouseFile::open(folder.at("a.house"), Access::read).load(); }
  std::string code_of(const std::string& name) const {
    for (const Printed& printed : house().printed)
      if (printed.name == name) return printed.code;
    ADD_FAILURE() << name << " was not printed";
    return "";
  }
  Folder folder;
};

TEST_F(Print, puts_every_sheet_into_the_folder_and_writes_it_down) {
  const std::int64_t revision = HouseFile::open(folder.at("a.house"), Access::read).revision();
  const Ran ran = folder.run({"print", "--to", "out", "--date", "2026-11-27"});
  ASSERT_EQ(ran.code, 0) << ran.err;
  for (const char* file : {"directory-panel-main.pdf", "directory-panel-barn.pdf", "paper-plan.pdf", "paper-worksheet.pdf", "paper-wall.pdf"})
    EXPECT_THAT(folder.read(std::string("out/") + file), StartsWith("%PDF")) << file;
  const House now = house();
  EXPECT_GE(now.printed.size(), 5U);
  for (const Printed& printed : now.printed) EXPECT_EQ(printed.revision, revision) << printed.name;
  EXPECT_EQ(HouseFile::open(folder.at("a.house"), Access::read).revision(), revision) << "printing is no change of the record";
  const std::string first = folder.read("out/paper-wall.pdf");
  ASSERT_EQ(folder.run({"print", "--to", "out", "--date", "2026-11-27"}).code, 0);
  EXPECT_EQ(folder.read("out/paper-wall.pdf"), first) << "same record and date, same bytes";
  EXPECT_EQ(house().printed.size(), now.printed.size()) << "the same again is no more to be remembered";
}

TEST_F(Print, the_name_before_the_dots_of_a_panel_is_no_label_to_be_remembered) {
  const Ran ran = folder.run({"labels", "dots"});
  ASSERT_EQ(ran.code, 0) << ran.err;
  EXPECT_THAT(ran.out, HasSubstr("Panel Main: labels 2 to 4, after its name on label 1.\nPanel Barn: label 6, after its name on label 5.\nPrinted 4 labels"));
  const House now = house();
  ASSERT_EQ(now.printed.size(), 4U);
  for (const Printed& printed : now.printed) EXPECT_THAT(printed.item, StartsWith("dot:"));
}

TEST_F(Print, a_code_is_current_until_what_it_stands_on_changes) {
  ASSERT_EQ(folder.run({"print", "--to", "out"}).code, 0);
  const std::string main = code_of("directory of Panel Main"), barn = code_of("directory of Panel Barn");
  const Ran yes = folder.run({"is-it-current", main.substr(0, 3) + "-" + main.substr(3)});
  EXPECT_EQ(yes.code, 0) << yes.err;
  EXPECT_THAT(yes.out, HasSubstr("Yes. The directory of Panel Main of "));
  enter("By J.\nKitchen receptacle 1 <- Barn 1\n");
  EXPECT_EQ(folder.run({"is-it-current", main}).code, 0) << "nothing changed on this one";
  const Ran no = folder.run({"is-it-current", barn});
  EXPECT_EQ(no.code, 1);
  EXPECT_THAT(no.out, HasSubstr("No. The directory of Panel Barn of "));
  EXPECT_THAT(no.out, HasSubstr("Print it again:\n    ohmstead directory --panel Barn\n"));
  ASSERT_EQ(folder.run({"directory", "--panel", "Barn"}).code, 0);
  EXPECT_THAT(folder.run({"is-it-current", barn}).out, HasSubstr("It was printed again"));
}

TEST_F(Print, only_what_is_no_longer_true_is_printed_again) {
  ASSERT_EQ(folder.run({"print", "--to", "out"}).code, 0);
  EXPECT_THAT(folder.run({"print", "--stale"}).out, HasSubstr("Nothing has to be printed again"));
  enter("By J.\nKitchen receptacle 1 <- Barn 1\n");
  const Ran told = folder.run({"print", "--stale"});
  EXPECT_EQ(told.code, 1);
  EXPECT_THAT(told.out, HasSubstr("The directory of Panel Barn of "));
  EXPECT_THAT(told.out, HasSubstr("The plate of Kitchen receptacle 1 of "));
  EXPECT_THAT(told.out, Not(HasSubstr("plate of Kitchen receptacle 2")));
  EXPECT_THAT(told.out, Not(HasSubstr("directory of Panel Main")));
  const Ran again = folder.run({"print", "--stale", "--to", "again"});
  ASSERT_EQ(again.code, 0) << again.err;
  EXPECT_THAT(again.out, HasSubstr("Printed 1 label on 1 page to again/labels-plates.pdf")) << "only the one that is no longer true";
  EXPECT_TRUE(std::filesystem::exists(folder.at("again/directory-panel-barn.pdf")));
  EXPECT_FALSE(std::filesystem::exists(folder.at("again/directory-panel-main.pdf")));
  EXPECT_EQ(folder.run({"print", "--stale"}).code, 0);
}

TEST_F(Print, what_cannot_be_printed_any_more_is_to_be_taken_down) {
  ASSERT_EQ(folder.run({"paper", "wall"}).code, 0);
  const std::string wall = code_of("sheet for the wall");
  HouseFile::open(folder.at("a.house"), Access::change).change("test", [](House& house) { house.planned.clear(); });
  const Ran no = folder.run({"is-it-current", wall});
  EXPECT_EQ(no.code, 1);
  EXPECT_THAT(no.out, HasSubstr("cannot be printed any more"));
  EXPECT_THAT(no.out, HasSubstr("Take it down."));
  EXPECT_THAT(folder.run({"print", "--stale"}).out, HasSubstr("is to be taken down"));
}

TEST_F(Print, words_from_a_strangers_file_can_do_nothing_but_print) {
  for (const char* words : {"[\"new\",\"made.house\"]", "[\"labels\",\"plates\",\"--test-page\",\"--output\",\"made.pdf\"]", "[\"paper\",\"wall\",\"-omade.pdf\"]",
                            "[\"directory\",\"--panel\",\"--output=made.pdf\"]", "[\"directory\",\"--png\",\"made.png\"]", "[]", "{}", "[1]", "no list",
                            "[\"paper\",\"wall\",\"--output=made.pdf\"]", "[\"paper\",\"--sheet\",\"--output=made.pdf\",\"wall\"]", "[\"paper\",\"wall\",\"--house\",\"made.house\"]",
                            "[\"--house\",\"made.house\",\"paper\",\"wall\"]", "[\"paper\",\"wall\",\"-f\",\"made.house\"]", "[\"print\",\"--to\",\"made.pdf\"]", "[\"print\",\"--stale\"]",
                            "[\"is-it-current\",\"ABCDEF\"]", "[\"paper\",\"--help\"]", "[\"paper\",\"wall\",\"--\",\"x\"]", "[\"labels\",\"plates\",\"--no-codes=made.pdf\"]"}) {
    HouseFile::open(folder.at("a.house"), Access::change).change("test", [&](House& house) {
      house.printed = {{Id<Printed>::fresh(), "item", "sheet", words, "2026-11-27T10:00:00Z", 1, "ABCDEF"}};
    });
    const std::string before = folder.read("a.house");
    const Ran no = folder.run({"is-it-current", "ABCDEF"});
    EXPECT_EQ(no.code, 1) << words;
    EXPECT_EQ(folder.read("a.house"), before) << words;
    EXPECT_THAT(no.out, HasSubstr("by which command it was printed")) << words;
    EXPECT_EQ(folder.run({"print", "--stale", "--to", "again"}).code, 0) << words;
    for (const char* file : {"made.house", "made.pdf", "made.png"}) EXPECT_FALSE(std::filesystem::exists(folder.at(file))) << words;
  }
}

TEST_F(Print, values_that_look_like_options_are_printed_again_too) {
  ASSERT_EQ(folder.run({"labels", "plates", "--room", "Kitchen", "--shift=-1,0"}).code, 0);
  EXPECT_EQ(folder.run({"is-it-current", code_of("plate of Kitchen receptacle 1")}).code, 0);
  HouseFile::open(folder.at("a.house"), Access::change).change("test", [](House& house) { house.panels.back().name = "--output=made.pdf"; });
  const Ran ran = folder.run({"print", "--to", "out"});
  EXPECT_EQ(ran.code, 0) << ran.err;
  EXPECT_FALSE(std::filesystem::exists(folder.at("made.pdf")));
  EXPECT_EQ(folder.run({"is-it-current", code_of("directory of Panel --output=made.pdf")}).code, 0);
}

TEST_F(Print, a_folder_that_cannot_be_written_to_is_told_once_and_none_is_left_empty) {
  folder.write("taken", "a file");
  const Ran taken = folder.run({"print", "--to", "taken"});
  EXPECT_EQ(taken.code, 3);
  EXPECT_THAT(taken.err, HasSubstr("is no folder"));
  EXPECT_EQ(folder.read("taken"), "a file");
  const Ran bad_date = folder.run({"print", "--to", "fresh", "--date", "2026-02-30"});
  EXPECT_EQ(bad_date.code, 4);
  EXPECT_FALSE(std::filesystem::exists(folder.at("fresh"))) << "nothing was printed, so no empty folder is left";
}

TEST_F(Print, the_answer_is_for_programs_too) {
  ASSERT_EQ(folder.run({"paper", "wall"}).code, 0);
  const auto json = nlohmann::json::parse(folder.run({"is-it-current", code_of("sheet for the wall"), "--json"}).out);
  EXPECT_EQ(json["question"], "is_it_current");
  EXPECT_EQ(json["current"], true);
  EXPECT_EQ(json["name"], "sheet for the wall");
  EXPECT_NE(json["printed_at"], "");
  EXPECT_TRUE(nlohmann::json::parse(folder.run({"is-it-current", "000000", "--json"}).out)["current"].is_null());
}

TEST_F(Print, codes_that_it_does_not_know_are_said_so) {
  const Ran unknown = folder.run({"is-it-current", "000000"});
  EXPECT_EQ(unknown.code, 1);
  EXPECT_THAT(unknown.out, HasSubstr("Not known."));
  EXPECT_THAT(folder.run({"is-it-current", "7Q2-K9"}).err, HasSubstr("six letters and digits"));
  EXPECT_THAT(folder.run({"print"}).err, HasSubstr("--to FOLDER"));
}

TEST_F(Print, the_list_says_of_each_whether_its_last_print_is_still_true) {
  const auto row = [this](const std::string& item) -> nlohmann::json {
    const Ran ran = folder.run({"print", "--list", "--json"});
    EXPECT_EQ(ran.code, 0) << ran.err;
    const nlohmann::json all = nlohmann::json::parse(ran.out);
    for (const auto& sheet : all["sheets"])
      if (sheet["item"] == item) return sheet;
    return nullptr;
  };
  EXPECT_EQ(row("labels-plates")["state"], "never");
  ASSERT_EQ(folder.run({"labels", "plates", "--room", "Kitchen"}).code, 0);
  EXPECT_EQ(row("labels-plates")["words"], "2 of 4 labels not printed yet; the others are still true.");
  ASSERT_EQ(folder.run({"labels", "plates"}).code, 0);
  ASSERT_EQ(folder.run({"directory", "--panel", "Barn", "--large", "--width-mm", "180"}).code, 0);
  EXPECT_EQ(row("labels-plates")["state"], "current");
  EXPECT_EQ(row("directory-panel-barn")["state"], "current") << "as it was printed, in larger type";
  EXPECT_EQ(row("directory-panel-main")["state"], "never");
  enter("By J.\nKitchen receptacle 1 <- Barn 1\n");
  EXPECT_EQ(row("labels-plates")["words"], "1 of 4 labels no longer true: print them again.");
  EXPECT_THAT(row("directory-panel-barn")["words"].get<std::string>(), HasSubstr("no longer true: print it again."));
  ASSERT_EQ(folder.run({"paper", "wall"}).code, 0);
  HouseFile::open(folder.at("a.house"), Access::change).change("test", [](House& house) { house.planned.clear(); });
  EXPECT_TRUE(row("paper-wall").is_null());
  const nlohmann::json gone = nlohmann::json::parse(folder.run({"print", "--list", "--json"}).out)["gone"];
  ASSERT_EQ(gone.size(), 1U);
  EXPECT_THAT(gone[0].get<std::string>(), testing::AllOf(StartsWith("The sheet for the wall of "), HasSubstr("is to be taken down")));
}

TEST_F(Print, what_is_drawn_to_be_looked_at_is_the_print_itself_and_is_not_written_down) {
  const std::string before = folder.read("a.house");
  const auto listed = nlohmann::json::parse(folder.run({"print", "--list", "--json"}).out)["sheets"];
  ASSERT_GE(listed.size(), 12U);
  for (const auto& sheet : listed) {
    const std::string item = sheet["item"];
    const Ran ran = folder.run({"print", "--look=" + item, "--to", item, "--date", "2026-11-27", "--json"});
    ASSERT_EQ(ran.code, 0) << item << ": " << ran.err;
    const int pages = nlohmann::json::parse(ran.out)["pages"];
    EXPECT_GE(pages, 1) << item;
    for (int page = 1; page <= pages; ++page) EXPECT_THAT(folder.read(item + (page == 1 ? "/page.png" : "/page-" + std::to_string(page) + ".png")), StartsWith("\x89PNG")) << item;
  }
  EXPECT_EQ(folder.read("a.house"), before);
  ASSERT_EQ(folder.run({"print", "--to", "out", "--date", "2026-11-27"}).code, 0);
  for (const auto& sheet : listed) {
    const std::string item = sheet["item"];
    EXPECT_EQ(folder.read(item + "/sheet.pdf"), folder.read("out/" + item + ".pdf")) << item << ": the name is the file's name, and the bytes are the same";
  }
  for (const char* item : {"paper", "../paper-wall", "paper-wall.pdf", "directory --panel Barn"}) EXPECT_EQ(folder.run({"print", std::string("--look=") + item, "--to", "no"}).code, 4) << item;
  EXPECT_FALSE(std::filesystem::exists(folder.at("no")));
}

/// What was printed, without what no two prints share.
std::vector<Printed> bare(std::vector<Printed> rows) {
  for (Printed& row : rows) row.id = {}, row.at.clear();
  return rows;
}

TEST_F(Print, what_is_kept_as_printed_is_the_row_of_the_command_itself) {
  const auto listed = nlohmann::json::parse(folder.run({"print", "--list", "--json"}).out)["sheets"];
  ASSERT_GE(listed.size(), 12U);
  for (const auto& sheet : listed) {
    const Ran ran = folder.run({"print", "--printed=" + sheet["item"].get<std::string>(), "--json"});
    ASSERT_EQ(ran.code, 0) << sheet << ran.err;
    EXPECT_EQ(nlohmann::json::parse(ran.out)["labels"], sheet["labels"]);
  }
  const std::vector<Printed> said = house().printed;
  EXPECT_EQ(folder.run({"print", "--stale"}).code, 0);
  EXPECT_EQ(folder.run({"is-it-current", code_of("sheet for the wall")}).code, 0);
  ASSERT_EQ(folder.run({"print", "--printed=paper-wall"}).code, 0);
  EXPECT_EQ(house().printed.size(), said.size()) << "never twice for one text";
  HouseFile::open(folder.at("a.house"), Access::change).change("printed", [](House& house) { house.printed.clear(); });
  ASSERT_EQ(folder.run({"print", "--to", "out"}).code, 0);
  EXPECT_EQ(bare(said), bare(house().printed));
  for (const char* item : {"paper", "../paper-wall", "paper-wall.pdf", "--to"}) EXPECT_EQ(folder.run({"print", std::string("--printed=") + item}).code, 4) << item;
}

TEST_F(Print, what_was_drawn_before_a_change_is_kept_as_what_it_says) {
  const auto wall = [this](const std::string& revision) { return folder.run({"print", "--printed=directory-panel-main", "--revision", revision}).code; };
  const std::int64_t drawn = HouseFile::open(folder.at("a.house"), Access::read).revision();
  ASSERT_EQ(folder.run({"directory", "--panel", "Main"}).code, 0);
  const std::vector<Printed> before = house().printed;
  HouseFile::open(folder.at("a.house"), Access::change).change("printed", [](House& house) { house.printed.clear(); });
  enter("By J.\nKitchen receptacle 1 <- Main 1\n");
  ASSERT_EQ(wall(std::to_string(drawn)), 0);
  EXPECT_EQ(bare(house().printed), bare(before)) << "with the revision and the check code that stand on the paper";
  const Ran stale = folder.run({"print", "--stale"});
  EXPECT_EQ(stale.code, 1);
  EXPECT_THAT(stale.out, HasSubstr("The directory of Panel Main of "));
  for (const char* revision : {"0", "-1", "1.5", "x", "999"}) EXPECT_EQ(wall(revision), 4) << revision;
  EXPECT_EQ(house().printed.size(), 1U);
}

TEST_F(Print, a_sheet_is_good_although_nothing_can_be_written_down) {
  HouseFile holder = HouseFile::open(folder.at("a.house"), Access::change);
  Ran ran;
  holder.change("test", [&](House& house) {
    house.dwelling.name = "Other";
    ran = folder.run({"--house", "a.house", "paper", "wall"});  // it waits for the writer, then prints all the same
  });
  EXPECT_EQ(ran.code, 0) << ran.err;
  EXPECT_THAT(ran.err, HasSubstr("Note: It is printed, but not written down that it was"));
  EXPECT_THAT(folder.read("wall.pdf"), StartsWith("%PDF"));
}

}  // namespace
}  // namespace ohmstead::whole
