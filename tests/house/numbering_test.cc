#include "house/numbering.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "example.h"

namespace ohmstead {
namespace {

using testing::ElementsAre;

Panel panel(Numbering numbering, int spaces) {
  Panel made;
  made.name = "Main";
  made.numbering = numbering;
  made.spaces = spaces;
  return made;
}

constexpr auto kOddEven = Numbering::odd_left_even_right;
constexpr auto kDown = Numbering::sequential_down;
constexpr auto kSingle = Numbering::single_column;

// Bus geometry of panels with odd numbers on the left: common practice, no source (no rule of the code).
TEST(BusLeg, odd_left_even_right_alternates_row_by_row) {
  const Panel p = panel(kOddEven, 42);
  EXPECT_NE(bus_leg(p, 1, 2), bus_leg(p, 3, 2));
  EXPECT_EQ(bus_leg(p, 1, 2), bus_leg(p, 5, 2));
  EXPECT_EQ(bus_leg(p, 1, 2), bus_leg(p, 2, 2));
  EXPECT_NE(bus_leg(p, 2, 2), bus_leg(p, 4, 2));
  for (int n = 1; n <= 42; ++n) {
    EXPECT_EQ(bus_leg(p, n, 2), (n - 1) / 2 % 2 + 1) << n;
    EXPECT_EQ(bus_leg(p, n, 3), (n - 1) / 2 % 3 + 1) << n;  // 120/208 V, three legs: 1,2 A; 3,4 B; 5,6 C
    EXPECT_EQ(bus_leg(p, n, 1), 1) << n;
  }
}

TEST(BusLeg, panels_numbered_down_alternate_down_each_column) {
  const Panel p = panel(kDown, 12);
  for (int row = 0; row < 6; ++row) {
    EXPECT_EQ(bus_leg(p, 1 + row, 2), row % 2 + 1);
    EXPECT_EQ(bus_leg(p, 7 + row, 2), row % 2 + 1);  // beside each other: same leg
  }
  EXPECT_EQ(bus_leg(panel(kSingle, 6), 4, 3), 1);
  EXPECT_EQ(bus_leg(panel(kSingle, 6), 6, 3), 3);
}

struct PlaceCase {
  Numbering numbering;
  int spaces, space;
  std::optional<PanelPlace> place;
  std::optional<int> below;
};

TEST(PlaceOf, every_scheme_from_top_to_bottom) {
  const PlaceCase cases[] = {
      {kOddEven, 12, 1, PanelPlace{0, 0}, 3},   {kOddEven, 12, 2, PanelPlace{1, 0}, 4},
      {kOddEven, 12, 11, PanelPlace{0, 5}, {}}, {kOddEven, 12, 12, PanelPlace{1, 5}, {}},
      {kOddEven, 12, 13, {}, {}},               {kOddEven, 12, 0, {}, {}},
      {kOddEven, 12, -1, {}, {}},               {kOddEven, 5, 5, PanelPlace{0, 2}, {}},
      {kDown, 12, 1, PanelPlace{0, 0}, 2},      {kDown, 12, 6, PanelPlace{0, 5}, {}},
      {kDown, 12, 7, PanelPlace{1, 0}, 8},      {kDown, 12, 12, PanelPlace{1, 5}, {}},
      {kDown, 5, 3, PanelPlace{0, 2}, {}},      {kDown, 5, 4, PanelPlace{1, 0}, 5},
      {kSingle, 4, 1, PanelPlace{0, 0}, 2},     {kSingle, 4, 4, PanelPlace{0, 3}, {}},
      {kSingle, 4, 5, {}, {}},
  };
  for (const PlaceCase& c : cases) {
    const Panel p = panel(c.numbering, c.spaces);
    EXPECT_EQ(place_of(p, c.space), c.place) << text_of(c.numbering) << ' ' << c.space;
    EXPECT_EQ(space_below(p, c.space), c.below) << text_of(c.numbering) << ' ' << c.space;
  }
}

TEST(PlaceOf, no_two_spaces_share_a_place_and_all_fit_the_drawing) {
  for (const Numbering numbering : {kOddEven, kDown, kSingle})
    for (int spaces = 1; spaces <= 43; ++spaces) {
      const Panel p = panel(numbering, spaces);
      std::set<PanelPlace> places;
      for (int n = 1; n <= spaces; ++n) {
        const auto place = place_of(p, n);
        ASSERT_TRUE(place.has_value());
        EXPECT_TRUE(places.insert(*place).second) << text_of(numbering) << ' ' << spaces << ' ' << n;
        EXPECT_LT(place->row, row_count(p));
        EXPECT_LT(place->column, column_count(p));
      }
      EXPECT_EQ(row_count(p), numbering == kSingle ? spaces : (spaces + 1) / 2);
    }
}

Breaker breaker(int space, int poles, Half half = Half::whole) {
  Breaker made;
  made.space = space;
  made.poles = poles;
  made.half = half;
  return made;
}

TEST(PolePlaces, two_poles_are_always_on_different_legs) {
  for (const Numbering numbering : {kOddEven, kDown, kSingle}) {
    const Panel p = panel(numbering, 20);
    for (int n = 1; n <= 20; ++n) {
      const auto places = pole_places(p, breaker(n, 2));
      if (!space_below(p, n)) {
        EXPECT_EQ(places.size(), 1U);
        continue;
      }
      ASSERT_EQ(places.size(), 2U);
      EXPECT_NE(bus_leg(p, places[0].space, 2), bus_leg(p, places[1].space, 2)) << n;
    }
  }
}

// Both halves of a tandem sit on the same leg; they cannot form a multiwire pair (common practice).
TEST(PolePlaces, halves_of_a_tandem_share_a_leg_and_quads_do_not) {
  const Panel p = panel(kOddEven, 20);
  EXPECT_THAT(pole_places(p, breaker(4, 1, Half::a)), ElementsAre(PolePlace{4, Half::a}));
  EXPECT_THAT(pole_places(p, breaker(4, 1, Half::b)), ElementsAre(PolePlace{4, Half::b}));
  EXPECT_THAT(pole_places(p, breaker(13, 2, Half::a)), ElementsAre(PolePlace{13, Half::a}, PolePlace{15, Half::b}));
  EXPECT_THAT(pole_places(p, breaker(13, 2, Half::b)), ElementsAre(PolePlace{13, Half::b}, PolePlace{15, Half::a}));
}

TEST(PolePlaces, stop_at_the_bottom_and_outside_of_the_panel) {
  const Panel p = panel(kOddEven, 12);
  EXPECT_THAT(pole_places(p, breaker(9, 3)), ElementsAre(PolePlace{9, Half::whole}, PolePlace{11, Half::whole}));
  EXPECT_TRUE(pole_places(p, breaker(13, 1)).empty());
  EXPECT_TRUE(pole_places(p, breaker(0, 2)).empty());
}

TEST(BreakerNumber, is_what_is_stamped_beside_it) {
  const Panel p = panel(kOddEven, 20);
  EXPECT_EQ(breaker_number(p, breaker(12, 1)), "12");
  EXPECT_EQ(breaker_number(p, breaker(9, 2)), "9-11");
  EXPECT_EQ(breaker_number(p, breaker(2, 3)), "2-4-6");
  EXPECT_EQ(breaker_number(p, breaker(4, 1, Half::a)), "4a");
  EXPECT_EQ(breaker_number(p, breaker(13, 2, Half::b)), "13b-15a");
  EXPECT_EQ(breaker_number(panel(kDown, 12), breaker(5, 2)), "5-6");
  EXPECT_EQ(breaker_number(p, breaker(44, 1)), "44");  // not in the panel: still sayable in a message
}

TEST(PanelLegs, a_panel_has_the_legs_that_its_supply_brings) {
  House h = example_house();
  EXPECT_EQ(panel_legs(h, h.panels[kMain]), 2);
  EXPECT_EQ(panel_legs(h, h.panels[kSub]), 2);
  h.panels[kSub].feeder = h.breakers[kOnePole].id;
  EXPECT_EQ(panel_legs(h, h.panels[kSub]), 1);
  h.panels[kSub].supply = Supply::position;
  h.panels[kSub].position = h.positions[2].id;
  EXPECT_EQ(panel_legs(h, h.panels[kSub]), 1);  // one position, no partner
  h.panels[kSub].position = h.positions[0].id;
  EXPECT_EQ(panel_legs(h, h.panels[kSub]), 2);  // two tied positions
  h.dwelling.system = VoltageSystem::single_230;
  EXPECT_EQ(panel_legs(h, h.panels[kMain]), 1);
  h.dwelling.system = VoltageSystem::wye_120_208_3;
  EXPECT_EQ(panel_legs(h, h.panels[kMain]), 3);
}

}  // namespace
}  // namespace ohmstead
