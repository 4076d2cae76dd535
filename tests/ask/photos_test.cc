#include "ask/photos.h"

#include <gmock/gmock.h>

#include "ask/without_private.h"
#include "house/error.h"

namespace ohmstead {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

Photo photo_about(const ThingRef& about, const char* caption, bool is_private = false) {
  return {Id<Photo>{0x123456789ABCDEULL}, about, caption, std::string(64, 'a'), std::string(64, 'b'), 1600, 1200, 249'001, is_private, "Ana", "2026-11-27T10:00:00Z"};
}

House flat() {
  House house;
  house.dwelling = {Id<Dwelling>::fresh(), "Flat", VoltageSystem::single_230};
  house.panels = {{.id = Id<Panel>::fresh(), .name = "Main", .spaces = 4}};
  return house;
}

std::string message_of(const std::function<void()>& run) {
  try {
    run();
  } catch (const Error& error) {
    return error.what();
  }
  return "";
}

TEST(Photos, are_listed_with_what_they_show) {
  const House house = flat();
  const Names names(house);
  const ThingRef panel = thing_of(house.panels[0]);
  EXPECT_EQ(title_of_photo(words_of_photo(names, photo_about(panel, "open"))), "Main panel: open (2026-11-27)");
  EXPECT_EQ(title_of_photo(words_of_photo(names, photo_about({}, "", true))), "The house (2026-11-27), private");
  const Lines lines = words_of_photos(names, {photo_about(panel, "open"), photo_about({}, "", true)}, {true, false});
  ASSERT_EQ(lines.size(), 1U);
  EXPECT_EQ(lines[0].text, "2 photos, 499 kB.");
  const std::string id = Id<Photo>{0x123456789ABCDEULL}.text();
  EXPECT_THAT(lines[0].items, ElementsAre("Main panel: open (2026-11-27, Ana; 1600 x 1200, 250 kB; photo " + id + ")", "the house (2026-11-27, Ana; private; picture not here; photo " + id + ")"));
}

TEST(Photos, are_called_by_the_end_of_their_id) {
  House house = flat();
  house.photos = {photo_about({}, "one"), photo_about({}, "two"), photo_about({}, "three")};
  house.photos[1].id.value ^= 1ULL << 50;  // another beginning
  house.photos[2].id.value ^= 1;
  const std::string id = house.photos[0].id.text();
  EXPECT_EQ(photo_called(house, id), 0U);
  EXPECT_EQ(photo_called(house, house.photos[2].id.text().substr(8)), 2U);
  EXPECT_THAT(message_of([&] { (void)photo_called(house, id.substr(8)); }), HasSubstr("ends the names of 2 photos"));
  EXPECT_THAT(message_of([&] { (void)photo_called(house, id.substr(9)); }), HasSubstr("There is no photo")) << "three signs say too little";
  EXPECT_THAT(message_of([&] { (void)photo_called(house, ""); }), HasSubstr("There is no photo"));
}

TEST(Photos, have_their_limit_said_in_one_sentence) {
  House house = flat();
  EXPECT_EQ(message_of([&] { require_room_for_photo(house, kMostPictureBytes); }), "");
  house.photos.assign(kMostPhotos, photo_about({}, ""));
  for (Photo& photo : house.photos) photo.bytes = 1000;
  EXPECT_EQ(message_of([&] { require_room_for_photo(house, 1000); }),
            "There is no room for another photo: a house keeps at most 200 with 40 MB together, and this one has 200 with 200 kB; remove one first.");
  house.photos.resize(133);
  for (Photo& photo : house.photos) photo.bytes = 300'000;
  EXPECT_EQ(message_of([&] { require_room_for_photo(house, 100'000); }), "");
  EXPECT_THAT(message_of([&] { require_room_for_photo(house, 100'001); }), HasSubstr("this one has 133 with 39.9 MB"));
}

TEST(Photos, that_came_without_their_picture_are_told) {
  EXPECT_EQ(words_of_missing_pictures(0, 5), "");
  EXPECT_THAT(words_of_missing_pictures(2, 5), HasSubstr("2 of 5 photos are here without the picture"));
  EXPECT_THAT(words_of_missing_pictures(1, 5), HasSubstr("1 of 5 photos is here"));
  EXPECT_THAT(words_of_missing_pictures(1, 1), HasSubstr("1 photo is here"));
}

TEST(Photos, that_are_private_and_who_took_them_do_not_go_to_strangers) {
  House house = flat();
  house.photos = {photo_about({}, "one"), photo_about({}, "two", true)};
  const House given = without_private(house);
  ASSERT_EQ(given.photos.size(), 1U);
  EXPECT_EQ(given.photos[0].caption, "one");
  EXPECT_EQ(given.photos[0].who, "");
}

}  // namespace
}  // namespace ohmstead
