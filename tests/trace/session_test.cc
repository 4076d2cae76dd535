#include "trace/session.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "house/invariants.h"
#include "tests/trace/session_answers.h"
#include "tests/trace/simulated_house.h"
#include "trace/step_text.h"

namespace ohmstead::test {
namespace {

using ::testing::HasSubstr;

/// Three rooms, five single-pole breakers (one of them a spare) and a two-pole one for the range.
struct SmallHouse : HouseMaker {
  std::vector<Id<Breaker>> breakers;
  SmallHouse() {
    const auto kitchen = add_room("Kitchen"), bedroom = add_room("Bedroom");
    for (int space = 1; space <= 5; ++space) breakers.push_back(add_breaker(space));
    breakers.push_back(add_breaker(6, 2, 40));
    for (int i = 0; i < 4; ++i) add_point(kitchen, "receptacle " + std::to_string(i + 1), {{1, breakers[i < 2 ? 0 : 1], 1}});
    add_point(kitchen, "range", {{1, breakers[5], 1}, {2, breakers[5], 2}}, 2, PointKind::appliance);
    for (int i = 0; i < 3; ++i) add_point(bedroom, "receptacle " + std::to_string(i + 1), {{1, breakers[2], 1}});
    add_point(bedroom, "ceiling light", {{1, breakers[3], 1}}, 1, PointKind::light);
  }
  void add_load(std::size_t point, const std::string& name, Importance importance = Importance::normal) {
    Load load{Id<Load>::fresh(), house.points[point].id, name};
    load.hurt_by_power_loss = true;
    load.importance = importance;
    house.loads.push_back(load);
  }
};

TEST(TraceSession, truthful_answers_prove_every_point) {
  SmallHouse made;
  ASSERT_TRUE(problems_of(made.house).empty()) << problems_of(made.house)[0].message;
  TraceSession session(made.house);
  Walker walker(made.truth, 0, 1);
  ASSERT_TRUE(run_to_the_end(session, walker));
  const Feeds feeds = conclude(session.house());
  for (std::size_t i = 0; i < made.house.points.size(); ++i) {
    EXPECT_EQ(feeds.of_point[i].standing, Standing::proved) << made.house.points[i].name;
    EXPECT_EQ(feeds.of_point[i].taps, made.truth.feed[i]) << made.house.points[i].name;
  }
  EXPECT_TRUE(seems_spare(session.house(), made.breakers[4]));
  EXPECT_FALSE(seems_spare(session.house(), made.breakers[0]));
  EXPECT_EQ(session.progress().settled, session.progress().total);
  EXPECT_EQ(session.progress().minutes_left, 0);
}

TEST(TraceSession, reading_errors_are_mostly_found_out) {
  int wrong = 0, total = 0;
  for (unsigned seed = 0; seed < 150; ++seed) {
    SmallHouse made;
    TraceSession session(made.house);
    Walker walker(made.truth, 0.02, seed);
    ASSERT_TRUE(run_to_the_end(session, walker));
    const auto found = proved(session), truth = right(made.truth);
    for (std::size_t p = 0; p < found.size(); ++p) wrong += found[p] && found[p] != truth[p] ? 1 : 0;
    total += static_cast<int>(found.size());
  }
  EXPECT_LE(wrong, total / 100);  // a proof is promised to be right in 99 of 100 cases
}

TEST(TraceSession, undo_brings_back_the_step_before_all_the_way_to_the_start) {
  SmallHouse made;
  made.truth.at_start[3] = AtStart::dead_until_repaired;
  TraceSession session(made.house);
  Walker walker(made.truth, 0.05, 7);
  std::vector<Step> steps;
  std::vector<Progress> progress;
  while (session.step().kind != StepKind::done) {
    steps.push_back(session.step());
    progress.push_back(session.progress());
    session.answer(walker.answer(session));
  }
  ASSERT_GT(steps.size(), 30u);
  for (; !steps.empty(); steps.pop_back(), progress.pop_back()) {
    ASSERT_TRUE(session.undo());
    ASSERT_EQ(session.step(), steps.back()) << text_of(steps.back().kind) << " at " << steps.size();
    ASSERT_EQ(session.progress(), progress.back());
  }
  EXPECT_FALSE(session.undo());
  for (const Observation& seen : session.house().observations) EXPECT_TRUE(seen.withdrawn);
}

TEST(TraceSession, a_session_reloaded_at_any_moment_goes_on_with_the_same_step) {
  SmallHouse made;
  made.truth.at_start[3] = AtStart::dead_until_repaired;
  TraceSession session(made.house);
  Walker walker(made.truth, 0.05, 3);
  while (session.step().kind != StepKind::done) {
    const TraceSession reloaded(session.house());
    ASSERT_EQ(reloaded.step(), session.step());
    ASSERT_EQ(reloaded.progress(), session.progress());
    session.answer(walker.answer(session));
  }
}

TEST(TraceSession, an_answer_that_does_not_fit_changes_nothing) {
  TraceSession session(SmallHouse().house);
  const House before = session.house();
  EXPECT_THROW(session.answer(say(AnswerKind::live)), Error);
  EXPECT_THROW(session.answer({AnswerKind::done, Method::look, std::string(300, 'x'), ""}), Error);
  EXPECT_EQ(session.house(), before);
  EXPECT_FALSE(session.undo());
}

TEST(TraceSession, dead_at_the_start_is_asked_about_and_blamed_on_no_breaker) {
  SmallHouse made;
  made.truth.at_start[0] = AtStart::dead_until_repaired;
  made.truth.at_start[8] = AtStart::dead_for_good;
  TraceSession session(made.house);
  Walker walker(made.truth, 0, 1);
  std::vector<Id<Point>> asked;
  while (session.step().kind != StepKind::done) {
    if (session.step().kind == StepKind::ask_dead) asked.push_back(session.step().point);
    session.answer(walker.answer(session));
  }
  EXPECT_THAT(asked, ::testing::UnorderedElementsAre(made.house.points[0].id, made.house.points[8].id));
  EXPECT_EQ(proved(session)[0], made.breakers[0]);
  EXPECT_EQ(proved(session)[8], Id<Breaker>{});
  EXPECT_EQ(session.progress().dead_anyway, 1);
}

TEST(TraceSession, a_point_on_no_listed_breaker_ends_as_unexplained) {
  SmallHouse made;
  made.truth.feed[2].clear();
  TraceSession session(made.house);
  Walker walker(made.truth, 0, 1);
  ASSERT_TRUE(run_to_the_end(session, walker));
  EXPECT_EQ(session.progress().unexplained, 1);
  EXPECT_THAT(summary_text(session.house(), session.conclusions()), HasSubstr("receptacle 3: live whatever was off"));
}

TEST(TraceSession, a_breaker_that_must_not_be_opened_is_never_proposed) {
  SmallHouse made;
  made.house.breakers[2].open_rule = OpenRule::never;
  TraceSession session(made.house);
  Walker walker(made.truth, 0, 1);
  while (session.step().kind != StepKind::done) {
    if (session.step().kind == StepKind::open) {
      ASSERT_NE(session.step().handles[0].id, made.breakers[2].value);
    }
    session.answer(walker.answer(session));
  }
  EXPECT_EQ(proved(session)[5], Id<Breaker>{});
}

TEST(TraceSession, a_breaker_that_may_be_off_briefly_is_closed_in_time) {
  SmallHouse made;
  for (Breaker& breaker : made.house.breakers) breaker.open_rule = OpenRule::briefly_alone;
  TraceSession session(made.house);
  session.answer(say(AnswerKind::done, "2026-03-01T08:00:00Z"));
  EXPECT_TRUE(session.step().briefly);
  session.answer(say(AnswerKind::done, "2026-03-01T08:00:10Z"));
  session.answer(say(AnswerKind::live, "2026-03-01T08:01:00Z"));
  EXPECT_EQ(session.step().kind, StepKind::look);
  session.answer(say(AnswerKind::live, "2026-03-01T08:04:15Z"));
  EXPECT_EQ(session.step().kind, StepKind::close);
  EXPECT_EQ(session.step().reason, StepReason::time_over);
}

TEST(TraceSession, loads_hurt_by_a_power_loss_are_named_before_the_breaker_goes_off) {
  SmallHouse made;
  made.add_load(6, "oxygen concentrator", Importance::life_safety);
  made.house.breakers[2].old_label = "bedroom";
  TraceSession session(made.house);
  EXPECT_THAT(step_text(made.house, session.step()), HasSubstr("oxygen concentrator"));
  Walker walker(made.truth, 0, 1);
  int cautions = 0;
  while (session.step().kind != StepKind::done) {
    const Step step = session.step();
    session.answer(walker.answer(session));
    if (step.kind != StepKind::caution || step.reason != StepReason::load_at_risk) continue;
    ++cautions;
    EXPECT_EQ(session.step().kind, StepKind::open);
    EXPECT_EQ(session.step().handles, step.handles);
    EXPECT_EQ(step.loads.size(), 1u);
  }
  EXPECT_GE(cautions, 1);
  EXPECT_EQ(proved(session)[6], made.breakers[2]);
}

TEST(TraceSession, a_load_that_keeps_somebody_alive_is_looked_at_first_and_brought_back_at_once) {
  SmallHouse made;
  made.add_load(6, "oxygen concentrator", Importance::life_safety);
  TraceSession session(made.house);
  Walker walker(made.truth, 0, 1);
  bool seen_off = false;
  while (session.step().kind != StepKind::done && !seen_off) {
    const Answer answer = walker.answer(session);
    const bool here = session.step().point == made.house.points[6].id;
    session.answer(answer);
    seen_off = here && answer.kind == AnswerKind::dead;
  }
  ASSERT_TRUE(seen_off);
  EXPECT_EQ(session.step().kind, StepKind::close);
  EXPECT_EQ(session.step().reason, StepReason::load_is_off);
}

TEST(TraceSession, skipped_and_not_sure_do_not_stop_the_rest) {
  SmallHouse made;
  TraceSession session(made.house);
  Walker walker(made.truth, 0, 1);
  const Id<Point> refused = made.house.points[0].id;
  while (session.step().kind != StepKind::done) {
    Answer answer = walker.answer(session);
    if (session.step().point == refused) answer.kind = session.house().observations.size() % 2 ? AnswerKind::skip : AnswerKind::not_sure;
    session.answer(answer);
  }
  auto expected = right(made.truth);
  expected[0] = {};
  EXPECT_EQ(proved(session), expected);
}

TEST(TraceSession, a_breaker_that_stays_off_is_open_in_every_later_round) {
  SmallHouse made;
  TraceSession session(made.house);
  Walker walker(made.truth, 0, 1);
  while (session.step().kind != StepKind::close) session.answer(walker.answer(session));
  const HandleRef stuck = session.step().handles[0];
  session.answer(say(AnswerKind::skip));
  while (session.step().kind != StepKind::open) session.answer(walker.answer(session));
  session.answer(say(AnswerKind::done));
  const Id<Round> round = session.house().rounds.back().id;
  std::vector<HandleRef> open;
  for (const Opened& opened : session.house().opened)
    if (opened.round == round) open.push_back(opened.handle);
  EXPECT_EQ(open.size(), 2u);
  EXPECT_THAT(open, ::testing::Contains(stuck));
}

TEST(TraceSession, points_and_a_subpanel_found_on_the_way_are_taken_in) {
  SmallHouse made;
  TraceSession session(made.house);
  Walker walker(made.truth, 0, 1);
  for (int i = 0; i < 12; ++i) session.answer(walker.answer(session));
  House next = session.house();
  const auto feeder = Id<Breaker>::fresh(), in_sub = Id<Breaker>::fresh();
  next.breakers.push_back({feeder, next.panels[0].id, 10, Half::whole, 2, 60});
  next.panels.push_back({Id<Panel>::fresh(), "Workshop panel", next.rooms[0].id, 12, Numbering::odd_left_even_right, Supply::breaker, feeder});
  next.breakers.push_back({in_sub, next.panels[1].id, 1, Half::whole, 1, 15});
  next.points.push_back({Id<Point>::fresh(), next.rooms[0].id, {}, "bench receptacle"});
  made.truth.feed.push_back({{1, in_sub, 1}});
  made.truth.at_start.push_back(AtStart::live);
  session.adopt(next);
  Walker second(made.truth, 0, 1);
  second.resume(session);
  ASSERT_TRUE(run_to_the_end(session, second));
  EXPECT_EQ(proved(session), right(made.truth));
}

TEST(TraceSession, a_house_without_breakers_or_points_says_what_to_do) {
  const TraceSession session{HouseMaker().house};
  EXPECT_EQ(session.step().kind, StepKind::done);
  EXPECT_EQ(session.step().reason, StepReason::nothing_listed);
  EXPECT_THAT(step_text(session.house(), session.step()), HasSubstr("No breakers are written down yet"));
}

TEST(TraceSession, a_wrong_look_noticed_later_can_be_withdrawn) {
  SmallHouse made;
  TraceSession session(made.house);
  Walker walker(made.truth, 0, 1);
  ASSERT_TRUE(run_to_the_end(session, walker));
  for (const Observation& seen : std::vector(session.house().observations))
    if (seen.point == made.house.points[5].id && seen.seen == Seen::dead) session.withdraw(seen.id);
  EXPECT_EQ(proved(session)[5], Id<Breaker>{});
  EXPECT_NE(session.step().kind, StepKind::done);
  EXPECT_THROW(session.withdraw(Id<Observation>{1}), Error);
}

}  // namespace
}  // namespace ohmstead::test
