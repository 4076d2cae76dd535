// How damp a place is, by the name of its room.
#include "ask/location.h"

#include <gtest/gtest.h>

namespace ohmstead {
namespace {

Location of_room(const std::string& name) {
  House house;
  Room room;
  room.id = Id<Room>{7}, room.name = name;
  house.rooms.push_back(room);
  return location_of(house, room.id);
}

TEST(Location, follows_from_the_words_of_the_room) {
  for (const char* name : {"Deck", "Back yard", "Patio", "Outside wall", "Outdoor kitchen", "Garden", "Pool"}) EXPECT_EQ(of_room(name), Location::wet) << name;
  for (const char* name : {"Cellar", "Basement hall", "Crawl space", "Barn", "Back porch", "Veranda"}) EXPECT_EQ(of_room(name), Location::damp) << name;
  for (const char* name : {"Kitchen", "Decker's room", "Garage", "Workshop", "", "Barney's room"}) EXPECT_EQ(of_room(name), Location::dry) << name;
}

TEST(Location, of_no_room_is_dry) { EXPECT_EQ(location_of(House{}, Id<Room>{}), Location::dry); }

}  // namespace
}  // namespace ohmstead
