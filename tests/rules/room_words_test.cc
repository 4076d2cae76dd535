#include "rules/room_words.h"

#include <gmock/gmock.h>

#include "tests/print/house_maker.h"

namespace ohmstead {
namespace {

using test::HouseMaker;
using testing::ElementsAre;

TEST(RoomWords, rooms_with_one_name_are_told_apart_by_floor_and_then_by_number) {
  HouseMaker m;
  const auto ground = m.floor("Ground floor", 0), upper = m.floor("Upper floor", 1);
  m.room("Bath", ground), m.room("Bath", upper), m.room("kitchen", ground);
  m.room("Bob's bedroom", upper), m.room("Ann's bedroom", upper);
  EXPECT_THAT(room_words(m.house).rooms, ElementsAre("Ground floor Bath", "Upper floor Bath", "Kitchen",
                                                     "Upper floor Bedroom 1", "Upper floor Bedroom 2"));
}

TEST(RoomWords, a_name_that_is_one_endless_word_or_only_a_person_becomes_the_number_of_the_room) {
  HouseMaker m;
  const auto ground = m.floor("Ground floor", 0);
  m.room(std::string(10'000, 'x'), ground), m.room("Bob's", ground), m.room("\x01\x02", ground);
  EXPECT_THAT(room_words(m.house).rooms, ElementsAre("Room 1", "Room 2", "Room 3"));
}

}  // namespace
}  // namespace ohmstead
