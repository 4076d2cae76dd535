#include "ask/saw.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "house/error.h"
#include "house/invariants.h"
#include "survey/entry.h"
#include "trace/board.h"

namespace ohmstead {
namespace {

using ::testing::HasSubstr;

House flat() {
  House empty;
  empty.dwelling.id = Id<Dwelling>::fresh();
  return enter_text(empty, "Kitchen: 3r, 1l, dishwasher, freezer 100 W\nHall: 2r, 2l, smoke alarm\nHall closet: 1l\nSewing and guest room: 1r\n"
                           "Panel Main in Hall 12 spaces, 100 A main: 1 20; 3 15; 5 15; 12 15; 10 15\n").house;
}

/// "off: ... dead: ... live: ...", by their names in full.
std::string read(const House& house, std::string_view text) {
  const Names names(house);
  Sighting sighting;
  read_saw(house, names, text, sighting);
  std::string out = "off:", dead = "dead:", live = "live:";
  for (const HandleRef& handle : sighting.off) out += " " + names.name_of(handle) + ",";
  for (const SeenPoint& seen : sighting.seen) (seen.dead ? dead : live) += " " + names.name_of(thing_of(house.points[seen.point])) + ",";
  return out + " " + dead + " " + live;
}

Lines doubts_of(const House& house) { return words_of_contradictions(house, how_it_stands(make_record(house)).contradictions); }

struct Case {
  const char* said;
  const char* read;
};

TEST(Saw, names_are_points_rooms_or_groups) {
  const House house = flat();
  const Case cases[] = {
      {"12 tripped, the hall light 2 went dark", "off: Main panel breaker 12, dead: Hall light 2, live:"},
      {"hall lights dead", "off: dead: Hall light 1, Hall light 2, live:"},
      {"12 off and hall off", "off: Main panel breaker 12, dead: Hall light 1, Hall light 2, live:"},
      {"breakers 12 and 10 tripped; freezer on", "off: Main panel breaker 12, Main panel breaker 10, dead: live: Kitchen freezer,"},
      {"main off, freezer dead", "off: Main panel main breaker, dead: Kitchen freezer, live:"},
      {"12 off, 12 tripped, frezer dead", "off: Main panel breaker 12, dead: Kitchen freezer, live:"},
      {"sewing and guest room dead", "off: dead: Sewing and guest room receptacle 1, live:"},
      {"12 off, the hall lost power", "off: Main panel breaker 12, dead: Hall receptacle 1, Hall receptacle 2, Hall light 1, Hall light 2, Hall smoke alarm, live:"},
      {"hall dark, hall light 1 on", "off: dead: Hall light 2, live: Hall light 1,"},
      {"hall dead, hall on", "off: dead: Hall receptacle 1, Hall receptacle 2, Hall smoke alarm, live: Hall light 1, Hall light 2,"},
      {"hall light 1 on, hall dark", "off: dead: Hall light 2, live: Hall light 1,"},
  };
  for (const Case& one : cases) {
    SCOPED_TRACE(one.said);
    EXPECT_EQ(read(house, one.said), one.read);
  }
}

TEST(Saw, what_is_refused_and_why) {
  const House house = flat();
  const Case cases[] = {
      {"12 tripped, kitchen frobs", "'kitchen frobs' was not understood (understood: 12 off)"},
      {"hall light dead", "Hall light 1; Hall light 2"},
      {"31 tripped, hall dark", "'31'"},
      {"12 dark", "'12'"},
      {"12 off the hall went dark", "Nothing in the record fits"},
      {"hall tripped", "'hall'"},
      {"submarine dark", "submarine"},
      {"12 tripped, sewing and guest room dark", "no light is written down there"},
      {"freezer dead, freezer live", "both dead and live"},
      {"hall dark, hall on", "both dead and live"},
      {"smoke alarm went off", "can mean that it sounded"},
      {"", "was not understood"},
      {"hall not dark", "was not understood"},
  };
  for (const Case& one : cases) {
    SCOPED_TRACE(one.said);
    try {
      ADD_FAILURE() << read(house, one.said);
    } catch (const Error& error) {
      EXPECT_THAT(error.what(), HasSubstr(one.read));
    }
  }
  EXPECT_THROW((void)read(house, "hall dark" + std::string(kLongestSaw, ' ')), Error);
}

Sighting sighting_in(const House& house, std::string_view text) {
  Sighting sighting{{}, {}, {}, "2026-03-01T08:00:00Z", "Ana"};
  read_saw(house, Names(house), text, sighting);
  return sighting;
}

TEST(Saw, a_sighting_is_a_finished_round_of_daily_life) {
  const House house = flat();
  const House next = with_sighting(house, sighting_in(house, "12 tripped, hall light 1 dark, freezer on"));
  EXPECT_TRUE(problems_of(next).empty());
  ASSERT_EQ(next.rounds.size(), 1U);
  EXPECT_EQ(next.rounds[0].kind, RoundKind::daily_life);
  EXPECT_TRUE(next.rounds[0].finished);
  EXPECT_EQ(next.rounds[0].who, "Ana");
  EXPECT_EQ(next.opened.size(), 1U);
  ASSERT_EQ(next.observations.size(), 2U);
  EXPECT_EQ(next.observations[0].seen, Seen::live);  // in the order of the house: the kitchen comes first
  EXPECT_EQ(next.observations[1].seen, Seen::dead);
  const Lines lines = words_of_change(make_record(house), make_record(next));
  ASSERT_EQ(lines.at(0).items.size(), 1U);
  EXPECT_EQ(lines[0].items[0], "Hall, light 1: was open, now likely breaker 12");
}

TEST(Saw, the_last_sighting_is_taken_back_and_stays_as_withdrawn) {
  const House house = flat();
  EXPECT_FALSE(without_last_sighting(house));
  House next = with_sighting(house, sighting_in(house, "12 tripped, freezer on"));
  next = with_sighting(next, sighting_in(house, "12 tripped, hall light 1 dark"));
  const auto back = without_last_sighting(next);
  ASSERT_TRUE(back);
  EXPECT_FALSE(back->observations[0].withdrawn);
  EXPECT_TRUE(back->observations[1].withdrawn);
  EXPECT_EQ(back->rounds, next.rounds);
  const auto twice = without_last_sighting(*back);
  ASSERT_TRUE(twice);
  EXPECT_TRUE(twice->observations[0].withdrawn);
  EXPECT_FALSE(without_last_sighting(*twice));
}

TEST(Saw, handles_that_a_session_has_open_and_those_that_stay_off_are_off_now) {
  House house = flat();
  EXPECT_TRUE(standing_off(house).empty());
  const HandleRef first{HandleKind::breaker, house.breakers[0].id.value}, second{HandleKind::breaker, house.breakers[1].id.value};
  const Id<Round> round = Id<Round>::fresh();
  house.rounds.push_back({round, RoundKind::trace, "2026-03-01T08:00:00Z", "", false});
  house.opened.push_back({Id<Opened>::fresh(), round, first});
  house.settings.push_back({Id<Setting>::fresh(), kStaysOffPrefix + house.breakers[1].id.text(), "yes"});
  EXPECT_EQ(standing_off(house), (std::vector{first, second}));
  house.rounds[0].finished = true;
  EXPECT_EQ(standing_off(house), std::vector{second});
}

TEST(Saw, two_people_who_disagree_are_told_apart_by_name_and_day) {
  House house = flat();
  Sighting bo = sighting_in(house, "12 tripped, hall receptacle 2 dead"), ana = sighting_in(house, "12 tripped, hall receptacle 2 on");
  bo.who = "Bo", ana.at = "2026-03-03T18:00:00Z";
  house = with_sighting(with_sighting(house, bo), ana);
  Lines lines = doubts_of(house);
  ASSERT_EQ(lines.at(0).items.size(), 1U);
  EXPECT_EQ(lines[0].items[0], "Hall, receptacle 2: Ana saw it live with 12 off on 3 March 2026, but Bo saw it dead with 12 off on 1 March 2026. Look again.");
  bo.at = "2026-03-04T08:00:00Z";
  lines = doubts_of(with_sighting(house, bo));
  EXPECT_EQ(lines.at(0).items.at(0), "Hall, receptacle 2: Ana saw it live with 12 off on 3 March 2026; all else says 12. Look again.");
}

Sighting told_in(const House& house, std::string_view text, const char* at, const char* cause = "") {
  Sighting sighting;
  sighting.at = at, sighting.cause = cause;
  read_saw(house, Names(house), text, sighting);
  return sighting;
}

TEST(Saw, what_tripped_is_kept_and_what_was_turned_off_is_not) {
  const House house = flat();
  for (const auto& [said, trips] : {std::pair{"12 tripped, hall dark", 1}, {"12 tripped off, hall dark", 1}, {"12 and 10 tripped", 2}, {"main popped", 1}, {"12 turned off, hall dark", 0}, {"12 off, hall dark", 0}}) {
    const House next = with_sighting(house, told_in(house, said, "2026-03-01T08:00:00Z", "heater"));
    require_sound(next);
    ASSERT_EQ(next.trips.size(), static_cast<std::size_t>(trips)) << said;
    for (const Trip& trip : next.trips) EXPECT_EQ(trip.cause, "heater");
  }
  const House next = with_sighting(house, told_in(house, "12 tripped", "2026-03-01T08:00:00Z"));
  EXPECT_TRUE(without_last_sighting(next)->trips[0].withdrawn);
}

TEST(Saw, a_breaker_that_trips_often_is_noticed_wherever_it_is_met) {
  House house = flat();
  const Names names(house);
  std::string last;
  for (const char* at : {"2026-01-10T08:00:00Z", "2026-02-10T08:00:00Z", "2026-03-01T08:00:00Z"}) {
    const Sighting sighting = told_in(house, "12 tripped", at, "heater");
    house = with_sighting(house, sighting);
    last = words_of_sighting(house, names, sighting)[0].text;
    EXPECT_EQ(last.find("3 times") != std::string::npos, at[6] == '3') << last;
  }
  EXPECT_THAT(last, HasSubstr("Main panel breaker 12 tripped: heater; that is kept. It tripped 3 times within 90 days: heater."));
  const Record record = make_record(house);
  const auto words = words_of_answer(record, names, what_goes_off(record, {{names.one_handle("12")}}, {}));
  EXPECT_TRUE(std::ranges::any_of(words, [](const Line& line) { return line.text.find("tripped 3 times") != std::string::npos; }));
}

}  // namespace
}  // namespace ohmstead
