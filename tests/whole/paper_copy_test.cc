// A copy on paper and back, by the real program.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "program.h"

namespace ohmstead::whole {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;

class PaperCopy : public ::testing::Test {
 protected:
  void SetUp() override {
    const Ran ran = folder.start_house("Cellar: freezer 100/400 W !, 6 receptacles\nKitchen: 6 receptacles, 2 lights, range\nPanel Main in Cellar 20 spaces, 100 A main: 1 15; 3 15; 2+4 50 range\n");
    ASSERT_EQ(ran.code, 0) << ran.err;
    record = folder.run({"export"}).out;
    const Ran printed = folder.run({"paper", "copy", "--date", "2026-11-27", "--codes-text"});
    ASSERT_EQ(printed.code, 0) << printed.err;
    first_line = printed.out.substr(0, printed.out.find('\n'));
    codes = printed.out.substr(printed.out.find("OHP1/"));
    std::filesystem::create_directory(folder.at("scans"));
  }
  /// The codes from line `from` on.
  [[nodiscard]] std::string some_codes(int from) const {
    std::size_t at = 0;
    for (int i = 0; i < from; ++i) at = codes.find('\n', at) + 1;
    return codes.substr(at);
  }
  [[nodiscard]] std::string exported(const std::string& house) const { return folder.run({"--house", house, "export"}).out; }
  Folder folder;
  std::string record, codes, first_line;
};

TEST_F(PaperCopy, text_from_a_scanner_brings_the_record_back_byte_for_byte) {
  EXPECT_THAT(first_line, HasSubstr("Printed the paper copy to copy.pdf: set "));
  EXPECT_THAT(folder.read("copy.pdf"), StartsWith("%PDF"));
  const Ran back = folder.run({"from-paper", "-", "--to", "scans/b.house"}, some_codes(3));
  EXPECT_EQ(back.code, 0) << back.err;
  EXPECT_THAT(back.out, HasSubstr("SHA-256 of the record "));
  EXPECT_EQ(exported("scans/b.house"), record);
}

TEST_F(PaperCopy, pictures_of_the_page_do_the_same) {
  ASSERT_EQ(std::system(("pdftoppm -png -r 300 -f 1 -l 1 -singlefile " + folder.at("copy.pdf").string() + " " + folder.at("page").string()).c_str()), 0);
  const Ran back = folder.run({"from-paper", "page.png", "--to", "scans/c.house"});
  EXPECT_EQ(back.code, 0) << back.err;
  EXPECT_EQ(exported("scans/c.house"), record);
}

TEST_F(PaperCopy, too_few_codes_are_refused_and_nothing_is_left) {
  const Ran few = folder.run({"from-paper", "-", "--to", "scans/b.house"}, some_codes(4));
  EXPECT_EQ(few.code, 4);
  EXPECT_THAT(few.err, HasSubstr("; 1 more, any of them, is needed."));
  EXPECT_TRUE(std::filesystem::is_empty(folder.at("scans")));
  EXPECT_THAT(folder.run({"from-paper", "-", "--to", "scans/b.house"}, "hello\n").err, HasSubstr("There is no piece of a paper copy in this"));
  EXPECT_THAT(folder.run({"from-paper", "copy.pdf", "--to", "scans/b.house"}).err, HasSubstr("pdftoppm"));
  EXPECT_THAT(folder.run({"from-paper", "none.png", "--to", "scans/b.house"}).err, HasSubstr("none.png"));
}

TEST_F(PaperCopy, a_file_that_is_there_is_never_replaced) {
  const std::string before = folder.run({"export"}).out;
  const Ran back = folder.run({"from-paper", "-", "--to", "a.house"}, codes);
  EXPECT_EQ(back.code, 3);
  EXPECT_THAT(back.err, HasSubstr("never replaces"));
  EXPECT_EQ(folder.run({"export"}).out, before);
}

TEST_F(PaperCopy, another_revision_among_them_is_told_apart_by_the_name_of_its_set) {
  ASSERT_EQ(folder.run({"enter", "--line", "Hall: 1 light"}).code, 0);
  const std::string later = folder.run({"paper", "copy", "-o", "later.pdf", "--codes-text"}).out, set = codes.substr(5, 8);
  const Ran mixed = folder.run({"from-paper", "-", "--to", "scans/b.house"}, codes + later);
  EXPECT_EQ(mixed.code, 4);
  EXPECT_THAT(mixed.err, HasSubstr("different paper copies"));
  EXPECT_THAT(mixed.err, HasSubstr("(revision 3,"));
  std::string small = set;
  for (char& c : small) c = static_cast<char>(std::tolower(c));
  const Ran chosen = folder.run({"from-paper", "-", "--to", "scans/b.house", "--set", small}, codes + later);
  EXPECT_EQ(chosen.code, 0) << chosen.err;
  EXPECT_EQ(exported("scans/b.house"), record);
}

}  // namespace
}  // namespace ohmstead::whole
