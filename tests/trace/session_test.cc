#include "trace/session.h"

#include <gtest/gtest.h>

#include "house/invariants.h"
#include "tests/trace/simulated_house.h"

namespace ohmstead::test {
namespace {

/// Three rooms, five single-pole breakers (one of them a spare) and a two-pole one for the range.
HouseMaker small_house() {
  HouseMaker made;
  const auto kitchen = made.add_room("Kitchen"), bedroom = made.add_room("Bedroom");
  std::vector<Id<Breaker>> breakers;
  for (int space = 1; space <= 5; ++space) breakers.push_back(made.add_breaker(space));
  breakers.push_back(made.add_breaker(6, 2, 40));
  for (int i = 0; i < 4; ++i) made.add_point(kitchen, "receptacle " + std::to_string(i + 1), {{1, breakers[i < 2 ? 0 : 1], 1}});
  made.add_point(kitchen, "range", {{1, breakers[5], 1}, {2, breakers[5], 2}}, 2, PointKind::appliance);
  for (int i = 0; i < 3; ++i) made.add_point(bedroom, "receptacle " + std::to_string(i + 1), {{1, breakers[2], 1}});
  made.add_point(bedroom, "ceiling light", {{1, breakers[3], 1}}, 1, PointKind::light);
  return made;
}

TEST(TraceSession, truthful_answers_prove_every_point) {
  HouseMaker made = small_house();
  ASSERT_TRUE(problems_of(made.house).empty()) << problems_of(made.house)[0].message;
  TraceSession session(made.house);
  Walker walker(made.truth, 0, 1);
  ASSERT_TRUE(run_to_the_end(session, walker));
  const Feeds feeds = conclude(session.house());
  for (std::size_t i = 0; i < made.house.points.size(); ++i) {
    EXPECT_EQ(feeds.of_point[i].standing, Standing::proved) << made.house.points[i].name;
    EXPECT_EQ(feeds.of_point[i].taps, made.truth.feed[i]) << made.house.points[i].name;
  }
  EXPECT_TRUE(seems_spare(session.house(), made.house.breakers[4].id));
  EXPECT_FALSE(seems_spare(session.house(), made.house.breakers[0].id));
}

}  // namespace
}  // namespace ohmstead::test
