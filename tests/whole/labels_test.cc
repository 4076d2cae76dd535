// Labels and the directory by room, printed by the real program.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "program.h"

namespace ohmstead::whole {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::StartsWith;

class Labels : public ::testing::Test {
 protected:
  void SetUp() override {
    const Ran ran = folder.start_house("Cellar: freezer 100/400 W !, furnace 500/1200 W !, 2r\nHall: 1l\nPanel Main in Cellar 20 spaces, 100 A main: 1 15; 3 15\n"
                                       "Generator G 3600/4500 W 120/240\nTransfer T in Cellar 3 positions from G: 1 15 <- Main 1; 2 15; 3 15\n"
                                       "By J.\nCellar freezer <- Main 1\nCellar furnace <- Main 3\nCellar receptacle 1 <- Main 1\n");
    ASSERT_EQ(ran.code, 0) << ran.err;
  }
  Ran labels(std::vector<std::string> words) const {
    words.insert(words.begin(), "labels");
    words.insert(words.end(), {"--date", "2026-11-27"});
    return folder.run(words);
  }
  Folder folder;
};

TEST_F(Labels, every_kind_is_printed_in_every_format) {
  for (const std::string kind : {"plates", "dots", "strip", "transfer", "panels"}) {
    const Ran ran = labels({kind, "--codes-text"});
    EXPECT_EQ(ran.code, 0) << ran.err;
    EXPECT_THAT(ran.out, AllOf(StartsWith("Printed "), HasSubstr("to " + kind + ".pdf")));
    EXPECT_THAT(folder.read(kind + ".pdf"), StartsWith("%PDF"));
    EXPECT_EQ(labels({kind, "-o", kind + ".svg"}).code, 0);
    EXPECT_THAT(folder.read(kind + ".svg"), HasSubstr("<svg"));
    EXPECT_EQ(labels({kind, "-o", kind + ".png", "--tape", "24", "--dpi", "180"}).code, 0);
    EXPECT_THAT(folder.read(kind + ".png"), StartsWith("\x89PNG"));
  }
  EXPECT_TRUE(std::filesystem::exists(folder.at("plates-2.png"))) << "a file for each label of a tape that is cut";
  EXPECT_THAT(labels({"plates", "--codes-text"}).out, HasSubstr("Breaker 1, Panel Main. Cellar freezer. Backup position 1. Also off with it, Cellar receptacle."));
  const std::string first = folder.read("plates.pdf");
  ASSERT_EQ(labels({"plates"}).code, 0);
  EXPECT_TRUE(folder.read("plates.pdf") == first) << "the same record and date give the same bytes";
}

TEST_F(Labels, some_points_or_a_part_used_sheet_can_be_asked_for) {
  EXPECT_THAT(labels({"plates", "--room", "hall"}).out, HasSubstr("Printed 1 label on 1 page"));
  EXPECT_THAT(labels({"dots", "--of", "cellar receptacles"}).out, HasSubstr("Printed 2 labels"));
  EXPECT_THAT(labels({"plates", "--panel", "Main"}).out, HasSubstr("Printed 3 labels"));
  const Ran sheet = labels({"plates", "--label", "66x25.4", "--grid", "3x10", "--margin", "5x12.7", "--pitch", "70x25.4", "--start", "29"});
  EXPECT_THAT(sheet.out, HasSubstr("Printed 5 labels on 2 pages")) << sheet.err;
  EXPECT_THAT(labels({"plates", "--test-page", "--shift", "0.5,-1"}).out, HasSubstr("Printed a test page to plates.pdf"));
}

TEST_F(Labels, codes_of_strips_and_signs_are_there_when_asked_for_and_dots_say_why_they_have_none) {
  EXPECT_THAT(labels({"transfer"}).out, HasSubstr(", without codes; --codes adds them."));
  EXPECT_THAT(labels({"transfer", "--codes"}).out, HasSubstr("with 1 code."));
  EXPECT_THAT(labels({"strip", "--codes"}).out, HasSubstr("with 2 codes."));
  EXPECT_THAT(labels({"dots", "--codes"}).err, HasSubstr("Number dots have no codes"));
  EXPECT_THAT(labels({"plates", "--codes", "--no-codes"}).err, HasSubstr("give one of them"));
  EXPECT_THAT(folder.run({"paper", "signs"}).out, HasSubstr("without codes; --codes adds them"));
  EXPECT_THAT(folder.run({"paper", "signs", "--codes", "--codes-text"}).out, HasSubstr("---\nSERVICE DISCONNECT. Main of panel Main, 100 A"));
}

TEST_F(Labels, codes_are_for_the_place_that_is_named) {
  for (const std::vector<std::string>& words : {std::vector<std::string>{"labels", "plates", "--place", "wet"}, {"directory", "--place", "damp"}, {"paper", "signs", "--place", "dry"}}) {
    const Ran ran = folder.run(words);
    EXPECT_EQ(ran.code, 0) << ran.err;
  }
  EXPECT_THAT(folder.run({"directory", "--place", "moist"}).err, HasSubstr("--place is dry, damp or wet, not 'moist'."));
}

TEST_F(Labels, what_cannot_be_is_refused_in_a_sentence_and_nothing_is_written) {
  const std::vector<std::pair<std::vector<std::string>, std::string>> cases{
      {{"stickers"}, "There are five kinds of labels"},
      {{"plates", "--label", "300x20"}, "larger than the page of 215.9 x 279.4 mm; give a page of at least 300 x 279.4 mm"},
      {{"plates", "--label", "20x10"}, "give at least"},
      {{"plates", "--label", "wide"}, "--label needs two numbers as in 66x25.4, not 'wide'"},
      {{"plates", "--grid", "3x10"}, "--grid needs the size of a label"},
      {{"plates", "--label", "66x25", "--grid", "2.5x10"}, "in whole numbers"},
      {{"plates", "--label", "66x25", "--pitch", "70x25"}, "give --grid, too"},
      {{"plates", "--label", "66x25", "--grid", "3x10", "--pitch", "60x25"}, "the pitch must be at least 66 mm"},
      {{"plates", "--label", "66x25", "--grid", "3x10", "--margin", "0x0", "--printer-margin", "6"}, "the printer leaves 6 mm there blank"},
      {{"plates", "--tape", "3"}, "too low for letters of 9 pt"},
      {{"plates", "--tape", "12", "--grid", "3x10"}, "give one of them"},
      {{"plates", "--start", "99"}, "from 1 to 24"},
      {{"plates", "--shift", "1"}, "--shift needs two numbers"},
      {{"plates", "--room", "attic"}, "Nothing in the record fits 'attic'"},
      {{"transfer", "--planned"}, "No plan is kept yet"},
      {{"plates", "-o", "labels.doc"}, "must end in .pdf, .svg or .png"},
      {{"plates", "-o", "no/such/plates.pdf"}, "no/such/plates.pdf"}};
  for (const auto& [words, said] : cases) {
    const Ran ran = labels(words);
    EXPECT_NE(ran.code, 0) << said;
    EXPECT_THAT(ran.err, HasSubstr(said));
  }
  EXPECT_FALSE(std::filesystem::exists(folder.at("plates.pdf")));
}

TEST_F(Labels, the_directory_by_room_is_printed_for_a_page_and_a_pocket) {
  EXPECT_THAT(folder.run({"directory", "--by-room", "--sheet", "letter", "--date", "2026-11-27", "--codes-text"}).out,
              AllOf(HasSubstr("to directory-by-room.pdf, 1 page"), HasSubstr("Cellar, freezer, receptacle 1, breaker 1, backup G1.")));
  EXPECT_EQ(folder.run({"directory", "--by-room", "--large", "-o", "large.pdf", "--png", "large.png"}).code, 0);
  EXPECT_THAT(folder.read("large.png"), StartsWith("\x89PNG"));
  EXPECT_THAT(folder.run({"directory", "--by-room", "--width-mm", "60"}).err, HasSubstr("from 120 x 150"));
}

}  // namespace
}  // namespace ohmstead::whole
