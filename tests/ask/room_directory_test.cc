#include "ask/room_directory.h"

#include <gmock/gmock.h>

#include "house/index.h"
#include "tests/print/house_maker.h"
#include "tests/support/random_house.h"

namespace ohmstead {
namespace {

using test::HouseMaker;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::SizeIs;

struct Small : HouseMaker {
  Id<Room> kitchen = room("Kitchen", floor("Ground floor", 0)), hall = room("Hall", house.floors[0].id), empty = room("Attic", house.floors[0].id);
  Id<Panel> main = panel("Main", hall, 20);
  Id<Breaker> one = breaker(main, 1), three = breaker(main, 3);
};

std::vector<std::string> row_words(const RoomDirectoryPart& part) {
  std::vector<std::string> rows;
  for (const RoomDirectoryRow& row : part.rows) rows.push_back(row.what + "|" + row.breaker + "|" + row.panel + "|" + row.backup);
  return rows;
}

TEST(RoomDirectory, has_one_row_for_all_points_of_a_room_that_are_fed_alike) {
  Small small;
  small.points(small.one, small.kitchen, 4, "receptacle");
  small.point(small.three, small.kitchen, "light", PointKind::light);
  small.point(small.one, small.hall, "receptacle 1");
  const RoomDirectory directory = room_directory(make_record(small.house));
  ASSERT_THAT(directory.parts, SizeIs(2)) << "a room without points is left out";
  EXPECT_EQ(directory.parts[0].room, "Kitchen");
  EXPECT_EQ(directory.parts[0].floor, "Ground floor");
  EXPECT_THAT(row_words(directory.parts[0]), ElementsAre("Receptacles 1-4|1|Panel Main|", "Light|3|Panel Main|"));
  EXPECT_FALSE(directory.has_backup) << "there is no source";
  EXPECT_THAT(text_of(directory), ElementsAre("Kitchen, receptacles 1-4, breaker 1.", "Kitchen, light, breaker 3.", "Hall, receptacle 1, breaker 1."));
}

TEST(RoomDirectory, halves_of_a_receptacle_are_one_where_they_are_fed_alike) {
  Small small;
  for (const char* name : {"receptacle 1 upper", "receptacle 1 lower", "receptacle 2", "receptacle 3 upper"}) small.point(small.one, small.kitchen, name);
  small.point(small.three, small.kitchen, "receptacle 3 lower");
  EXPECT_THAT(row_words(room_directory(make_record(small.house)).parts[0]), ElementsAre("Receptacles 1-2, receptacle 3 upper|1|Panel Main|", "Receptacle 3 lower|3|Panel Main|"));
}

TEST(RoomDirectory, a_floor_is_not_named_twice_nor_like_its_only_room) {
  Small small;
  small.house.floors[0].building = "Barn", small.house.floors[0].name = "Barn";
  small.point(small.one, small.kitchen, "light", PointKind::light);
  EXPECT_EQ(room_directory(make_record(small.house)).parts[0].floor, "Barn");
  small.house.rooms[0].name = "Barn";
  EXPECT_EQ(room_directory(make_record(small.house)).parts[0].floor, "");
}

TEST(RoomDirectory, says_what_is_not_known_and_never_that_it_is_dead) {
  Small small;
  small.point({}, small.kitchen, "light", PointKind::light);
  small.point(small.one, small.kitchen, "receptacle 1");
  Record record = make_record(small.house);
  record.feeds.of_point[1].standing = Standing::likely;
  const RoomDirectory directory = room_directory(record);
  EXPECT_THAT(row_words(directory.parts[0]), ElementsAre("Light|not found yet||", "Receptacle 1|1?|Panel Main|"));
  EXPECT_THAT(directory.key, ElementsAre("Not found yet: it may be live whatever is switched off.", "?: not proved yet, may be wrong."));
  EXPECT_THAT(text_of(directory), Contains("Kitchen, light, breaker not found yet."));
}

TEST(RoomDirectory, in_any_house_holds_every_point_once) {
  for (std::uint64_t seed = 1; seed <= 30; ++seed) {
    SCOPED_TRACE(seed);
    const Record record = make_record(random_house(seed, 1 + static_cast<int>(seed % 6)));
    const RoomDirectory directory = room_directory(record);
    std::size_t rooms = 0;
    for (const Room& room : record.house.rooms) rooms += std::ranges::find(record.house.points, room.id, &Point::room) != record.house.points.end();
    EXPECT_EQ(directory.parts.size(), rooms);
    for (const RoomDirectoryPart& part : directory.parts)
      for (const RoomDirectoryRow& row : part.rows) {
        EXPECT_FALSE(row.what.empty());
        EXPECT_EQ(row.panel.empty(), row.breaker == "not found yet");
      }
    for (const std::string& line : text_of(directory)) EXPECT_THAT(line, testing::EndsWith("."));
  }
}

}  // namespace
}  // namespace ohmstead
