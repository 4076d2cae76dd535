// Sessions on invented houses, run and judged.

#include "tests/trace/trace_run.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <numeric>

#include "house/error.h"
#include "tests/trace/by_hand.h"
#include "tests/trace/short_world.h"
#include "tests/trace/world_maker.h"

namespace ohmstead::test {
namespace {

TEST(RunSession, without_mistakes_ends_right_and_sooner_than_the_careful_way) {
  for (const WorldKind kind : {WorldKind::tiny, WorldKind::few_circuits}) {
    Tally sessions, careful;
    for (unsigned seed = 0; seed < 6; ++seed) {
      const World world = make_world(kind, seed);
      sessions.add(run_session(world, 0, {}).tally), careful.add(careful_way(world, 0));
    }
    EXPECT_EQ(sessions.wrong, 0);
    EXPECT_LE(sessions.unresolved, 1);
    EXPECT_EQ(sessions.broken_rules, 0);
    EXPECT_LT(sessions.seconds, careful.seconds);
  }
}

TEST(RunSession, the_same_house_gives_the_same_session) {
  const World world = make_world(WorldKind::few_circuits, 2);
  const SessionRun a = run_session(world, 0.03, {}), b = run_session(world, 0.03, {});
  EXPECT_EQ(a.tally.seconds, b.tally.seconds);
  EXPECT_EQ(a.steps, b.steps);
}

TEST(RunSession, moments_go_from_little_to_all_of_the_time_and_count_every_point) {
  const World world = make_world(WorldKind::few_circuits, 1);
  const SessionRun run = run_session(world, 0.01, {});
  ASSERT_GT(run.moments.size(), 5U);
  for (std::size_t i = 1; i < run.moments.size(); ++i) EXPECT_GE(run.moments[i].seconds, run.moments[i - 1].seconds);
  for (const Moment& moment : run.moments)
    EXPECT_EQ(std::accumulate(moment.belief.points.begin(), moment.belief.points.end(), 0), static_cast<int>(world.points.size()));
  EXPECT_EQ(run.moments.back().seconds, run.tally.seconds);
  EXPECT_EQ(run.moments.back().minutes_left, 0);
  EXPECT_GT(run.moments.front().minutes_left, 0);
  EXPECT_GE(run.at(0.5).seconds, 0.5 * run.tally.seconds);
  EXPECT_LT(run.at(0.5).seconds, 0.8 * run.tally.seconds);
}

TEST(RunSession, the_minutes_left_are_about_what_it_still_takes) {
  std::vector<SessionRun> runs;
  for (const unsigned seed : {1000U, 1001U, 1002U, 1003U}) runs.push_back(run_session(make_world(WorldKind::ordinary, seed), 0.01, {}));
  for (const double share : {0.25, 0.5, 0.75}) {
    double took = 0, shown = 0;
    for (const SessionRun& run : runs) took += (run.tally.seconds - run.at(share).seconds) / 60, shown += run.at(share).minutes_left;
    EXPECT_GT(took / shown, 0.7) << share;
    EXPECT_LT(took / shown, 1.4) << share;
  }
}

TEST(RunSession, dead_for_good_and_not_on_the_panel_are_answers) {
  World world = short_world();
  world.points[kBathLight].at_start = AtStart::dead_for_good;
  world.points[kHallLight].breaker = -1;
  const Tally tally = run_session(world, 0, {}).tally;
  EXPECT_EQ(tally.wrong + tally.unresolved, 0);
}

TEST(RunSession, no_breaker_is_right_for_what_is_dead_for_good) {
  World world = short_world();
  world.breakers.resize(1);
  for (WorldPoint& point : world.points) point.breaker = 0;
  world.points[kBathLight].at_start = AtStart::dead_for_good;
  const Calibration belief = run_session(world, 0, {}, 1).moments.front().belief;  // all are believed to be on the only breaker
  EXPECT_EQ(std::accumulate(belief.points.begin(), belief.points.end(), 0), 3);
  EXPECT_EQ(std::accumulate(belief.right.begin(), belief.right.end(), 0), 2);
}

TEST(RunSession, is_judged_by_what_is_really_so) {
  World world = short_world();
  world.points[kBathLight].at_start = AtStart::live;
  EXPECT_EQ(run_session(world, 0, {}).tally.wrong, 0);
  const SessionRun lied_to = run_session(world, 1, {});  // each reading the other way round: off is the other breaker
  EXPECT_GT(lied_to.tally.wrong, 0);
  const auto& belief = lied_to.moments.back().belief;
  EXPECT_EQ(belief.points[0] - belief.right[0], lied_to.tally.wrong) << "proved, and not right";
}

TEST(RunSession, stops_after_so_many_steps) {
  const SessionRun run = run_session(make_world(WorldKind::few_circuits, 1), 0, {}, 7);
  EXPECT_EQ(run.steps, 7);
  EXPECT_GT(run.tally.unresolved, 20);
  EXPECT_GT(run_session(make_world(WorldKind::few_circuits, 1), 0, {}).steps, 7);
}

TEST(ParseManner, reads_what_a_way_of_working_is_called) {
  EXPECT_EQ(parse_manner("1"), (Manner{1, false, 0}));
  EXPECT_EQ(parse_manner("any"), (Manner{0, false, 0}));
  EXPECT_EQ(parse_manner("4+helper"), (Manner{4, true, 0}));
  EXPECT_EQ(parse_manner("12+helper+6lamps"), (Manner{12, true, 6}));
  EXPECT_EQ(parse_manner("1+1lamp"), (Manner{1, false, 1}));
  for (const char* text : {"", "0", "all", "4helper", "4+lamps", "1+6lamps+helper", "100", "-1"}) EXPECT_THROW((void)parse_manner(text), Error) << text;
}

}  // namespace
}  // namespace ohmstead::test
