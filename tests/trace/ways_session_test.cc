// A session with several breakers off, with lamps, and with a point found on the way.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "house/invariants.h"
#include "survey/found_point.h"
#include "tests/trace/session_answers.h"
#include "trace/manner.h"
#include "trace/step_text.h"

namespace ohmstead::test {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

/// Four rooms with two receptacles and a light each, on eight breakers that no label tells apart.
struct FourRooms : HouseMaker {
  std::vector<Id<Breaker>> breakers;
  FourRooms() {
    for (int space = 1; space <= 8; ++space) breakers.push_back(add_breaker(space));
    for (std::size_t r = 0; r < 4; ++r) {
      const auto room = add_room("Room " + std::to_string(r + 1));
      for (int i = 1; i <= 2; ++i) add_point(room, "receptacle " + std::to_string(i), {{1, breakers[r], 1}});
      add_point(room, "light", {{1, breakers[4 + r / 2], 1}}, 1, PointKind::light);
    }
  }
};

Manner ways(int at_once, bool helper = false, int lamps = 0) {
  Manner manner;
  manner.at_once = at_once, manner.helper = helper, manner.lamps = lamps;
  return manner;
}

TEST(Ways, undo_goes_back_through_partial_closes_all_the_way_to_the_start) {
  int partial = 0;
  for (unsigned seed = 0; seed < 12; ++seed) {
    FourRooms made;
    keep_manner(made.house, ways(seed % 2 == 0 ? 4 : 0, seed % 3 == 0, seed % 4 == 0 ? 2 : 0));
    TraceSession session(made.house);
    Walker walker(made.truth, 0.05, seed);
    std::vector<std::pair<Step, std::vector<Round>>> before;
    while (session.step().kind != StepKind::done) {
      before.emplace_back(session.step(), session.house().rounds);
      partial += session.step().kind == StepKind::close && session.step().reason == StepReason::next_set;
      session.answer(walker.answer(session));
    }
    ASSERT_GT(before.size(), 20U);
    for (; !before.empty(); before.pop_back()) {
      ASSERT_TRUE(session.undo());
      ASSERT_EQ(session.step(), before.back().first) << "seed " << seed << " at " << before.size();
      ASSERT_EQ(TraceSession(session.house()).step(), session.step());
    }
    EXPECT_FALSE(session.undo());
  }
  EXPECT_GT(partial, 0) << "no partial close came up, so nothing was tested";
}

TEST(Ways, a_skip_of_one_of_several_leaves_the_others_of_the_step) {
  FourRooms made;
  keep_manner(made.house, ways(3));
  TraceSession session(made.house);
  Walker walker(made.truth, 0, 1);
  while (session.step().kind != StepKind::open) session.answer(walker.answer(session));
  ASSERT_EQ(session.step().handles.size(), 3U);
  const HandleRef stuck = session.step().handles[1];
  Answer skip = say(AnswerKind::skip);
  skip.handle = stuck;
  session.answer(skip);
  while (session.step().kind != StepKind::done) {
    if (session.step().kind == StepKind::open) {
      ASSERT_THAT(session.step().handles, Not(::testing::Contains(stuck)));
    }
    session.answer(walker.answer(session));
  }
  session.forget_skipped();
  ASSERT_TRUE(run_to_the_end(session, walker));
  EXPECT_EQ(proved(session), right(made.truth));
}

TEST(Ways, of_several_to_be_closed_the_one_that_is_named_stays_off) {
  FourRooms made;
  keep_manner(made.house, ways(3));
  TraceSession session(made.house);
  Walker walker(made.truth, 0, 1);
  while (session.step().kind != StepKind::close || session.step().handles.size() < 2) session.answer(walker.answer(session));
  const Step close = session.step();
  Answer skip = say(AnswerKind::skip);
  skip.handle = close.handles[1];
  session.answer(skip);
  const auto kept = [&](const HandleRef& handle) {
    return std::ranges::find(session.house().settings, kStaysOffPrefix + Id<Breaker>{handle.id}.text(), &Setting::name) != session.house().settings.end();
  };
  EXPECT_TRUE(kept(close.handles[1]));
  EXPECT_FALSE(kept(close.handles[0]));
  ASSERT_TRUE(session.undo());
  EXPECT_EQ(session.step(), close);
  EXPECT_FALSE(kept(close.handles[1]));
}

TEST(Ways, every_lamp_is_taken_along_before_the_end) {
  int put = 0;
  for (unsigned seed = 0; seed < 10; ++seed) {
    FourRooms made;
    keep_manner(made.house, ways(1, false, 3));
    TraceSession session(made.house);
    Walker walker(made.truth, 0, seed);
    int in = 0;
    while (session.step().kind != StepKind::done) {
      const StepKind kind = session.step().kind;
      if (kind == StepKind::put_lamp) ++in, ++put;
      if (kind == StepKind::take_lamp) --in;
      ASSERT_LE(in, 3);
      ASSERT_GE(in, 0);
      session.answer(walker.answer(session));
    }
    EXPECT_EQ(in, 0) << "seed " << seed << ": a lamp was left behind";
    EXPECT_EQ(proved(session), right(made.truth));
  }
  EXPECT_GT(put, 0) << "no lamp was used, so nothing was tested";
}

TEST(Ways, a_lamp_is_fetched_at_the_end_also_when_no_more_are_to_be_used) {
  FourRooms made;
  keep_manner(made.house, ways(1, false, 3));
  TraceSession session(made.house);
  Walker walker(made.truth, 0, 1);
  while (session.step().kind != StepKind::put_lamp) session.answer(walker.answer(session));
  const Id<Point> lamp = session.step().point;
  session.answer(walker.answer(session));
  session.work_as(ways(1));
  Step last;
  for (; session.step().kind != StepKind::done; session.answer(walker.answer(session))) last = session.step();
  EXPECT_EQ(last.kind, StepKind::take_lamp);
  EXPECT_EQ(last.point, lamp);
}

TEST(Ways, a_lamp_is_looked_at_from_the_door_until_it_is_taken) {
  FourRooms made;
  keep_manner(made.house, ways(1, false, 3));
  TraceSession session(made.house);
  Walker walker(made.truth, 0, 1);
  std::vector<Id<Point>> with_lamp;
  int from_door = 0;
  while (session.step().kind != StepKind::done) {
    const Step step = session.step();
    const bool has_lamp = std::ranges::find(with_lamp, step.point) != with_lamp.end();
    if (step.kind == StepKind::look) {
      EXPECT_EQ(step.from_door, has_lamp);
      from_door += step.from_door;
      if (step.from_door) {
        EXPECT_THAT(step_text(session.house(), step), HasSubstr("lit (live) or dark (dead)"));
        EXPECT_EQ(usual_method(session.house(), step), Method::lamp);
      }
    }
    if (step.kind == StepKind::put_lamp) with_lamp.push_back(step.point);
    if (step.kind == StepKind::take_lamp) std::erase(with_lamp, step.point);
    session.answer(walker.answer(session));
  }
  EXPECT_GT(from_door, 0);
}

TEST(Ways, handles_are_called_out_only_with_a_helper) {
  for (const bool helper : {true, false}) {
    FourRooms made;
    keep_manner(made.house, ways(3, helper));
    TraceSession session(made.house);
    Walker walker(made.truth, 0, 1);
    int moved = 0;
    while (session.step().kind != StepKind::done) {
      const Step& step = session.step();
      if (step.kind == StepKind::open || step.kind == StepKind::close) {
        ++moved;
        const std::string text = step_text(session.house(), step);
        EXPECT_EQ(step.by_helper, helper);
        if (helper) EXPECT_THAT(text, HasSubstr("Call out to the panel: turn "));
        else EXPECT_THAT(text, Not(HasSubstr("Call out")));
        for (const HandleRef& handle : step.handles) EXPECT_THAT(text, HasSubstr((step.handles.size() > 1 ? "\n- " : "") + handle_name(session.house(), handle)));
      }
      session.answer(walker.answer(session));
    }
    EXPECT_GT(moved, 3);
  }
}

TEST(Ways, a_point_found_on_the_way_is_traced_and_can_be_taken_back_until_it_is_looked_at) {
  FourRooms made;
  TraceSession session(made.house);
  Walker walker(made.truth, 0, 1);
  for (int i = 0; i < 6; ++i) session.answer(walker.answer(session));
  const House before = session.house();
  const Step step = session.step();
  const FoundRows found = rows_of_found(before, {made.house.rooms[1].id, PointKind::appliance, "Freezer"});
  EXPECT_TRUE(found.loads.at(0).hurt_by_power_loss);
  session.add(found.point, found.loads);
  EXPECT_EQ(session.progress().total, 13);
  ASSERT_TRUE(session.undo());
  EXPECT_EQ(session.house(), before);
  EXPECT_EQ(session.step(), step);
  session.add(found.point, found.loads);
  EXPECT_TRUE(problems_of(session.house()).empty());
  made.truth.feed.push_back({{1, made.breakers[6], 1}});
  made.truth.at_start.push_back(AtStart::live);
  Walker second(made.truth, 0, 1);
  second.resume(session);
  ASSERT_TRUE(run_to_the_end(session, second));
  EXPECT_EQ(proved(session), right(made.truth));
  while (session.undo()) {}
  EXPECT_TRUE(find_row(session.house(), found.point.id) != nullptr) << "what was looked at stays in the record";
  EXPECT_TRUE(problems_of(session.house()).empty());
}

TEST(Ways, what_is_found_twice_or_nowhere_is_refused) {
  FourRooms made;
  const Id<Room> room = made.house.rooms[1].id;
  EXPECT_EQ(free_point_name(made.house, room, PointKind::receptacle), "receptacle 3");
  EXPECT_EQ(free_point_name(made.house, room, PointKind::light), "light 2");
  EXPECT_EQ(free_point_name(made.house, room, PointKind::fan), "fan");
  EXPECT_THROW((void)rows_of_found(made.house, {room, PointKind::light, "LIGHT"}), Error);
  EXPECT_THROW((void)rows_of_found(made.house, {Id<Room>{5}, PointKind::light, ""}), Error);
  EXPECT_THROW((void)rows_of_found(made.house, {room, PointKind::other, std::string(201, 'x')}), Error);
  EXPECT_THROW((void)rows_of_found(made.house, {room, PointKind::other, "sauna", "", 3}), Error);
  EXPECT_EQ(rows_of_found(made.house, {room, PointKind::appliance, "dryer"}).point.hots, 2);
  TraceSession session(made.house);
  const House before = session.house();
  EXPECT_THROW(session.add(rows_of_found(made.house, {room, PointKind::other, "bell\x1b[31m"}).point, {}), Error);
  EXPECT_EQ(session.house(), before);
}

}  // namespace
}  // namespace ohmstead::test
