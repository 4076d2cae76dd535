// Circuits that may not be off, or only alone and briefly, and breakers that will not come on again,
// with one, four and any number of breakers off at once.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <sstream>

#include "cli/trace_lines.h"
#include "cli/trace_terminal.h"
#include "house/invariants.h"
#include "tests/trace/real_drive.h"
#include "trace/step_text.h"

namespace ohmstead::test {
namespace {

using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

constexpr std::size_t kBedroom = 2;

/// The bedroom's receptacles are on breaker 3; the freezer or what keeps somebody alive is in the first of them.
struct Sickroom : FourRooms {
  const std::size_t point = at(kBedroom, 0);
  void add_load(const std::string& name, Importance importance) {
    Load load{Id<Load>::fresh(), house.points[point].id, name};
    load.hurt_by_power_loss = true;
    load.importance = importance;
    house.loads.push_back(load);
  }
  [[nodiscard]] Breaker& breaker() { return row(house, breakers[kBedroom]); }
};

TEST(Briefly, a_breaker_that_may_be_off_only_alone_and_briefly_is_always_alone_and_in_time) {
  for (const int at_once : kWays) {
    std::size_t wrong = 0;
    for (unsigned seed = 0; seed < 21; ++seed) {
      Sickroom made;
      made.breaker().open_rule = OpenRule::briefly_alone;
      row(made.house, made.breakers[4]).open_rule = OpenRule::briefly_alone;
      TraceSession session = session_of(made.house, at_once);
      Walker walker(made.truth, seed == 0 ? 0 : 0.01, seed);
      walker.seconds_a_look = 55;  // slow
      const Drive seen = drive(session, walker);
      ASSERT_TRUE(seen.ended) << at_once;
      EXPECT_THAT(seen.broken, IsEmpty()) << at_once;
      if (seed == 0) {
        EXPECT_EQ(proved(session), right(made.truth)) << at_once;
      }
      EXPECT_LE(seen.looks, 110) << at_once;
      wrong += wrongly_blamed(session, made.truth).size();
    }
    EXPECT_LE(wrong, 1U) << at_once << ": of 340 points with one reading of a hundred wrong";
  }
}

/// A session in which a breaker that may be off briefly has just been opened.
TraceSession briefly_open(int at_once, Sickroom& made) {
  for (Breaker& breaker : made.house.breakers) breaker.open_rule = OpenRule::briefly_alone;
  TraceSession session = session_of(made.house, at_once);
  while (session.step().kind != StepKind::look) session.answer(say(AnswerKind::done, "2026-03-01T08:00:00Z"));
  return session;
}

TEST(Briefly, the_time_runs_through_a_pause_and_the_breaker_is_closed_first) {
  for (const int at_once : kWays)
    for (const bool looked : {false, true}) {
      Sickroom made;
      TraceSession before = briefly_open(at_once, made);
      if (looked) before.answer(say(AnswerKind::live, "2026-03-01T08:00:30Z"));
      TraceSession session(before.house());
      session.now_is("2026-03-01T08:01:00Z");
      EXPECT_EQ(session.step().kind, StepKind::look) << "there is time left";
      session.now_is("2026-03-01T09:00:00Z");
      EXPECT_EQ(session.step().kind, StepKind::close) << at_once;
      EXPECT_EQ(session.step().reason, StepReason::time_over);
      EXPECT_THAT(step_text(session.house(), session.step()), HasSubstr("Time is up."));
    }
}

TEST(Briefly, a_pause_with_another_breaker_off_changes_nothing) {
  Sickroom made;
  TraceSession before = session_of(made.house, 4);
  while (before.step().kind != StepKind::look) before.answer(say(AnswerKind::done));
  TraceSession session(before.house());
  session.now_is("2026-03-01T20:00:00Z");
  EXPECT_EQ(session.step(), before.step());
}

TEST(Never, a_breaker_that_must_not_be_off_is_never_proposed_and_the_summary_says_so) {
  for (const int at_once : kWays) {
    Sickroom made;
    made.breaker().open_rule = OpenRule::never;
    const auto [session, seen] = driven_truthfully(made, at_once);
    EXPECT_EQ(session.progress().settled, session.progress().total - 3) << at_once;
    EXPECT_EQ(session.progress().unexplained, 0) << at_once << ": it is on the breaker that was left on";
    EXPECT_LE(seen.looks, 110) << at_once;
    EXPECT_THAT(summary_text(session.house(), session.conclusions()), HasSubstr("breaker 3 in Main panel was left on, as it must never be off."));
  }
}

TEST(KeepsSomebodyAlive, is_looked_at_first_in_every_set_that_may_feed_it_and_its_breaker_is_on_again_at_once) {
  for (const int at_once : kWays) {
    Sickroom made;
    made.add_load("oxygen concentrator", Importance::life_safety);
    const Id<Point> oxygen = made.house.points[made.point].id;
    TraceSession session = session_of(made.house, at_once);
    Walker walker(made.truth, 0, 1);
    int first_dead = 0, opened_together_later = 0;
    bool found = false;
    for (int i = 0; i < 2000 && session.step().kind != StepKind::done; ++i) {
      const Step step = session.step();
      const Answer answer = walker.answer(session);
      session.answer(answer);
      const bool feeds_it = std::ranges::find(step.handles, HouseMaker::off(made.breakers[kBedroom])) != step.handles.end();
      if (step.kind == StepKind::open && feeds_it) {
        EXPECT_EQ(session.step().point, oxygen) << at_once << ": nothing else is looked at before it";
        opened_together_later += found && step.handles.size() > 1;
      }
      if (step.point == oxygen && answer.kind == AnswerKind::dead && first_dead++ == 0) {
        EXPECT_EQ(session.step().kind, StepKind::close) << at_once;
        EXPECT_EQ(session.step().reason, StepReason::load_is_off);
        EXPECT_THAT(session.step().handles, Contains(HouseMaker::off(made.breakers[kBedroom])));
        found = session.conclusions().units[made.point].candidates[0].belief > 0.9;
      }
    }
    EXPECT_EQ(session.step().kind, StepKind::done);
    EXPECT_GE(first_dead, 1) << at_once;
    EXPECT_EQ(opened_together_later, 0) << at_once;
    EXPECT_EQ(proved(session), right(made.truth)) << at_once;
  }
}

TEST(KeepsSomebodyAlive, when_nobody_is_sure_about_it_the_breakers_are_on_again_in_time) {
  for (const int at_once : {4, 0}) {
    Sickroom made;
    made.add_load("oxygen concentrator", Importance::life_safety);
    TraceSession session = session_of(made.house, at_once);
    Walker walker(made.truth, 0, 1);
    walker.seconds_a_look = 50;
    int since = -1, longest = 0;
    for (int i = 0; i < 3000 && session.step().kind != StepKind::done; ++i) {
      const Step step = session.step();
      Answer answer = walker.answer(session);
      if (step.point == made.house.points[made.point].id) answer.kind = AnswerKind::not_sure;
      const bool feeds_it = std::ranges::find(step.handles, HouseMaker::off(made.breakers[kBedroom])) != step.handles.end();
      if (step.kind == StepKind::open && feeds_it) since = walker.clock.seconds();
      if (step.kind == StepKind::close && feeds_it) longest = std::max(longest, walker.clock.seconds() - since);
      session.answer(answer);
    }
    EXPECT_EQ(session.step().kind, StepKind::done);
    EXPECT_GT(longest, 0) << at_once;
    EXPECT_LE(longest, kBriefSeconds) << at_once;
  }
}

/// A session with something off, a few looks into its second walk.
TraceSession under_way(const FourRooms& made, int at_once, Walker& walker) {
  TraceSession session = session_of(made.house, at_once);
  for (int walks = 0, looks = 0; looks < 3;) {
    walks += session.step().kind == StepKind::open;
    looks += walks > 1 && session.step().kind == StepKind::look;
    session.answer(walker.answer(session));
  }
  return session;
}

TEST(StaysOff, a_breaker_that_trips_and_will_not_come_on_counts_as_off_from_then_on) {
  for (const int at_once : kWays)
    for (std::size_t tripped = 0; tripped < 10; ++tripped) {
      FourRooms made;
      Walker walker(made.truth, 0, 1);
      TraceSession session = under_way(made, at_once, walker);
      const std::size_t seen_before = session.house().observations.size();
      walker.trip(made.breakers[tripped]);
      session.stays_off(made.breakers[tripped], walker.clock.after(5));
      ASSERT_TRUE(problems_of(session.house()).empty());
      const Drive seen = drive(session, walker);
      ASSERT_TRUE(seen.ended) << at_once << " breaker " << tripped;
      EXPECT_THAT(seen.broken, IsEmpty()) << at_once;
      EXPECT_THAT(wrongly_blamed(session, made.truth), IsEmpty()) << at_once << " breaker " << tripped;
      EXPECT_LE(seen.looks, 120) << at_once << " breaker " << tripped;
      const auto found = proved(session), truth = right(made.truth);
      for (std::size_t p = 0; p < truth.size(); ++p)  // what is on it cannot be seen live any more
        if (truth[p] != made.breakers[tripped]) {
          EXPECT_EQ(found[p], truth[p]) << at_once << " breaker " << tripped << " point " << p;
        }
      const House& house = session.house();
      for (std::size_t i = seen_before; i < house.observations.size(); ++i)
        EXPECT_TRUE(std::ranges::any_of(house.opened, [&](const Opened& opened) {
          return opened.round == house.observations[i].round && opened.handle == HouseMaker::off(made.breakers[tripped]);
        }));
      EXPECT_THAT(summary_text(house, session.conclusions()), HasSubstr("would not come on again and counts as off"));
    }
}

TEST(StaysOff, can_be_taken_back_and_survives_a_pause) {
  for (const int at_once : kWays)
    for (const bool open : {false, true}) {  // it was one of those that are off, or another one
      FourRooms made;
      Walker walker(made.truth, 0, 1);
      TraceSession session = under_way(made, at_once, walker);
      const House before = session.house();
      const Step step = session.step();
      const HandleRef off = session.step().handles.at(0);
      const Id<Breaker> tripped = open ? Id<Breaker>{off.id} : made.breakers[off == HouseMaker::off(made.breakers[8]) ? 7 : 8];
      session.stays_off(tripped, "2026-03-01T10:00:00Z");
      EXPECT_EQ(TraceSession(session.house()).step(), session.step());
      EXPECT_TRUE(session.undo());
      EXPECT_EQ(session.step(), step);
      EXPECT_EQ(session.house(), before);
      EXPECT_THROW(session.stays_off(Id<Breaker>{1}, ""), Error);
    }
}

TEST(StaysOff, one_that_may_be_off_only_briefly_gains_no_time_by_another_that_trips) {
  Sickroom made;
  TraceSession session = briefly_open(1, made);
  const HandleRef off = session.step().handles.at(0);
  session.stays_off(made.breakers[off == HouseMaker::off(made.breakers[8]) ? 7 : 8], "2026-03-01T08:03:30Z");
  session.answer(say(AnswerKind::live, "2026-03-01T08:04:10Z"));
  EXPECT_EQ(session.step().kind, StepKind::close);
  EXPECT_EQ(session.step().reason, StepReason::time_over);
}

TEST(BothFrontEnds, tell_the_session_the_time_when_it_goes_on_after_a_pause) {
  Sickroom made;
  const House house = briefly_open(1, made).house();
  TraceOptions options;
  options.now = [] { return std::string("2026-03-01T09:00:00Z"); };
  TraceSession on_lines(house), in_terminal(house);
  std::istringstream nothing, no_keys;
  std::ostringstream lines, shown;
  (void)run_trace_lines(on_lines, nothing, lines, [](const std::string&, const House&) {}, options);
  (void)run_trace_terminal(in_terminal, no_keys, shown, [](const std::string&, const House&) {}, options);
  EXPECT_THAT(lines.str(), HasSubstr("time_over"));
  EXPECT_THAT(shown.str(), HasSubstr("Time is up."));
}

TEST(TraceLines, are_told_of_a_breaker_that_will_not_come_on) {
  FourRooms made;
  TraceSession session(made.house);
  TraceOptions options;
  options.now = [] { return std::string("2026-03-01T09:00:00Z"); };
  std::istringstream in("{\"do\":\"stays_off\",\"breaker\":\"" + made.breakers[1].text() +
                        "\"}\n{\"do\":\"stays_off\",\"breaker\":\"7\"}\n{\"do\":\"stays_off\"}\n");
  std::ostringstream out;
  int kept = 0;
  (void)run_trace_lines(session, in, out, [&](const std::string&, const House&) { ++kept; }, options);
  EXPECT_EQ(kept, 1);
  EXPECT_EQ(session.house().settings.size(), 1U);
  EXPECT_THAT(out.str(), HasSubstr("The field 'breaker' must be the id of a breaker."));
}

}  // namespace
}  // namespace ohmstead::test
