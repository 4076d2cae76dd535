// Photos, kept and shown by the real program.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "db/base64.h"
#include "program.h"
#include "tests/support/small_jpeg.h"

namespace ohmstead::whole {
namespace {

using Json = nlohmann::json;
using ::testing::HasSubstr;
using ::testing::Not;

class PhotoCommand : public ::testing::Test {
 protected:
  void SetUp() override {
    ASSERT_EQ(folder.start_house("Kitchen: 2r, 1l, freezer 100 W\nHall: 2r, ceiling light\nPanel Main in Hall 14 spaces, 100 A main: 1 20; 3 15; 12 15; 14 15\n").code, 0);
    folder.write("panel.jpg", *from_base64(kJpeg24x16));
    folder.write("plate.jpg", *from_base64(kJpeg8x8));
  }
  Json list() { return Json::parse(folder.run({"photo", "list", "--json"}).out)["photos"]; }
  Folder folder;
};

TEST_F(PhotoCommand, is_kept_listed_saved_removed_and_forgotten) {
  EXPECT_THAT(folder.run({"photo", "list"}).out, HasSubstr("No photo is kept."));
  const Ran added = folder.run({"photo", "add", "panel.jpg", "--about", "main panel", "--caption", "before it was opened", "--who", "Ana"});
  ASSERT_EQ(added.code, 0) << added.err;
  EXPECT_THAT(added.out, HasSubstr("Kept a photo of Main panel: 24 x 16"));
  EXPECT_THAT(folder.run({"photo", "add", "panel.jpg", "--about", "main panel"}).out, HasSubstr("kept already"));
  ASSERT_EQ(folder.run({"photo", "add", "plate.jpg", "--about", "freezer", "--private"}).code, 0);
  EXPECT_THAT(folder.run({"photo", "list"}).out, HasSubstr("Main panel: before it was opened ("));
  EXPECT_THAT(folder.run({"photo", "list", "freezer"}).out, testing::AllOf(HasSubstr("private"), Not(HasSubstr("Main panel"))));
  const Json photos = list();
  ASSERT_EQ(photos.size(), 2U);
  EXPECT_EQ(photos[0]["who"], "Ana");
  EXPECT_EQ(photos[1]["private"], true);
  const std::string id = photos[0]["id"];
  EXPECT_EQ(folder.run({"photo", "save", id.substr(6), "-o", "out.jpg"}).code, 0);
  EXPECT_EQ(folder.read("out.jpg").size(), photos[0]["bytes"].get<std::size_t>());
  EXPECT_THAT(folder.run({"photo", "forget"}).out, HasSubstr("nothing was dropped"));
  EXPECT_EQ(folder.run({"photo", "remove", id}).code, 0);
  EXPECT_EQ(list().size(), 1U);
  EXPECT_EQ(folder.run({"undo"}).code, 0);
  EXPECT_EQ(folder.run({"photo", "save", id, "-o", "again.jpg"}).code, 0) << "taking back brings the picture, too";
  EXPECT_EQ(folder.run({"photo", "remove", id}).code, 0);
  EXPECT_THAT(folder.run({"photo", "forget"}).out, HasSubstr("for good"));
  EXPECT_EQ(folder.run({"check"}).code, 0);
}

TEST_F(PhotoCommand, goes_with_the_record_into_another_file_and_not_through_paper_or_a_saved_page) {
  ASSERT_EQ(folder.run({"photo", "add", "panel.jpg", "--about", "main panel"}).code, 0);
  const std::string id = list()[0]["id"];
  ASSERT_EQ(folder.run({"export", "-o", "a.json"}).code, 0);
  EXPECT_THAT(folder.run({"import", "a.json", "b.house"}).out, Not(HasSubstr("not here")));
  EXPECT_EQ(folder.run({"--house", "b.house", "photo", "save", id, "-o", "b.jpg"}).code, 0);
  EXPECT_THAT(folder.run({"--house", "a.house", "copy", "c.house"}).code, 0);
  EXPECT_THAT(folder.run({"import", "c.house", "d.house"}).out, Not(HasSubstr("not here")));
  ASSERT_EQ(folder.run({"--house", "a.house", "hand-over", "-o", "a.html"}).code, 0);
  EXPECT_THAT(folder.read("a.html"), HasSubstr("src=\"data:image/jpeg;base64,/9j/"));
  EXPECT_THAT(folder.run({"import", "a.html", "e.house"}).out, HasSubstr("1 photo is here without the picture"));
  EXPECT_THAT(folder.run({"--house", "e.house", "photo", "list"}).out, HasSubstr("picture not here"));
  EXPECT_THAT(folder.run({"--house", "e.house", "photo", "save", Json::parse(folder.run({"--house", "e.house", "photo", "list", "--json"}).out)["photos"][0]["id"]}).err, HasSubstr("not here"));
  EXPECT_EQ(folder.run({"--house", "e.house", "photo", "add", "panel.jpg", "--about", "main panel"}).code, 0) << "the picture is put where it is missing";
}

TEST_F(PhotoCommand, comes_with_its_picture_when_another_copy_is_merged_in) {
  ASSERT_EQ(folder.run({"copy", "other.house"}).code, 0);
  ASSERT_EQ(folder.run({"--house", "other.house", "photo", "add", "panel.jpg", "--about", "main panel"}).code, 0);
  const Ran merged = folder.run({"--house", "a.house", "merge", "other.house", "--mine"});
  EXPECT_EQ(merged.code, 0) << merged.err;
  const Json photos = Json::parse(folder.run({"--house", "a.house", "photo", "list", "--json"}).out)["photos"];
  ASSERT_EQ(photos.size(), 1U);
  EXPECT_EQ(photos[0]["here"], true);
}

TEST_F(PhotoCommand, private_ones_are_in_no_packet_and_no_file_for_strangers) {
  ASSERT_EQ(folder.run({"photo", "add", "panel.jpg", "--about", "main panel", "--caption", "for all to see"}).code, 0);
  ASSERT_EQ(folder.run({"photo", "add", "plate.jpg", "--about", "hall", "--caption", "nobody else", "--private"}).code, 0);
  ASSERT_EQ(folder.run({"hand-over", "--without-private", "-o", "b.html"}).code, 0);
  EXPECT_THAT(folder.read("b.html"), testing::AllOf(HasSubstr("for all to see"), Not(HasSubstr("nobody else"))));
  ASSERT_EQ(folder.run({"hand-over", "-o", "a.html"}).code, 0);
  EXPECT_THAT(folder.read("a.html"), testing::AllOf(HasSubstr("for all to see"), HasSubstr("nobody else")));
  EXPECT_EQ(folder.run({"paper", "packet", "-o", "packet.pdf"}).code, 0);
  EXPECT_THAT(folder.read("packet.pdf"), HasSubstr("/DCTDecode"));
}

TEST_F(PhotoCommand, what_is_no_photo_changes_nothing) {
  folder.write("words.jpg", "these are words");
  folder.write("cut.jpg", from_base64(kJpeg24x16)->substr(0, 640));
  folder.write("large.jpg", "");
  std::filesystem::resize_file(folder.at("large.jpg"), 500'000'000);  // takes no room on the disk
  const std::string before = folder.read("a.house");
  EXPECT_THAT(folder.run({"photo", "add", "words.jpg"}).err, HasSubstr("'words.jpg' is not a picture; a photo is a JPEG or PNG file."));
  EXPECT_THAT(folder.run({"photo", "add", "cut.jpg"}).err, HasSubstr("damaged picture"));
  EXPECT_THAT(folder.run({"photo", "add", "large.jpg"}).err, HasSubstr("larger than the 40 MB"));
  EXPECT_THAT(folder.run({"photo", "add", "no.jpg"}).err, HasSubstr("There is no file"));
  EXPECT_THAT(folder.run({"photo", "add", "panel.jpg", "--about", "swimming pool"}).err, HasSubstr("swimming pool"));
  EXPECT_THAT(folder.run({"photo", "show"}).err, HasSubstr("add, list, save, remove or forget"));
  EXPECT_THAT(folder.run({"photo", "remove", "zzzz"}).err, HasSubstr("no photo 'zzzz'"));
  EXPECT_EQ(folder.read("a.house"), before);
}

}  // namespace
}  // namespace ohmstead::whole
