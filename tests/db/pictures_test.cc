#include "db/pictures.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <gmock/gmock.h>

#include "db/base64.h"
#include "db/check.h"
#include "db/house_file.h"
#include "db/interchange.h"
#include "db/plain_jpeg.h"
#include "db/sha256.h"
#include "db/stranger.h"
#include "temp_folder.h"
#include "tests/support/small_jpeg.h"

namespace ohmstead {
namespace {

using ::testing::HasSubstr;

std::string picture() { return *from_base64(kJpeg24x16); }
std::string small_picture() { return *from_base64(kJpeg8x8); }

Photo photo_of_test() {
  return {.id = Id<Photo>::fresh(), .caption = "two colors", .picture = sha256_text(picture()), .small = sha256_text(small_picture()), .width = 24, .height = 16,
          .bytes = static_cast<int>(picture().size()), .at = "2026-11-27T10:00:00Z"};
}
Pictures both() { return {{sha256_text(picture()), picture()}, {sha256_text(small_picture()), small_picture()}}; }

House house_with_photo() {
  House house;
  house.dwelling = {Id<Dwelling>::fresh(), "Flat", VoltageSystem::single_230};
  house.photos = {photo_of_test()};
  return house;
}

/// One segment of a JPEG.
std::string segment(char marker, const std::string& body) {
  const std::size_t length = body.size() + 2;
  return std::string("\xFF") + marker + static_cast<char>(length >> 8) + static_cast<char>(length & 255) + body;
}

TEST(Base64, is_what_rfc_4648_says_and_nothing_else_is_read) {
  const std::pair<const char*, const char*> known[] = {{"", ""}, {"f", "Zg=="}, {"fo", "Zm8="}, {"foo", "Zm9v"}, {"foob", "Zm9vYg=="}, {"foobar", "Zm9vYmFy"}};  // section 10
  for (const auto& [bytes, text] : known) {
    EXPECT_EQ(base64_of(bytes), text);
    EXPECT_EQ(from_base64(text), bytes);
  }
  for (const char* bad : {"Zg", "Zg=", "Z", "Zh==", "Zm9v Zg==", "Zm9v\n", "Zm-v", "====", "Zg==Zg=="}) EXPECT_FALSE(from_base64(bad)) << bad;
}

TEST(PlainJpeg, has_the_size_in_its_frame) {
  EXPECT_EQ(size_of_plain_jpeg(picture()), (JpegSize{24, 16}));
  EXPECT_EQ(size_of_plain_jpeg(small_picture()), (JpegSize{8, 8}));
}

TEST(PlainJpeg, with_anything_else_in_it_is_none) {
  const std::string good = picture(), head = good.substr(0, 20), rest = good.substr(20);  // behind the JFIF segment
  ASSERT_TRUE(size_of_plain_jpeg(head + rest));
  EXPECT_TRUE(size_of_plain_jpeg(good.substr(0, 2) + rest)) << "without JFIF";
  EXPECT_FALSE(size_of_plain_jpeg(head + segment('\xE1', std::string("Exif\0\0MM", 8)) + rest)) << "EXIF";
  EXPECT_FALSE(size_of_plain_jpeg(head + segment('\xFE', "a comment") + rest));
  EXPECT_FALSE(size_of_plain_jpeg(head + segment('\xED', "words of a press") + rest));
  EXPECT_FALSE(size_of_plain_jpeg(head + segment('\xE0', "JFXX") + rest)) << "a thumbnail";
  EXPECT_FALSE(size_of_plain_jpeg(good + "x")) << "something behind its end";
  EXPECT_FALSE(size_of_plain_jpeg(good.substr(0, good.size() - 1)));
  std::string progressive = good;
  progressive[progressive.find("\xFF\xC0") + 1] = '\xC2';
  EXPECT_FALSE(size_of_plain_jpeg(progressive));
  for (const std::string& no : {std::string(), std::string("\xFF\xD8"), std::string("\xFF\xD8\xFF\xD9"), std::string("GIF89a")}) EXPECT_FALSE(size_of_plain_jpeg(no));
  for (std::size_t cut = 0; cut < good.size(); ++cut) ASSERT_FALSE(size_of_plain_jpeg(good.substr(0, cut))) << cut;
}

TEST(Pictures, must_be_what_the_photos_say) {
  const House house = house_with_photo();
  EXPECT_NO_THROW(require_pictures(house, both()));
  EXPECT_NO_THROW(require_pictures(house, {}));  // not here is no fault
  EXPECT_EQ(photos_without_picture(house, {}), 1U);
  EXPECT_EQ(photos_without_picture(house, both()), 0U);
  const auto refused = [](const House& spoiled, const Pictures& pictures) { return message_of(ErrorKind::invalid_input, [&] { require_pictures(spoiled, pictures); }); };
  House other = house;
  other.photos[0].width = 25;
  EXPECT_THAT(refused(other, both()), HasSubstr("photo[0].picture: The picture has another size"));
  other = house, ++other.photos[0].bytes;
  EXPECT_THAT(refused(other, both()), HasSubstr("another size"));
  Pictures wrong = both();
  wrong[house.photos[0].picture] = small_picture();
  EXPECT_THAT(refused(house, wrong), HasSubstr("not those that its SHA-256 names"));
  wrong = both(), wrong.emplace(std::string(64, 'a'), "x");
  EXPECT_THAT(refused(house, wrong), HasSubstr("no photo names"));
  other = house, other.photos[0].small = sha256_text("no picture");
  wrong = {{other.photos[0].small, "no picture"}};
  EXPECT_THAT(refused(other, wrong), HasSubstr("photo[0].small: The picture is not a JPEG"));
  const std::string large(kMostSmallBytes + 1, 'x');
  other.photos[0].small = sha256_text(large);
  EXPECT_THAT(refused(other, {{sha256_text(large), large}}), HasSubstr("more than 30 kB"));
}

TEST(Pictures, are_in_the_file_with_the_photo_and_stay_when_it_goes) {
  const TempFolder folder;
  House house = house_with_photo();
  const Photo photo = house.photos[0];
  house.photos.clear();
  HouseFile file = HouseFile::create(folder / "a.house", house);
  const ChangeNote note{.what = "a photo", .pictures = both()};
  EXPECT_THROW(file.change(note, [](House&) { throw Error(ErrorKind::not_found, "no"); }), Error);
  EXPECT_FALSE(file.picture(photo.picture)) << "nothing is kept of a change that was none";
  file.change(note, [&](House& next) { next.photos.push_back(photo); });
  EXPECT_EQ(file.picture(photo.picture), picture());
  EXPECT_EQ(HouseFile::open(folder / "a.house", Access::read).pictures(file.load()), both());
  EXPECT_TRUE(check_house_file(folder / "a.house").empty());
  EXPECT_EQ(file.forget_pictures().count, 0);
  file.change("no photo", [](House& next) { next.photos.clear(); });
  EXPECT_EQ(file.picture(photo.picture), picture()) << "for taking back";
  const DroppedPictures dropped = file.forget_pictures();
  EXPECT_EQ(dropped.count, 2);
  EXPECT_EQ(dropped.bytes, static_cast<long>(picture().size() + small_picture().size()));
  EXPECT_FALSE(file.picture(photo.picture));
  EXPECT_EQ(read_file(folder / "a.house").find(picture().substr(picture().size() - 40)), std::string::npos) << "its bytes are overwritten";
}

TEST(Pictures, that_were_changed_in_the_file_are_damage_and_refused_from_a_stranger) {
  const TempFolder folder;
  const House house = house_with_photo();
  HouseFile::create(folder / "a.house", house, both());
  EXPECT_EQ(read_stranger_copy(folder / "a.house").house, house);
  EXPECT_EQ(read_stranger_copy(folder / "a.house").pictures, both());
  SQLite::Database(folder / "a.house", SQLite::OPEN_READWRITE).exec("UPDATE picture SET jpeg = x'FFD8FFE1' WHERE length(jpeg) = " + std::to_string(picture().size()));
  EXPECT_THAT(message_of(ErrorKind::invalid_input, [&] { (void)read_stranger_file(folder / "a.house"); }), HasSubstr("photo[0].picture"));
  EXPECT_THAT(message_of(ErrorKind::storage, [&] { (void)HouseFile::open(folder / "a.house", Access::read).picture(house.photos[0].picture); }), HasSubstr("damaged"));
  EXPECT_THAT(check_house_file(folder / "a.house"), ::testing::ElementsAre(HasSubstr("photo[0].picture")));
}

TEST(Pictures, go_through_the_document_and_back) {
  const House house = house_with_photo();
  const std::string text = house_to_json(house, both());
  Pictures found;
  EXPECT_EQ(house_from_json(text, &found), house);
  EXPECT_EQ(found, both());
  EXPECT_EQ(house_to_json(house_from_json(text), found), text);
  EXPECT_EQ(house_from_json(house_to_json(house), &found), house);
  EXPECT_TRUE(found.empty());
}

TEST(Pictures, of_a_document_are_checked) {
  const std::string text = house_to_json(house_with_photo(), both());
  const auto with = [&](const std::string& from, const std::string& to) {
    std::string changed = text;
    changed.replace(changed.rfind(from), from.size(), to);
    return message_of(ErrorKind::invalid_input, [&] { (void)house_from_json(changed); });
  };
  EXPECT_THAT(with("\"jpeg\": \"/9j/", "\"jpeg\": \"/9j_"), HasSubstr("].jpeg: It must be base 64."));
  EXPECT_THAT(with("\"jpeg\"", "\"png\""), HasSubstr("'sha256' and 'jpeg'"));
  EXPECT_THAT(with(sha256_text(small_picture()), sha256_text(picture())), HasSubstr("twice"));
  EXPECT_THAT(with("\"sha256\": \"" + std::min(sha256_text(picture()), sha256_text(small_picture())), "\"sha256\": \"" + std::string(64, '0')), HasSubstr("no photo names"));
}

}  // namespace
}  // namespace ohmstead
