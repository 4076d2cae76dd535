#include "trace/manner.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "house/error.h"
#include "house/invariants.h"
#include "tests/trace/session_answers.h"
#include "trace/step_text.h"

namespace ohmstead::test {
namespace {

using ::testing::HasSubstr;

/// A hall with the panel and `rooms` rooms more, each with two receptacles on a breaker of its own.
struct RowHouse : HouseMaker {
  std::vector<Id<Room>> rooms;
  explicit RowHouse(int count) : HouseMaker(2 * count + 2) {
    for (int i = 0; i < count; ++i) {
      rooms.push_back(add_room("Room " + std::to_string(i + 1)));
      const auto breaker = add_breaker(i + 1);
      for (int r = 1; r <= 2; ++r) add_point(rooms.back(), "receptacle " + std::to_string(r), {{1, breaker, 1}});
    }
  }
};

TEST(Manner, what_is_kept_comes_back) {
  RowHouse made(3);
  EXPECT_EQ(manner_of(made.house), Manner{});
  const Manner manner{0, true, 6, {made.rooms[0], made.rooms[2]}, true, Method::listening};
  keep_manner(made.house, manner);
  EXPECT_EQ(manner_of(made.house), manner);
  keep_manner(made.house, {});
  EXPECT_EQ(manner_of(made.house), Manner{});
  EXPECT_TRUE(made.house.settings.empty());
}

TEST(Manner, all_of_many_rooms_are_kept_in_a_sound_house) {
  RowHouse made(40);
  Manner manner;
  manner.rooms = made.rooms;
  keep_manner(made.house, manner);
  EXPECT_EQ(manner_of(made.house), manner);
  EXPECT_TRUE(problems_of(made.house).empty()) << problems_of(made.house)[0].message;
}

TEST(Manner, a_room_is_found_by_its_whole_id_only) {
  RowHouse made(2);
  made.house.rooms[1].id = {1};
  for (const char* name : {"trace.manner.room.0000000000010", "trace.manner.room.x000000000001", "trace.manner.room.", "trace.manner.rooms"})
    made.house.settings.push_back({Id<Setting>::fresh(), name, "000000000001"});
  EXPECT_TRUE(manner_of(made.house).rooms.empty());
  made.house.settings.push_back({Id<Setting>::fresh(), "trace.manner.room.000000000001", "yes"});
  EXPECT_EQ(manner_of(made.house).rooms, std::vector{Id<Room>{1}});
}

TEST(Manner, what_makes_no_sense_in_the_file_is_as_if_it_were_not_there) {
  RowHouse made(1);
  const std::pair<const char*, const char*> bad[] = {{"at_once", "-1"}, {"at_once", "many"}, {"at_once", "4x"}, {"at_once", "99999999999999999999"}, {"lamps", "51"}, {"method", "nose"}};
  for (const auto& [name, value] : bad) {
    House house = made.house;
    house.settings.push_back({Id<Setting>::fresh(), std::string(kMannerPrefix) + name, value});
    EXPECT_EQ(manner_of(house), Manner{}) << name << ' ' << value;
  }
}

TEST(Manner, what_is_out_of_range_is_refused_and_nothing_is_changed) {
  RowHouse made(1);
  const House before = made.house;
  Manner too_many, too_few, lamps, stranger;
  too_many.at_once = kMostAtOnce + 1, too_few.at_once = -1, lamps.lamps = kMostLamps + 1, stranger.rooms = {Id<Room>{7}};
  for (const Manner& manner : {too_many, too_few, lamps, stranger}) {
    EXPECT_THROW(keep_manner(made.house, manner), Error);
    EXPECT_EQ(made.house, before);
  }
}

TEST(Manner, it_is_said_in_one_line) {
  RowHouse made(2);
  EXPECT_EQ(manner_text(made.house, {}), "One breaker off at a time, alone, by tester.");
  EXPECT_EQ(manner_text(made.house, {4, true, 1, made.rooms, true, Method::lamp}),
            "Up to 4 breakers off at a time, with a helper at the panel, by a plug-in lamp carried along, with 1 lamp left in receptacles. "
            "Only in: Room 1, Room 2. Only what matters in an outage.");
}

/// Every way of working proves what it is asked for, and asks for nothing else.
TEST(Manner, only_the_rooms_that_are_wanted_are_traced) {
  for (const int at_once : {1, 3, 0}) {
    RowHouse made(5);
    TraceSession session(made.house);
    Manner manner;
    manner.at_once = at_once, manner.rooms = {made.rooms[1], made.rooms[3]};
    session.work_as(manner);
    EXPECT_EQ(session.progress().total, 4);
    Walker walker(made.truth, 0, 1);
    while (session.step().kind != StepKind::done) {
      if (const Point* point = find_row(session.house(), session.step().point)) {
        EXPECT_TRUE(point->room == made.rooms[1] || point->room == made.rooms[3]) << point_name(session.house(), point->id);
      }
      session.answer(walker.answer(session));
    }
    EXPECT_EQ(session.progress().settled, 4) << at_once;
    EXPECT_EQ(session.progress().minutes_left, 0);
    for (const std::size_t p : {2U, 3U, 6U, 7U}) EXPECT_EQ(proved(session)[p], right(made.truth)[p]);
    EXPECT_THAT(summary_text(session.house(), session.conclusions()), HasSubstr("4 of 4 points are settled. 6 more were not asked about."));
    session.work_as({});
    EXPECT_NE(session.step().kind, StepKind::done);
    ASSERT_TRUE(run_to_the_end(session, walker));
    EXPECT_EQ(proved(session), right(made.truth));
  }
}

TEST(Manner, only_what_the_plan_needs_is_traced) {
  RowHouse made(3);
  const auto load = [&](std::size_t point, Importance importance, bool hurt) {
    Load row{.id = Id<Load>::fresh(), .point = made.house.points[point].id, .name = "load"};
    row.importance = importance, row.hurt_by_power_loss = hurt;
    made.house.loads.push_back(row);
  };
  load(0, Importance::high, false), load(2, Importance::normal, true), load(4, Importance::low, false);
  TraceSession session(made.house);
  Manner manner;
  manner.for_plan = true;
  session.work_as(manner);
  EXPECT_EQ(session.progress().total, 2);
  Walker walker(made.truth, 0, 1);
  ASSERT_TRUE(run_to_the_end(session, walker));
  EXPECT_EQ(session.progress().settled, 2);
  const auto found = proved(session), truth = right(made.truth);
  EXPECT_EQ(found[0], truth[0]);
  EXPECT_EQ(found[2], truth[2]);
  for (const std::size_t p : {4U, 5U})
    EXPECT_TRUE(std::ranges::none_of(session.house().observations, [&](const Observation& seen) { return seen.point == made.house.points[p].id; }));
}

TEST(Manner, a_point_to_be_traced_again_is_looked_at_dead_and_live_once_more) {
  RowHouse made(3);
  TraceSession session(made.house);
  Walker walker(made.truth, 0, 1);
  ASSERT_TRUE(run_to_the_end(session, walker));
  const Id<Point> again = made.house.points[3].id;
  const std::size_t looks = session.house().observations.size();
  session.again({again});
  EXPECT_EQ(session.progress().settled, 5);

  ASSERT_TRUE(run_to_the_end(session, walker));
  EXPECT_EQ(session.progress().settled, 6);
  bool dead = false, live = false;
  for (std::size_t i = looks; i < session.house().observations.size(); ++i) {
    const Observation& seen = session.house().observations[i];
    dead = dead || (seen.point == again && seen.seen == Seen::dead);
    live = live || (seen.point == again && seen.seen == Seen::live);
  }
  EXPECT_TRUE(dead && live);
  EXPECT_LE(session.house().observations.size() - looks, 4U);
  EXPECT_THROW(session.again({again, Id<Point>{5}}), Error);
}

TEST(Manner, the_manner_may_change_in_the_middle_of_anything) {
  for (unsigned seed = 0; seed < 20; ++seed) {
    RowHouse made(6);
    TraceSession session(made.house);
    Walker walker(made.truth, 0, seed);
    std::mt19937 random(seed);
    for (int i = 0; i < 2000 && session.step().kind != StepKind::done; ++i) {
      if (random() % 5 == 0 && i < 100) {
        Manner manner;
        manner.at_once = static_cast<int>(random() % 4), manner.helper = random() % 2, manner.lamps = static_cast<int>(random() % 3);
        if (random() % 3 == 0) manner.rooms = {made.rooms[random() % 6]};
        session.work_as(manner);
        ASSERT_EQ(TraceSession(session.house()).step(), session.step());
        continue;
      }
      session.answer(walker.answer(session));
    }
    session.work_as({});
    ASSERT_TRUE(run_to_the_end(session, walker)) << seed;
    EXPECT_EQ(proved(session), right(made.truth)) << seed;
    for (const Round& round : session.house().rounds) EXPECT_TRUE(round.finished) << seed;
  }
}

}  // namespace
}  // namespace ohmstead::test
