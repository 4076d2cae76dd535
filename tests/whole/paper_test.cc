// The plan, the worksheet and the sheet for the wall, printed by the real program.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "program.h"

namespace ohmstead::whole {
namespace {

using ::testing::HasSubstr;
using ::testing::StartsWith;

class Paper : public ::testing::Test {
 protected:
  void SetUp() override {
    const Ran ran = folder.start_house("Cellar: freezer 100/400 W !, furnace 500/1200 W !\nPanel Main in Cellar 20 spaces, 100 A main: 1 15; 3 15\n"
                                       "Generator G 3600/4500 W 120/240\nTransfer T in Cellar 3 positions from G: 1 15; 2 15; 3 15\n"
                                       "By J.\nCellar freezer <- Main 1\nCellar furnace <- Main 3\n");
    ASSERT_EQ(ran.code, 0) << ran.err;
  }
  Folder folder;
};

TEST_F(Paper, all_three_are_printed_once_a_plan_is_kept) {
  for (const std::string which : {"plan", "worksheet", "wall"}) {
    const Ran early = folder.run({"paper", which});
    EXPECT_NE(early.code, 0);
    EXPECT_THAT(early.err, HasSubstr("ohmstead plan --keep")) << "what to do first";
    EXPECT_FALSE(std::filesystem::exists(folder.at(which + ".pdf")));
  }
  ASSERT_EQ(folder.run({"plan", "--keep"}).code, 0);
  for (const std::string which : {"plan", "worksheet", "wall"}) {
    const Ran ran = folder.run({"paper", which, "--png", which + ".png", "--date", "2026-11-27", "--sheet", "a4", "--codes-text"});
    EXPECT_EQ(ran.code, 0) << ran.err;
    EXPECT_THAT(ran.out, HasSubstr("to " + which + ".pdf"));
    EXPECT_THAT(ran.out, HasSubstr("2026-11-27 rev "));
    EXPECT_THAT(folder.read(which + ".pdf"), StartsWith("%PDF"));
    EXPECT_THAT(folder.read(which + ".png"), StartsWith("\x89PNG"));
  }
}

TEST_F(Paper, packet_floor_plan_and_signs_need_no_plan_and_the_packet_tells_what_was_changed) {
  for (const std::string which : {"packet", "floor-plan", "signs"}) {
    const Ran ran = folder.run({"paper", which, "--png", which + ".png", "--dpi", "203", "--svg", which + ".svg", "--date", "2026-11-27", "--sheet", "a4"});
    EXPECT_EQ(ran.code, 0) << ran.err;
    EXPECT_EQ(ran.err, "");
    EXPECT_THAT(ran.out, HasSubstr("to " + which + ".pdf"));
    EXPECT_THAT(folder.read(which + ".pdf"), StartsWith("%PDF"));
    EXPECT_THAT(folder.read(which + ".png"), StartsWith("\x89PNG"));
    EXPECT_EQ(folder.read(which + ".png").substr(16, 4), std::string("\0\0\x06\x8E", 4)) << "210 mm at 203 to the inch: 1678 dots";
    EXPECT_THAT(folder.read(which + ".svg"), HasSubstr("<svg"));
    const std::string first = folder.read(which + ".pdf");
    ASSERT_EQ(folder.run({"paper", which, "--date", "2026-11-27", "--sheet", "a4"}).code, 0);
    EXPECT_EQ(folder.read(which + ".pdf"), first) << "same record and date: the same bytes";
  }
}

TEST_F(Paper, what_it_does_not_know_is_refused_in_a_sentence) {
  ASSERT_EQ(folder.run({"plan", "--keep"}).code, 0);
  EXPECT_THAT(folder.run({"paper", "map"}).err, HasSubstr("The papers are plan, worksheet, wall, packet, floor-plan, signs, notes and copy, not 'map'."));
  EXPECT_THAT(folder.run({"paper", "plan", "--sheet", "a5"}).err, HasSubstr("--sheet is letter or a4, not 'a5'."));
  EXPECT_THAT(folder.run({"paper", "plan", "--date", "today"}).err, HasSubstr("must be written as in 2026-11-25"));
  EXPECT_THAT(folder.run({"paper", "wall", "-o", "no/such/wall.pdf"}).err, HasSubstr("no/such/wall.pdf"));
  EXPECT_EQ(folder.run({"paper"}).code, 2);
}

TEST_F(Paper, help_says_what_each_is_for) {
  const std::string help = folder.run({"paper", "--help"}).out;
  for (const char* words : {"plan: what rides where", "worksheet: the steps", "wall: for the family", "--sheet", "--png"}) EXPECT_THAT(help, HasSubstr(words));
}

}  // namespace
}  // namespace ohmstead::whole
