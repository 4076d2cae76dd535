#include "ask/names.h"

#include <gtest/gtest.h>

#include <random>

#include "house/error.h"

namespace ohmstead {
namespace {

TEST(Names, an_empty_house_has_no_names_but_its_own) {
  House house;
  house.dwelling = {Id<Dwelling>::fresh(), "Hillside", {}};
  const Names names(house);
  EXPECT_TRUE(names.find("kitchen").best.empty());
  EXPECT_EQ(names.find("hillside").best.size(), 1u);
}

/// Rooms Den and Denmark, each with a light; panels Main and Main floor with breakers 2 and 2-4.
House two_of_everything() {
  House house;
  house.dwelling.id = {1};
  house.floors = {{{2}, "Main", "", 0}};
  house.rooms = {{{3}, {2}, "Den", 0, 0, 0, 0}, {{4}, {2}, "Denmark", 0, 0, 0, 0}};
  for (const char* name : {"Main", "Main floor"}) {
    Panel panel;
    panel.id = {10 + house.panels.size()}, panel.name = name, panel.spaces = 8;
    if (house.panels.empty()) panel.supply = Supply::utility, panel.main_amps = 100;
    Breaker breaker;
    breaker.id = {20 + house.panels.size()}, breaker.panel = panel.id, breaker.space = 2;
    breaker.poles = house.panels.empty() ? 1 : 2;
    house.panels.push_back(panel), house.breakers.push_back(breaker);
  }
  for (const Room& room : house.rooms) {
    Point point;
    point.id = {30 + house.points.size()}, point.room = room.id, point.name = "light", point.kind = PointKind::light;
    house.points.push_back(point);
  }
  return house;
}

TEST(Names, a_name_that_begins_another_is_not_mixed_up_with_it) {
  const House house = two_of_everything();
  const Names names(house);
  EXPECT_EQ(names.one_point("den light").value, 30u);
  EXPECT_EQ(names.one_point("denmark light").value, 31u);
  EXPECT_EQ(names.one_breaker("main 2").value, 20u);
  EXPECT_EQ(names.one_breaker("main floor 2").value, 21u);
  EXPECT_EQ(names.one_breaker("4").value, 21u);
  EXPECT_THROW((void)names.one_breaker("2"), Error);
  EXPECT_EQ(names.one_handle("main"), (HandleRef{HandleKind::main, 10}));
  EXPECT_THROW((void)names.one_handle("main floor main"), Error);  // it has no main of its own
  EXPECT_THROW((void)names.one_box("den light"), Error);           // its box is not recorded
}

TEST(Names, numbers_belong_to_their_word_and_known_words_are_no_slips) {
  House house = two_of_everything();
  house.rooms[0].name = "Bedroom 2";
  house.points[0].name = "receptacle 1200";
  house.points[0].kind = PointKind::receptacle;
  house.points[1].name = "path light";
  const Names names(house);
  const Kinds points{ThingKind::point};
  EXPECT_EQ(names.one_point("bedroom 2 receptacle 1200").value, 30u);
  EXPECT_TRUE(names.find("receptacle 120", points).best.empty());  // no part of a number
  EXPECT_TRUE(names.find("receptacle 2", points).best.empty());    // that 2 is the bedroom's
  EXPECT_EQ(names.one_point("pathe light").value, 31u);
  EXPECT_TRUE(names.find("bath light", points).best.empty());      // a bath is not a mistyped path
}

TEST(Names, whatever_is_typed_it_finds_or_refuses_and_never_fails_otherwise) {
  const House house = two_of_everything();
  const Names names(house);
  std::mt19937 random(11);
  const std::string letters = "den light main 2-4ab T3 \x1b\xff\xc3\xa9#+,/";
  for (int round = 0; round < 1500; ++round) {
    std::string words(random() % (round % 100 == 0 ? 600 : 24), ' ');
    for (char& c : words) c = letters[random() % letters.size()];
    for (const Match& match : names.find(words).best) EXPECT_EQ(names.name_of(match.thing), match.name);
    try {
      EXPECT_NE(names.name_of(names.one_handle(words)), "nothing");
    } catch (const Error& error) {
      const std::string message = error.what();
      EXPECT_EQ(message.find_first_of("\x1b\xff\n"), std::string::npos);
      EXPECT_TRUE(message.ends_with('.')) << message;
    }
  }
}

}  // namespace
}  // namespace ohmstead
