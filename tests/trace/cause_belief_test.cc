#include "trace/cause_belief.h"

#include <gtest/gtest.h>

#include <numeric>

#include "feed/graph.h"
#include "tests/support/random_house.h"
#include "trace/conclude.h"

namespace ohmstead {
namespace {

struct Asked {
  explicit Asked(std::uint64_t seed) : house(random_house(seed, 4)), feeds(declared_feeds(house)), graph(build_graph(house, feeds)), base(usual_state(graph)) {
    const Liveness live = liveness(graph, base);
    for (std::size_t p = 0; p < house.points.size() && complaint.empty(); ++p)
      if (state_by_record(graph, live, p) == PointState::working) complaint = {p};
    if (!complaint.empty()) causes = single_causes({house, feeds, graph, base, Before::not_known, complaint});
  }
  House house;
  Feeds feeds;
  Graph graph;
  State base;
  std::vector<std::size_t> complaint;
  Causes causes;
};

TEST(Causes, each_makes_the_complaint_dead_and_is_there_once) {
  int some = 0;
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    const Asked asked(seed);
    for (std::size_t s = 0; s < asked.causes.scenarios.size(); ++s, ++some) {
      const Scenario& scenario = asked.causes.scenarios[s];
      EXPECT_TRUE(may_be_dead(scenario.points[asked.complaint[0]]) || asked.causes.causes[scenario.cause].kind >= CauseKind::neutral_of_service) << seed;
      EXPECT_GT(scenario.weight, 0);
    }
    for (std::size_t a = 0; a < asked.causes.causes.size(); ++a)
      for (std::size_t b = 0; b < a; ++b) EXPECT_FALSE(asked.causes.causes[a] == asked.causes.causes[b]) << seed << " " << cause_key(asked.house, asked.causes.causes[a]);
  }
  EXPECT_GT(some, 500);
}

TEST(CauseBelief, the_chances_of_all_answers_add_up_to_one_whatever_the_cause) {
  for (std::uint64_t seed = 1; seed <= 30; ++seed) {
    const Asked asked(seed);
    std::vector<LookQuestion> questions{{.what = LookAt::neighbors}, {.what = LookAt::source}};
    for (std::size_t p = 0; p < asked.house.points.size(); ++p)
      for (const bool meter : {false, true}) questions.push_back({.what = LookAt::point, .point = p, .meter = meter}), questions.push_back({.what = LookAt::other_lamp, .point = p});
    for (std::uint32_t h = 1; h < asked.graph.handles.size(); ++h)
      for (const LookAt what : {LookAt::handle, LookAt::cure}) questions.push_back({.what = what, .handle = h, .usual = stand_of(asked.graph.handles[h], asked.base.throws[h])});
    for (const Scenario& scenario : asked.causes.scenarios)
      for (const LookQuestion& question : questions) {
        double sum = 0;
        for (const LookSaw saw : answers_to(question, asked.graph)) sum += chance_of(asked.graph, scenario, {question, saw});
        ASSERT_NEAR(sum, 1, 1e-9) << seed << " " << text_of(question.what);
      }
  }
}

TEST(CauseBelief, a_look_never_tells_less_than_nothing_and_beliefs_add_up) {
  for (std::uint64_t seed = 1; seed <= 30; ++seed) {
    const Asked asked(seed);
    if (asked.causes.scenarios.empty()) continue;
    const std::vector<Clue> clues{{{.what = LookAt::complaint, .point = asked.complaint[0]}, LookSaw::dead}};
    const CauseBelief belief(asked.causes, asked.graph, clues);
    EXPECT_NEAR(std::accumulate(belief.of_cause().begin(), belief.of_cause().end(), 0.0), 1, 1e-9);
    for (std::size_t p = 0; p < asked.house.points.size(); ++p) EXPECT_GE(belief.gain({.what = LookAt::point, .point = p}), -1e-9);
    EXPECT_GE(belief.gain({.what = LookAt::neighbors}), -1e-9);
  }
}

}  // namespace
}  // namespace ohmstead
